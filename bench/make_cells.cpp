// Makes the cells of a picture, as plan_panel would: cropped in the middle to the lattice's shape, averaged in linear
// light, written as PPM. tests/data/cells was made by it, so that everybody measures on the same pixels.
#include <cstdio>
#include <cstdlib>
#include <string>

#include "handlaid/core/pipe.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/read.hpp"

int main(int argc, char** argv) {
  using namespace handlaid;
  if (argc != 5) return std::fprintf(stderr, "usage: make_cells PICTURE COLUMNS ROWS CELLS.ppm\n"), 2;
  try {
    const Rectangular lattice = {.columns = std::atoi(argv[2]), .rows = std::atoi(argv[3])};
    lattice.check();
    const auto cells = read<Srgb8>(argv[1], {.ground = Srgb8{255, 255, 255}}) |
                       crop_to(static_cast<double>(lattice.columns) / lattice.rows) | map_to(lattice);
    std::string ppm = "P6\n" + std::to_string(lattice.columns) + " " + std::to_string(lattice.rows) + "\n255\n";
    for (const Srgb8& cell : cells.colours.pixels()) {
      for (const std::uint8_t code : {cell.r, cell.g, cell.b}) ppm += static_cast<char>(code);
    }
    write_text_file(argv[4], ppm);
    return 0;
  } catch (const Error& error) {
    return std::fprintf(stderr, "make_cells: %s\n", error.what()), 1;
  }
}
