// Binary PGM and PPM files of tests/data, read without the library under test.
#pragma once

#include <fstream>
#include <stdexcept>
#include <string>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/grid/cells.hpp"

namespace handlaid_test {

/// Reads P5 or P6 with 8 bits; grey becomes r = g = b.
inline handlaid::Raster<handlaid::Srgb8> read_pnm(const std::string& name) {
  std::ifstream file(std::string(HANDLAID_TEST_DATA) + "/" + name, std::ios::binary);
  std::string magic;
  int width = 0;
  int height = 0;
  int most = 0;
  file >> magic >> width >> height >> most;
  file.get();
  if (!file || (magic != "P5" && magic != "P6") || most != 255) throw std::runtime_error("no picture: " + name);
  handlaid::Raster<handlaid::Srgb8> picture(width, height);
  for (handlaid::Srgb8& pixel : picture.pixels()) {
    pixel.r = static_cast<std::uint8_t>(file.get());
    pixel.g = magic == "P6" ? static_cast<std::uint8_t>(file.get()) : pixel.r;
    pixel.b = magic == "P6" ? static_cast<std::uint8_t>(file.get()) : pixel.r;
  }
  if (!file) throw std::runtime_error("cut short: " + name);
  return picture;
}

/// A cell for each pixel, all laid.
template <handlaid::Colour C>
handlaid::Cells<C> cells_of(const handlaid::Raster<C>& colours) {
  handlaid::Cells<C> cells = {.lattice = {.columns = colours.width(), .rows = colours.height()},
                              .colours = colours,
                              .laid = {colours.width(), colours.height()}};
  for (std::uint8_t& laid : cells.laid.pixels()) laid = 1;
  return cells;
}

/// The same colours in another type.
template <handlaid::Colour To, handlaid::Colour From>
handlaid::Raster<To> converted(const handlaid::Raster<From>& from) {
  handlaid::Raster<To> to(from.width(), from.height());
  for (std::size_t i = 0; i < from.size(); ++i) to.pixels()[i] = To::from_light(from.pixels()[i].light());
  return to;
}

}  // namespace handlaid_test
