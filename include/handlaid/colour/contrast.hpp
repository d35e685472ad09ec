// Contrast of text on a swatch (W3C, Web Content Accessibility Guidelines 2.2, definitions of relative luminance and
// contrast ratio), and the ink that reads best.
#pragma once

#include "handlaid/colour/rgb.hpp"

namespace handlaid {

/// Relative luminance, from 0, black, to 1, white.
constexpr double relative_luminance(const Srgb8& colour) {
  const Light light = colour.light();
  return (0.2126 * static_cast<double>(light.r) + 0.7152 * static_cast<double>(light.g) +
          0.0722 * static_cast<double>(light.b)) /
         linear_white;
}

/// From 1, the same, to 21, black on white. Text should reach 4.5 (success criterion 1.4.3).
constexpr double contrast_ratio(const Srgb8& one, const Srgb8& other) {
  const double a = relative_luminance(one);
  const double b = relative_luminance(other);
  return ((a > b ? a : b) + 0.05) / ((a > b ? b : a) + 0.05);
}

/// Black or white, whichever contrasts more with the swatch; always at least 4.58 : 1, the square root of 21.
/// Decided in whole numbers: white wins where luminance is below the square root of 1.05 * 0.05, less 0.05.
constexpr Srgb8 numeral_colour(const Srgb8& swatch) {
  const Light light = swatch.light();
  const std::int64_t luminance = 2126 * light.r + 7152 * light.g + 722 * light.b;  // 10,000 * 2^24 is white
  constexpr std::int64_t even = 30052823135;                                       // 0.179128784747792 of it
  return luminance < even ? Srgb8{255, 255, 255} : Srgb8{0, 0, 0};
}

}  // namespace handlaid
