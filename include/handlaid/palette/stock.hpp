// What a shop sells: colours by name, with pack sizes and prices. Read from a file by files/stock.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// What a shop measures its packs in.
enum class StockUnit { pieces, millimetres, square_millimetres, millilitres, grams };

/// As written after an amount, and over the column of a stock file.
constexpr const char* symbol(StockUnit unit) {
  constexpr const char* symbols[] = {"pieces", "mm", "mm2", "ml", "g"};
  return symbols[static_cast<std::size_t>(unit)];
}

/// A pack that can be bought.
struct Pack {
  /// What is in the pack, 1 or more, in the unit of its stock: pieces, as a rule.
  std::int64_t pieces = 1;
  /// Price in hundredths of the currency, 0 or more.
  std::int64_t price_hundredths = 0;
  /// The shop sells so many of them, or none.
  std::int64_t at_least = 1;
  /// What the shop calls the pack: the number or word to order it by; empty where it has none.
  std::string article = {};
  friend bool operator==(const Pack&, const Pack&) = default;
};

/// One colour of the shop.
struct StockColour {
  /// Unique in its stock.
  std::string name = {};
  Srgb8 colour = {};
  /// Pack sizes on sale; empty where only what is in hand can be used.
  std::vector<Pack> packs = {};
  /// Already in hand, in the unit of the stock.
  std::int64_t in_hand = 0;
  friend bool operator==(const StockColour&, const StockColour&) = default;
};

/// The colours that can be bought. Their order is the shop's; it gives no numbers.
struct Stock {
  std::vector<StockColour> colours = {};
  /// As printed after prices, such as "EUR".
  std::string currency = {};
  StockUnit unit = StockUnit::pieces;

  /// The colour of that name, or nullptr.
  const StockColour* find(const std::string& name) const {
    for (const StockColour& colour : colours) {
      if (colour.name == name) return &colour;
    }
    return nullptr;
  }
  friend bool operator==(const Stock&, const Stock&) = default;
};

/// The whole stock as a palette, in its order.
template <When = When::called>
Palette palette_of(const Stock& stock) {
  Palette palette;
  for (const StockColour& item : stock.colours) palette.entries.push_back({.colour = item.colour, .name = item.name});
  return palette;
}

}  // namespace handlaid
