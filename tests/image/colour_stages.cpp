// Stages that work pixel by pixel: convert, tone, over, clear.
#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/difference.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/ground.hpp"
#include "handlaid/image/tone.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(Accepts<Convert<Oklab>, Raster<Srgb8>> && Accepts<Convert<Oklab>, RasterView<const Srgba16>>);
static_assert(Accepts<Convert<Oklab>, Cells<Srgb8>> && Accepts<Tone, const Cells<Oklab>&>);
static_assert(!Accepts<Convert<Oklab>, Raster<int>> && !Accepts<Convert<Oklab>, int> && !Accepts<Tone, Raster<float>>);
static_assert(std::same_as<Applied<Convert<Oklab>, Raster<Srgb8>>, Raster<Oklab>>);
static_assert(std::same_as<Applied<Convert<Oklab>, Raster<Srgba8>>, Raster<WithAlpha<Oklab>>>);
static_assert(std::same_as<Applied<Convert<Srgba8>, Raster<Oklab>>, Raster<Srgba8>>);
static_assert(std::same_as<Applied<Convert<LabD50>, Cells<Srgb8>>, Cells<LabD50>>);
static_assert(std::same_as<Applied<Over, Raster<Srgba8>>, Raster<Srgb8>>);
static_assert(std::same_as<Applied<Clear, Raster<Srgb8>>, Raster<Srgba8>>);
static_assert(HoldsColours<Cells<Srgb8>> && !HoldsColours<Raster<Srgb8>> && !HoldsColours<int>);

TEST_CASE("converting there and back keeps 8-bit colours and alpha") {
  const auto picture = noise(40, 30);
  CHECK((picture | convert<Oklab> | convert<Srgb8>) == picture);
  CHECK((picture | convert<LabD65> | convert<Srgb8>) == picture);
  CHECK((picture | convert<Srgb16> | convert<Srgb8>) == picture);
  CHECK((picture | convert<Srgba8>) == picture);
  CHECK((picture.view() | convert<LinearRgb> | convert<Srgb8>) == picture);
  const auto opaque = opaque_noise(40, 30);
  const auto framed = embedder::Frame(opaque) | convert<Oklab>;
  CHECK(framed == (opaque | convert<Oklab>));
  CHECK(framed(3, 4) == convert_colour<Oklab>(opaque(3, 4)));
  for (const int threads : {2, 4}) CHECK(apply(convert<Oklab>, opaque, Work{.threads = threads}) == framed);
}

TEST_CASE("the same type is passed on in the same memory") {
  auto picture = noise(10, 10);
  const Srgba8* memory = picture.pixels().data();
  const auto same = std::move(picture) | convert<Srgba8> | convert<Srgb8>;
  CHECK(same.pixels().data() == memory);
}

TEST_CASE("cells are converted with their lattice") {
  Cells<Srgb8> cells{
      .lattice = {.columns = 2, .rows = 1}, .colours = opaque_noise(2, 1), .laid = Raster<std::uint8_t>(2, 1)};
  cells.laid(1, 0) = 1;
  const std::uint8_t* memory = cells.laid.pixels().data();
  const auto copy = cells | convert<Oklab>;
  CHECK(copy.laid == cells.laid);
  CHECK(copy.lattice == cells.lattice);
  CHECK(copy.colours == (cells.colours | convert<Oklab>));
  const auto moved = std::move(cells) | convert<Oklab>;
  CHECK(moved.laid.pixels().data() == memory);
  CHECK(moved.colours == copy.colours);
}

TEST_CASE("a neutral tone changes nothing, bit for bit, and copies nothing that was given away") {
  auto picture = noise(30, 20);
  const auto before = picture;
  CHECK((picture | Tone{}) == before);
  CHECK((picture.view() | Tone{}) == before);
  const Srgba8* memory = picture.pixels().data();
  const auto same = std::move(picture) | Tone{};
  CHECK(same == before);
  CHECK(same.pixels().data() == memory);
}

TEST_CASE("tone does what its definition says") {
  const auto picture = opaque_noise(30, 20) | convert<Oklab>;
  const auto toned = picture | Tone{.brightness = 0.1, .contrast = -0.25, .saturation = 0.5};
  for (std::size_t i = 0; i < picture.size(); ++i) {
    const Oklab p = picture.pixels()[i];
    const Oklab q = toned.pixels()[i];
    const double lightness = 0.5 + (double{p.L} - 0.5) * 0.75 + 0.1;
    CHECK_THAT(q.L, WithinAbs(std::min(1.0, std::max(0.0, lightness)), 1e-5));
    CHECK_THAT(q.a, WithinAbs(double{p.a} * 1.5, 1e-5));
    CHECK_THAT(q.b, WithinAbs(double{p.b} * 1.5, 1e-5));
  }
}

