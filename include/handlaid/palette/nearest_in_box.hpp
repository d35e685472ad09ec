// Which colours can be nearest to a point of a box: the pruning under both k-means and the search for the nearest
// colour (T. Kanungo and others, "An efficient k-means clustering algorithm", IEEE PAMI 24(7), 2002). Exact, in whole
// numbers.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// Writes to `kept` those of the `count` candidates (ascending indices into `centres`) that are nearest to some point
/// of the box from `low` to `high`, or might be, and returns how many; never 0. Of centres at equal distance the lower
/// index counts as nearer. A centre is out when the corner that suits it best is still nearer to the centre nearest to
/// the box's middle.
template <When = When::called>
std::size_t keep_nearest(const FixedPoint& low, const FixedPoint& high, const std::vector<FixedPoint>& centres,
                         const std::uint16_t* candidates, std::size_t count, std::uint16_t* kept) {
  const int mx = low.x + high.x;
  const int my = low.y + high.y;
  const int mz = low.z + high.z;
  std::int64_t least = std::numeric_limits<std::int64_t>::max();
  std::uint16_t middle = candidates[0];
  for (std::size_t c = 0; c < count; ++c) {
    const FixedPoint& p = centres[candidates[c]];
    const std::int64_t x = 2 * p.x - mx;
    const std::int64_t y = 2 * p.y - my;
    const std::int64_t z = 2 * p.z - mz;
    const std::int64_t d = x * x + y * y + z * z;
    if (d < least) {
      least = d;
      middle = candidates[c];
    }
  }
  const FixedPoint& best = centres[middle];
  std::size_t left = 0;
  for (std::size_t c = 0; c < count; ++c) {
    const FixedPoint& p = centres[candidates[c]];
    // |v - p|^2 - |v - best|^2 at the corner v, without squares of v: (p - best) . (p + best - 2 v).
    const auto part = [](std::int64_t to, std::int64_t from, std::int64_t near, std::int64_t far) {
      return (to - from) * (to + from - 2 * (to > from ? far : near));
    };
    const std::int64_t farther =
        part(p.x, best.x, low.x, high.x) + part(p.y, best.y, low.y, high.y) + part(p.z, best.z, low.z, high.z);
    const bool out = farther > 0 || (farther == 0 && candidates[c] > middle);
    kept[left] = candidates[c];
    left += out ? 0U : 1U;
  }
  return left;
}

}  // namespace handlaid
