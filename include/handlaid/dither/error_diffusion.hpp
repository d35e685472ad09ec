// Error diffusion: what a cell's colour misses is made up by the cells around it.
// R. Floyd, L. Steinberg, "An adaptive algorithm for spatial grey scale", Proc. SID 17(2), 1976.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/dither/diffusion_kernel.hpp"
#include "handlaid/dither/diffusion_rows.hpp"
#include "handlaid/dither/ditherer.hpp"

namespace handlaid {

/// In what quantity the error is counted.
enum class DiffuseIn {
  linear_light,  ///< as light mixes in the eye
  cell_space     ///< along the axes of the cells' own colour space, or of Oklab where that cannot be measured
};

/// Places a palette by error diffusion, row by row from the top. An error that would leave the lattice, or reach a cell
/// where nothing is laid, is dropped. In linear light the number is found by the rule of `LightBoxes`, in cell space it
/// is the nearest one; at strength 0 it is what `NoDither` places.
/// Takes cells of any colour; sRGB codes are the fastest.
/// Throws Error when an option is out of its range.
struct ErrorDiffusion {
  DiffusionKernel kernel = floyd_steinberg;
  /// The part of the error that is passed on, 0 to 1.
  double strength = 1;
  /// Every second row from right to left, so that patterns do not lean.
  bool serpentine = true;
  DiffuseIn space = DiffuseIn::linear_light;
  /// How far beyond the palette a cell can be asked to go, 0 to 16: on each axis, what is wanted of it (its own colour
  /// and what it is owed) is held between the palette's least - reach * span and its greatest + reach * span, where
  /// span is greatest - least. So the error of a ground that the palette cannot mix does not pile up and run as a
  /// streak across the next one. A mix that the palette can make along one axis never owes more than one span, so 1
  /// keeps it whole; less loses light.
  double reach = 1;
  /// How much edges are kept, 0 (not at all) to 1. A cell takes up 4096 - edges * 4096 * min(d, s) / s parts in 4096 of
  /// what it is owed, each product and quotient rounded down, where d is the largest difference along one axis to a
  /// laid cell left, right, above or below, in steps of the measured space, and s is an eighth of `C::steps`.
  double edges = 0;

  template <AnyCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette) const;
};

namespace detail {

/// A share from 0 to `most` in parts of 4096. Throws Error outside.
template <When = When::called>
std::int64_t parts_of_4096(double share, double most, const char* name) {
  if (!(share >= 0 && share <= most)) {
    throw Error::out_of_range(name, std::to_string(share), "0 to " + std::to_string(static_cast<int>(most)));
  }
  return static_cast<std::int64_t>(share * 4096.0 + 0.5);
}

template <class Axes, class T>
Raster<ColourNumber> diffuse(const T& cells, const Palette& palette, const DiffusionKernel& kernel,
                             const DiffusionShares& shares) {
  const auto run = [&](const auto& known) {
    return DiffusionRows<Axes, std::remove_cvref_t<decltype(known)>, T>(cells, palette, known, shares).run();
  };
  if (kernel == floyd_steinberg) return run(KnownKernel<floyd_steinberg>{});
  if (kernel == jarvis_judice_ninke) return run(KnownKernel<jarvis_judice_ninke>{});
  if (kernel == atkinson) return run(KnownKernel<atkinson>{});
  return run(AnyKernel{kernel});
}

}  // namespace detail

template <AnyCells T>
Raster<ColourNumber> ErrorDiffusion::operator()(const T& cells, const Palette& palette) const {
  using C = typename T::colour_type;
  check_kernel(kernel);
  const detail::DiffusionShares shares = {.strength = detail::parts_of_4096(strength, 1, "dither strength"),
                                          .edges = detail::parts_of_4096(edges, 1, "dither edges"),
                                          .reach = detail::parts_of_4096(reach, 16, "dither reach"),
                                          .serpentine = serpentine};
  if (space == DiffuseIn::cell_space || shares.strength == 0) {
    return detail::diffuse<detail::InCellSpace<C>>(cells, palette, kernel, shares);
  }
  return detail::diffuse<detail::InLight<C>>(cells, palette, kernel, shares);
}

}  // namespace handlaid
