// The direction in which a cloud of colours is longest, in whole numbers, so that it is the same in every build.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>

#include "handlaid/core/when_called.hpp"

namespace handlaid::detail {

/// The longest axis of a cloud of points, in whole numbers: a power iteration on its second moments.
struct LongestAxis {
  std::array<std::int64_t, 6> moments = {};  // xx, xy, xz, yy, yz, zz; sums of weight times product

  template <When = When::called>
  void add(std::uint64_t weight, std::int64_t x, std::int64_t y, std::int64_t z) {
    const auto w = static_cast<std::int64_t>(weight);
    moments[0] += w * x * x;
    moments[1] += w * x * y;
    moments[2] += w * x * z;
    moments[3] += w * y * y;
    moments[4] += w * y * z;
    moments[5] += w * z * z;
  }

  /// A vector along the axis, of length about 1,000; zero where all points are one.
  template <When = When::called>
  std::array<std::int64_t, 3> direction() const {
    std::int64_t most = 0;
    for (const std::int64_t m : moments) most = std::max(most, m < 0 ? -m : m);
    if (most == 0) return {0, 0, 0};
    int shift = 0;
    while ((most >> shift) >= (std::int64_t{1} << 30)) ++shift;
    std::array<std::int64_t, 6> m = {};
    for (std::size_t i = 0; i < 6; ++i) m[i] = moments[i] >> shift;
    // Start along the longest coordinate, so that no start is ever orthogonal to the axis by symmetry alone.
    std::array<std::int64_t, 3> v = {m[0] >= m[3] && m[0] >= m[5] ? 1024 : 1, m[3] > m[0] && m[3] >= m[5] ? 1024 : 2,
                                     m[5] > m[0] && m[5] > m[3] ? 1024 : 3};
    for (int i = 0; i < 12; ++i) {
      const std::array<std::int64_t, 3> next = {m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
                                                m[1] * v[0] + m[3] * v[1] + m[4] * v[2],
                                                m[2] * v[0] + m[4] * v[1] + m[5] * v[2]};
      std::int64_t length = 0;
      for (const std::int64_t n : next) length = std::max(length, n < 0 ? -n : n);
      if (length == 0) return v;
      int down = 0;
      while ((length >> down) >= 2048) ++down;
      for (std::size_t a = 0; a < 3; ++a) v[a] = next[a] >> down;
    }
    return v;
  }
};

}  // namespace handlaid::detail
