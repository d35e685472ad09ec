// How much a board grows from dry winter air to a damp summer, so that it is left room. `BoardGrowth{…}(board)`
#pragma once

#include <cstdint>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/binomial.hpp"

namespace handlaid {

/// Growth from the driest to the dampest air.
struct Growth {
  Length width = {};
  Length height = {};
  friend constexpr bool operator==(const Growth&, const Growth&) = default;
};

/// Reckons with so much a length for each part of relative humidity.
struct BoardGrowth {
  using is_stage = void;
  /// Relative humidity of the room, 0…1; heated rooms in winter and damp summers: common practice, no source.
  double driest = 0.3;
  double dampest = 0.7;
  /// Share of the length for 10 percent of humidity, 0…0.05. Plywood: 0.0002 (a plywood makers' association). Solid
  /// wood across the grain moves ten times as much and more.
  double for_ten_percent = 0.0002;
  friend bool operator==(const BoardGrowth&, const BoardGrowth&) = default;

  /// Throws Error for a number out of range, NaN, or a dampest air that is drier than the driest.
  template <When = When::called>
  Growth operator()(const Size& board) const {
    const std::int64_t dry = detail::billionths(driest, 1, "humidity-low", "0 to 100 %");
    const std::int64_t damp = detail::billionths(dampest, 1, "humidity-high", "0 to 100 %");
    const std::int64_t share = detail::billionths(for_ten_percent, 0.05, "board-growth", "0 to 5 %");
    if (damp < dry) {
      const auto percent = [](std::int64_t billionths) { return std::to_string(billionths / 10'000'000) + " %"; };
      throw Error::bad_option("humidity-high",
                              "the dampest air, " + percent(damp) + ", is drier than the driest, " + percent(dry),
                              "make it " + percent(dry + 9'999'999) + " or more, or humidity-low less");
    }
    // Parts of 10^6 of the length over the whole range; a tenth of the humidity makes one share.
    const std::int64_t ppm = (share / 10 * ((damp - dry) / 1'000) + 5'000'000) / 10'000'000;
    const auto grown = [&](Length side) { return Length::from_um((side.um() * ppm + 500'000) / 1'000'000); };
    return {grown(board.width), grown(board.height)};
  }
};

}  // namespace handlaid
