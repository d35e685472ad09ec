// The chart as a picture of one pixel a cell, for a paint program, and back. A pixel is a colour of the palette
// exactly, or it is refused: what a soft brush left between two colours is listed, never guessed. Transparent is an
// empty cell. `write_png(chart_pixels(chart))`
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"

namespace handlaid {

/// One pixel a cell, the top course first.
template <When = When::called>
Raster<Srgba8> chart_pixels(const Chart<>& chart) {
  Raster<Srgba8> pixels(chart.columns(), chart.courses());
  for (int row = 0; row < pixels.height(); ++row) {
    for (int column = 0; column < pixels.width(); ++column) {
      const int number = chart.numbers(column, row);
      if (number > 0) pixels(column, row) = {chart.palette[number].colour, 255};
    }
  }
  return pixels;
}

/// The numbers of an edited picture; `was` is the chart before the edit, `file` its name for messages. Where colours of
/// the palette are the same, a cell keeps its number, or gets the lowest one.
/// Throws Error for a picture of another size, naming both, and for pixels that are no colour of the palette, naming
/// the first twenty and how many they are.
template <When = When::called>
Raster<ColourNumber> read_chart_pixels(const Raster<Srgba8>& pixels, const Chart<>& was, const std::string& file) {
  const int rows = was.courses();
  if (pixels.width() != was.columns() || pixels.height() != rows) {
    throw Error::bad_input(file,
                           "it has " + std::to_string(pixels.width()) + " x " + std::to_string(pixels.height()) +
                               " pixels, the chart " + std::to_string(was.columns()) + " x " + std::to_string(rows) +
                               " cells",
                           "give a picture of one pixel a cell");
  }
  constexpr std::size_t most_named = 20;
  Raster<ColourNumber> numbers(pixels.width(), rows);
  std::string named;
  std::size_t strange = 0;
  for (int row = rows - 1; row >= 0; --row) {  // from the bottom, as courses count
    for (int column = 0; column < pixels.width(); ++column) {
      const Srgba8 pixel = pixels(column, row);
      if (pixel.alpha == 0) continue;
      const auto is = [&](int number) { return was.palette[number].colour == pixel.colour; };
      int found = 0;
      if (pixel.alpha == 255) {
        const int before = was.numbers(column, row);
        if (before > 0 && is(before)) {
          found = before;
        } else {
          for (int number = 1; found == 0 && number <= was.palette.size(); ++number) found = is(number) ? number : 0;
        }
      }
      numbers(column, row) = static_cast<ColourNumber>(found);
      if (found > 0 || ++strange > most_named) continue;
      named += (named.empty() ? "course " : "; course ") + std::to_string(course_of_row(row, rows)) + " column " +
               std::to_string(column + 1) + " " + to_hex(pixel.colour) +
               (pixel.alpha == 255 ? "" : " half transparent");
    }
  }
  if (strange > 0) {
    if (strange > most_named) named += "; and " + std::to_string(strange - most_named) + " more";
    throw Error::bad_input(
        file,
        std::to_string(strange) + (strange == 1 ? " pixel is" : " pixels are") + " no colour of the palette: " + named,
        "paint with a pen without soft edges, in colours of the palette");
  }
  return numbers;
}

}  // namespace handlaid
