// What the panel costs, and how much of that is left over afterwards.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/takeoff/packs.hpp"

namespace handlaid {

/// One line of the bill, in hundredths of the currency.
struct CostLine {
  std::string what = {};
  std::int64_t count = 0;
  std::int64_t cost_hundredths = 0;
  /// The part of it that is bought and not used, by amount.
  std::int64_t left_over_hundredths = 0;
  friend bool operator==(const CostLine&, const CostLine&) = default;
};

/// The bill; what has no price is not on it.
struct Cost {
  std::vector<CostLine> lines = {};
  std::string currency = {};

  std::int64_t total_hundredths() const {
    std::int64_t total = 0;
    for (const CostLine& line : lines) total += line.cost_hundredths;
    return total;
  }
  std::int64_t left_over_hundredths() const {
    std::int64_t total = 0;
    for (const CostLine& line : lines) total += line.left_over_hundredths;
    return total;
  }
  friend bool operator==(const Cost&, const Cost&) = default;
};

/// An order as one line; what is left of each colour is worth its share of what the colour cost, rounded down.
template <When = When::called>
CostLine cost_of(const Order& order, std::string what) {
  CostLine line{.what = std::move(what), .count = order.pack_count(), .cost_hundredths = order.cost_hundredths()};
  for (const OrderLine& one : order.lines) {
    if (one.bought == 0) continue;
    // Whole part and rest apart: the product of both could overflow.
    line.left_over_hundredths += one.cost_hundredths / one.bought * one.left_over +
                                 one.cost_hundredths % one.bought * one.left_over / one.bought;
  }
  return line;
}

/// So many of one price, of which a share of `used` to `bought` is used.
inline CostLine cost_of(std::string what, std::int64_t count, std::int64_t price_hundredths, std::int64_t used,
                        std::int64_t bought) {
  CostLine line{.what = std::move(what), .count = count, .cost_hundredths = count * price_hundredths};
  const std::int64_t left = used < bought ? bought - used : 0;
  // Shortened so that the product does not overflow.
  std::int64_t whole = bought;
  std::int64_t part = left;
  for (; whole > 1'000'000; whole /= 2) part /= 2;
  line.left_over_hundredths = whole > 0 ? line.cost_hundredths * part / whole : 0;
  return line;
}

}  // namespace handlaid
