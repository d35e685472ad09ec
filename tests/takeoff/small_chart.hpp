// Charts that can be read in the test: a digit for a colour number, a dot for an empty cell, top course first.
#pragma once

#include <string>
#include <vector>

#include "handlaid/grid/chart.hpp"

namespace handlaid_test {

/// `colours` 0: as many as the largest digit. Names: "colour 1", "colour 2"…
inline handlaid::Chart<> chart_of(const std::vector<std::string>& rows, int colours = 0,
                                  handlaid::Length pitch = 10 * handlaid::mm) {
  handlaid::Chart<> chart;
  chart.lattice = {
      .columns = static_cast<int>(rows.at(0).size()), .rows = static_cast<int>(rows.size()), .pitch = pitch};
  chart.numbers = handlaid::Raster<handlaid::ColourNumber>(chart.lattice.columns, chart.lattice.rows);
  for (int y = 0; y < chart.lattice.rows; ++y) {
    for (int x = 0; x < chart.lattice.columns; ++x) {
      const char c = rows.at(static_cast<std::size_t>(y)).at(static_cast<std::size_t>(x));
      const int number = c == '.' ? 0 : c - '0';
      chart.numbers(x, y) = static_cast<handlaid::ColourNumber>(number);
      if (number > colours) colours = number;
    }
  }
  for (int n = 1; n <= colours; ++n) {
    const auto code = static_cast<std::uint8_t>(n * 20);
    chart.palette.entries.push_back({.colour = {code, code, code}, .name = "colour " + std::to_string(n)});
  }
  return chart;
}

}  // namespace handlaid_test
