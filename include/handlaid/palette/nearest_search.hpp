// The nearest colours of many points or of whole rows, exactly: remembers, box by box of the colour space, the few
// colours of the palette that can be nearest there. Rows look at all colours instead where that is faster.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/core/wide.hpp"
#include "handlaid/palette/nearest.hpp"
#include "handlaid/palette/nearest_in_box.hpp"
#include "handlaid/palette/nearest_scan.hpp"

namespace handlaid {

/// Finds nearest colours for many points, each as `NearestColour::number` would. Not for two threads at once: give each
/// its own. Takes about 1 MB, and pays from some thousand points on in rows, ten thousand one by one.
class NearestSearch {
 public:
  /// `points` are the palette's, in the order of the numbers; they must outlive the search.
  template <When = When::called>
  explicit NearestSearch(const std::vector<FixedPoint>& points) : points_(points), kept_(points.size()) {
    if (points.size() > 64) cut_.side = 64;
    const auto share = [&](int axis, std::int16_t FixedPoint::*coordinate) {
      int low = 16384;
      int high = -16384;
      for (const FixedPoint& p : points) {
        low = std::min(low, int{p.*coordinate});
        high = std::max(high, int{p.*coordinate});
      }
      const int margin = (high - low) / 8 + 1;
      cut_.low[axis] = low - margin;
      while ((high - low + 2 * margin) >> cut_.bits[axis] >= cut_.side) ++cut_.bits[axis];
    };
    share(0, &FixedPoint::x);
    share(1, &FixedPoint::y);
    share(2, &FixedPoint::z);
    const auto cube = [](int n) { return static_cast<std::size_t>(n) * static_cast<std::size_t>(n * n); };
    boxes_.resize(cube(cut_.side));
    rooms_.resize(cube(cut_.side / room));
    for (std::size_t i = 0; i < points.size(); ++i) all_.push_back(static_cast<std::uint16_t>(i));
    if (points.size() <= scan_limit()) scanned_ = detail::scan_colours(points);
  }

  ColourNumber number(const FixedPoint& point) { return number_in(point, cut_.box(point.x, point.y, point.z)); }

  /// Writes the number of each of `colours` to `numbers`, which has at least as many places.
  template <MeasuredColour C>
  void number_row(std::span<const C> colours, std::span<ColourNumber> numbers) {
    using detail::ScanPoints;
    ScanPoints row = {};
    const bool scan = !scanned_.empty();
    for (std::size_t first = 0; first < colours.size(); first += ScanPoints::most) {
      const std::size_t count = std::min(ScanPoints::most, colours.size() - first);
      const C* from = colours.data() + first;
      ColourNumber* to = numbers.data() + first;
      detail::run_wide([&row, from, count] {
        for (std::size_t i = 0; i < count; ++i) {
          const FixedPoint p = from[i].fixed();
          row.x[i] = p.x;
          row.y[i] = p.y;
          row.z[i] = p.z;
        }
      });
      if (scan) {
        detail::scan_nearest(row, count, scanned_, to);
      } else {
        number_part(row, count, to);
      }
    }
  }

 private:
  /// Up to how many colours looking at all of them is faster: measured, for 4, 8 and 16 points at a time.
  static std::size_t scan_limit() {
    const int lanes = detail::wide_lanes();
    return lanes == 4 ? 32 : (lanes == 8 ? 400 : 999);
  }

  /// A colour that can be nearest in a box; the others of the box follow it, `left` of them.
  struct Candidate {
    FixedPoint point = {};
    std::uint16_t index = 0;
    std::uint16_t left = 0;
  };
  /// How the space is cut into side x side x side boxes: each axis into parts of 2^bits steps from `low` on; what lies
  /// outside belongs to the parts at the ends.
  struct Cut {
    int side = 32;
    int low[3] = {};
    int bits[3] = {};

    int part(int axis, int value) const {
      const int at = (value - low[axis]) >> bits[axis];
      return std::min(std::max(at, 0), side - 1);
    }
    int box(int x, int y, int z) const { return (part(0, x) * side + part(1, y)) * side + part(2, z); }
    /// Where a part begins; the last ends at `begin(axis, side)`.
    int begin(int axis, int part) const {
      const int step = part == 0 ? -16384 : (part == side ? 16385 : low[axis] + (part << bits[axis]));
      return std::clamp(step, -16384, 16385);
    }
  };

