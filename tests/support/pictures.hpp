// Files and made pictures for the tests of image and grid.
#pragma once

#include <cstdint>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/core/raster.hpp"

namespace handlaid_test {

using Bytes = std::vector<unsigned char>;

inline std::string data_path(const std::string& name) { return std::string(HANDLAID_TEST_DATA) + "/" + name; }

/// The bytes of a file of tests/data.
inline Bytes load(const std::string& name) {
  std::ifstream file(data_path(name), std::ios::binary);
  if (!file) throw std::runtime_error("no test data: " + name);
  return Bytes(std::istreambuf_iterator<char>(file), {});
}

inline Bytes bytes_of(const std::string& text) { return Bytes(text.begin(), text.end()); }

/// A picture whose pixels are all different numbers, or noise.
inline handlaid::Raster<int> numbered(int width, int height) {
  handlaid::Raster<int> raster(width, height);
  int n = 0;
  for (int& pixel : raster.pixels()) pixel = n++;
  return raster;
}
inline handlaid::Raster<handlaid::Srgba8> noise(int width, int height, std::uint64_t seed = 1) {
  handlaid::Raster<handlaid::Srgba8> raster(width, height);
  handlaid::Random random(seed);
  for (auto& pixel : raster.pixels()) {
    const std::uint64_t bits = random.next();
    const auto channel = [&](unsigned shift) { return static_cast<std::uint8_t>(bits >> shift); };
    // A third each is opaque, transparent and between.
    const std::uint8_t alpha = bits >> 60U < 5 ? 255 : (bits >> 60U < 10 ? 0 : channel(24));
    pixel = {{channel(0), channel(8), channel(16)}, alpha};
  }
  return raster;
}
inline handlaid::Raster<handlaid::Srgb8> opaque_noise(int width, int height, std::uint64_t seed = 1) {
  const auto from = noise(width, height, seed);
  handlaid::Raster<handlaid::Srgb8> raster(width, height);
  for (std::size_t i = 0; i < raster.size(); ++i) raster.pixels()[i] = from.pixels()[i].colour;
  return raster;
}

/// Black and white by turns, white at the top left.
inline handlaid::Raster<handlaid::Srgb8> chequer(int width, int height) {
  handlaid::Raster<handlaid::Srgb8> raster(width, height);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      if ((x + y) % 2 == 0) raster(x, y) = {255, 255, 255};
    }
  }
  return raster;
}

}  // namespace handlaid_test

namespace embedder {

/// An embedder's own picture: planes with a gap after each row, nothing of ours in it.
struct Frame {
  using pixel_type = handlaid::Srgb8;
  struct Row {
    const unsigned char* r;
    const unsigned char* g;
    const unsigned char* b;
    handlaid::Srgb8 operator[](std::size_t x) const { return {r[x], g[x], b[x]}; }
  };

  int across = 0;
  int down = 0;
  int gap = 5;
  std::vector<unsigned char> planes = {};

  Frame(const handlaid::Raster<handlaid::Srgb8>& from) : across(from.width()), down(from.height()) {
    planes.resize(static_cast<std::size_t>(3 * (across + gap) * down));
    for (int y = 0; y < down; ++y) {
      for (int x = 0; x < across; ++x) {
        planes[at(0, x, y)] = from(x, y).r;
        planes[at(1, x, y)] = from(x, y).g;
        planes[at(2, x, y)] = from(x, y).b;
      }
    }
  }
  Frame(const Frame&) = delete;  // a stage that copies it does not compile
  int width() const { return across; }
  int height() const { return down; }
  Row row(int y) const { return {&planes[at(0, 0, y)], &planes[at(1, 0, y)], &planes[at(2, 0, y)]}; }

 private:
  std::size_t at(int plane, int x, int y) const {
    return static_cast<std::size_t>((plane * down + y) * (across + gap) + x);
  }
};

}  // namespace embedder
