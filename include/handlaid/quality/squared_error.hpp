// Mean squared errors, as palettes are compared by: in Oklab, and in the codes of sRGB. To report, not to decide on.
#pragma once

#include <cstdint>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/chart.hpp"

namespace handlaid {

/// Means over the laid cells of the squared distance to the cell's colour in the chart, all three channels together.
struct SquaredError {
  /// In squared units of Oklab, where black to white is 1.
  double oklab = 0;
  /// In squared codes of 8-bit sRGB; cells are rounded to codes first.
  double srgb = 0;
};

/// Zero where nothing is laid. Throws Error unless both have the same size.
template <AnyCells T, AnyChart C>
SquaredError squared_error(const T& cells, const C& chart) {
  if (cells.columns() != chart.columns() || cells.rows() != chart.courses()) {
    throw Error::bad_input("squared error", "cells and chart differ in size", "compare a chart with its own cells");
  }
  std::vector<Oklab> colours;
  for (const PaletteEntry& entry : chart.palette.entries) colours.push_back(convert_colour<Oklab>(entry.colour));
  const auto squared = [](double v) { return v * v; };
  double oklab = 0;
  std::int64_t srgb = 0;
  std::int64_t count = 0;
  for (int row = 0; row < cells.rows(); ++row) {
    for (int column = 0; column < cells.columns(); ++column) {
      const int number = chart.numbers(column, row);
      if (number == 0) continue;
      const auto index = static_cast<std::size_t>(number) - 1;
      const auto p = convert_colour<Oklab>(cells.colours(column, row));
      const Oklab& q = colours[index];
      oklab +=
          squared(double{p.L} - double{q.L}) + squared(double{p.a} - double{q.a}) + squared(double{p.b} - double{q.b});
      const auto c = convert_colour<Srgb8>(cells.colours(column, row));
      const Srgb8& d = chart.palette.entries[index].colour;
      srgb += (c.r - d.r) * (c.r - d.r) + (c.g - d.g) * (c.g - d.g) + (c.b - d.b) * (c.b - d.b);
      ++count;
    }
  }
  if (count == 0) return {};
  return {.oklab = oklab / static_cast<double>(count), .srgb = static_cast<double>(srgb) / static_cast<double>(count)};
}

}  // namespace handlaid
