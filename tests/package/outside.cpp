// A user's program: it has handlaid's headers and nothing else of ours.
#include <cstdio>

#include "handlaid/grid/chart.hpp"

int main() {
  handlaid::Chart<> chart;
  chart.lattice = {.columns = 4, .rows = 2};
  chart.numbers = handlaid::Raster<handlaid::ColourNumber>(4, 2);
  chart.check();
  std::printf("%d cells\n", chart.columns() * chart.courses());
}
