// Resampling against brute force: every pixel cut into parts so small that each lies in one new pixel.
#include "handlaid/image/resample.hpp"

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(AcceptsWork<Resample, Raster<Srgb8>> && Accepts<Resample, RasterView<const Srgba16>>);
static_assert(Accepts<Resample, const embedder::Frame&> && Accepts<Resample, Raster<Oklab>>);
static_assert(!Accepts<Resample, Raster<int>> && !Accepts<Resample, int>);
static_assert(std::same_as<Applied<Resample, RasterView<const Srgba16>>, Raster<Srgba16>>);

namespace {

/// Sizes are small enough for sums of 64 bits.
template <class P>
Raster<P> by_parts(const Raster<P>& from, int width, int height) {
  Raster<P> to(width, height);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      std::int64_t r = 0, g = 0, b = 0, weights = 0, parts = 0;
      for (int v = 0; v < from.height(); ++v) {
        for (int u = 0; u < from.width(); ++u) {
          const P& part = from((x * from.width() + u) / width, (y * from.height() + v) / height);
          const Light light = colour_of(part).light();
          const std::int64_t opacity = opacity_of(part) == 65535U && !AlphaPixel<P> ? 1 : opacity_of(part);
          r += light.r * opacity;
          g += light.g * opacity;
          b += light.b * opacity;
          weights += opacity;
          ++parts;
        }
      }
      if (weights == 0) continue;
      const auto mean = [&](std::int64_t sum) { return (sum + weights / 2) / weights; };
      const auto colour = ColourOf<P>::from_light({mean(r), mean(g), mean(b)});
      if constexpr (AlphaPixel<P>) {
        to(x, y) = P::from(colour, static_cast<std::uint32_t>((weights + parts / 2) / parts));
      } else {
        to(x, y) = colour;
      }
    }
  }
  return to;
}

}  // namespace

TEST_CASE("every new pixel is the exact mean of its area, shrinking and enlarging") {
  const auto sizes = {std::pair(1, 1),  std::pair(2, 3),  std::pair(5, 4),   std::pair(7, 7),
                      std::pair(12, 9), std::pair(13, 5), std::pair(23, 17), std::pair(24, 18)};
  for (const auto& [from_width, from_height] : sizes) {
    const auto opaque = opaque_noise(from_width, from_height);
    const auto alpha = noise(from_width, from_height, 2);
    const auto deep = alpha | convert<Srgb16>;
    for (const auto& [width, height] : sizes) {
      INFO(from_width << " x " << from_height << " to " << width << " x " << height);
      const Resample resample{.width = width, .height = height};
      CHECK((opaque | resample) == by_parts(opaque, width, height));
      if (width == from_width && height == from_height) continue;
      CHECK((alpha | resample) == by_parts(alpha, width, height));
      CHECK((deep | resample) == by_parts(deep, width, height));
    }
  }
}

// Half of the light is code 188 (IEC 61966-2-1: 0.5 is encoded as 0.735357, times 255 is 187.5), not 128.
TEST_CASE("a chequer becomes the grey that it looks like from afar, in every reduction") {
  const auto picture = chequer(240, 120);
  for (const auto& [width, height] :
       {std::pair(120, 60), std::pair(60, 60), std::pair(30, 20), std::pair(24, 12), std::pair(10, 6), std::pair(7, 5),
        std::pair(4, 3), std::pair(2, 1), std::pair(1, 1), std::pair(1, 40), std::pair(80, 1)}) {
    INFO(width << " x " << height);
    const auto small = picture | Resample{.width = width, .height = height};
    for (const Srgb8& pixel : small.pixels()) {
      CHECK(std::abs(pixel.r - 188) <= 1);
      CHECK(pixel.g == pixel.r);
      CHECK(pixel.b == pixel.r);
    }
  }
  // Of 5 x 5 pixels 13 or 12 are white: light 0.52 and 0.48 are 190.8 and 184.1.
  const auto odd = picture | Resample{.width = 48, .height = 24};
  for (int y = 0; y < 24; ++y) {
    for (int x = 0; x < 48; ++x) CHECK(odd(x, y).r == ((x + y) % 2 == 0 ? 191 : 184));
  }
}

TEST_CASE("the same size passes through bit for bit, in the same memory where that was given away") {
  auto picture = noise(31, 17);
  const auto same = picture;
  const Resample resample{.width = 31, .height = 17};
  CHECK((picture | resample) == same);
  CHECK((picture.view() | resample) == same);
  const Srgba8* memory = picture.pixels().data();
  const auto passed = std::move(picture) | resample;
  CHECK(passed == same);
  CHECK(passed.pixels().data() == memory);
}

