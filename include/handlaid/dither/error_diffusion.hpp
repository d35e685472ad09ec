// Error diffusion: what a cell's colour misses is made up by the cells around it.
// R. Floyd, L. Steinberg, "An adaptive algorithm for spatial grey scale", Proc. SID 17(2), 1976.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "handlaid/dither/ditherer.hpp"

namespace handlaid {

/// How an error is shared: `weights[row][2 + dx]` goes to the cell dx to the right in this row (0) or a row below.
/// Weights are shares of `divisor`; cells already placed have weight 0.
struct DiffusionKernel {
  std::array<std::array<int, 5>, 3> weights = {};
  int divisor = 1;
};

/// Floyd and Steinberg 1976.
inline constexpr DiffusionKernel floyd_steinberg = {.weights = {{{0, 0, 0, 7, 0}, {0, 3, 5, 1, 0}, {0, 0, 0, 0, 0}}},
                                                    .divisor = 16};
/// J. Jarvis, C. Judice, W. Ninke, "A survey of techniques for the display of continuous tone pictures on bilevel
/// displays", Computer Graphics and Image Processing 5(1), 1976.
inline constexpr DiffusionKernel jarvis_judice_ninke = {
    .weights = {{{0, 0, 0, 7, 5}, {3, 5, 7, 5, 3}, {1, 3, 5, 3, 1}}}, .divisor = 48};
/// B. Atkinson's filter of 1984, from memory: three quarters of the error are passed on, so that flat areas stay calm.
inline constexpr DiffusionKernel atkinson = {.weights = {{{0, 0, 0, 1, 1}, {0, 1, 1, 1, 0}, {0, 0, 1, 0, 0}}},
                                             .divisor = 8};

/// In what quantity the error is counted.
enum class DiffuseIn {
  linear_light,  ///< as light mixes in the eye
  cell_space     ///< along the axes of the cells' own colour space
};

/// Places a palette by error diffusion, row by row from the top. An error that would leave the lattice, or reach a cell
/// where nothing is laid, is dropped. Throws Error when `strength` is not within 0 to 1.
struct ErrorDiffusion {
  DiffusionKernel kernel = floyd_steinberg;
  /// The part of the error that is passed on, 0 to 1.
  double strength = 1;
  /// Every second row from right to left, so that patterns do not lean.
  bool serpentine = true;
  DiffuseIn space = DiffuseIn::linear_light;

  template <MeasuredCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette) const;
};

namespace detail {

/// A colour as three sums that errors can be added to.
struct Amount {
  std::int64_t v[3] = {0, 0, 0};
};

template <MeasuredColour C>
Amount amount_of(const C& colour, DiffuseIn space) {
  if (space == DiffuseIn::linear_light) {
    const Light light = colour.light();
    return {{light.r, light.g, light.b}};
  }
  // Sixteen parts of a step keep the shares of small errors.
  const FixedPoint p = colour.fixed();
  return {{p.x * 16, p.y * 16, p.z * 16}};
}

template <MeasuredColour C>
FixedPoint point_of(const Amount& amount, DiffuseIn space) {
  if (space == DiffuseIn::linear_light) {
    constexpr std::int64_t most = std::int64_t{4} << 24;
    const auto held = [](std::int64_t v) { return v < -most ? -most : (v > most ? most : v); };
    return C::from_light({held(amount.v[0]), held(amount.v[1]), held(amount.v[2])}).fixed();
  }
  const auto axis = [](std::int64_t v) {
    v = (v + 8) >> 4;
    return static_cast<std::int16_t>(v < -16384 ? -16384 : (v > 16384 ? 16384 : v));
  };
  return {axis(amount.v[0]), axis(amount.v[1]), axis(amount.v[2])};
}

/// The quotient rounded to the nearest whole number, half away from zero.
constexpr std::int64_t rounded_quotient(std::int64_t a, std::int64_t b) { return (a < 0 ? a - b / 2 : a + b / 2) / b; }

}  // namespace detail

template <MeasuredCells T>
Raster<ColourNumber> ErrorDiffusion::operator()(const T& cells, const Palette& palette) const {
  using C = typename T::colour_type;
  if (!(strength >= 0 && strength <= 1)) {
    throw Error::out_of_range("dither strength", std::to_string(strength), "0 to 1");
  }
  if (kernel.divisor < 1) throw Error::out_of_range("kernel divisor", std::to_string(kernel.divisor), "1 or more");
  const NearestColour<C> nearest(palette);
  std::vector<detail::Amount> wanted;
  for (const PaletteEntry& entry : palette.entries) {
    wanted.push_back(detail::amount_of(convert_colour<C>(entry.colour), space));
  }
  constexpr std::int64_t strength_steps = 4096;
  const auto share = static_cast<std::int64_t>(strength * static_cast<double>(strength_steps) + 0.5);
  const int columns = cells.columns();
  const auto width = static_cast<std::size_t>(columns) + 4;
  // Three rows of shares to come, each with two cells beyond either edge, in units of error times weight.
  std::array<std::vector<detail::Amount>, 3> due;
  for (auto& row : due) row.assign(width, {});
  Raster<ColourNumber> numbers(columns, cells.rows());
  for (int y = 0; y < cells.rows(); ++y) {
    const bool backward = serpentine && y % 2 == 1;
    for (int i = 0; i < columns; ++i) {
      const int x = backward ? columns - 1 - i : i;
      if (cells.laid(x, y) == 0) continue;
      detail::Amount amount = detail::amount_of(cells.colours(x, y), space);
      const detail::Amount& owed = due[0][static_cast<std::size_t>(x) + 2];
      for (int axis = 0; axis < 3; ++axis) {
        amount.v[axis] += detail::rounded_quotient(owed.v[axis] * share, kernel.divisor * strength_steps);
      }
      const ColourNumber number = nearest.number(detail::point_of<C>(amount, space));
      numbers(x, y) = number;
      for (std::size_t row = 0; row < 3; ++row) {
        for (int dx = -2; dx <= 2; ++dx) {
          const int weight = kernel.weights[row][static_cast<std::size_t>(dx + 2)];
          if (weight == 0) continue;
          detail::Amount& to = due[row][static_cast<std::size_t>(x + (backward ? -dx : dx) + 2)];
          for (int axis = 0; axis < 3; ++axis) {
            to.v[axis] += weight * (amount.v[axis] - wanted[number - std::size_t{1}].v[axis]);
          }
        }
      }
    }
    std::swap(due[0], due[1]);
    std::swap(due[1], due[2]);
    due[2].assign(width, {});
  }
  return numbers;
}

}  // namespace handlaid
