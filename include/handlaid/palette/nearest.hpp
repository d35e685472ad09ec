// The nearest colour of a palette, exactly: distances are whole numbers, and the lower number wins a tie.
// `NearestColour` looks one up; for whole rasters see nearest_search.hpp.
#pragma once

#include <cstdint>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// A palette prepared for searching in the space `C`.
template <MeasuredColour C>
class NearestColour {
 public:
  /// Throws Error when the palette is empty or has more than 999 colours.
  explicit NearestColour(const Palette& palette) {
    if (palette.entries.empty()) {
      throw Error::bad_option("palette", "it has no colours", "give at least one");
    }
    check_colours(palette.size(), "palette");
    points_.reserve(palette.entries.size());
    for (const PaletteEntry& entry : palette.entries) {
      points_.push_back(convert_colour<C>(entry.colour).fixed());
    }
  }

  /// The number of the nearest colour, from 1, by looking at all of them.
  ColourNumber number(const FixedPoint& point) const {
    std::uint32_t least = squared_distance(point, points_[0]);
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < points_.size(); ++i) {
      const std::uint32_t distance = squared_distance(point, points_[i]);
      if (distance < least) {
        least = distance;
        nearest = i;
      }
    }
    return static_cast<ColourNumber>(nearest + 1);
  }
  ColourNumber number(const C& colour) const { return number(colour.fixed()); }

  /// The point of a number from 1.
  const FixedPoint& point(ColourNumber number) const { return points_[number - std::size_t{1}]; }
  const std::vector<FixedPoint>& points() const { return points_; }

 private:
  std::vector<FixedPoint> points_;
};

}  // namespace handlaid
