// How far two palettes are apart, and how much a palette changes when the picture hardly does.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/convert.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/core/work.hpp"
#include "handlaid/palette/fitter.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/quality/whole_difference.hpp"

namespace handlaid {

/// The modified Hausdorff distance (M.-P. Dubuisson, A. Jain, "A modified Hausdorff distance for object matching",
/// ICPR 1994) in CIEDE2000: each colour's difference to the nearest one of the other palette, averaged over a palette;
/// of both ways the larger. Names, numbers and order do not matter; palettes may differ in size.
/// Throws Error where one of them is empty.
template <When = When::called>
double palette_distance(const Palette& one, const Palette& other) {
  if (one.entries.empty() || other.entries.empty()) {
    throw Error::bad_option("palette", "it has no colours", "give at least one");
  }
  const auto colours = [](const Palette& palette) {
    std::vector<LabD65> all;
    for (const PaletteEntry& entry : palette.entries) all.push_back(convert_colour<LabD65>(entry.colour));
    return all;
  };
  const auto directed = [](const std::vector<LabD65>& from, const std::vector<LabD65>& to) {
    std::int64_t sum = 0;
    for (const LabD65& colour : from) {
      std::int64_t least = INT64_MAX;
      for (const LabD65& near : to) least = std::min(least, whole_ciede2000(colour, near));
      sum += least;
    }
    return static_cast<double>(sum) / static_cast<double>(difference_steps) / static_cast<double>(from.size());
  };
  const std::vector<LabD65> p = colours(one);
  const std::vector<LabD65> q = colours(other);
  return std::max(directed(p, q), directed(q, p));
}

/// A picture's cells after a change that should not matter.
enum class CellsChange {
  none,
  cropped,  ///< a hundredth less at each edge
  halved,   ///< half as many columns and rows
  doubled   ///< twice as many
};

/// Palette distances to the palette of the picture as it is.
struct Stability {
  double one_colour_fewer = 0;
  double one_colour_more = 0;
  double cropped = 0;
  double halved = 0;
  double doubled = 0;

  double mean() const { return (one_colour_fewer + one_colour_more + cropped + halved + doubled) / 5; }
};

/// Fits a palette to the cells again and again: with one colour fewer and more, and after each change of the picture.
/// `fitter_of(colours)` makes the fitter, `cells_of(CellsChange)` the cells. What cannot be asked of the fitter, such
/// as no colour at all, counts as 0: give `least` and `most`, the numbers of colours that it can find.
template <class FitterOf, class CellsOf>
Stability palette_stability(int colours, const FitterOf& fitter_of, const CellsOf& cells_of, const Work& work = {},
                            int least = 1, int most = most_colours) {
  const auto fit = [&](int count, const auto& histogram) { return fit_palette(fitter_of(count), histogram, work); };
  const auto histogram = count_colours(cells_of(CellsChange::none));
  const Palette palette = fit(colours, histogram);
  const auto changed = [&](CellsChange change) {
    return palette_distance(palette, fit(colours, count_colours(cells_of(change))));
  };
  return {.one_colour_fewer = colours > least ? palette_distance(palette, fit(colours - 1, histogram)) : 0,
          .one_colour_more = colours < most ? palette_distance(palette, fit(colours + 1, histogram)) : 0,
          .cropped = changed(CellsChange::cropped),
          .halved = changed(CellsChange::halved),
          .doubled = changed(CellsChange::doubled)};
}

}  // namespace handlaid
