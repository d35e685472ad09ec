// One round of k-means by comparing every bin with every centre, several bins at a time: where registers are wide this
// is faster than a tree of boxes, whose branches cannot be guessed. The result is the same.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/core/wide.hpp"
#include "handlaid/palette/colour_tree.hpp"
#include "handlaid/palette/nearest_scan.hpp"

namespace handlaid::detail {

/// Bins, laid out for scans. Their weights together stay below 2^31, as in a tree.
class BinScan {
 public:
  template <When = When::called>
  explicit BinScan(const std::vector<Bin>& bins) : parts_((bins.size() + ScanPoints::most - 1) / ScanPoints::most) {
    sums_.reserve(bins.size());
    for (std::size_t i = 0; i < bins.size(); ++i) {
      ScanPoints& part = parts_[i / ScanPoints::most];
      const FixedPoint& p = bins[i].point;
      part.x[i % ScanPoints::most] = p.x;
      part.y[i % ScanPoints::most] = p.y;
      part.z[i % ScanPoints::most] = p.z;
      const auto w = static_cast<std::int64_t>(bins[i].weight);
      sums_.push_back({w, w * p.x, w * p.y, w * p.z});
      squares_ += bins[i].weight * squared_distance(p, {});
    }
  }

  /// From how many centres on scans are faster: measured, for 4, 8 and 16 bins at a time.
  static std::size_t least_centres() {
    const int lanes = wide_lanes();
    return lanes == 4 ? 1000 : (lanes == 8 ? 12 : 4);
  }

  /// What each centre serves, every bin by its nearest centre (of equals the first), but for the squares: those of all
  /// bins together are `squares()`.
  template <When = When::called>
  void share(const std::vector<FixedPoint>& centres, std::vector<Share>& shares) const {
    const std::vector<ScanColour> colours = scan_colours(centres);
    std::vector<Sums> served(centres.size());
    ColourNumber numbers[ScanPoints::most];
    for (std::size_t first = 0; first < sums_.size(); first += ScanPoints::most) {
      const std::size_t count = std::min(ScanPoints::most, sums_.size() - first);
      scan_nearest(parts_[first / ScanPoints::most], count, colours, numbers);
      for (std::size_t i = 0; i < count; ++i) {
        Sums& sums = served[static_cast<std::size_t>(numbers[i] - 1)];
        for (std::size_t axis = 0; axis < 4; ++axis) sums[axis] += sums_[first + i][axis];
      }
    }
    shares.clear();
    for (const Sums& sums : served) {
      shares.push_back({.weight = static_cast<std::uint64_t>(sums[0]), .x = sums[1], .y = sums[2], .z = sums[3]});
    }
  }

  std::uint64_t squares() const { return squares_; }

 private:
  /// Weight, and weighted sums of the three coordinates.
  using Sums = std::array<std::int64_t, 4>;
  std::vector<ScanPoints> parts_;
  std::vector<Sums> sums_ = {};
  std::uint64_t squares_ = 0;
};

}  // namespace handlaid::detail
