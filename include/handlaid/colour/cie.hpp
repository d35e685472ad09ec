// CIE XYZ and CIELAB, for illuminant D65 (as sRGB) and D50 (as print and ICC). CIE 15:2004.
#pragma once

#include "handlaid/colour/concepts.hpp"
#include "handlaid/colour/fixed.hpp"

namespace handlaid {

/// Illuminant D65, 2 degree observer, Y = 1: 0.95047, 1, 1.08883 (ASTM E308). Matrices from the sRGB primaries.
struct D65 {
  static constexpr double white[3] = {0.95047, 1.0, 1.08883};
  static constexpr detail::FixedMatrix from_linear = {{{442871729, 383944390, 193743272},  //
                                                       {228355735, 767888780, 77497309},
                                                       {20759612, 127981463, 1020381235}}};
  static constexpr detail::FixedMatrix to_linear = {
      {{3479411163, -1650489910, -535294025}, {-1040741476, 2014351307, 44620434}, {59746679, -219071157, 1135186902}}};
};

/// Illuminant D50, 2 degree observer, Y = 1: 0.96422, 1, 0.82521 (ICC.1, ASTM E308).
/// Adapted from D65 by Bradford (Lam 1985, as in ICC.1 annex E).
struct D50 {
  static constexpr double white[3] = {0.96422, 1.0, 0.82521};
  static constexpr detail::FixedMatrix from_linear = {{{468231648, 413460290, 153631404},  //
                                                       {238912355, 769742530, 65086940},
                                                       {14959563, 104265201, 766837726}}};
  static constexpr detail::FixedMatrix to_linear = {
      {{3364952414, -1736097362, -526793459}, {-1050944547, 2057441257, 35920939}, {77250669, -245877664, 1508867862}}};
};

/// Tristimulus values under `White`; Y of the white is 1.
template <class White>
struct Xyz {
  float X = 0;
  float Y = 0;
  float Z = 0;

  constexpr Light light() const {
    const auto rgb = detail::shifted(
        detail::times(White::to_linear,
                      {detail::to_fixed(X, 24, 8), detail::to_fixed(Y, 24, 8), detail::to_fixed(Z, 24, 8)}),
        30);
    constexpr std::int64_t most = std::int64_t{4} << 24;
    return {detail::clamp(rgb.x, -most, most), detail::clamp(rgb.y, -most, most), detail::clamp(rgb.z, -most, most)};
  }
  static constexpr Xyz from_light(const Light& light) {
    const auto xyz = detail::shifted(detail::times(White::from_linear, {light.r, light.g, light.b}), 30);
    return {detail::from_fixed(xyz.x, 24), detail::from_fixed(xyz.y, 24), detail::from_fixed(xyz.z, 24)};
  }
  friend constexpr bool operator==(const Xyz&, const Xyz&) = default;
};

/// CIE 1976 L*a*b* under `White`: L from 0 to 100, a and b about -128 to 128.
template <class White>
struct Lab {
  float L = 0;
  float a = 0;
  float b = 0;

  /// 128 steps to a unit of L.
  static constexpr int steps = 1 << 7;

  static constexpr Lab from_xyz(const Xyz<White>& xyz) {
    return from_relative({relative(xyz.X, 0), relative(xyz.Y, 1), relative(xyz.Z, 2)});
  }
  constexpr Xyz<White> xyz() const {
    const auto r = relatives();
    const auto part = [](std::int64_t v, int axis) {
      return static_cast<float>(static_cast<double>(v) / 1073741824.0 * White::white[axis]);
    };
    return {part(r.x, 0), part(r.y, 1), part(r.z, 2)};
  }

  constexpr Light light() const {
    const auto r = relatives();
    // Relative to white in 1/2^30, times white in 1/2^24: whole steps of XYZ in 1/2^24.
    const auto part = [](std::int64_t v, int axis) { return detail::round_shift(v * white_steps(axis), 30); };
    const auto rgb = detail::shifted(detail::times(White::to_linear, {part(r.x, 0), part(r.y, 1), part(r.z, 2)}), 30);
    constexpr std::int64_t most = std::int64_t{4} << 24;
    return {detail::clamp(rgb.x, -most, most), detail::clamp(rgb.y, -most, most), detail::clamp(rgb.z, -most, most)};
  }
  static constexpr Lab from_light(const Light& light) {
    const auto xyz = detail::times(White::from_linear, {light.r, light.g, light.b});
    const auto part = [](std::int64_t v, int axis) { return v / white_steps(axis); };  // 1/2^54 by 1/2^24
    return from_relative({part(xyz.x, 0), part(xyz.y, 1), part(xyz.z, 2)});
  }

  constexpr FixedPoint fixed() const {
    const auto axis = [](float v) { return static_cast<std::int16_t>(detail::to_fixed(v, 7, 128)); };
    return {axis(L), axis(a), axis(b)};
  }
  static constexpr Lab from_fixed(const FixedPoint& point) {
    return {detail::from_fixed(point.x, 7), detail::from_fixed(point.y, 7), detail::from_fixed(point.z, 7)};
  }
  friend constexpr bool operator==(const Lab&, const Lab&) = default;

 private:
  static constexpr std::int64_t white_steps(int axis) {
    return static_cast<std::int64_t>(White::white[axis] * (1 << 24) + 0.5);
  }
  static constexpr std::int64_t relative(float v, int axis) {
    return (detail::to_fixed(v, 24, 4) << 30) / white_steps(axis);
  }
  // f of CIE 15: a cube root, and below (6/29)^3 the straight line that touches it. Steps of 1/2^30 both ways.
  static constexpr std::int64_t forward(std::int64_t t) {
    constexpr std::int64_t bend = 9509543;  // (6/29)^3
    if (t > bend) return detail::fixed_cbrt(detail::clamp(t, 0, std::int64_t{7} << 30) << 24);
    return t * 841 / 108 + 148102321;  // 4/29
  }
  static constexpr std::int64_t backward(std::int64_t f) {
    constexpr std::int64_t bend = 222153481;  // 6/29
    if (f > bend) {
      const std::int64_t g = detail::clamp(f, 0, std::int64_t{19} << 26);
      return detail::round_shift(detail::round_shift(g * g, 30) * g, 30);
    }
    return (f - 148102321) * 108 / 841;
  }
  static constexpr Lab from_relative(const detail::FixedVector& t) {
    const std::int64_t fx = forward(t.x);
    const std::int64_t fy = forward(t.y);
    const std::int64_t fz = forward(t.z);
    const auto out = [](std::int64_t v) { return detail::from_fixed(v, 30); };
    return {out(116 * fy - (std::int64_t{16} << 30)), out(500 * (fx - fy)), out(200 * (fy - fz))};
  }
  constexpr detail::FixedVector relatives() const {
    const std::int64_t fy = (detail::to_fixed(L, 24, 400) + (std::int64_t{16} << 24)) * 64 / 116;
    const std::int64_t fx = fy + detail::to_fixed(a, 24, 400) * 64 / 500;
    const std::int64_t fz = fy - detail::to_fixed(b, 24, 400) * 64 / 200;
    return {backward(fx), backward(fy), backward(fz)};
  }
};

using XyzD65 = Xyz<D65>;
using XyzD50 = Xyz<D50>;
using LabD65 = Lab<D65>;
using LabD50 = Lab<D50>;

}  // namespace handlaid
