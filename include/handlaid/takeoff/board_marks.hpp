// Marks on the board: where the lines between columns and courses stand, each measured from the datum, the bottom left
// corner of the panel, and rounded once.
#pragma once

#include <vector>

#include "handlaid/core/length.hpp"
#include "handlaid/grid/lattice.hpp"

namespace handlaid {

/// Cumulative marks. `across[i]` is the line left of column i + 1, `up[i]` the line below course i + 1; each list has
/// one mark more than there are columns or courses, the first is 0 (or the margin where the board is larger).
struct BoardMarks {
  std::vector<Length> across = {};
  std::vector<Length> up = {};
  /// The whole board, with margins.
  Size board = {};
  /// From the board's edge to the first mark, left and right alike, and below and above alike.
  Length margin_x = {};
  Length margin_y = {};
  /// Both diagonals of the laid field, to the nearest micrometre: equal where the field is square.
  Length diagonal = {};
  friend bool operator==(const BoardMarks&, const BoardMarks&) = default;
};

}  // namespace handlaid
