// Packs to buy: for each colour the cheapest mix of pack sizes that covers the need.
// `… | choose_packs(stock)`
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/palette/stock.hpp"
#include "handlaid/takeoff/pieces.hpp"

namespace handlaid {

/// `count` packs of one size.
struct PackCount {
  Pack pack = {};
  std::int64_t count = 0;
  friend constexpr bool operator==(const PackCount&, const PackCount&) = default;
};

/// What is bought of one colour.
struct OrderLine {
  int number = 0;
  std::string name = {};
  std::int64_t needed = 0;
  std::int64_t from_hand = 0;
  /// Sizes with a count of 1 or more, largest first.
  std::vector<PackCount> packs = {};
  std::int64_t bought = 0;
  std::int64_t left_over = 0;
  std::int64_t cost_hundredths = 0;

  std::int64_t pack_count() const {
    std::int64_t total = 0;
    for (const PackCount& p : packs) total += p.count;
    return total;
  }
  friend bool operator==(const OrderLine&, const OrderLine&) = default;
};

/// The order, a line for each colour of the palette that is needed, in the order of the numbers.
struct Order {
  std::vector<OrderLine> lines = {};
  std::string currency = {};

  std::int64_t cost_hundredths() const {
    std::int64_t total = 0;
    for (const OrderLine& line : lines) total += line.cost_hundredths;
    return total;
  }
  std::int64_t pack_count() const {
    std::int64_t total = 0;
    for (const OrderLine& line : lines) total += line.pack_count();
    return total;
  }
  friend bool operator==(const Order&, const Order&) = default;
};

}  // namespace handlaid
