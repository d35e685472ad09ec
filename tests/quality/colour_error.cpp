#include "handlaid/quality/colour_error.hpp"

#include "handlaid/colour/oklab.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// A row of cells of the first colour, `wrong` of them of the second, all numbered 1; the last cell is empty.
struct Row {
  Cells<Srgb8> cells = {};
  Chart<> chart = {};
  Row(int count, int wrong) {
    cells.lattice = chart.lattice = {.columns = count + 1, .rows = 1};
    cells.colours = Raster<Srgb8>(count + 1, 1);
    cells.laid = Raster<std::uint8_t>(count + 1, 1);
    chart.numbers = Raster<ColourNumber>(count + 1, 1);
    chart.palette = palette_of({{255, 255, 255}});
    for (int x = 0; x < count; ++x) {
      if (x >= wrong) cells.colours(x, 0) = {255, 255, 255};
      cells.laid(x, 0) = 1;
      chart.numbers(x, 0) = 1;
    }
  }
};

}  // namespace

TEST_CASE("the colour error is the mean and the 95th percentile of CIEDE2000 over laid cells") {
  // Black against white is 100 by the formula (L 0 and 100, both neutral).
  const Row none(100, 0);
  CHECK_THAT(colour_error(none.cells, none.chart).mean, WithinAbs(0, 0.05));
  const Row five(100, 5);
  CHECK_THAT(colour_error(five.cells, five.chart).mean, WithinAbs(5, 0.05));
  CHECK_THAT(colour_error(five.cells, five.chart).high, WithinAbs(0, 0.05));
  const Row six(100, 6);
  CHECK_THAT(colour_error(six.cells, six.chart).high, WithinAbs(100, 0.05));
  const Row one(1, 1);
  CHECK_THAT(colour_error(one.cells, one.chart).high, WithinAbs(100, 0.05));
}

TEST_CASE("cells and chart must be of one size") {
  const Row small(3, 0);
  const Row large(4, 0);
  CHECK_THROWS_WITH(colour_error(small.cells, large.chart), contains("cells and chart differ in size"));
  Chart<> empty = small.chart;
  for (ColourNumber& number : empty.numbers.pixels()) number = 0;
  CHECK(colour_error(small.cells, empty).mean == 0);
}
