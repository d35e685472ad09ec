// The nearest colours of whole rows by looking at every colour, several points at a time: no table to fill and no
// branch to guess, so that it is the fastest way up to some hundreds of colours where registers are wide.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/core/wide.hpp"
#include "handlaid/palette/nearest.hpp"

namespace handlaid::detail {

/// Points that are in work at a time, each axis by itself: few enough to stay in the nearest memory.
struct ScanPoints {
  static constexpr std::size_t most = 256;
  std::int32_t x[most];
  std::int32_t y[most];
  std::int32_t z[most];
};

/// A colour as a scan takes it. Of |c - p|^2 it leaves out |p|^2, which is the same for all colours: `start` is
/// |c|^2 + 3 * 2^28 - 2^31, and with -2 c . p added the whole lies between -2^31 and 2^31, because no coordinate is
/// beyond +-2^14. Held without a sign, so that what overflows on the way there does so by the rules.
struct ScanColour {
  std::uint32_t x, y, z, start;
};

/// Colours that one pass over the points looks at; a multiple of it is scanned, with the last colour repeated.
inline constexpr std::size_t scan_pass = 4;

template <When = When::called>
std::vector<ScanColour> scan_colours(const std::vector<FixedPoint>& points) {
  std::vector<ScanColour> colours;
  colours.reserve(points.size() + scan_pass - 1);
  for (const FixedPoint& p : points) {
    const auto axis = [](int v) { return static_cast<std::uint32_t>(-2 * v); };
    colours.push_back({axis(p.x), axis(p.y), axis(p.z),
                       squared_distance(p, {}) + (std::uint32_t{3} << 28U) - (std::uint32_t{1} << 31U)});
  }
  while (colours.size() % scan_pass != 0) colours.push_back(colours[colours.size() - 1]);
  return colours;
}

/// Writes to `numbers` those of the first `count` points; at equal distance the lower number wins.
template <When = When::called>
void scan_nearest(const ScanPoints& points, std::size_t count, const std::vector<ScanColour>& colours,
                  ColourNumber* numbers) {
  run_wide([&points, count, from = colours.data(), end = colours.size(), numbers] {
    constexpr std::size_t block = 64;
    std::int32_t least[block];
    std::int32_t nearest[block];
    for (std::size_t first = 0; first < count; first += block) {
      const std::int32_t* const xs = points.x + first;
      const std::int32_t* const ys = points.y + first;
      const std::int32_t* const zs = points.z + first;
      for (std::size_t i = 0; i < block; ++i) least[i] = std::numeric_limits<std::int32_t>::max();
      for (std::size_t i = 0; i < block; ++i) nearest[i] = 1;
      for (std::size_t c = 0; c < end; c += scan_pass) {
        const ScanColour one = from[c];
        const ScanColour two = from[c + 1];
        const ScanColour three = from[c + 2];
        const ScanColour four = from[c + 3];
        const auto number = static_cast<std::int32_t>(c + 1);
        for (std::size_t i = 0; i < block; ++i) {
          const auto x = static_cast<std::uint32_t>(xs[i]);
          const auto y = static_cast<std::uint32_t>(ys[i]);
          const auto z = static_cast<std::uint32_t>(zs[i]);
          std::int32_t a = least[i];
          std::int32_t n = nearest[i];
          const auto look = [&](const ScanColour& colour, std::int32_t its) {
            const auto far = static_cast<std::int32_t>(colour.start + colour.x * x + colour.y * y + colour.z * z);
            n = far < a ? its : n;
            a = far < a ? far : a;
          };
          look(one, number);
          look(two, number + 1);
          look(three, number + 2);
          look(four, number + 3);
          least[i] = a;
          nearest[i] = n;
        }
      }
      const std::size_t left = std::min(block, count - first);
      for (std::size_t i = 0; i < left; ++i) numbers[first + i] = static_cast<ColourNumber>(nearest[i]);
    }
  });
}

}  // namespace handlaid::detail