  template <When = When::called>
  void number_part(const detail::ScanPoints& row, std::size_t count, ColourNumber* numbers) {
    std::int32_t box[detail::ScanPoints::most];
    detail::run_wide([&row, &box, count, cut = cut_] {
      for (std::size_t i = 0; i < count; ++i) box[i] = cut.box(row.x[i], row.y[i], row.z[i]);
    });
    for (std::size_t i = 0; i < count; ++i) {
      const auto axis = [](std::int32_t v) { return static_cast<std::int16_t>(v); };
      numbers[i] = number_in({axis(row.x[i]), axis(row.y[i]), axis(row.z[i])}, box[i]);
    }
  }

  template <When = When::called>
  ColourNumber number_in(const FixedPoint& point, int box) {
    std::uint32_t found = boxes_[static_cast<std::size_t>(box)];
    if (found == 0) found = fill(box);
    if (found < several) return static_cast<ColourNumber>(found);
    const Candidate* candidate = &lists_[found - several];
    std::uint16_t nearest = candidate->index;
    std::uint32_t least = squared_distance(candidate->point, point);
    for (const Candidate* end = candidate + candidate->left; candidate != end;) {
      ++candidate;
      const std::uint32_t distance = squared_distance(candidate->point, point);
      nearest = distance < least ? candidate->index : nearest;
      least = distance < least ? distance : least;
    }
    return static_cast<ColourNumber>(nearest + 1);
  }

  /// Keeps in `kept_` what can be nearest in a cube of `width` boxes, and returns how many.
  template <When = When::called>
  std::size_t keep(const std::array<int, 3>& first, int width, const std::vector<std::uint16_t>& candidates) {
    const auto corner = [&](int add, int less) {
      const auto axis = [&](int a) {
        return static_cast<std::int16_t>(cut_.begin(a, first[static_cast<std::size_t>(a)] + add) - less);
      };
      return FixedPoint{axis(0), axis(1), axis(2)};
    };
    return keep_nearest(corner(0, 0), corner(width, 1), points_, candidates.data(), candidates.size(), kept_.data());
  }

  template <When = When::called>
  std::uint32_t fill(int box) {
    const int side = cut_.side;
    const std::array<int, 3> at = {box / (side * side), box / side % side, box % side};
    const std::array<int, 3> from = {at[0] / room, at[1] / room, at[2] / room};
    auto& in_room = rooms_[static_cast<std::size_t>((from[0] * (side / room) + from[1]) * (side / room) + from[2])];
    if (in_room.empty()) {
      const std::size_t count = keep({from[0] * room, from[1] * room, from[2] * room}, room, all_);
      in_room.assign(kept_.begin(), kept_.begin() + static_cast<std::ptrdiff_t>(count));
    }
    const std::size_t count = keep(at, 1, in_room);
    auto found = static_cast<std::uint32_t>(kept_[0]) + 1U;
    if (count > 1) {
      found = several + static_cast<std::uint32_t>(lists_.size());
      for (std::size_t i = 0; i < count; ++i) {
        lists_.push_back({points_[kept_[i]], kept_[i], static_cast<std::uint16_t>(count - 1 - i)});
      }
    }
    boxes_[static_cast<std::size_t>(box)] = found;
    return found;
  }

  const std::vector<FixedPoint>& points_;
  Cut cut_ = {};
  /// A room holds room x room x room boxes, which look only at what can be nearest in it.
  static constexpr int room = 4;
  /// 0 for a box not yet met; the number of the only colour that can be nearest; or `several` and a place in `lists_`.
  static constexpr std::uint32_t several = 1U << 16U;
  std::vector<std::uint32_t> boxes_;
  std::vector<Candidate> lists_;
  std::vector<std::vector<std::uint16_t>> rooms_;
  std::vector<std::uint16_t> all_;
  std::vector<std::uint16_t> kept_;
  /// What rows are scanned for; empty when boxes are faster.
  std::vector<detail::ScanColour> scanned_;
};

}  // namespace handlaid
