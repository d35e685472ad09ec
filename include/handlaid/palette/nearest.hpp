// The nearest colour of a palette, exactly: distances are whole numbers, and the lower number wins a tie.
// `NearestColour` looks one up; for whole rasters a `NearestSearch` remembers, box by box of the colour space, the few
// colours that can be nearest there.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/palette/nearest_in_box.hpp"
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

/// Finds nearest colours for many points, each as `NearestColour::number` would. Not for two threads at once: give each
/// its own. Takes about 1 MB, and pays from some ten thousand points on.
class NearestSearch {
 public:
  /// `points` are the palette's, in the order of the numbers; they must outlive the search.
  explicit NearestSearch(const std::vector<FixedPoint>& points)
      : points_(points), boxes_(side * side * side, 0), all_(points.size()), kept_(points.size()) {
    for (std::size_t i = 0; i < all_.size(); ++i) all_[i] = static_cast<std::uint16_t>(i);
    lists_.push_back({});
  }

  ColourNumber number(const FixedPoint& point) {
    const std::size_t box = (place(point.x) * side + place(point.y)) * side + place(point.z);
    std::uint32_t first = boxes_[box];
    if (first == 0) first = fill(point, box);
    const Candidate* candidate = &lists_[first];
    std::uint16_t nearest = candidate->index;
    if (candidate->left > 0) {
      std::uint32_t least = squared_distance(candidate->point, point);
      for (const Candidate* end = candidate + candidate->left; candidate != end;) {
        ++candidate;
        const std::uint32_t distance = squared_distance(candidate->point, point);
        nearest = distance < least ? candidate->index : nearest;
        least = distance < least ? distance : least;
      }
    }
    return static_cast<ColourNumber>(nearest + 1);
  }

 private:
  /// A colour that can be nearest in a box; the others of the box follow it, `left` of them.
  struct Candidate {
    FixedPoint point = {};
    std::uint16_t index = 0;
    std::uint16_t left = 0;
  };
  static constexpr int box_bits = 9;
  static constexpr std::size_t side = (32768 >> box_bits) + 1;

  static constexpr std::size_t place(std::int16_t axis) { return static_cast<std::size_t>(axis + 16384) >> box_bits; }

  std::uint32_t fill(const FixedPoint& point, std::size_t box) {
    const auto low = [](std::int16_t axis) {
      return static_cast<std::int16_t>((static_cast<int>(place(axis)) << box_bits) - 16384);
    };
    const FixedPoint corner = {low(point.x), low(point.y), low(point.z)};
    constexpr int last = (1 << box_bits) - 1;
    const FixedPoint far = {static_cast<std::int16_t>(corner.x + last), static_cast<std::int16_t>(corner.y + last),
                            static_cast<std::int16_t>(corner.z + last)};
    const std::size_t count = keep_nearest(corner, far, points_, all_.data(), all_.size(), kept_.data());
    const auto first = static_cast<std::uint32_t>(lists_.size());
    for (std::size_t i = 0; i < count; ++i) {
      lists_.push_back({points_[kept_[i]], kept_[i], static_cast<std::uint16_t>(count - 1 - i)});
    }
    boxes_[box] = first;
    return first;
  }

  const std::vector<FixedPoint>& points_;
  std::vector<std::uint32_t> boxes_;
  std::vector<Candidate> lists_;
  std::vector<std::uint16_t> all_;
  std::vector<std::uint16_t> kept_;
};

}  // namespace handlaid