TEST_CASE("the ends of tone: white, black, one lightness, grey") {
  const auto picture = opaque_noise(30, 20);
  const auto grey = picture | Tone{.saturation = -1};
  for (const Srgb8& p : grey.pixels()) CHECK((p.r == p.g && p.g == p.b));
  const auto white = picture | Tone{.brightness = 1, .saturation = -1};
  for (const Srgb8& p : white.pixels()) CHECK(p == Srgb8{255, 255, 255});
  const auto black = picture | Tone{.brightness = -1, .saturation = -1};
  for (const Srgb8& p : black.pixels()) CHECK(p == Srgb8{0, 0, 0});
  const auto even = picture | Tone{.contrast = -1, .saturation = -1};
  for (const Srgb8& p : even.pixels()) CHECK(p == even(0, 0));
  const auto alpha = noise(30, 20);
  const auto toned = alpha | Tone{.brightness = 0.2};
  for (std::size_t i = 0; i < alpha.size(); ++i) CHECK(toned.pixels()[i].alpha == alpha.pixels()[i].alpha);
  for (const int threads : {2, 3}) {
    CHECK(apply(Tone{.brightness = 0.2}, alpha, Work{.threads = threads}) == toned);
  }
  CHECK((embedder::Frame(picture) | Tone{.saturation = -1}) == grey);
}

TEST_CASE("tone out of range is refused") {
  const auto picture = opaque_noise(2, 2);
  CHECK_THROWS_WITH(picture | (Tone{.brightness = 1.5}), contains("brightness: "));
  CHECK_THROWS_WITH(picture | (Tone{.contrast = -2}), contains("contrast: "));
  CHECK_THROWS_WITH(picture | (Tone{.saturation = std::nan("")}), contains("saturation: "));
}

TEST_CASE("laying over a ground mixes in linear light") {
  // Half white over black is code 188 (IEC 61966-2-1), as a chequer of both from afar; 128 of 255 is a little more.
  Raster<Srgba8> picture(3, 1);
  picture(0, 0) = {{255, 255, 255}, 128};
  picture(1, 0) = {{9, 8, 7}, 255};
  picture(2, 0) = {{9, 8, 7}, 0};
  const auto laid = picture | over({0, 0, 0});
  CHECK(laid(0, 0) == Srgb8{188, 188, 188});
  CHECK(laid(1, 0) == Srgb8{9, 8, 7});
  CHECK(laid(2, 0) == Srgb8{0, 0, 0});
  CHECK((picture | over({10, 20, 30}))(2, 0) == Srgb8{10, 20, 30});
  const auto opaque = opaque_noise(5, 5);
  CHECK((opaque | over({1, 2, 3})) == opaque);
  const auto many = noise(50, 40);
  for (const int threads : {2, 4})
    CHECK(apply(over({1, 2, 3}), many, Work{.threads = threads}) == (many | over({1, 2, 3})));
}

TEST_CASE("a plain ground becomes transparent as far as the tolerance reaches") {
  const auto picture = opaque_noise(60, 40);
  const Srgb8 ground = {120, 130, 140};
  const double tolerance = 0.15;
  const auto cleared = picture | clear(ground, tolerance);
  int gone = 0;
  for (std::size_t i = 0; i < picture.size(); ++i) {
    const double distance = distance_oklab(convert_colour<Oklab>(picture.pixels()[i]), convert_colour<Oklab>(ground));
    // A whole step is 1/16384.
    if (std::abs(distance - tolerance) < 2e-4) continue;
    CHECK(cleared.pixels()[i] ==
          Srgba8{picture.pixels()[i], static_cast<std::uint8_t>(distance < tolerance ? 0 : 255)});
    gone += distance < tolerance ? 1 : 0;
  }
  CHECK(gone > 10);
  const auto only = picture | clear(picture(7, 7), 0);
  CHECK(only(7, 7).alpha == 0);
  const auto alpha = noise(60, 40);
  const auto kept = alpha | clear(ground, 0.01);
  for (std::size_t i = 0; i < alpha.size(); ++i) {
    CHECK((kept.pixels()[i].alpha == alpha.pixels()[i].alpha || kept.pixels()[i].alpha == 0));
  }
  for (const int threads : {2, 4}) CHECK(apply(clear(ground, tolerance), picture, Work{.threads = threads}) == cleared);
  CHECK_THROWS_WITH(picture | clear(ground, -1), contains("tolerance: "));
  CHECK_THROWS_WITH(picture | clear(ground, std::nan("")), contains("tolerance: "));
}
