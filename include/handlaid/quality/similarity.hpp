// Structural similarity: whether edges and textures are where they were, beside whether colours are near.
// Z. Wang, A. Bovik, H. Sheikh, E. Simoncelli, "Image quality assessment: from error visibility to structural
// similarity", IEEE Transactions on Image Processing 13(4), 2004. To report, not to decide on.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "handlaid/colour/cie.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// Mean structural similarity of two pictures' lightness (0 to 100), 1 for equal ones: windows of 11 x 11 cells under a
/// Gaussian of sigma 1.5, K1 = 0.01, K2 = 0.03. As in the paper, only windows that lie within the picture count; where
/// it is too small for any, windows are cut at its edges. Cells that are not laid have no weight in a window, and no
/// window of their own. Throws Error unless sizes agree.
template <When = When::called>
double similarity(const Raster<LabD65>& one, const Raster<LabD65>& other, const Raster<std::uint8_t>& laid);

namespace detail {

/// The Gaussian of the window, and the five means that the index is made of, weight first.
inline constexpr int window_reach = 5;
using Moments = std::array<double, 6>;

template <When = When::called>
void add_moments(Moments& to, const Moments& from, double weight) {
  for (std::size_t i = 0; i < to.size(); ++i) to[i] += weight * from[i];
}

template <When = When::called>
double similarity_of(const Moments& m) {
  constexpr double c1 = 1;  // (0.01 * 100)^2
  constexpr double c2 = 9;  // (0.03 * 100)^2
  const double x = m[1] / m[0];
  const double y = m[2] / m[0];
  const double xx = m[3] / m[0] - x * x;
  const double yy = m[4] / m[0] - y * y;
  const double xy = m[5] / m[0] - x * y;
  return (2 * x * y + c1) * (2 * xy + c2) / ((x * x + y * y + c1) * (xx + yy + c2));
}

}  // namespace detail

template <When>
double similarity(const Raster<LabD65>& one, const Raster<LabD65>& other, const Raster<std::uint8_t>& laid) {
  const int width = laid.width();
  const int height = laid.height();
  if (one.width() != width || other.width() != width || one.height() != height || other.height() != height) {
    throw Error::bad_input("similarity", "the two differ in size", "compare a chart with its own cells");
  }
  constexpr int reach = detail::window_reach;
  std::array<double, reach + 1> taps{};
  for (int i = 0; i <= reach; ++i) taps[static_cast<std::size_t>(i)] = std::exp(-i * i / (2 * 1.5 * 1.5));
  const auto tap = [&](int i) { return taps[static_cast<std::size_t>(i < 0 ? -i : i)]; };
  const bool cut = std::min(width, height) <= 2 * reach;
  const int margin = cut ? 0 : reach;

  // Down each column first, for one row of windows at a time; then along the row.
  std::vector<detail::Moments> columns(static_cast<std::size_t>(width));
  double sum = 0;
  std::int64_t count = 0;
  for (int y = margin; y < height - margin; ++y) {
    for (int x = 0; x < width; ++x) {
      detail::Moments& column = columns[static_cast<std::size_t>(x)];
      column = {};
      for (int v = std::max(y - reach, 0); v <= std::min(y + reach, height - 1); ++v) {
        if (laid(x, v) == 0) continue;
        const double p = one(x, v).L;
        const double q = other(x, v).L;
        detail::add_moments(column, {1, p, q, p * p, q * q, p * q}, tap(v - y));
      }
    }
    for (int x = margin; x < width - margin; ++x) {
      if (laid(x, y) == 0) continue;
      detail::Moments window{};
      for (int u = std::max(x - reach, 0); u <= std::min(x + reach, width - 1); ++u) {
        detail::add_moments(window, columns[static_cast<std::size_t>(u)], tap(u - x));
      }
      sum += detail::similarity_of(window);
      ++count;
    }
  }
  return count == 0 ? 1 : sum / static_cast<double>(count);
}

}  // namespace handlaid
