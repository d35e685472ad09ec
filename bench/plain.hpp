// The loops that anyone would write, built with the same flags as the library: what its fast paths are measured
// against.
#pragma once

#include <cstdint>
#include <vector>

#include "handlaid/colour/oklab.hpp"

namespace handlaid_bench {

/// The index of the nearest colour for each point, by looking at all of them.
inline void plain_nearest(const std::vector<handlaid::Oklab>& points, const std::vector<handlaid::Oklab>& colours,
                          std::vector<std::uint16_t>& indices) {
  indices.resize(points.size());
  for (std::size_t i = 0; i < points.size(); ++i) {
    float least = 1e9F;
    std::size_t nearest = 0;
    for (std::size_t c = 0; c < colours.size(); ++c) {
      const float l = points[i].L - colours[c].L;
      const float a = points[i].a - colours[c].a;
      const float b = points[i].b - colours[c].b;
      const float distance = l * l + a * a + b * b;
      if (distance < least) {
        least = distance;
        nearest = c;
      }
    }
    indices[i] = static_cast<std::uint16_t>(nearest);
  }
}

}  // namespace handlaid_bench
