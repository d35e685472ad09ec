// The smallest pipeline: a picture, a crop, cells, colours, and a look at the finished panel.
#include <cstdio>

#include "handlaid.hpp"

using namespace handlaid;

int main(int argc, char** argv) {
  if (argc != 3) return std::fprintf(stderr, "usage: smallest_pipeline PICTURE PREVIEW.png\n"), 2;
  try {
    const auto chart = read<Srgb8>(argv[1], {.ground = Srgb8{255, 255, 255}})  // JPEG, PNG, BMP or PNM, upright
                       | crop_to(3.0 / 4)                                      // three wide to four high
                       | map_to(Rectangular{.columns = 72, .rows = 96, .pitch = 11 * mm})  // mean light of each cell
                       | quantise(KMeans{.colours = 16});  // sixteen colours, and a number a cell
    write_text_file(argv[2], write_png(Preview{}(chart)));
    std::printf("%d x %d cells in %d colours: %s\n", chart.columns(), chart.courses(), chart.palette.size(), argv[2]);
  } catch (const Error& error) {
    return std::fprintf(stderr, "smallest_pipeline: %s\n", error.what()), 1;
  }
}
