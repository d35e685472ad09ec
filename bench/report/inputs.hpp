// What several tasks work on, made once: a photo of about a megapixel, its colours, a palette, pairs of colours.
#pragma once

#include <vector>

#include "../photo.hpp"
#include "handlaid/colour/cie.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid_bench {

inline const handlaid::Raster<handlaid::Srgb8>& megapixel() {
  static const auto made = photo(1e6);
  return made;
}

/// A palette of colours that the photo has, spread over it.
inline handlaid::Palette palette_from_photo(int colours) {
  handlaid::Palette palette;
  handlaid::Random random(7);
  const auto pixels = megapixel().pixels();
  for (int i = 0; i < colours; ++i) palette.entries.push_back({.colour = pixels[random.below(pixels.size())]});
  return palette;
}

inline std::vector<handlaid::Oklab> oklab_of(const handlaid::Palette& palette) {
  std::vector<handlaid::Oklab> colours;
  for (const auto& entry : palette.entries) colours.push_back(handlaid::convert_colour<handlaid::Oklab>(entry.colour));
  return colours;
}

/// A million pairs: each pixel's CIELAB with that of another pixel.
inline const std::vector<handlaid::LabD65>& lab_pixels() {
  static const auto made = [] {
    std::vector<handlaid::LabD65> lab;
    for (const auto& code : megapixel().pixels()) lab.push_back(handlaid::convert_colour<handlaid::LabD65>(code));
    return lab;
  }();
  return made;
}
inline std::size_t partner(std::size_t i, std::size_t count) { return (i * 7919 + 1) % count; }

}  // namespace handlaid_bench
