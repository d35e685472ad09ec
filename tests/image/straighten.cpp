#include "handlaid/image/straighten.hpp"

#include "handlaid/colour/convert.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::WithinAbs;

namespace {

/// Four columns and three rows of even patches, 10 pixels each, no two of one colour, 5 pixels from the edge.
Raster<Srgb8> patches() {
  Raster<Srgb8> picture(50, 40);
  for (int y = 0; y < 30; ++y) {
    for (int x = 0; x < 40; ++x) {
      picture(x + 5, y + 5) = {static_cast<std::uint8_t>(60 * (x / 10) + 20), static_cast<std::uint8_t>(80 * (y / 10)),
                               90};
    }
  }
  return picture;
}

}  // namespace

TEST_CASE("each cell has its colour, from the top left, whichever way the board lies in the photo") {
  const Raster<Srgb8> photo = patches();
  const Homography upright = board_to_photo({{{5, 35}, {5, 5}, {45, 5}, {45, 35}}}, 4, 3);
  const auto cells = Straighten{.columns = 4, .rows = 3, .to_photo = upright}(photo);
  // On its side: the datum at the photo's top left, columns downwards.
  const Homography aside = board_to_photo({{{5, 5}, {45, 5}, {45, 35}, {5, 35}}}, 3, 4);
  const auto turned = Straighten{.columns = 3, .rows = 4, .to_photo = aside}(photo);
  const auto view = StraightView{.columns = 4, .rows = 3, .to_photo = upright, .cell_pixels = 6}(photo);
  for (int y = 0; y < 3; ++y) {
    for (int x = 0; x < 4; ++x) {
      const Srgb8 colour = photo(10 * x + 10, 10 * y + 10);
      REQUIRE(convert_colour<Srgb8>(cells(x, y)) == colour);
      REQUIRE(convert_colour<Srgb8>(turned(y, 3 - x)) == colour);
      REQUIRE(view(6 * x + 3, 6 * y + 3) == colour);
    }
  }
}

TEST_CASE("rows that are seen lower than they are laid are found from the lower end, in any perspective") {
  // The patches and 4 pixels more on top: what is left over of strips that hang as far over the row below.
  const BoardCorners plain = lower_rows({{{5, 35}, {5, 1}, {45, 1}, {45, 35}}}, 3, 0.4);
  CHECK_THAT(plain[1].y, WithinAbs(5, 1e-9));
  CHECK_THAT(plain[2].y, WithinAbs(5, 1e-9));
  CHECK(plain[0].y == 35);
  const auto cells = Straighten{.columns = 4, .rows = 3, .to_photo = board_to_photo(plain, 4, 3)}(patches());
  CHECK(convert_colour<Srgb8>(cells(3, 0)) == patches()(40, 10));
  CHECK(convert_colour<Srgb8>(cells(0, 2)) == patches()(10, 30));
  // A tilted board of 3.4 rows: its lower three are those of the whole map.
  const BoardCorners tilted{{{102, 410}, {150, 80}, {610, 120}, {700, 450}}};
  const std::array<PlanePair, 4> pairs = {
      {{{0, 3.4}, tilted[0]}, {{0, 0}, tilted[1]}, {{4, 0}, tilted[2]}, {{4, 3.4}, tilted[3]}}};
  const Homography whole = fit_homography(pairs);
  const BoardCorners lower = lower_rows(tilted, 3, 0.4);
  CHECK_THAT(lower[1].x, WithinAbs(whole({0, 0.4}).x, 1e-6));
  CHECK_THAT(lower[1].y, WithinAbs(whole({0, 0.4}).y, 1e-6));
  CHECK_THAT(lower[2].x, WithinAbs(whole({4, 0.4}).x, 1e-6));
  CHECK_THAT(lower[2].y, WithinAbs(whole({4, 0.4}).y, 1e-6));
}

TEST_CASE("glints and joints in a quarter of a cell do not count") {
  Raster<Srgb8> photo = patches();
  for (int y = 12; y < 13; ++y) {
    for (int x = 5; x < 15; ++x) photo(x, y) = {255, 255, 255};
  }
  const Homography map = board_to_photo({{{5, 35}, {5, 5}, {45, 5}, {45, 35}}}, 4, 3);
  const auto cells = Straighten{.columns = 4, .rows = 3, .to_photo = map}(photo);
  CHECK(convert_colour<Srgb8>(cells(0, 0)) == Srgb8{20, 0, 90});
}

TEST_CASE("light is averaged, not codes") {
  Raster<Srgb8> photo(8, 8);
  for (int y = 0; y < 8; ++y) {
    for (int x = 0; x < 8; ++x) photo(x, y) = (x + y) % 2 == 0 ? Srgb8{255, 255, 255} : Srgb8{};
  }
  // Each place looked up lies between four pixels: half of white is code 188 (IEC 61966-2-1).
  const Light light = detail::light_at(photo, {4, 4});
  CHECK(Srgb8::from_light(light) == Srgb8{188, 188, 188});
  CHECK(Srgb8::from_light(detail::light_at(photo, {2.5, 2.5})) == Srgb8{255, 255, 255});
  CHECK(Srgb8::from_light(detail::light_at(photo, {-9, 99})) == Srgb8{});  // the nearest pixel
}

TEST_CASE("a photo too small for its cells names the size that is needed") {
  const Raster<Srgb8> photo = patches();
  const Homography map = board_to_photo({{{5, 35}, {5, 5}, {45, 5}, {45, 35}}}, 20, 15);
  CHECK_THROWS_WITH((Straighten{.columns = 20, .rows = 15, .to_photo = map}(photo)),
                    contains("2.0 pixels across, 4 are needed; take one of 100 x 80"));
  const Homography beyond = board_to_photo({{{5, 60}, {5, 5}, {45, 5}, {45, 35}}}, 4, 3);
  CHECK_THROWS_WITH((Straighten{.columns = 4, .rows = 3, .to_photo = beyond}(photo)), contains("outside"));
  CHECK_THROWS_WITH((Straighten{.columns = 4, .rows = 3, .to_photo = map, .middle = 0}(photo)), contains("middle"));
}
