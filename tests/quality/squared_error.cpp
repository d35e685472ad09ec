#include "handlaid/quality/squared_error.hpp"

#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("squared errors are means over laid cells of all three channels together") {
  Cells<Srgb8> cells = {.lattice = {.columns = 3, .rows = 1}, .colours = {3, 1}, .laid = {3, 1}};
  Chart<> chart = {.lattice = cells.lattice, .numbers = {3, 1}, .palette = palette_of({{255, 255, 255}, {10, 20, 30}})};
  cells.colours(0, 0) = {0, 0, 0};
  cells.colours(1, 0) = {11, 18, 33};
  CHECK(squared_error(cells, chart).oklab == 0);
  chart.numbers(0, 0) = 1;
  CHECK_THAT(squared_error(cells, chart).oklab, WithinAbs(1, 1e-4));  // black to white
  CHECK(squared_error(cells, chart).srgb == 3.0 * 255 * 255);
  chart.numbers(1, 0) = 2;
  CHECK(squared_error(cells, chart).srgb == (3.0 * 255 * 255 + 1 + 4 + 9) / 2);
  chart.numbers = Raster<ColourNumber>(2, 1);
  CHECK_THROWS_WITH(squared_error(cells, chart), contains("differ in size"));
}
