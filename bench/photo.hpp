// A photo of any size for benchmarks: the demo's cat enlarged, with noise as of a camera, as pixels or as a JPEG.
#pragma once

#define STB_IMAGE_WRITE_STATIC
#define STB_IMAGE_WRITE_IMPLEMENTATION
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image_write.h>
#pragma GCC diagnostic pop

#include <cmath>
#include <string>
#include <vector>

#include "handlaid/core/random.hpp"
#include "handlaid/image/read.hpp"

namespace handlaid_bench {

/// About `pixels` pixels, 4 to 3.
inline handlaid::Raster<handlaid::Srgb8> photo(double pixels) {
  const auto cat = handlaid::read<handlaid::Srgb8>(std::string(HANDLAID_DEMO_DATA) + "/cat.png");
  const int width = static_cast<int>(std::lround(std::sqrt(pixels * 4 / 3)));
  const int height = static_cast<int>(std::lround(pixels / width));
  handlaid::Raster<handlaid::Srgb8> large(width, height);
  handlaid::Random random(7);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      // Straight between the four neighbours, in 1/1024 of a pixel.
      const std::int64_t u = std::int64_t{x} * (cat.width() - 1) * 1024 / width;
      const std::int64_t v = std::int64_t{y} * (cat.height() - 1) * 1024 / height;
      const int left = static_cast<int>(u / 1024);
      const int top = static_cast<int>(v / 1024);
      const std::uint64_t bits = random.next();
      const auto channel = [&](std::uint8_t handlaid::Srgb8::*c, unsigned shift) {
        const std::int64_t upper = cat(left, top).*c * (1024 - u % 1024) + cat(left + 1, top).*c * (u % 1024);
        const std::int64_t lower = cat(left, top + 1).*c * (1024 - u % 1024) + cat(left + 1, top + 1).*c * (u % 1024);
        const std::int64_t value = (upper * (1024 - v % 1024) + lower * (v % 1024)) >> 20U;
        const auto grain = static_cast<std::int64_t>(bits >> shift & 15U) - 8;
        return static_cast<std::uint8_t>(std::min<std::int64_t>(255, std::max<std::int64_t>(0, value + grain)));
      };
      large(x, y) = {channel(&handlaid::Srgb8::r, 0), channel(&handlaid::Srgb8::g, 4), channel(&handlaid::Srgb8::b, 8)};
    }
  }
  return large;
}

/// The same as a JPEG of quality 90.
inline std::vector<unsigned char> photo_jpeg(double pixels) {
  const auto picture = photo(pixels);
  std::vector<unsigned char> bytes;
  const auto add = [](void* to, void* data, int size) {
    const auto* first = static_cast<const unsigned char*>(data);
    static_cast<std::vector<unsigned char>*>(to)->insert(static_cast<std::vector<unsigned char>*>(to)->end(), first,
                                                         first + size);
  };
  stbi_write_jpg_to_func(add, &bytes, picture.width(), picture.height(), 3, picture.pixels().data(), 90);
  return bytes;
}

}  // namespace handlaid_bench
