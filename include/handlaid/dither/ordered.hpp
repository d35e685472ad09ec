// Ordered dithering: a fixed pattern of thresholds decides between two colours that mix to the wanted one.
// `BayerDither{}`, `BlueNoiseDither{.strength = 0.6}`, or `OrderedDither{.matrix = ...}` with a pattern of your own.
#pragma once

#include <array>
#include <cstdint>

#include "handlaid/dither/blue_noise.hpp"
#include "handlaid/dither/ditherer.hpp"
#include "handlaid/dither/mixing_partner.hpp"
#include "handlaid/dither/threshold_matrix.hpp"

namespace handlaid {

/// Places a palette by a pattern of thresholds: of the nearest colour and the one that mixes best with it, the
/// threshold of the place picks one, in proportion to the light that is wanted. Throws Error when `strength` is not
/// within 0 to 1 or the matrix is no matrix of thresholds (see `check_matrix`).
struct OrderedDither {
  ThresholdMatrix matrix = {};
  /// 0 is no dithering, 1 mixes fully.
  double strength = 1;

  template <MeasuredCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const;
};

/// By Bayer's 8 x 8 pattern: 65 levels of a mix, and a flat ground repeats every 8 cells.
struct BayerDither {
  /// 0 is no dithering, 1 mixes fully.
  double strength = 1;

  template <MeasuredCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const;
};

/// By the 64 x 64 blue-noise pattern: no grid to be seen, and no worms as of error diffusion.
struct BlueNoiseDither {
  /// 0 is no dithering, 1 mixes fully.
  double strength = 1;

  template <MeasuredCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const;
};

namespace detail {

/// `ranks` has `columns * rows` places, at most 65536.
template <class T>
Raster<ColourNumber> place_ordered(const T& cells, const Palette& palette, double strength, const std::uint16_t* ranks,
                                   int columns, int rows, const Work& work) {
  if (!(strength >= 0 && strength <= 1)) {
    throw Error::out_of_range("dither strength", std::to_string(strength), "0 to 1");
  }
  constexpr std::int64_t strength_steps = 4096;
  const auto share = static_cast<std::int64_t>(strength * static_cast<double>(strength_steps) + 0.5);
  const std::int64_t places = std::int64_t{columns} * rows;
  const NearestColour<typename T::colour_type> nearest(palette);
  // Light is taken to 1/2^16, so that products of two differences and the thresholds fit in 64 bits.
  const auto light = [](const Light& l) { return Light{l.r >> 8, l.g >> 8, l.b >> 8}; };
  std::vector<Light> lights;
  for (const PaletteEntry& entry : palette.entries) lights.push_back(light(entry.colour.light()));
  Raster<ColourNumber> numbers(cells.columns(), cells.rows());
  for_each_band(cells.rows(), work, [&](int first, int end) {
    NearestSearch search(nearest.points());
    MixingPartner partner(nearest.points());
    for (int y = first; y < end; ++y) {
      const std::uint16_t* rank = ranks + std::ptrdiff_t{y % rows} * columns;
      for (int x = 0; x < cells.columns(); ++x) {
        if (cells.laid(x, y) == 0) continue;
        const FixedPoint point = cells.colours(x, y).fixed();
        const ColourNumber one = search.number(point);
        const ColourNumber other = partner.number(one, point);
        const Light& start = lights[one - std::size_t{1}];
        const Difference along = difference(start, lights[other - std::size_t{1}]);
        const std::int64_t part = along.dot(difference(start, light(cells.colours(x, y).light())));
        const std::int64_t length = along.dot(along);
        // The other colour takes its share of the places: rank + 1/2 at most places * strength * part / length.
        const bool mix = part > 0 && part * 2 * places * share >= (2 * rank[x % columns] + 1) * length * strength_steps;
        numbers(x, y) = mix ? other : one;
      }
    }
  });
  return numbers;
}

}  // namespace detail

template <MeasuredCells T>
Raster<ColourNumber> OrderedDither::operator()(const T& cells, const Palette& palette, const Work& work) const {
  check_matrix(matrix);
  return detail::place_ordered(cells, palette, strength, matrix.ranks.data(), matrix.columns, matrix.rows, work);
}

template <MeasuredCells T>
Raster<ColourNumber> BayerDither::operator()(const T& cells, const Palette& palette, const Work& work) const {
  static constexpr auto ranks = [] {
    std::array<std::uint16_t, 64> flat = {};
    for (std::size_t i = 0; i < 64; ++i) flat[i] = static_cast<std::uint16_t>(bayer_matrix<8>()[i / 8][i % 8]);
    return flat;
  }();
  return detail::place_ordered(cells, palette, strength, ranks.data(), 8, 8, work);
}

template <MeasuredCells T>
Raster<ColourNumber> BlueNoiseDither::operator()(const T& cells, const Palette& palette, const Work& work) const {
  return detail::place_ordered(cells, palette, strength, blue_noise_ranks.data(), blue_noise_side, blue_noise_side,
                               work);
}

}  // namespace handlaid
