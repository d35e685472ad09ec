// The chart of tests/data/saved_charts: 12 x 8 cells in six colours, one cell empty.
#pragma once

#include "handlaid/grid/chart.hpp"

namespace handlaid_test {

inline handlaid::Chart<> saved_chart() {
  using namespace handlaid;
  Chart<> chart{.lattice = {.columns = 12, .rows = 8, .pitch = 11 * mm}, .numbers = Raster<ColourNumber>(12, 8)};
  for (int y = 0; y < 8; ++y) {
    for (int x = 0; x < 12; ++x) chart.numbers(x, y) = static_cast<ColourNumber>((y * 5 + x / 2 + x * y) % 6 + 1);
  }
  chart.numbers(3, 4) = 0;
  const Srgb8 colours[] = {{20, 20, 16},    {119, 56, 25}, {177, 128, 80},
                           {200, 180, 140}, {90, 120, 60}, {240, 236, 220}};
  for (int i = 0; i < 6; ++i)
    chart.palette.entries.push_back({.colour = colours[i], .name = "felt " + std::to_string(i + 1)});
  chart.palette.entries[2].name = "\"<ochre> & 🌿";
  return chart;
}

}  // namespace handlaid_test
