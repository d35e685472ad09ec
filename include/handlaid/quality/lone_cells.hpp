// Cells that stand alone in their colour: each costs a mark and a look, and can hardly be seen.
#pragma once

#include <algorithm>
#include <cstdint>

#include "handlaid/grid/chart.hpp"

namespace handlaid {

/// Counts the laid cells of which none of the eight neighbours has the same number.
template <AnyChart C>
std::int64_t lone_cells(const C& chart) {
  const int columns = chart.columns();
  const int rows = chart.courses();
  std::int64_t count = 0;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const ColourNumber number = chart.numbers(column, row);
      if (number == 0) continue;
      int same = 0;
      for (int y = std::max(row - 1, 0); y <= std::min(row + 1, rows - 1); ++y) {
        for (int x = std::max(column - 1, 0); x <= std::min(column + 1, columns - 1); ++x) {
          same += chart.numbers(x, y) == number ? 1 : 0;
        }
      }
      if (same == 1) ++count;
    }
  }
  return count;
}

}  // namespace handlaid
