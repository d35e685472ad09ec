#include "handlaid/quality/worst_cells.hpp"

#include "handlaid/colour/convert.hpp"

#include "quality/seen_cat.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("the worst cells come first, of equals the lower course and then the lower column") {
  Raster<std::int32_t> steps(3, 2);
  const std::int32_t values[] = {5, 9, -1, 9, 0, 9};  // top row first
  for (std::size_t i = 0; i < 6; ++i) steps.pixels()[i] = values[i];
  const auto worst = worst_cells(steps, 20);
  // courses from the bottom, columns from the left, both from 1
  CHECK(worst == std::vector<WorstCell>{{1, 1, 9}, {1, 3, 9}, {2, 2, 9}, {2, 1, 5}});
  CHECK(worst_cells(steps, 2).size() == 2);
  CHECK(worst_cells(steps, -1).empty());
}

TEST_CASE("a cell of a colour that the palette lacks is the worst") {
  SeenCat cat(false);
  cat.cells.colours(33, 90) = {0, 255, 0};
  cat.chart.numbers(33, 90) = 1;
  const auto plain = [](const auto& cells) {
    Raster<LabD65> colours(cells.width(), cells.height());
    for (std::size_t i = 0; i < colours.size(); ++i) colours.pixels()[i] = convert_colour<LabD65>(cells.pixels()[i]);
    return colours;
  };
  Raster<Srgb8> placed(72, 96);
  for (std::size_t i = 0; i < placed.size(); ++i) {
    placed.pixels()[i] = cat.chart.palette[cat.chart.numbers.pixels()[i]].colour;
  }
  const auto worst = worst_cells(cell_differences(plain(cat.cells.colours), plain(placed), cat.cells.laid));
  REQUIRE(worst.size() == 20);
  CHECK(worst[0].course == 96 - 90);
  CHECK(worst[0].column == 34);
  CHECK(worst[0].difference() > 60);
}

TEST_CASE("the error of differences is their mean and 95th percentile") {
  Raster<std::int32_t> steps(101, 1);
  for (int x = 0; x < 101; ++x) steps(x, 0) = x == 100 ? -1 : x * 65'536;
  CHECK(error_of(steps) == WholeError{.mean_steps = 49 * 65'536 + 32'768, .high_steps = 94 * 65'536});
  CHECK(error_of(Raster<std::int32_t>(0, 0)) == WholeError{});
  CHECK_THROWS_WITH(cell_differences(Raster<LabD65>(2, 2), Raster<LabD65>(2, 1), Raster<std::uint8_t>(2, 2)),
                    contains("differ in size"));
}
