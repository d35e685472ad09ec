// The error of a palette on a picture, as the recorded peers were measured: in double, without the library's search.
#pragma once

#include <algorithm>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid_test {

/// Mean squared Oklab distance, each pixel to its nearest colour.
inline double palette_error(const handlaid::Raster<handlaid::Srgb8>& picture, const handlaid::Palette& palette) {
  std::vector<handlaid::Oklab> colours;
  for (const auto& entry : palette.entries) colours.push_back(handlaid::convert_colour<handlaid::Oklab>(entry.colour));
  double sum = 0;
  for (const handlaid::Srgb8& pixel : picture.pixels()) {
    const auto p = handlaid::convert_colour<handlaid::Oklab>(pixel);
    double least = 1e9;
    for (const auto& q : colours) {
      const double l = double{p.L} - double{q.L};
      const double a = double{p.a} - double{q.a};
      const double b = double{p.b} - double{q.b};
      least = std::min(least, l * l + a * a + b * b);
    }
    sum += least;
  }
  return sum / static_cast<double>(picture.size());
}

}  // namespace handlaid_test
