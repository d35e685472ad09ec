// The nearest colour by CIEDE2000 instead of Oklab, exactly: for palettes that are judged by that formula. It stands
// with the formula in whole steps, which makes it the same in every build.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/quality/whole_difference.hpp"

namespace handlaid {

/// Finds the colour of a palette with the least `whole_ciede2000`, of equals the lower number. Most colours are ruled
/// out by their lightness alone: the difference is at least |L1 - L2| / S_L (Sharma, Wu, Dalal 2005: the other terms
/// cannot become negative, as the rotation is between -2 and 2), and S_L is at most 1 + 0.015 |(L1 + L2) / 2 - 50|.
/// Throws Error when the palette is empty or has more than 999 colours.
class NearestByDifference {
 public:
  explicit NearestByDifference(const Palette& palette) {
    if (palette.entries.empty()) throw Error::bad_input("palette", "it has no colours", "give at least one");
    check_colours(palette.size(), "palette");
    for (const PaletteEntry& entry : palette.entries) {
      colours_.push_back({convert_colour<LabD65>(entry.colour), static_cast<ColourNumber>(colours_.size() + 1)});
    }
    std::stable_sort(colours_.begin(), colours_.end(),
                     [](const Numbered& p, const Numbered& q) { return p.lab.L < q.lab.L; });
  }

  template <When = When::called>
  ColourNumber number(const LabD65& colour) const {
    // From the colour of like lightness outwards, on the side where lightness is nearer.
    auto above = static_cast<std::size_t>(
        std::lower_bound(colours_.begin(), colours_.end(), colour.L,
                         [](const Numbered& p, float lightness) { return p.lab.L < lightness; }) -
        colours_.begin());
    std::size_t below = above;
    std::int64_t least = INT64_MAX;
    ColourNumber nearest = 0;
    while (below > 0 || above < colours_.size()) {
      const std::int64_t down = below > 0 ? least_difference(colour, colours_[below - 1].lab) : INT64_MAX;
      const std::int64_t up = above < colours_.size() ? least_difference(colour, colours_[above].lab) : INT64_MAX;
      if (std::min(down, up) > least) break;  // and so are all beyond
      const Numbered& next = down < up ? colours_[--below] : colours_[above++];
      const std::int64_t difference = whole_ciede2000(colour, next.lab);
      if (difference < least || (difference == least && next.number < nearest)) {
        least = difference;
        nearest = next.number;
      }
    }
    return nearest;
  }

 private:
  struct Numbered {
    LabD65 lab = {};
    ColourNumber number = 0;
  };

  /// What two lightnesses alone make, less what rounding may take away. Grows with their distance: one unit further
  /// moves the middle by half a unit only.
  static std::int64_t least_difference(const LabD65& p, const LabD65& q) {
    const double apart = std::abs(static_cast<double>(p.L) - static_cast<double>(q.L));
    const double middle = std::abs((static_cast<double>(p.L) + static_cast<double>(q.L)) / 2 - 50);
    return static_cast<std::int64_t>(apart / (1 + 0.015 * middle) * static_cast<double>(difference_steps)) - 16;
  }

  std::vector<Numbered> colours_;
};

/// Places the nearest colour by CIEDE2000. A ditherer, as `NoDither` is for the distance of the cells' own space.
struct PlaceByDifference {
  template <AnyCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const {
    const NearestByDifference nearest(palette);
    Raster<ColourNumber> numbers(cells.columns(), cells.rows());
    for_each_band(cells.rows(), work, [&](int first, int end) {
      for (int y = first; y < end; ++y) {
        for (int x = 0; x < cells.columns(); ++x) {
          if (cells.laid(x, y) != 0) numbers(x, y) = nearest.number(convert_colour<LabD65>(cells.colours(x, y)));
        }
      }
    });
    return numbers;
  }
};

}  // namespace handlaid
