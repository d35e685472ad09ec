// A palette from what a shop stocks: the k of its colours that together serve the picture best, not the nearest one by
// one.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/palette/complete.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/solve/choose.hpp"

namespace handlaid {

/// Fits a palette of stocked colours by the least sum of weight times squared distance (see solve/choose).
/// Result: exactly `colours` entries with the stock's names, or all of the stock with a note where it has fewer.
/// Locked colours take the first numbers, the others follow from dark to light.
/// Throws Error when `colours` is not in 1 to 999, the histogram or the stock is empty, or the locked colours do not
/// fit or are not in the stock.
struct FromStock {
  Stock stock = {};
  int colours = 16;
  /// Stocked colours that must be used: by name or, where that is empty, by colour.
  std::vector<PaletteEntry> locked = {};

  template <MeasuredColour C>
  Palette operator()(const Histogram<C>& histogram) const;

 private:
  std::vector<std::size_t> locked_indices() const;
};

inline std::vector<std::size_t> FromStock::locked_indices() const {
  std::vector<std::size_t> indices;
  for (const PaletteEntry& entry : locked) {
    const std::string name = entry.name.empty() ? to_hex(entry.colour) : entry.name;
    std::size_t index = 0;
    const auto fits = [&](const StockColour& item) {
      return entry.name.empty() ? item.colour == entry.colour : item.name == entry.name;
    };
    while (index < stock.colours.size() && !fits(stock.colours[index])) ++index;
    if (index == stock.colours.size()) {
      throw Error::bad_option("lock", "the stock has no colour \"" + name + "\"",
                              "use a name or a colour of the stock");
    }
    if (std::find(indices.begin(), indices.end(), index) != indices.end()) {
      throw Error::bad_option("lock", "\"" + name + "\" is locked twice", "lock a colour once");
    }
    indices.push_back(index);
  }
  return indices;
}

template <MeasuredColour C>
Palette FromStock::operator()(const Histogram<C>& histogram) const {
  check_locked(colours, locked);
  if (stock.colours.empty()) throw Error::bad_input("stock", "it has no colours", "list at least one");
  if (histogram.bins.empty()) throw Error::bad_input("stock", "there are no colours to fit", "lay some cells");
  const std::vector<std::size_t> fixed = locked_indices();
  const std::size_t candidates = stock.colours.size();
  std::vector<FixedPoint> points;
  for (const StockColour& item : stock.colours) points.push_back(convert_colour<C>(item.colour).fixed());
  std::vector<std::uint64_t> weights;
  int shift = 0;  // together below 2^31, even where a bin counts for more than it weighs
  while (histogram.total() >> shift >= (std::uint64_t{1} << 30)) ++shift;
  for (const Bin& bin : histogram.bins) weights.push_back(std::max<std::uint64_t>(bin.weight >> shift, 1));
  const Choice choice = choose_candidates({.weights = weights,
                                           .candidates = candidates,
                                           .wanted = std::min(static_cast<std::size_t>(colours), candidates),
                                           .fixed = fixed},
                                          [&](std::size_t bin, std::size_t candidate) {
                                            return squared_distance(points[candidate], histogram.bins[bin].point);
                                          });
  Palette palette;
  const auto add = [&](std::size_t index, bool is_locked) {
    const StockColour& item = stock.colours[index];
    palette.entries.push_back({.colour = item.colour, .name = item.name, .locked = is_locked});
  };
  for (const std::size_t index : fixed) add(index, true);
  for (const std::size_t index : choice.chosen) {
    if (std::find(fixed.begin(), fixed.end(), index) == fixed.end()) add(index, false);
  }
  std::sort(palette.entries.begin() + static_cast<std::ptrdiff_t>(fixed.size()), palette.entries.end(), detail::darker);
  if (palette.size() < colours) {
    palette.note =
        "Asked for " + std::to_string(colours) + " colours; the stock has only " + std::to_string(palette.size()) + ".";
  }
  return palette;
}

}  // namespace handlaid
