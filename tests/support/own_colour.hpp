// Colour types from outside the library, as an embedder would write them: the smallest that meet the concepts.
#pragma once

#include "handlaid/colour/rgb.hpp"

namespace outside {

/// sRGB codes as coordinates, 64 steps to a code: what published examples in RGB are worked in.
struct CodeRgb {
  int r = 0;
  int g = 0;
  int b = 0;
  static constexpr int steps = 64;
  constexpr handlaid::Light light() const {
    return handlaid::Srgb8{static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g), static_cast<std::uint8_t>(b)}
        .light();
  }
  static constexpr CodeRgb from_light(const handlaid::Light& light) {
    const handlaid::Srgb8 code = handlaid::Srgb8::from_light(light);
    return {code.r, code.g, code.b};
  }
  constexpr handlaid::FixedPoint fixed() const {
    return {static_cast<std::int16_t>(r * 64), static_cast<std::int16_t>(g * 64), static_cast<std::int16_t>(b * 64)};
  }
  static constexpr CodeRgb from_fixed(const handlaid::FixedPoint& p) {
    return {(p.x + 32) / 64, (p.y + 32) / 64, (p.z + 32) / 64};
  }
};

/// Not a colour that can be compared: it has no steps.
struct LightOnly {
  handlaid::Light value = {};
  constexpr handlaid::Light light() const { return value; }
  static constexpr LightOnly from_light(const handlaid::Light& light) { return {light}; }
};

}  // namespace outside
