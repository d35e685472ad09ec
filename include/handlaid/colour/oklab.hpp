// Oklab, the space of our distances, and Oklch for reports.
// B. Ottosson, "A perceptual color space for image processing", 2020 (coefficients as published there in 2021).
#pragma once

#include <cmath>
#include <numbers>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/colour/fixed.hpp"
#include "handlaid/colour/steady_float.hpp"

namespace handlaid {

namespace detail {

/// Shares of red, green and blue in the three cones' light.
inline constexpr FixedMatrix linear_to_lms = {{{442619434, 575882676, 55239714},  //
                                               {227529649, 730895571, 115316604},
                                               {94814047, 302493299, 676434479}}};

/// The light that one channel, in steps of 1/2^24, gives a cone, in steps of 1/2^30.
constexpr std::int64_t cone_share(int cone, int channel, std::int64_t light) {
  return round_shift(linear_to_lms.m[cone][channel] * light, 24);
}

/// The cube root of a cone's light, which is in steps of 1/2^30 and not below 0.
constexpr float cone_root(float steps) { return steady_cbrt(steps) * (1.0F / 1024); }

/// L, a and b of the cube roots l, m and s: the published rows, with l - m and m - s taken out, so that greys come out
/// neutral (a row of a or b adds up to 0, that of L to 1).
struct OklabAxes {
  float L, a, b;
};
constexpr OklabAxes oklab_axes(float l, float m, float s) {
  const float u = l - m;
  const float v = m - s;
  return {m + (cut_product(u, 0.2104542553F) + cut_product(v, 0.0040720468F)),
          cut_product(u, 1.9779984951F) - cut_product(v, 0.4505937099F),
          cut_product(u, 0.0259040371F) + cut_product(v, 0.8086757660F)};
}

/// The way back, to linear light in steps of 1/2^24. L is held within +-1.5, a and b within +-1, light within +-4.
struct LightSteps {
  std::int32_t r, g, b;
};
[[gnu::always_inline]] constexpr LightSteps light_of_oklab(float lightness, float green_red, float blue_yellow) {
  const float L = held(lightness, 1.5F);
  const float a = held(green_red, 1);
  const float b = held(blue_yellow, 1);
  const float l = L + (cut_product(a, 0.396337792F) + cut_product(b, 0.215803758F));
  const float m = L - (cut_product(a, 0.1055613414F) + cut_product(b, 0.0638541742F));
  const float s = L - (cut_product(a, 0.0894841763F) + cut_product(b, 1.2914855344F));
  const float lll = l * l * l;
  const float mmm = m * m * m;
  const float sss = s * s * s;
  const auto light = [&](float x, float y, float z) {
    const float sum = (cut_product(lll, x) + cut_product(mmm, y)) + cut_product(sss, z);
    return static_cast<std::int32_t>(held(sum, 4) * 16777216.0F);  // toward 0
  };
  return {light(4.0767416621F, -3.3077115913F, 0.2309699292F), light(-1.2684380046F, 2.6097574011F, -0.3413193965F),
          light(-0.0041960863F, -0.7034186147F, 1.7076147010F)};
}

}  // namespace detail

/// Lightness L from 0, black, to 1, white; a (green to red) and b (blue to yellow) about -0.4 to 0.4.
/// Against the formulas in double the error is below 2e-6 for every sRGB code, and each comes back as itself. Floats
/// rounded step by step (steady_float.hpp): the same bits in every build.
struct Oklab {
  float L = 0;
  float a = 0;
  float b = 0;

  /// 16384 steps to a unit of L.
  static constexpr int steps = 1 << 14;

  constexpr Light light() const {
    const detail::LightSteps light = detail::light_of_oklab(L, a, b);
    return {light.r, light.g, light.b};
  }
  static constexpr Oklab from_light(const Light& light) {
    const auto root = [&](int cone) {
      const std::int64_t sum = detail::cone_share(cone, 0, light.r) + detail::cone_share(cone, 1, light.g) +
                               detail::cone_share(cone, 2, light.b);
      return sum < 0 ? -detail::cone_root(static_cast<float>(-sum)) : detail::cone_root(static_cast<float>(sum));
    };
    const detail::OklabAxes axes = detail::oklab_axes(root(0), root(1), root(2));
    return {axes.L, axes.a, axes.b};
  }

  constexpr FixedPoint fixed() const {
    const auto axis = [](float v) { return static_cast<std::int16_t>(detail::rounded(detail::held(v, 1) * steps)); };
    return {axis(L), axis(a), axis(b)};
  }
  static constexpr Oklab from_fixed(const FixedPoint& point) {
    return {detail::from_fixed(point.x, 14), detail::from_fixed(point.y, 14), detail::from_fixed(point.z, 14)};
  }
  friend constexpr bool operator==(const Oklab&, const Oklab&) = default;
};

/// Oklab in polar form: lightness L, chroma C, hue in degrees from 0 to 360. For reports: its angle never decides.
struct Oklch {
  float L = 0;
  float C = 0;
  float hue_deg = 0;

  static Oklch from(const Oklab& lab) {
    const double chroma = std::sqrt(double{lab.a} * double{lab.a} + double{lab.b} * double{lab.b});
    double hue = std::atan2(double{lab.b}, double{lab.a}) * 180.0 / std::numbers::pi;
    if (hue < 0) hue += 360;
    return {lab.L, static_cast<float>(chroma), static_cast<float>(hue)};
  }
  Oklab lab() const {
    const double angle = double{hue_deg} * std::numbers::pi / 180.0;
    return {L, static_cast<float>(double{C} * std::cos(angle)), static_cast<float>(double{C} * std::sin(angle))};
  }
  Light light() const { return lab().light(); }
  static Oklch from_light(const Light& light) { return from(Oklab::from_light(light)); }
  friend constexpr bool operator==(const Oklch&, const Oklch&) = default;
};

}  // namespace handlaid
