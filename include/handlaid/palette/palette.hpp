// The palette: the colours of a chart, numbered from 1; 0 is an empty cell.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// Number of a colour: 1 to `most_colours`, and 0 for a cell that stays empty.
using ColourNumber = std::uint16_t;

/// The largest palette: three digits still fit in a cell.
inline constexpr int most_colours = 999;

/// What the maker decided about a colour of the palette before any was chosen.
enum class Lock {
  none,       ///< chosen by a fitter
  used,       ///< set by the maker: fitters never move it, it keeps its number, and any cell may take it
  exact_only  ///< the same, but only cells of that very colour take it
};

struct PaletteEntry {
  Srgb8 colour = {};
  /// Name for the maker; empty where the colour has none.
  std::string name = {};
  Lock lock = Lock::none;
  friend bool operator==(const PaletteEntry&, const PaletteEntry&) = default;
};

/// Colours in the order of their numbers. Once given, a number never moves.
struct Palette {
  std::vector<PaletteEntry> entries = {};
  /// Why there are fewer colours than were asked for; empty where there are as many.
  std::string note = {};

  int size() const { return static_cast<int>(entries.size()); }
  /// The entry of a number from 1 to `size()`; throws Error for any other.
  const PaletteEntry& operator[](int number) const {
    if (number < 1 || number > size()) {
      throw Error::out_of_range("colour number", std::to_string(number), "1 to " + std::to_string(size()));
    }
    return entries[static_cast<std::size_t>(number) - 1];
  }
  friend bool operator==(const Palette&, const Palette&) = default;
};

/// A palette of these colours, in this order.
template <When = When::called>
Palette palette_of(const std::vector<Srgb8>& colours) {
  Palette palette;
  for (const Srgb8& colour : colours) palette.entries.push_back({.colour = colour});
  return palette;
}

/// Throws Error unless `colours` is 1 to 999; `option` is its name as the user wrote it.
template <When = When::called>
void check_colours(int colours, const std::string& option = "colours") {
  if (colours < 1 || colours > most_colours) {
    throw Error::out_of_range(option, std::to_string(colours), "1 to 999 colours");
  }
}

}  // namespace handlaid