TEST_CASE("a plain colour stays what it is, whatever its opacity") {
  for (const int alpha : {1, 100, 255}) {
    Raster<Srgba8> picture(37, 23);
    for (Srgba8& pixel : picture.pixels()) pixel = {{200, 3, 77}, static_cast<std::uint8_t>(alpha)};
    const auto small = picture | Resample{.width = 10, .height = 7};
    for (const Srgba8& pixel : small.pixels()) CHECK(pixel == picture(0, 0));
  }
}

TEST_CASE("transparent pixels lend no colour") {
  Raster<Srgba8> picture(2, 1);
  picture(0, 0) = {{10, 200, 30}, 255};
  picture(1, 0) = {{255, 0, 255}, 0};
  const auto one = picture | Resample{.width = 1, .height = 1};
  CHECK(one(0, 0) == Srgba8{{10, 200, 30}, 128});
  picture(0, 0).alpha = 0;
  CHECK((picture | Resample{.width = 1, .height = 1})(0, 0) == Srgba8{});
}

TEST_CASE("views with a stride, an embedder's own picture and any number of threads give the same") {
  const auto picture = opaque_noise(101, 67);
  const Crop crop{.x = 5, .y = 9, .width = 83, .height = 51};
  const Resample resample{.width = 20, .height = 13};
  const auto expected = picture | crop | resample;
  CHECK((picture.view() | crop | resample) == expected);
  CHECK((embedder::Frame(picture | crop) | resample) == expected);
  for (const int threads : {2, 3, 4, 50}) CHECK(apply(crop | resample, picture, Work{.threads = threads}) == expected);
}

TEST_CASE("other spaces are averaged in light too, negative parts included") {
  Raster<LinearRgb> picture(2, 2);
  picture(0, 0) = {-0.5F, 1, 0.25F};
  picture(1, 0) = {1.5F, 0, 0.25F};
  picture(0, 1) = {-1, 0.5F, 0.25F};
  picture(1, 1) = {1, 0.5F, 0.25F};
  const auto one = picture | Resample{.width = 1, .height = 1};
  CHECK(one(0, 0) == LinearRgb{0.25F, 0.5F, 0.25F});
  const auto small = opaque_noise(12, 12) | convert<Oklab> | Resample{.width = 3, .height = 3} | convert<Srgb8>;
  const auto expected = opaque_noise(12, 12) | Resample{.width = 3, .height = 3};
  for (std::size_t i = 0; i < small.size(); ++i) {
    CHECK(std::abs(small.pixels()[i].r - expected.pixels()[i].r) <= 1);
    CHECK(std::abs(small.pixels()[i].g - expected.pixels()[i].g) <= 1);
    CHECK(std::abs(small.pixels()[i].b - expected.pixels()[i].b) <= 1);
  }
}

TEST_CASE("sums of large areas do not pass their limits") {
  // 2^20 pixels on a side, white: any overflow would show.
  Raster<Srgba16> line(1 << 20, 3);
  for (Srgba16& pixel : line.pixels()) pixel = {{65535, 65535, 65535}, 65535};
  const auto end = line | Resample{.width = 7, .height = 2};
  for (const Srgba16& pixel : end.pixels()) CHECK(pixel == line(0, 0));
  Raster<WithAlpha<LinearRgb>> bright(1 << 20, 1);
  for (auto& pixel : bright.pixels()) pixel = {{4, -4, 3}, 1};
  CHECK((bright | Resample{.width = 1, .height = 1})(0, 0) == WithAlpha<LinearRgb>{{4, -4, 3}, 1});
  CHECK_THROWS_WITH(Raster<Srgb8>((1 << 20) + 1, 1) | (Resample{.width = 7, .height = 1}), contains("crop it first"));
}

TEST_CASE("sizes that make no sense are refused, and the work can be stopped") {
  const auto picture = chequer(8, 8);
  CHECK_THROWS_WITH(picture | (Resample{.width = 0, .height = 3}), contains("resample: 0 x 3 is out of range"));
  CHECK_THROWS_WITH(picture | (Resample{.width = 3, .height = -1}), contains("1 or more"));
  CHECK_THROWS_WITH(Raster<Srgb8>() | (Resample{.width = 3, .height = 1}), contains("no pixels"));
  auto stop = [](const char*, double) { return false; };
  try {
    apply(Resample{.width = 3, .height = 3}, picture, Work{.progress = stop});
    FAIL("it was not stopped");
  } catch (const Error& error) {
    CHECK(error.kind() == Error::Kind::stopped);
  }
  double last = -1;
  auto watch = [&](const char*, double done) {
    CHECK(done >= last);
    last = done;
    return true;
  };
  apply(Resample{.width = 3, .height = 3}, picture, Work{.progress = watch});
  CHECK(last > 0);
}
