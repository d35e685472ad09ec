#include "handlaid/sheets/preview.hpp"

#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::small_plan;

namespace {

/// The mean of a cell, in sRGB codes.
Srgb8 mean(const Raster<Srgb8>& picture, int left, int top, int width, int height) {
  int r = 0, g = 0, b = 0;
  for (int y = top; y < top + height; ++y) {
    for (int x = left; x < left + width; ++x) {
      r += picture(x, y).r;
      g += picture(x, y).g;
      b += picture(x, y).b;
    }
  }
  const int n = width * height;
  return {static_cast<std::uint8_t>(r / n), static_cast<std::uint8_t>(g / n), static_cast<std::uint8_t>(b / n)};
}

int furthest(const Srgb8& a, const Srgb8& b) {
  return std::max({std::abs(a.r - b.r), std::abs(a.g - b.g), std::abs(a.b - b.b)});
}

}  // namespace

TEST_CASE("the preview is about as large as asked, in the shape of the panel") {
  const Raster<Srgb8> picture = Preview{.longer_side = 1400}(small_plan({.columns = 72, .rows = 96}).chart);
  CHECK(picture.height() == 96 * 15);
  CHECK(picture.width() == 72 * 15);
  const Raster<Srgb8> far = Preview{.longer_side = 100}(small_plan({.columns = 400, .rows = 300}).chart);
  CHECK(far.width() == 100);
  CHECK(far.height() == 75);
}

TEST_CASE("a piece keeps its colour: in its middle, and nearly on the whole") {
  const Plan plan = small_plan({.columns = 20, .rows = 20});
  const Raster<Srgb8> picture = Preview{.longer_side = 600, .pieces_per_cell = 2}(plan.chart);
  for (int row = 0; row < 20; ++row) {
    for (int column = 0; column < 20; ++column) {
      const int number = plan.chart.numbers(column, row);
      const Srgb8 colour = number == 0 ? look::board : plan.chart.palette[number].colour;
      CHECK(furthest(mean(picture, column * 30 + 7, row * 30 + 14, 2, 2), colour) <= 6);
      CHECK(furthest(mean(picture, column * 30, row * 30, 30, 30), colour) <= 24);
    }
  }
}

TEST_CASE("pieces stand side by side: a joint between them, light from above") {
  const Plan plan = small_plan({.columns = 1, .rows = 2, .colours = 1});
  const Raster<Srgb8> picture = Preview{.longer_side = 120, .pieces_per_cell = 2}(plan.chart);
  REQUIRE(picture.width() == 60);
  const int y = 90;  // the middle of the lower cell
  CHECK(picture(30, y).g < picture(20, y).g - 40);
  CHECK(picture(29, y).g < picture(20, y).g - 40);
  CHECK(picture(15, 64).g > picture(15, 115).g);
  // no joint in the middle where a cell is one piece
  const Raster<Srgb8> whole = Preview{.longer_side = 120, .pieces_per_cell = 1}(plan.chart);
  CHECK(std::abs(whole(30, y).g - whole(20, y).g) <= 8);
}

TEST_CASE("empty cells show the board") {
  const Raster<Srgb8> picture = Preview{.longer_side = 350}(small_plan().chart);
  CHECK(picture(picture.width() - 1, 0) == look::board);
  CHECK(picture(picture.width() - 10, 9) == look::board);
}

// IEC 61966-2-1: half the light of white is code 188
TEST_CASE("from afar, cells mix as light does") {
  Plan plan = small_plan({.columns = 64, .rows = 64, .colours = 2});
  plan.chart.palette.entries[0].colour = {0, 0, 0};
  plan.chart.palette.entries[1].colour = {255, 255, 255};
  for (int y = 0; y < 64; ++y) {
    for (int x = 0; x < 64; ++x) plan.chart.numbers(x, y) = static_cast<ColourNumber>(1 + (x + y) % 2);
  }
  const Raster<Srgb8> picture = Preview{.longer_side = 16}(plan.chart);
  for (const Srgb8& pixel : picture.pixels()) CHECK(std::abs(pixel.r - 188) <= 1);
}

TEST_CASE("more pieces than pixels, and nonsense") {
  const Plan plan = small_plan();
  CHECK_FALSE(Preview{.longer_side = 40, .pieces_per_cell = 1000}(plan.chart).empty());
  CHECK_THROWS_WITH((Preview{.longer_side = 0}(plan.chart)), contains("preview"));
  CHECK_THROWS_WITH((Preview{.pieces_per_cell = 0}(plan.chart)), contains("preview"));
}
