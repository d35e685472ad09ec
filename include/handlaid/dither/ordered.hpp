// Ordered dithering: a fixed pattern of thresholds decides between two colours that mix to the wanted one.
// B. Bayer, "An optimum method for two-level rendition of continuous-tone pictures", ICC 1973.
#pragma once

#include <array>
#include <cstdint>

#include "handlaid/dither/ditherer.hpp"

namespace handlaid {

/// Bayer's matrix of 2^n by 2^n ranks, 0 to 4^n - 1, by his recursion.
template <std::size_t Side>
constexpr std::array<std::array<int, Side>, Side> bayer_matrix() {
  std::array<std::array<int, Side>, Side> matrix = {};
  for (std::size_t y = 0; y < Side; ++y) {
    for (std::size_t x = 0; x < Side; ++x) {
      int rank = 0;
      int scale = static_cast<int>(Side * Side) / 4;
      for (std::size_t bit = 1; bit < Side; bit *= 2, scale /= 4) {
        const bool right = (x & bit) != 0;
        const bool down = (y & bit) != 0;
        rank += scale * (down ? (right ? 1 : 3) : (right ? 2 : 0));
      }
      matrix[y][x] = rank;
    }
  }
  return matrix;
}

/// Places a palette by Bayer's 8 x 8 pattern: of the nearest colour and the one that mixes best with it, the threshold
/// of the place picks one, in proportion to the light that is wanted. Cells on a flat ground repeat every 8 cells.
/// Throws Error when `strength` is not within 0 to 1.
struct BayerDither {
  /// 0 is no dithering, 1 mixes fully.
  double strength = 1;

  template <MeasuredCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const;
};

namespace detail {

struct Difference {
  std::int64_t x, y, z;
  constexpr std::int64_t dot(const Difference& other) const { return x * other.x + y * other.y + z * other.z; }
};
constexpr Difference difference(const FixedPoint& p, const FixedPoint& q) { return {q.x - p.x, q.y - p.y, q.z - p.z}; }
constexpr Difference difference(const Light& p, const Light& q) { return {q.r - p.r, q.g - p.g, q.b - p.b}; }

/// The number whose segment to `from` passes nearest to `point`, or `from` if none leads towards it.
inline ColourNumber mixing_partner(const std::vector<FixedPoint>& points, ColourNumber from, const FixedPoint& point) {
  const FixedPoint& start = points[from - std::size_t{1}];
  const Difference wanted = difference(start, point);
  ColourNumber partner = from;
  std::int64_t least = wanted.dot(wanted);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Difference along = difference(start, points[i]);
    const std::int64_t length = along.dot(along);
    const std::int64_t part = along.dot(wanted);
    if (length == 0 || part <= 0) continue;
    const std::int64_t rest = wanted.dot(wanted) - part * part / length;
    if (rest < least) {
      least = rest;
      partner = static_cast<ColourNumber>(i + 1);
    }
  }
  return partner;
}

}  // namespace detail

template <MeasuredCells T>
Raster<ColourNumber> BayerDither::operator()(const T& cells, const Palette& palette, const Work& work) const {
  using C = typename T::colour_type;
  if (!(strength >= 0 && strength <= 1)) {
    throw Error::out_of_range("dither strength", std::to_string(strength), "0 to 1");
  }
  static constexpr auto ranks = bayer_matrix<8>();
  constexpr std::int64_t strength_steps = 4096;
  const auto share = static_cast<std::int64_t>(strength * static_cast<double>(strength_steps) + 0.5);
  const NearestColour<C> nearest(palette);
  Raster<ColourNumber> numbers(cells.columns(), cells.rows());
  for_each_band(cells.rows(), work, [&](int first, int end) {
    for (int y = first; y < end; ++y) {
      for (int x = 0; x < cells.columns(); ++x) {
        if (cells.laid(x, y) == 0) continue;
        const C& colour = cells.colours(x, y);
        const FixedPoint point = colour.fixed();
        const ColourNumber one = nearest.number(point);
        const ColourNumber other = detail::mixing_partner(nearest.points(), one, point);
        // Light is taken to 1/2^16, so that products of two differences and the thresholds fit in 64 bits.
        const auto light = [](const Light& l) { return Light{l.r >> 8, l.g >> 8, l.b >> 8}; };
        const Light start = light(palette.entries[one - std::size_t{1}].colour.light());
        const detail::Difference along =
            detail::difference(start, light(palette.entries[other - std::size_t{1}].colour.light()));
        const std::int64_t part = along.dot(detail::difference(start, light(colour.light())));
        const std::int64_t length = along.dot(along);
        // The other colour takes its share of the 64 places: rank + 1/2 at most 64 * strength * part / length.
        const int rank = ranks[static_cast<std::size_t>(y) % 8][static_cast<std::size_t>(x) % 8];
        const bool mix = part > 0 && part * 128 * share >= (2 * rank + 1) * length * strength_steps;
        numbers(x, y) = mix ? other : one;
      }
    }
  });
  return numbers;
}

}  // namespace handlaid
