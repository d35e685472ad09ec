// A palette from what a shop stocks: the k of its colours that together serve the picture best, not the nearest one by
// one.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/palette/fit_by_rules.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/solve/choose.hpp"

namespace handlaid {

/// Fits a palette of stocked colours by the least sum of weight times squared distance (see solve/choose). Where a rule
/// is broken, the colour that serves less is left out and the choice made again.
/// Result: exactly `colours` entries with the stock's names, or fewer with a note that says why.
/// Locked colours take the first numbers, the others follow from dark to light.
/// Throws Error when `colours` is not in 1 to 999, the histogram or the stock is empty, or the rules contradict each
/// other or name a colour that is not in the stock.
struct FromStock {
  Stock stock = {};
  int colours = 16;
  /// Entries go by name or, where that is empty, by colour.
  PaletteRules rules = {};

  template <MeasuredColour C>
  Palette operator()(const Histogram<C>& histogram) const;

 private:
  /// Places in the stock; `option` is for messages.
  std::vector<std::size_t> indices_of(const std::vector<PaletteEntry>& entries, const std::string& option) const;
  template <MeasuredColour C>
  std::vector<std::size_t> choose(const std::vector<Bin>& bins, const std::vector<std::size_t>& fixed,
                                  std::vector<std::size_t> on_offer, std::size_t wanted) const;
};

inline std::vector<std::size_t> FromStock::indices_of(const std::vector<PaletteEntry>& entries,
                                                      const std::string& option) const {
  std::vector<std::size_t> indices;
  for (const PaletteEntry& entry : entries) {
    const std::string name = entry.name.empty() ? to_hex(entry.colour) : entry.name;
    std::size_t index = 0;
    const auto fits = [&](const StockColour& item) {
      return entry.name.empty() ? item.colour == entry.colour : item.name == entry.name;
    };
    while (index < stock.colours.size() && !fits(stock.colours[index])) ++index;
    if (index == stock.colours.size()) {
      throw Error::bad_option(option, "the stock has no colour \"" + name + "\"",
                              "use a name or a colour of the stock");
    }
    if (std::find(indices.begin(), indices.end(), index) != indices.end()) {
      throw Error::bad_option(option, "\"" + name + "\" is there twice", "give a colour once");
    }
    indices.push_back(index);
  }
  return indices;
}

/// `fixed` stay; the others come from `on_offer`, which grows smaller until no rule is broken.
template <MeasuredColour C>
std::vector<std::size_t> FromStock::choose(const std::vector<Bin>& bins, const std::vector<std::size_t>& fixed,
                                           std::vector<std::size_t> on_offer, std::size_t wanted) const {
  const detail::Spacing spacing = detail::spacing_of<C>(rules);
  std::vector<std::uint64_t> weights;
  std::uint64_t total = 0;
  for (const Bin& bin : bins) total += bin.weight;
  int halvings = 0;  // together below 2^31, even where a bin counts for more than it weighs
  while (total >> halvings >= (std::uint64_t{1} << 30)) ++halvings;
  for (const Bin& bin : bins) weights.push_back(std::max<std::uint64_t>(bin.weight >> halvings, 1));

  while (true) {
    std::vector<std::size_t> items = fixed;
    items.insert(items.end(), on_offer.begin(), on_offer.end());
    std::vector<FixedPoint> points;
    for (const std::size_t item : items) points.push_back(convert_colour<C>(stock.colours[item].colour).fixed());
    std::vector<std::size_t> first;
    for (std::size_t i = 0; i < fixed.size(); ++i) first.push_back(i);
    const auto distance = [&](std::size_t bin, std::size_t item) {
      return squared_distance(points[item], bins[bin].point);
    };
    const Choice choice = choose_candidates({.weights = weights,
                                             .candidates = items.size(),
                                             .wanted = std::min(fixed.size() + wanted, items.size()),
                                             .fixed = first},
                                            distance);
    std::vector<std::uint64_t> served(items.size(), 0);
    for (std::size_t b = 0; b < bins.size(); ++b) {
      std::size_t nearest = choice.chosen[0];
      for (const std::size_t item : choice.chosen) {
        if (distance(b, item) < distance(b, nearest)) nearest = item;
      }
      served[nearest] += bins[b].weight;
    }
    // Those that serve most keep their place; who stands too near to one of them, or serves too little, goes.
    std::vector<std::size_t> order;
    for (const std::size_t item : choice.chosen) {
      if (item >= fixed.size()) order.push_back(item);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return served[a] > served[b]; });
    std::vector<FixedPoint> kept(points.begin(), points.begin() + static_cast<std::ptrdiff_t>(fixed.size()));
    std::vector<std::size_t> gone;
    for (const std::size_t item : order) {
      if (spacing.apart > 0 && !spacing.allows(points[item], kept, SIZE_MAX)) {
        gone.push_back(items[item]);
      } else {
        kept.push_back(points[item]);
      }
    }
    if (gone.empty() && !order.empty() && served[order.back()] < rules.least_weight) {
      gone.push_back(items[order.back()]);
    }
    if (gone.empty()) {
      std::vector<std::size_t> chosen;
      for (const std::size_t item : order) chosen.push_back(items[item]);
      return chosen;
    }
    std::erase_if(on_offer, [&](std::size_t item) { return std::find(gone.begin(), gone.end(), item) != gone.end(); });
  }
}

