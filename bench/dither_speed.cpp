// Error diffusion for bench/peers/dither_pillow.py: dithers the picture of the first file (binary PPM) with the colours
// of the second (a PPM of one row) once for each line that it reads, and prints the seconds from left to right only, as
// Pillow goes, and both ways.
#include <chrono>
#include <fstream>
#include <iostream>
#include <string>

#include "handlaid/dither/error_diffusion.hpp"
#include "handlaid/image/read.hpp"

using namespace handlaid;

int main(int count, char** arguments) {
  if (count != 3) {
    std::cerr << "usage: dither_speed PICTURE.ppm COLOURS.ppm\n";
    return 2;
  }
  try {
    auto picture = read<Srgb8>(arguments[1]);
    const auto colours = read<Srgb8>(arguments[2]);
    Palette palette;
    for (const Srgb8& colour : colours.pixels()) palette.entries.push_back({.colour = colour});
    const int width = picture.width();
    const int height = picture.height();
    Cells<Srgb8> cells = {
        .lattice = {.columns = width, .rows = height}, .colours = std::move(picture), .laid = {width, height}};
    for (auto& laid : cells.laid.pixels()) laid = 1;
    std::string line;
    while (std::getline(std::cin, line)) {
      for (const bool serpentine : {false, true}) {
        const auto start = std::chrono::steady_clock::now();
        const auto numbers = ErrorDiffusion{.serpentine = serpentine}(cells, palette);
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
        std::cout << taken.count() << (numbers.empty() ? " empty " : " ");
      }
      std::cout << std::endl;
    }
  } catch (const Error& error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
  return 0;
}
