// In which cells two charts of one lattice differ: what an edit by hand has changed.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <tuple>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// A cell that gets another colour.
struct CellChange {
  int course = 0;
  /// From 1.
  int column = 0;
  int from = 0;
  int to = 0;
  friend constexpr bool operator==(const CellChange&, const CellChange&) = default;
};

/// How many cells go from one colour to another; 0 is an empty cell.
struct ChangedPair {
  int from = 0;
  int to = 0;
  std::int64_t cells = 0;
  friend constexpr bool operator==(const ChangedPair&, const ChangedPair&) = default;
};

/// The cells whose numbers differ, by course from the bottom, then by column. Throws Error for different sizes.
template <When = When::called>
std::vector<CellChange> differing_cells(const Raster<ColourNumber>& was, const Raster<ColourNumber>& is) {
  if (was.width() != is.width() || was.height() != is.height()) {
    throw Error::bad_input("charts to compare",
                           "one has " + std::to_string(was.width()) + " columns and " + std::to_string(was.height()) +
                               " courses, the other " + std::to_string(is.width()) + " and " +
                               std::to_string(is.height()),
                           "give two charts of one lattice");
  }
  std::vector<CellChange> changes;
  for (int row = was.height() - 1; row >= 0; --row) {
    for (int column = 0; column < was.width(); ++column) {
      if (was(column, row) == is(column, row)) continue;
      changes.push_back({.course = course_of_row(row, was.height()),
                         .column = column + 1,
                         .from = was(column, row),
                         .to = is(column, row)});
    }
  }
  return changes;
}

/// The changes counted by their two colours: the most cells first, then by number.
template <When = When::called>
std::vector<ChangedPair> changed_pairs(const std::vector<CellChange>& changes) {
  constexpr int numbers = most_colours + 1;
  std::vector<std::int64_t> cells(static_cast<std::size_t>(numbers) * numbers, 0);
  for (const CellChange& change : changes) ++cells.at(static_cast<std::size_t>(change.from * numbers + change.to));
  std::vector<ChangedPair> pairs;
  for (int from = 0; from < numbers; ++from) {
    for (int to = 0; to < numbers; ++to) {
      const std::int64_t count = cells[static_cast<std::size_t>(from * numbers + to)];
      if (count > 0) pairs.push_back({from, to, count});
    }
  }
  std::sort(pairs.begin(), pairs.end(), [](const ChangedPair& a, const ChangedPair& b) {
    return std::tuple(-a.cells, a.from, a.to) < std::tuple(-b.cells, b.from, b.to);
  });
  return pairs;
}

}  // namespace handlaid
