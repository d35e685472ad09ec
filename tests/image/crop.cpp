// Cropping by box and by aspect.
#include "handlaid/image/crop.hpp"

#include <limits>

#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(Accepts<Crop, Raster<int>> && Accepts<CropTo, RasterView<const Srgb8>> &&
              Accepts<Crop, const embedder::Frame&>);
static_assert(!Accepts<Crop, int> && !Accepts<CropTo, std::string>);
static_assert(std::same_as<Applied<Crop, RasterView<const int>>, RasterView<const int>>);
static_assert(std::same_as<Applied<Crop, Raster<int>>, Raster<int>>);

TEST_CASE("a box keeps its pixels, in the same memory where that was given away") {
  const auto picture = numbered(10, 8);
  const Crop crop{.x = 3, .y = 2, .width = 4, .height = 5};
  const auto right = [&](const auto& part) {
    REQUIRE(part.width() == 4);
    REQUIRE(part.height() == 5);
    for (int y = 0; y < 5; ++y) {
      for (int x = 0; x < 4; ++x) CHECK(part.row(y)[static_cast<std::size_t>(x)] == (y + 2) * 10 + x + 3);
    }
  };
  right(picture | crop);
  auto given = picture;
  const int* memory = given.pixels().data();
  const auto kept = std::move(given) | crop;
  right(kept);
  CHECK(kept.pixels().data() == memory);

  const auto view = picture.view() | crop;
  right(view);
  CHECK(view.data() == picture.row(2).data() + 3);
  right(view | Crop{.x = 0, .y = 0, .width = 4, .height = 5});
  CHECK((picture | Crop{.x = 0, .y = 0, .width = 10, .height = 8}) == picture);
}

TEST_CASE("an embedder's own picture is cropped") {
  const auto picture = opaque_noise(10, 8);
  const Crop crop{.x = 3, .y = 2, .width = 4, .height = 5};
  CHECK((embedder::Frame(picture) | crop) == (picture | crop));
}

TEST_CASE("a box that is not inside is refused") {
  const auto picture = numbered(10, 8);
  constexpr int most = std::numeric_limits<int>::max();
  for (const Crop& crop :
       {Crop{}, Crop{.x = -1, .y = 0, .width = 2, .height = 2}, Crop{.x = 0, .y = 0, .width = 11, .height = 2},
        Crop{.x = 7, .y = 0, .width = 4, .height = 1}, Crop{.x = 0, .y = 8, .width = 1, .height = 1},
        Crop{.x = 0, .y = 0, .width = -3, .height = 1}, Crop{.x = most, .y = most, .width = most, .height = most}}) {
    CHECK_THROWS_WITH(picture | crop, contains("is not inside the picture of 10 x 8"));
  }
}

TEST_CASE("the largest box of an aspect is centred, or as near to the focus as the edges allow") {
  const auto box = [](const CropTo& crop, int width, int height) { return crop.box(width, height); };
  CHECK(box({.width_part = 3, .height_part = 4}, 400, 400) == Crop{.x = 50, .y = 0, .width = 300, .height = 400});
  CHECK(box({.width_part = 3, .height_part = 4}, 300, 500) == Crop{.x = 0, .y = 50, .width = 300, .height = 400});
  CHECK(box({.width_part = 3, .height_part = 4}, 300, 400) == Crop{.x = 0, .y = 0, .width = 300, .height = 400});
  CHECK(box({.width_part = 3, .height_part = 4, .focus_x = 0, .focus_y = 0}, 400, 400).x == 0);
  CHECK(box({.width_part = 3, .height_part = 4, .focus_x = 1, .focus_y = 0}, 400, 400).x == 100);
  CHECK(box({.width_part = 3, .height_part = 4, .focus_x = 0.6, .focus_y = 0}, 400, 400).x == 90);
  CHECK(box({.width_part = 1, .height_part = 1'000'000}, 10, 10) == Crop{.x = 5, .y = 0, .width = 1, .height = 10});
  CHECK(box({.width_part = 1'000'000, .height_part = 1}, 10, 10) == Crop{.x = 0, .y = 5, .width = 10, .height = 1});
  CHECK(box({}, 1, 1) == Crop{.x = 0, .y = 0, .width = 1, .height = 1});
  // Nothing larger of that aspect fits: brute force.
  for (int width = 1; width < 30; ++width) {
    for (int height = 1; height < 30; ++height) {
      const Crop crop = box({.width_part = 5, .height_part = 7}, width, height);
      CHECK((crop.width == width || crop.height == height));
      CHECK(crop.x + crop.width <= width);
      CHECK(crop.y + crop.height <= height);
      // The rounded side is within half a pixel.
      const int off = crop.width * 7 - crop.height * 5;
      CHECK((std::abs(off) <= 7 || crop.width == 1 || crop.height == 1));
    }
  }
}

TEST_CASE("an aspect is taken as the fraction that was meant") {
  const auto parts = [](double aspect) {
    const CropTo crop = crop_to(aspect);
    return std::pair(crop.width_part, crop.height_part);
  };
  CHECK(parts(3.0 / 4) == std::pair<std::int64_t, std::int64_t>(3, 4));
  CHECK(parts(16.0 / 9) == std::pair<std::int64_t, std::int64_t>(16, 9));
  CHECK(parts(1) == std::pair<std::int64_t, std::int64_t>(1, 1));
  CHECK(parts(2) == std::pair<std::int64_t, std::int64_t>(2, 1));
  CHECK(parts(0.001) == std::pair<std::int64_t, std::int64_t>(1, 1000));
  CHECK(parts(1e4) == std::pair<std::int64_t, std::int64_t>(10'000, 1));
  CHECK(parts(72.0 / 96) == std::pair<std::int64_t, std::int64_t>(3, 4));
  CHECK(parts(1001.0 / 997) == std::pair<std::int64_t, std::int64_t>(1001, 997));
  for (int a = 1; a < 60; ++a) {
    for (int b = 1; b < 60; ++b) {
      const auto [width, height] = parts(static_cast<double>(a) / b);
      CHECK(width * b == height * a);
    }
  }
  const auto [width, height] = parts(1.4142135623730951);
  CHECK(std::abs(static_cast<double>(width) / static_cast<double>(height) - 1.4142135623730951) < 1e-7);
  CHECK((chequer(400, 400) | crop_to(3.0 / 4)).width() == 300);
}

TEST_CASE("aspects and focuses that make no sense are refused") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double aspect : {0.0, -1.0, nan, 1e-5, 1e5, std::numeric_limits<double>::infinity()}) {
    CHECK_THROWS_WITH(crop_to(aspect), contains("aspect: "));
  }
  const auto picture = numbered(10, 8);
  for (const double focus : {-0.1, 1.1, nan}) {
    CHECK_THROWS_WITH(picture | (CropTo{.focus_x = focus}), contains("focus: "));
    CHECK_THROWS_WITH(picture | (CropTo{.focus_y = focus}), contains("focus: "));
  }
  CHECK_THROWS_WITH(picture | (CropTo{.width_part = 0}), contains("width of the aspect: 0 is out of range"));
  CHECK_THROWS_WITH(picture | (CropTo{.height_part = 2'000'000}), contains("height of the aspect"));
  CHECK_THROWS_WITH(Raster<int>() | crop_to(1), contains("no pixels"));
}
