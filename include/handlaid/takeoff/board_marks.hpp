// Marks on the board: where the lines between columns and courses stand, each measured from the datum, the bottom left
// corner of the panel, and rounded once.
#pragma once

#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/solve/square_root.hpp"

namespace handlaid {

/// Cumulative marks. `across[i]` is the line left of column i + 1, `up[i]` the line below course i + 1; each list has
/// one mark more than there are columns or courses, the first is 0 (or the margin where the board is larger).
struct BoardMarks {
  std::vector<Length> across = {};
  std::vector<Length> up = {};
  /// The whole board, with margins.
  Size board = {};
  /// From the board's edge to the first mark. The field is centred: what is over at the right and above is the same, or
  /// a micrometre more.
  Length margin_x = {};
  Length margin_y = {};
  /// Either diagonal of the laid field, to the nearest micrometre: both measure this where the corners are square.
  Length diagonal = {};
  friend bool operator==(const BoardMarks&, const BoardMarks&) = default;
};

/// Sets a lattice of equal columns out on a board, in the middle of it.
struct BoardMarking {
  using is_stage = void;
  /// The board; zero means the size of the laid field itself.
  Size board = {};

  BoardMarks operator()(const Chart<Rectangular>& chart) const { return (*this)(chart.lattice); }
  /// Throws Error when the board is smaller than the field, or either is longer than 1 km.
  template <When = When::called>
  BoardMarks operator()(const Rectangular& lattice) const {
    lattice.check();
    const Size field = lattice.extent();
    BoardMarks marks;
    marks.board = board == Size{} ? field : board;
    marks.margin_x = margin("width", marks.board.width, field.width);
    marks.margin_y = margin("height", marks.board.height, field.height);
    for (int i = 0; i <= lattice.columns; ++i) marks.across.push_back(marks.margin_x + lattice.pitch_x().times(i));
    for (int i = 0; i <= lattice.rows; ++i) marks.up.push_back(marks.margin_y + lattice.pitch_y().times(i));
    const auto square = [](Length length) { return static_cast<std::uint64_t>(length.um() * length.um()); };
    marks.diagonal =
        Length::from_um(static_cast<std::int64_t>(nearest_square_root(square(field.width) + square(field.height))));
    return marks;
  }

 private:
  template <When = When::called>
  static Length margin(const char* side, Length on_board, Length needed) {
    constexpr Length longest = Length::from_um(1'000'000'000);
    if (on_board > longest || needed > longest) {
      throw Error::out_of_range(std::string("board ") + side, "more than 1 km", "a board that can be carried");
    }
    if (on_board < needed) {
      throw Error::bad_option("board",
                              std::string("its ") + side + " of " + to_text(on_board, LengthUnit::millimetres) +
                                  " is less than the " + to_text(needed, LengthUnit::millimetres) + " of the cells",
                              "take a larger board, fewer cells or a smaller pitch");
    }
    return Length::from_um((on_board - needed).um() / 2);
  }
};

}  // namespace handlaid
