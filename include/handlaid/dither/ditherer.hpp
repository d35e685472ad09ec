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
    const auto place = [&](int first, int end, auto&& number) {
      for (int y = first; y < end; ++y) {
        const auto colours = cells.colours.row(y);
        const auto laid = cells.laid.row(y);
        const auto to = numbers.row(y);
        for (std::size_t x = 0; x < to.size(); ++x) {
          if (laid[x] != 0) to[x] = number(colours[x].fixed());
        }
      }
    };
    constexpr std::size_t worth_a_search = 30'000;
    for_each_band(cells.rows(), work, [&](int first, int end) {
      if (numbers.size() < worth_a_search) {
        place(first, end, [&](const FixedPoint& point) { return nearest.number(point); });
      } else {
        NearestSearch search(nearest.points());
        place(first, end, [&](const FixedPoint& point) { return search.number(point); });
      }
    });
    return numbers;
  }
};

}  // namespace handlaid
