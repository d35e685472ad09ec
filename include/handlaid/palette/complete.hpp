// The last step of every fitter: from the centres that it found to a palette of exactly as many colours as asked for.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// Throws Error unless `colours` is 1 to 999 and `locked` fits into it without one colour twice.
inline void check_locked(int colours, const std::vector<PaletteEntry>& locked) {
  check_colours(colours);
  if (static_cast<int>(locked.size()) > colours) {
    throw Error::bad_option(
        "lock",
        std::to_string(locked.size()) + " colours are locked, but only " + std::to_string(colours) + " are asked for",
        "lock fewer, or ask for more colours");
  }
  for (std::size_t i = 0; i < locked.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (locked[i].colour == locked[j].colour) {
        throw Error::bad_option("lock",
                                "colours " + std::to_string(j + 1) + " and " + std::to_string(i + 1) + " are the same",
                                "lock a colour once");
      }
    }
  }
}

namespace detail {

/// Dark to light; colours of one lightness in the order of their codes.
inline bool darker(const PaletteEntry& p, const PaletteEntry& q) {
  const int l = convert_colour<Oklab>(p.colour).fixed().x;
  const int m = convert_colour<Oklab>(q.colour).fixed().x;
  return l != m ? l < m : p.colour < q.colour;
}

inline bool contains(const Palette& palette, const Srgb8& colour) {
  return std::any_of(palette.entries.begin(), palette.entries.end(),
                     [&](const PaletteEntry& entry) { return entry.colour == colour; });
}

}  // namespace detail

/// Locked colours keep the first numbers; then the centres follow, rounded to sRGB codes, from dark to light. Where
/// rounding made two the same, the histogram's worst-served colour takes the place, until there are `colours` of them
/// or the histogram has no more; then `note` says so.
template <MeasuredColour C>
Palette complete_palette(const std::vector<FixedPoint>& centres, const std::vector<PaletteEntry>& locked, int colours,
                         const Histogram<C>& histogram) {
  Palette palette;
  palette.entries = locked;
  for (PaletteEntry& entry : palette.entries) entry.locked = true;
  const auto add = [&](const Srgb8& colour) {
    if (palette.size() < colours && !detail::contains(palette, colour)) palette.entries.push_back({.colour = colour});
  };
  for (const FixedPoint& centre : centres) add(convert_colour<Srgb8>(C::from_fixed(centre)));

  // Distance of each bin to the palette so far, kept up to date while colours are added.
  std::vector<std::uint32_t> distance;
  const auto serve = [&](const Srgb8& colour) {
    const FixedPoint point = convert_colour<C>(colour).fixed();
    for (std::size_t i = 0; i < histogram.bins.size(); ++i) {
      distance[i] = std::min(distance[i], squared_distance(point, histogram.bins[i].point));
    }
  };
  if (palette.size() < colours) {
    distance.assign(histogram.bins.size(), UINT32_MAX);
    for (const PaletteEntry& entry : palette.entries) serve(entry.colour);
  }
  while (palette.size() < colours) {
    std::size_t worst = histogram.bins.size();
    for (std::size_t i = 0; i < histogram.bins.size(); ++i) {
      if (distance[i] == 0 || (worst < histogram.bins.size() && distance[i] <= distance[worst])) continue;
      if (!detail::contains(palette, convert_colour<Srgb8>(C::from_fixed(histogram.bins[i].point)))) worst = i;
    }
    if (worst == histogram.bins.size()) break;
    add(convert_colour<Srgb8>(C::from_fixed(histogram.bins[worst].point)));
    serve(palette.entries.back().colour);
  }
  std::sort(palette.entries.begin() + static_cast<std::ptrdiff_t>(locked.size()), palette.entries.end(),
            detail::darker);
  if (palette.size() < colours) {
    palette.note = "Asked for " + std::to_string(colours) + " colours; the picture has only " +
                   std::to_string(palette.size()) + (locked.empty() ? "." : " with the locked ones.");
  }
  return palette;
}

}  // namespace handlaid
