// The frame of every fitter that finds colours: what is locked stays out of the search, and what the search finds
// becomes a palette of exactly as many colours as asked for, or of fewer with a note that says why.
#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/keep_rules.hpp"
#include "handlaid/palette/rules.hpp"

namespace handlaid {

/// Calls `search(bins, fixed, wanted)` for up to `wanted` centres beside the `fixed` ones; bins that an exact-only
/// colour serves are left out. The centres are rounded to sRGB codes, brought to keep the rules, and numbered from dark
/// to light after the locked ones. `name` is the fitter's, for messages.
/// Throws Error when `colours` is not in 1 to 999, the histogram is empty, or the rules contradict each other.
template <MeasuredColour C, class Search>
Palette fit_by_rules(const Histogram<C>& histogram, int colours, const PaletteRules& rules, const std::string& name,
                     Search&& search);

namespace detail {

/// Dark to light; colours of one lightness in the order of their codes.
inline bool darker(const PaletteEntry& p, const PaletteEntry& q) {
  const int l = convert_colour<Oklab>(p.colour).fixed().x;
  const int m = convert_colour<Oklab>(q.colour).fixed().x;
  return l != m ? l < m : p.colour < q.colour;
}

inline bool contains(const std::vector<PaletteEntry>& entries, const Srgb8& colour) {
  return std::any_of(entries.begin(), entries.end(), [&](const PaletteEntry& e) { return e.colour == colour; });
}

/// The locked colours as they enter a palette.
template <When = When::called>
std::vector<PaletteEntry> locked_entries(const PaletteRules& rules) {
  std::vector<PaletteEntry> entries = rules.locked;
  for (PaletteEntry& entry : entries) {
    if (entry.lock == Lock::none) entry.lock = Lock::used;
  }
  return entries;
}

/// The bins of all other colours.
template <When = When::called>
std::vector<Bin> bins_without(const std::vector<Bin>& bins, const std::vector<FixedPoint>& points) {
  std::vector<Bin> others;
  for (const Bin& bin : bins) {
    if (std::find(points.begin(), points.end(), bin.point) == points.end()) others.push_back(bin);
  }
  return others;
}

/// Why there are fewer colours than asked for.
template <When = When::called>
std::string note_on_fewer(int colours, int found, const PaletteRules& rules, const std::string& has) {
  std::string note = "Asked for " + std::to_string(colours) + " colours; ";
  const std::string count = std::to_string(found);
  if (rules.least_distance > 0 || !rules.forbidden.empty() || rules.least_weight > 0) {
    note += count + " were found that keep to the rules";
    if (rules.least_distance > 0) note += ", each far enough from the others";
    if (rules.least_weight > 0) note += ", none too rare";
    if (!rules.forbidden.empty()) note += ", none like a forbidden one";
    return note + ".";
  }
  return note + has + count + (rules.locked.empty() ? "." : " with the locked ones.");
}

/// Where rounding made two centres the same, the worst-served colour takes the place, until there are as many as wanted
/// or the bins have no more.
template <MeasuredColour C>
void fill_up(const std::vector<Bin>& bins, std::size_t wanted, std::vector<PaletteEntry>& entries) {
  if (entries.size() >= wanted) return;
  std::vector<std::uint32_t> distance(bins.size(), UINT32_MAX);
  const auto serve = [&](const Srgb8& colour) {
    const FixedPoint point = convert_colour<C>(colour).fixed();
    for (std::size_t i = 0; i < bins.size(); ++i) {
      distance[i] = std::min(distance[i], squared_distance(point, bins[i].point));
    }
  };
  for (const PaletteEntry& entry : entries) {
    if (entry.lock != Lock::exact_only) serve(entry.colour);
  }
  while (entries.size() < wanted) {
    std::size_t worst = bins.size();
    for (std::size_t i = 0; i < bins.size(); ++i) {
      if (distance[i] == 0 || (worst < bins.size() && distance[i] <= distance[worst])) continue;
      if (!contains(entries, convert_colour<Srgb8>(C::from_fixed(bins[i].point)))) worst = i;
    }
    if (worst == bins.size()) break;
    entries.push_back({.colour = convert_colour<Srgb8>(C::from_fixed(bins[worst].point))});
    serve(entries.back().colour);
  }
}

}  // namespace detail

template <MeasuredColour C, class Search>
Palette fit_by_rules(const Histogram<C>& histogram, int colours, const PaletteRules& rules, const std::string& name,
                     Search&& search) {
  check_rules(colours, rules);
  if (histogram.bins.empty()) throw Error::bad_input(name, "there are no colours to fit", "lay some cells");
  Palette palette = {.entries = detail::locked_entries(rules)};
  std::vector<FixedPoint> fixed;
  std::vector<FixedPoint> exact;
  for (const PaletteEntry& entry : palette.entries) {
    (entry.lock == Lock::exact_only ? exact : fixed).push_back(convert_colour<C>(entry.colour).fixed());
  }
  const std::vector<Bin> bins = detail::bins_without(histogram.bins, exact);
  const std::size_t locked = palette.entries.size();
  const std::size_t wanted = static_cast<std::size_t>(colours) - locked;
  if (wanted > 0 && !bins.empty()) {
    std::vector<FixedPoint> centres = search(bins, std::as_const(fixed), wanted);
    const detail::Spacing spacing = detail::spacing_of<C>(rules);
    const bool ruled = spacing.binds() || rules.least_weight > 0;
    if (ruled) {
      detail::RuledSearch<C> keep(bins, fixed, spacing, rules.least_weight);
      centres = keep.settle(centres, wanted);
    }
    for (const FixedPoint& centre : centres) {
      const auto colour = convert_colour<Srgb8>(C::from_fixed(centre));
      if (palette.size() < colours && !detail::contains(palette.entries, colour)) {
        palette.entries.push_back({.colour = colour});
      }
    }
    if (!ruled) detail::fill_up<C>(bins, static_cast<std::size_t>(colours), palette.entries);
  }
  std::sort(palette.entries.begin() + static_cast<std::ptrdiff_t>(locked), palette.entries.end(), detail::darker);
  if (palette.size() < colours)
    palette.note = detail::note_on_fewer(colours, palette.size(), rules, "the picture has only ");
  return palette;
}

}  // namespace handlaid
