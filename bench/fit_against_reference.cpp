// K-means on the recorded cells beside the best of 200 random starts of a general-purpose library: error ratios and
// processor time, a line a picture and k. Reference: tests/data/kmeans_reference.csv.
#include <algorithm>
#include <cstdio>
#include <ctime>

#include "../tests/support/table.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/palette/kmeans.hpp"

using namespace handlaid;

namespace {

struct Fit {
  double error = 0;
  double seconds = 1e9;
};

/// Mean squared Oklab distance, each cell to its nearest colour.
double error_of(const Raster<Srgb8>& cells, const Palette& palette) {
  double sum = 0;
  std::vector<Oklab> colours;
  for (const PaletteEntry& entry : palette.entries) colours.push_back(convert_colour<Oklab>(entry.colour));
  for (const Srgb8& cell : cells.pixels()) {
    const Oklab p = convert_colour<Oklab>(cell);
    double least = 1e9;
    for (const Oklab& q : colours) {
      const double l = double{p.L} - double{q.L};
      const double a = double{p.a} - double{q.a};
      const double b = double{p.b} - double{q.b};
      least = std::min(least, l * l + a * a + b * b);
    }
    sum += least;
  }
  return sum / static_cast<double>(cells.size());
}

Fit fit(const Raster<Srgb8>& cells, int colours, Effort effort, int repeats) {
  Fit result;
  for (int i = 0; i < repeats; ++i) {
    const std::clock_t start = std::clock();
    const Palette palette = KMeans{.colours = colours, .effort = effort}(count_colours(cells));
    const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    result.seconds = std::min(result.seconds, seconds);
    if (i == 0) result.error = error_of(cells, palette);
  }
  return result;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string folder = HANDLAID_TEST_DATA "/";
  const int repeats = argc > 1 ? std::atoi(argv[1]) : 3;
  try {
    std::printf("%-10s %3s %11s  %8s %8s  %8s %8s\n", "picture", "k", "reference", "best", "ms", "quick", "ms");
    const handlaid_test::Table rows("kmeans_reference.csv");
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const std::string& picture = rows.text(i, "picture");
      const int colours = rows.whole(i, "colours");
      const double reference = std::min(rows.number(i, "best_of_200"), rows.number(i, "best_of_200_run_to_the_end"));
      const auto cells = read<Srgb8>(folder + "cells/" + picture + ".ppm");
      const Fit best = fit(cells, colours, Effort::best, repeats);
      const Fit quick = fit(cells, colours, Effort::quick, repeats);
      std::printf("%-10s %3d %.5e  %8.5f %8.1f  %8.5f %8.2f\n", picture.c_str(), colours, reference,
                  best.error / reference, best.seconds * 1e3, quick.error / reference, quick.seconds * 1e3);
      std::fflush(stdout);
    }
    return 0;
  } catch (const std::exception& error) {
    return std::fprintf(stderr, "fit_against_reference: %s\n", error.what()), 1;
  }
}
