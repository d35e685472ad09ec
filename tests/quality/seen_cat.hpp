// The cells of record_seen.py: the demo's cat, and a chart of the same in 64 posterised colours.
#pragma once

#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/chart.hpp"
#include "support/pnm.hpp"

namespace handlaid_test {

struct SeenCat {
  handlaid::Cells<handlaid::Srgb8> cells = {};
  handlaid::Chart<> chart = {};

  explicit SeenCat(bool hole) {
    using namespace handlaid;
    cells.colours = read_pnm("cells_cat.ppm");
    const int columns = cells.columns();
    const int rows = cells.rows();
    cells.lattice = chart.lattice = {.columns = columns, .rows = rows, .pitch = 10 * mm};
    cells.laid = Raster<std::uint8_t>(columns, rows);
    chart.numbers = Raster<ColourNumber>(columns, rows);
    const auto code = [](int step) { return static_cast<std::uint8_t>(step * 64 + 32); };
    for (int n = 0; n < 64; ++n)
      chart.palette.entries.push_back({.colour = {code(n / 16), code(n / 4 % 4), code(n % 4)}});
    for (int y = 0; y < rows; ++y) {
      for (int x = 0; x < columns; ++x) {
        if (hole && x >= 20 && x < 50 && y >= 10 && y < 40) continue;
        cells.laid(x, y) = 1;
        const Srgb8 c = cells.colours(x, y);
        chart.numbers(x, y) = static_cast<ColourNumber>(c.r / 64 * 16 + c.g / 64 * 4 + c.b / 64 + 1);
      }
    }
  }
};

}  // namespace handlaid_test
