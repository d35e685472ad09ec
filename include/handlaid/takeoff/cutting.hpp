// Cutting mounted strips into pieces: where each cut stands, how many there are, and how long they take by knife and
// guide or by a gang of blades (takeoff/blade_gang). `strips | Cutting{.pieces_per_cell = 3, .pitch = 7.5 * mm}`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// The cuts of a panel.
struct CuttingTakeoff {
  int pieces_per_cell = 1;
  Length pitch = {};
  /// From one cut to the next, rounded; cuts themselves are never reckoned from it (see `cut_at`).
  Length piece_width = {};
  /// From the free edge to the fastened one, where a cut stops.
  Length cut_length = {};
  /// On the longest strip, its two ends apart.
  std::int64_t cuts_on_longest = 0;
  /// On all strips.
  std::int64_t cuts = 0;
  /// All cuts together.
  Length total = {};
  friend bool operator==(const CuttingTakeoff&, const CuttingTakeoff&) = default;
};

/// Where cut `i` stands from the datum: i pitches divided by the pieces of a cell, rounded once, so at most half a
/// micrometre off on any length.
constexpr Length cut_at(std::int64_t i, Length pitch, int pieces_per_cell) {
  return pitch.times(i).divided(pieces_per_cell);
}

/// Columns from the first that is laid of a strip to the last.
constexpr std::int64_t cells_of(const Strip& strip) {
  for (const StripSection& section : strip.sections) {
    if (section.number != 0) return strip.sections.back().last_column - section.first_column + 1;
  }
  return 0;
}

/// Counts the cuts: one between any two pieces of a strip; gaps between pieces are cut like the rest.
struct Cutting {
  using is_stage = void;
  /// 1…1000.
  int pieces_per_cell = 1;
  /// Distance of columns.
  Length pitch = 10 * mm;

  /// Throws Error for a number or pitch out of range, or pieces under a tenth of a millimetre.
  template <When = When::called>
  CuttingTakeoff operator()(const StripTakeoff& strips) const {
    if (pieces_per_cell < 1 || pieces_per_cell > 1'000) {
      throw Error::out_of_range("pieces-per-cell", std::to_string(pieces_per_cell), "1 to 1000 pieces a cell");
    }
    CuttingTakeoff takeoff{.pieces_per_cell = pieces_per_cell, .pitch = pitch};
    takeoff.piece_width = pitch.divided(pieces_per_cell);
    if (takeoff.piece_width < Length::from_um(100)) {
      throw Error::bad_option("pieces-per-cell",
                              std::to_string(pieces_per_cell) + " pieces in a pitch of " +
                                  to_text(pitch, LengthUnit::millimetres) + " are under 0.1 mm wide",
                              "ask for at most " + std::to_string(std::max<std::int64_t>(pitch.um() / 100, 1)) +
                                  " pieces, or a larger pitch");
    }
    takeoff.cut_length = strips.finished_width - strips.fastened_edge;
    for (const Strip& strip : strips.strips) {
      const std::int64_t cuts = cells_of(strip) * pieces_per_cell - 1;
      takeoff.cuts += cuts;
      takeoff.cuts_on_longest = std::max(takeoff.cuts_on_longest, cuts);
    }
    takeoff.total = takeoff.cut_length.times(takeoff.cuts);
    return takeoff;
  }
};

}  // namespace handlaid
