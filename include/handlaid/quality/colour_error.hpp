// How far the colours of a chart are from the cells they stand for.
#pragma once

#include <algorithm>
#include <vector>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/difference.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/chart.hpp"

namespace handlaid {

/// Colour differences over the laid cells, as CIEDE2000 (Sharma, Wu, Dalal 2005). To report, not to decide on.
struct ColourError {
  double mean = 0;
  /// 95 of 100 cells have this or less.
  double high = 0;
};

/// The difference between each laid cell and its colour in the chart; zero where nothing is laid.
/// Throws Error unless both have the same size.
template <AnyCells T, AnyChart C>
ColourError colour_error(const T& cells, const C& chart) {
  if (cells.columns() != chart.columns() || cells.rows() != chart.courses()) {
    throw Error::bad_input("colour error", "cells and chart differ in size", "compare a chart with its own cells");
  }
  std::vector<LabD65> colours;
  for (const PaletteEntry& entry : chart.palette.entries) colours.push_back(convert_colour<LabD65>(entry.colour));
  std::vector<double> errors;
  double sum = 0;
  for (int row = 0; row < cells.rows(); ++row) {
    for (int column = 0; column < cells.columns(); ++column) {
      const int number = chart.numbers(column, row);
      if (number == 0) continue;
      const auto cell = convert_colour<LabD65>(cells.colours(column, row));
      errors.push_back(ciede2000(cell, colours[static_cast<std::size_t>(number) - 1]));
      sum += errors.back();
    }
  }
  if (errors.empty()) return {};
  const auto count = static_cast<std::ptrdiff_t>(errors.size());
  const auto high = errors.begin() + (count * 95 + 99) / 100 - 1;
  std::nth_element(errors.begin(), high, errors.end());
  return {.mean = sum / static_cast<double>(count), .high = *high};
}

}  // namespace handlaid