template <MeasuredColour C>
Palette FromStock::operator()(const Histogram<C>& histogram) const {
  check_rules(colours, rules);
  if (stock.colours.empty()) throw Error::bad_input("stock", "it has no colours", "list at least one");
  if (histogram.bins.empty()) throw Error::bad_input("stock", "there are no colours to fit", "lay some cells");
  const std::vector<std::size_t> locked = indices_of(rules.locked, "lock");
  const std::vector<std::size_t> forbidden = indices_of(rules.forbidden, "forbid");
  Palette palette;
  const auto add = [&](std::size_t index, Lock lock) {
    const StockColour& item = stock.colours[index];
    palette.entries.push_back({.colour = item.colour, .name = item.name, .lock = lock});
  };
  std::vector<std::size_t> fixed;
  std::vector<FixedPoint> exact;
  for (std::size_t i = 0; i < locked.size(); ++i) {
    const bool exact_only = rules.locked[i].lock == Lock::exact_only;
    add(locked[i], exact_only ? Lock::exact_only : Lock::used);
    if (exact_only) {
      exact.push_back(convert_colour<C>(palette.entries.back().colour).fixed());
    } else {
      fixed.push_back(locked[i]);
    }
  }
  std::vector<std::size_t> on_offer;
  for (std::size_t i = 0; i < stock.colours.size(); ++i) {
    const auto in = [&](const std::vector<std::size_t>& list) {
      return std::find(list.begin(), list.end(), i) != list.end();
    };
    if (in(locked) && in(forbidden)) {
      throw Error::bad_option("lock", "\"" + stock.colours[i].name + "\" is both locked and forbidden",
                              "do one or the other");
    }
    if (!in(locked) && !in(forbidden)) on_offer.push_back(i);
  }
  const std::vector<Bin> bins = detail::bins_without(histogram.bins, exact);
  const std::size_t wanted = static_cast<std::size_t>(colours) - locked.size();
  if (wanted > 0 && !bins.empty() && !on_offer.empty()) {
    for (const std::size_t item : choose<C>(bins, fixed, on_offer, wanted)) add(item, Lock::none);
  }
  std::sort(palette.entries.begin() + static_cast<std::ptrdiff_t>(locked.size()), palette.entries.end(),
            detail::darker);
  if (palette.size() < colours) {
    palette.note = detail::note_on_fewer(colours, palette.size(), rules, "the stock has only ");
  }
  return palette;
}

}  // namespace handlaid
