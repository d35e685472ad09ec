// Cells that have their number already, such as an eye set by hand: they keep it, and the ditherer places the others.
// To the ditherer a given cell is an empty one, so that any ditherer will do and no error flows into such a cell or out
// of it: its colour was decided, and what it differs from the picture is nothing to be made up for next to it.
// `quantise(KMeans{.colours = 16}, keep_numbers(numbers, ErrorDiffusion{}))`
#pragma once

#include <string>
#include <utility>

#include "handlaid/dither/ditherer.hpp"

namespace handlaid {

/// Places a palette around given cells. `numbers` has the size of the cells and holds 0 where none is given.
/// Throws Error when it has another size, when a number is not in the palette, or when one is given to a cell where
/// nothing is laid.
template <class D>
struct GivenNumbers {
  Raster<ColourNumber> numbers = {};
  D ditherer = {};

  template <AnyCells T>
    requires Ditherer<D, T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const {
    const auto size = [](const auto& of) { return std::to_string(of.width()) + " x " + std::to_string(of.height()); };
    if (numbers.width() != cells.columns() || numbers.height() != cells.rows()) {
      throw Error::bad_option("given numbers", size(numbers) + " do not fit " + size(cells.colours) + " cells",
                              "give one for each cell, 0 where the cell is free");
    }
    T rest = cells;
    for (int y = 0; y < cells.rows(); ++y) {
      for (int x = 0; x < cells.columns(); ++x) {
        const ColourNumber given = numbers(x, y);
        if (given == 0) continue;
        const auto where = [&] {
          return "given number in column " + std::to_string(x + 1) + ", row " + std::to_string(y + 1) + " from the top";
        };
        if (given > palette.size()) {
          throw Error::out_of_range(where(), std::to_string(given), "0 to " + std::to_string(palette.size()));
        }
        if (cells.laid(x, y) == 0) {
          throw Error::bad_option(where(), "nothing is laid there", "give 0, or lay the cell");
        }
        rest.laid(x, y) = 0;
      }
    }
    Raster<ColourNumber> all = place_palette(ditherer, rest, palette, work);
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (numbers.pixels()[i] != 0) all.pixels()[i] = numbers.pixels()[i];
    }
    return all;
  }
};

/// A ditherer that leaves the given numbers where they are.
template <class D = NoDither>
GivenNumbers<D> keep_numbers(Raster<ColourNumber> numbers, D ditherer = {}) {
  return {std::move(numbers), std::move(ditherer)};
}

}  // namespace handlaid
