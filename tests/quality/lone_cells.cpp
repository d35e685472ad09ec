#include "handlaid/quality/lone_cells.hpp"

#include <vector>

#include "support/catch.hpp"

using namespace handlaid;

namespace {

Chart<> chart_of(const std::vector<std::vector<ColourNumber>>& rows) {
  Chart<> chart;
  chart.numbers = Raster<ColourNumber>(static_cast<int>(rows[0].size()), static_cast<int>(rows.size()));
  for (std::size_t y = 0; y < rows.size(); ++y) {
    for (std::size_t x = 0; x < rows[y].size(); ++x)
      chart.numbers(static_cast<int>(x), static_cast<int>(y)) = rows[y][x];
  }
  return chart;
}

}  // namespace

TEST_CASE("a cell is alone where none of its eight neighbours has its colour") {
  CHECK(lone_cells(chart_of({{1, 1, 1}, {1, 2, 1}, {1, 1, 1}})) == 1);
  CHECK(lone_cells(chart_of({{2, 1, 1}, {1, 2, 1}, {1, 1, 1}})) == 0);  // across a corner
  CHECK(lone_cells(chart_of({{1, 2}, {3, 4}})) == 4);
  CHECK(lone_cells(chart_of({{1}})) == 1);
  CHECK(lone_cells(chart_of({{1, 2, 1, 2, 1}})) == 5);
  CHECK(lone_cells(chart_of({{0, 0, 0}, {0, 1, 0}, {0, 0, 0}})) == 1);  // empty cells are nobody's neighbour, nor alone
}
