// Oklab, the space of our distances, and Oklch for reports.
// B. Ottosson, "A perceptual color space for image processing", 2020 (coefficients as published there in 2021).
#pragma once

#include <cmath>
#include <numbers>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/colour/fixed.hpp"

namespace handlaid {

namespace detail {
inline constexpr FixedMatrix linear_to_lms = {{{442619434, 575882676, 55239714},  //
                                               {227529649, 730895571, 115316604},
                                               {94814047, 302493299, 676434479}}};
inline constexpr FixedMatrix lms_to_oklab = {
    {{225973536, 852140608, -4372327}, {2123859712, -2607681024, 483821312}, {27814248, 840494784, -868308992}}};
inline constexpr FixedMatrix oklab_to_lms = {
    {{1073741822, 425564464, 231717521}, {1073741834, -113345628, -68562898}, {1073741883, -96082909, -1386722037}}};
inline constexpr FixedMatrix lms_to_linear = {
    {{4377368027, -3551628276, 248002073}, {-1361974936, 2802205672, -366488911}, {-4505514, -755289986, 1833537324}}};
/// Cubes steps of 1/2^28 into steps of 1/2^24; |root| below 2.
constexpr std::int64_t fixed_cube(std::int64_t root) { return round_shift(round_shift(root * root, 28) * root, 32); }
}  // namespace detail

/// Lightness L from 0, black, to 1, white; a (green to red) and b (blue to yellow) about -0.4 to 0.4.
/// Against the formulas in double the error is below 3e-8 for sRGB colours lighter than black.
struct Oklab {
  float L = 0;
  float a = 0;
  float b = 0;

  /// 16384 steps to a unit of L.
  static constexpr int steps = 1 << 14;

  constexpr Light light() const {
    const detail::FixedVector lab = {detail::to_fixed(L, 28, 1.5F), detail::to_fixed(a, 28, 1),
                                     detail::to_fixed(b, 28, 1)};
    const auto lms = detail::shifted(detail::times(detail::oklab_to_lms, lab), 30);
    constexpr std::int64_t limit = (std::int64_t{1} << 29) - 1;
    const auto cube = [](std::int64_t v) { return detail::fixed_cube(detail::clamp(v, -limit, limit)); };
    const auto rgb = detail::times(detail::lms_to_linear, {cube(lms.x), cube(lms.y), cube(lms.z)});
    const auto light = detail::shifted(rgb, 30);
    constexpr std::int64_t most = std::int64_t{4} << 24;
    return {detail::clamp(light.x, -most, most), detail::clamp(light.y, -most, most),
            detail::clamp(light.z, -most, most)};
  }
  static constexpr Oklab from_light(const Light& light) {
    const auto lms = detail::times(detail::linear_to_lms, {light.r, light.g, light.b});
    const detail::FixedVector roots = {detail::fixed_cbrt(lms.x), detail::fixed_cbrt(lms.y), detail::fixed_cbrt(lms.z)};
    // The middle row has the largest sum of magnitudes, below 5: 5 * 2^31 * 2^30 would not fit, so one bit goes first.
    const auto lab = detail::times(detail::lms_to_oklab, detail::shifted(roots, 2));
    const auto out = [](std::int64_t v) { return detail::from_fixed(detail::round_shift(v, 30), 28); };
    return {out(lab.x), out(lab.y), out(lab.z)};
  }

  constexpr FixedPoint fixed() const {
    const auto axis = [](float v) { return static_cast<std::int16_t>(detail::to_fixed(v, 14, 1)); };
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
