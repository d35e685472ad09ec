// The cells that come out worst, with their places, so that a small colour that matters is not lost unseen.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/quality/seen_error.hpp"

namespace handlaid {

/// A cell and its difference. Courses are numbered from 1 at the bottom, columns from 1 at the left.
struct WorstCell {
  int course = 0;
  int column = 0;
  /// CIEDE2000 in steps of 1/65,536.
  std::int64_t difference_steps = 0;

  double difference() const {
    return static_cast<double>(difference_steps) / static_cast<double>(handlaid::difference_steps);
  }
  friend bool operator==(const WorstCell&, const WorstCell&) = default;
};

/// The `most` cells with the greatest differences (see `cell_differences`), worst first; of equals the lower course,
/// then the lower column first. Cells without a difference are left out.
template <When = When::called>
std::vector<WorstCell> worst_cells(const Raster<std::int32_t>& differences, int most = 20) {
  std::vector<WorstCell> cells;
  for (int y = differences.height() - 1; y >= 0; --y) {
    const auto row = differences.row(y);
    for (std::size_t x = 0; x < row.size(); ++x) {
      if (row[x] <= 0) continue;
      cells.push_back({course_of_row(y, differences.height()), static_cast<int>(x) + 1, row[x]});
    }
  }
  const auto worse = [](const WorstCell& p, const WorstCell& q) {
    if (p.difference_steps != q.difference_steps) return p.difference_steps > q.difference_steps;
    return p.course != q.course ? p.course < q.course : p.column < q.column;
  };
  const std::size_t count = std::min(cells.size(), static_cast<std::size_t>(std::max(most, 0)));
  std::partial_sort(cells.begin(), cells.begin() + static_cast<std::ptrdiff_t>(count), cells.end(), worse);
  cells.resize(count);
  return cells;
}

}  // namespace handlaid
