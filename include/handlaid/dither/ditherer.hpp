// What a ditherer is: it gives each cell a number of the palette. A ditherer of your own is a struct with this call
// operator; it may take `const Work&` as a third argument.
#pragma once

#include <concepts>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/palette/nearest.hpp"

namespace handlaid {

/// Places a palette on cells of type `T`: one number for each cell, 0 where nothing is laid.
template <class D, class T = Cells<Oklab>>
concept Ditherer = AnyCells<T> && requires(const D& place, const T& cells, const Palette& palette) {
  { place(cells, palette) } -> std::same_as<Raster<ColourNumber>>;
};

/// Calls a ditherer, with the threads and progress of the run if it takes them.
template <AnyCells T, Ditherer<T> D>
Raster<ColourNumber> place_palette(const D& place, const T& cells, const Palette& palette, const Work& work) {
  if constexpr (requires { place(cells, palette, work); }) {
    return place(cells, palette, work);
  } else {
    return place(cells, palette);
  }
}

/// No dithering: each cell takes the nearest colour, the lower number at a tie.
struct NoDither {
  template <MeasuredCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const {
    const NearestColour<typename T::colour_type> nearest(palette);
    Raster<ColourNumber> numbers(cells.columns(), cells.rows());
    for_each_band(cells.rows(), work, [&](int first, int end) {
      for (int y = first; y < end; ++y) {
        for (int x = 0; x < cells.columns(); ++x) {
          if (cells.laid(x, y) != 0) numbers(x, y) = nearest.number(cells.colours(x, y));
        }
      }
    });
    return numbers;
  }
};

}  // namespace handlaid
