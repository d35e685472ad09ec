// What is bought by length, area, volume or weight: the amount that each piece takes makes amounts of pieces.
// `pieces | AmountEach{.unit = StockUnit::millimetres, .each = 35.5} | choose_packs(yarn)`
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/takeoff/pieces.hpp"

namespace handlaid {

/// What is needed of one colour, spares included.
struct AmountLine {
  int number = 0;
  std::int64_t needed = 0;
  friend constexpr bool operator==(const AmountLine&, const AmountLine&) = default;
};

/// What is needed of each colour of the palette, in the order of the numbers.
struct AmountTakeoff {
  Palette palette = {};
  StockUnit unit = StockUnit::pieces;
  std::vector<AmountLine> lines = {};
  friend bool operator==(const AmountTakeoff&, const AmountTakeoff&) = default;
};

/// Turns pieces into amounts; each colour's total is rounded up to a whole unit, once.
struct AmountEach {
  using is_stage = void;
  StockUnit unit = StockUnit::pieces;
  /// What one piece takes, 0.001…1,000,000 of the unit, to a thousandth of it.
  double each = 1;
  friend constexpr bool operator==(const AmountEach&, const AmountEach&) = default;

  /// Throws Error for an amount out of range or NaN, or a total above 1,000,000,000 units.
  template <When = When::called>
  AmountTakeoff operator()(const PieceTakeoff& takeoff) const {
    if (!(each >= 0.001 && each <= 1'000'000)) {
      throw Error::out_of_range("amount of a piece", each != each ? "not a number" : "the value given",
                                std::string("0.001 to 1000000 ") + symbol(unit));
    }
    // Sixteen steps a thousandth and whole-number rounding: adding a half to a product could be fused with it.
    const std::int64_t thousandths = (static_cast<std::int64_t>(each * 16'000.0) + 8) / 16;
    AmountTakeoff amounts{.palette = takeoff.palette, .unit = unit};
    for (const PieceLine& line : takeoff.lines) {
      if (line.needed() > 1'000'000'000'000 / thousandths) {
        throw Error::out_of_range("colour " + std::to_string(line.number),
                                  std::to_string(line.needed()) + " pieces of such an amount",
                                  std::string("at most 1000000000 ") + symbol(unit) + " together");
      }
      amounts.lines.push_back({.number = line.number, .needed = (line.needed() * thousandths + 999) / 1'000});
    }
    return amounts;
  }
};

}  // namespace handlaid
