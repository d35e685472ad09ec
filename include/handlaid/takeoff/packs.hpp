// Packs to buy: for each colour the cheapest mix of pack sizes that covers the need.
// `… | choose_packs(stock)`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/solve/pack_mix.hpp"
#include "handlaid/takeoff/amounts.hpp"
#include "handlaid/takeoff/pieces.hpp"

namespace handlaid {

/// `count` packs of one size.
struct PackCount {
  Pack pack = {};
  std::int64_t count = 0;
  friend bool operator==(const PackCount&, const PackCount&) = default;
};

/// What is bought of one colour.
struct OrderLine {
  int number = 0;
  std::string name = {};
  std::int64_t needed = 0;
  /// Used first, before anything is bought.
  std::int64_t from_hand = 0;
  /// Sizes with a count of 1 or more, largest first.
  std::vector<PackCount> packs = {};
  std::int64_t bought = 0;
  /// Of those bought; what stays in hand is not counted.
  std::int64_t left_over = 0;
  std::int64_t cost_hundredths = 0;

  std::int64_t pack_count() const {
    std::int64_t total = 0;
    for (const PackCount& p : packs) total += p.count;
    return total;
  }
  friend bool operator==(const OrderLine&, const OrderLine&) = default;
};

/// "F14-200 + F14-50": what the shop calls the packs of a line, in their order; empty where none has an article.
template <When = When::called>
std::string articles_text(const OrderLine& line) {
  std::string articles;
  for (const PackCount& packs : line.packs) {
    if (!packs.pack.article.empty()) articles += (articles.empty() ? "" : " + ") + packs.pack.article;
  }
  return articles;
}

/// The order, a line for each colour of the palette that is needed, in the order of the numbers.
struct Order {
  std::vector<OrderLine> lines = {};
  std::string currency = {};
  /// What the amounts of its lines are measured in.
  StockUnit unit = StockUnit::pieces;

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

/// Finds each colour of the palette in the stock by its name, uses what is in hand, and buys the rest at the least cost
/// (ties: see `cheapest_mix`). Throws Error naming the colour that has no name, is not in the stock, or cannot be
/// covered, and where the stock is measured in another unit than the takeoff.
struct ChoosePacks {
  using is_stage = void;
  Stock stock = {};

  template <When = When::called>
  Order operator()(const PieceTakeoff& takeoff) const {
    return (*this)(AmountEach{}(takeoff));
  }
  template <When = When::called>
  Order operator()(const AmountTakeoff& takeoff) const;
};

/// `takeoff | choose_packs(stock)`
inline ChoosePacks choose_packs(Stock stock) { return {.stock = std::move(stock)}; }

namespace detail {

template <When = When::called>
std::vector<PackSize> pack_sizes(const StockColour& item) {
  std::vector<PackSize> sizes;
  for (const Pack& pack : item.packs) {
    sizes.push_back({.pieces = pack.pieces, .price = pack.price_hundredths, .at_least = pack.at_least});
  }
  return sizes;
}

/// Fills in what is bought.
template <When = When::called>
void buy(OrderLine& line, const StockColour& item, StockUnit unit) {
  const std::int64_t to_buy = line.needed - line.from_hand;
  if (to_buy == 0) return;
  if (item.packs.empty()) {
    throw Error::bad_input(
        "stock colour \"" + item.name + "\"",
        std::to_string(line.needed) + " " + symbol(unit) + " are needed, " + std::to_string(item.in_hand) +
            " are in hand and no pack is on sale",
        "add a pack size with its price, have " + std::to_string(to_buy) + " more in hand, or use another colour");
  }
  const std::vector<std::int64_t> counts = cheapest_mix(to_buy, pack_sizes(item));
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i] == 0) continue;
    line.packs.push_back({.pack = item.packs[i], .count = counts[i]});
    line.bought += counts[i] * item.packs[i].pieces;
    line.cost_hundredths += counts[i] * item.packs[i].price_hundredths;
  }
  std::sort(line.packs.begin(), line.packs.end(),
            [](const PackCount& a, const PackCount& b) { return a.pack.pieces > b.pack.pieces; });
  line.left_over = line.bought - to_buy;
}

}  // namespace detail

template <When>
Order ChoosePacks::operator()(const AmountTakeoff& takeoff) const {
  if (takeoff.unit != stock.unit) {
    throw Error::bad_input(
        "stock",
        std::string("its packs are measured in ") + symbol(stock.unit) + ", what is needed in " + symbol(takeoff.unit),
        std::string("say how many ") + symbol(stock.unit) + " a piece takes");
  }
  Order order{.currency = stock.currency, .unit = stock.unit};
  std::vector<std::int64_t> in_hand;
  for (const StockColour& item : stock.colours) in_hand.push_back(item.in_hand);
  for (const AmountLine& needed : takeoff.lines) {
    if (needed.needed == 0) continue;
    const PaletteEntry& entry = takeoff.palette[needed.number];
    const std::string culprit = "colour " + std::to_string(needed.number) + " (" + to_hex(entry.colour) + ")";
    if (entry.name.empty()) {
      throw Error::bad_input(culprit, "it has no name to look up in the stock", "take the palette from the stock");
    }
    const StockColour* item = stock.find(entry.name);
    if (item == nullptr) {
      throw Error::bad_input(culprit, "\"" + entry.name + "\" is not in the stock", "add it, or use another colour");
    }
    std::int64_t& left = in_hand[static_cast<std::size_t>(item - stock.colours.data())];
    OrderLine line{.number = needed.number, .name = entry.name, .needed = needed.needed};
    line.from_hand = std::min(line.needed, left);
    left -= line.from_hand;
    detail::buy(line, *item, stock.unit);
    order.lines.push_back(std::move(line));
  }
  return order;
}

}  // namespace handlaid
