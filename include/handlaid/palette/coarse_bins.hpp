// A histogram with fewer bins: colours that lie close together are joined at their mean. Searches run on it many times
// as fast and end nearly at the same palette.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/colour_tree.hpp"
#include "handlaid/palette/histogram.hpp"

namespace handlaid {

/// Joins the bins of each box of 2^`bits` steps a side. `bins` ascend, as in a histogram. Weights and, but for
/// rounding, means stay. Boxes follow in the order of their first bin.
template <When = When::called>
std::vector<Bin> coarse_bins(const std::vector<Bin>& bins, int bits) {
  if (bins.empty()) return {};
  std::int16_t low_y = bins[0].point.y, low_z = bins[0].point.z;
  std::int16_t high_y = low_y, high_z = low_z;
  for (const Bin& bin : bins) {
    low_y = std::min(low_y, bin.point.y);
    high_y = std::max(high_y, bin.point.y);
    low_z = std::min(low_z, bin.point.z);
    high_z = std::max(high_z, bin.point.z);
  }
  const auto place = [bits](int v, int start) { return static_cast<std::size_t>((v - start) >> bits); };
  const std::size_t deep = place(high_z, low_z) + 1;
  // The boxes of one slab along x: bins of a slab follow each other. An entry before the slab's first box is stale.
  std::vector<std::uint32_t> boxes((place(high_y, low_y) + 1) * deep, 0);
  std::vector<Share> shares;
  std::size_t slab = 0;
  std::size_t first = 0;
  for (const Bin& bin : bins) {
    const FixedPoint& p = bin.point;
    const std::size_t here = place(p.x, bins[0].point.x);
    if (here != slab) {
      slab = here;
      first = shares.size();
    }
    std::uint32_t& box = boxes[place(p.y, low_y) * deep + place(p.z, low_z)];
    if (box <= first) {  // counted from 1
      shares.emplace_back();
      box = static_cast<std::uint32_t>(shares.size());
    }
    shares[box - 1].add(bin);
  }
  std::vector<Bin> joined;
  joined.reserve(shares.size());
  for (const Share& share : shares) joined.push_back({share.mean(), share.weight});
  return joined;
}

}  // namespace handlaid
