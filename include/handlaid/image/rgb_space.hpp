// What takes the codes of a picture to light: a curve for each channel and what their primaries are in linear sRGB.
#pragma once

#include "handlaid/colour/cie.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/profile.hpp"
#include "handlaid/image/tone_curve.hpp"

namespace handlaid::detail {

struct RgbSpace {
  std::array<ToneCurve, 3> curves = {};
  /// From the light of the channels to linear sRGB.
  FixedMatrix to_linear = {{{1 << 30, 0, 0}, {0, 1 << 30, 0}, {0, 0, 1 << 30}}};
};

/// A picture's colours: `space` counts where `report.use` is `converted`.
struct PictureColours {
  PictureProfile report = {};
  RgbSpace space = {};
};

/// Sets the primaries, each a column: XYZ under D50 in steps of 1/2^24. False where no colours can be meant by them:
/// values above 2, or primaries that lie in a plane.
template <When = When::called>
bool set_primaries(RgbSpace& space, const FixedVector (&primaries)[3]) {
  constexpr std::int64_t most = 2 << 24;
  for (const FixedVector& p : primaries) {
    for (const std::int64_t v : {p.x, p.y, p.z}) {
      if (v < -most || v > most) return false;
    }
  }
  // The determinant in steps of 1/2^30, from values in steps of 1/2^10.
  const auto v = [&](std::int64_t value) { return round_shift(value, 14); };
  const FixedVector p = {v(primaries[0].x), v(primaries[0].y), v(primaries[0].z)};
  const FixedVector q = {v(primaries[1].x), v(primaries[1].y), v(primaries[1].z)};
  const FixedVector r = {v(primaries[2].x), v(primaries[2].y), v(primaries[2].z)};
  const std::int64_t determinant =
      p.x * (q.y * r.z - q.z * r.y) + p.y * (q.z * r.x - q.x * r.z) + p.z * (q.x * r.y - q.y * r.x);
  if (determinant > -(1 << 20) && determinant < 1 << 20) return false;
  for (int i = 0; i < 3; ++i) {
    const FixedVector rgb = shifted(times(D50::to_linear, primaries[i]), 24);  // steps of 1/2^30
    space.to_linear.m[0][i] = rgb.x;
    space.to_linear.m[1][i] = rgb.y;
    space.to_linear.m[2][i] = rgb.z;
  }
  return true;
}

/// The same from chromaticities x, y of white, red, green and blue in steps of 1/100000, adapted by Bradford's matrix
/// (Lam 1985, as in ICC.1:2022 annex E) from their white to D50.
template <When = When::called>
bool set_primaries(RgbSpace& space, const std::int64_t (&xy)[8]) {
  constexpr std::int64_t unit = 100'000;
  FixedVector v[4];  // white, red, green, blue
  for (int i = 0; i < 4; ++i) {
    const std::int64_t x = xy[2 * i];
    const std::int64_t y = xy[2 * i + 1];
    if (x < 0 || x > unit || y < 0 || y > unit) return false;
    v[i] = {x, y, unit - x - y};
  }
  if (v[0].y == 0) return false;
  const auto determinant = [](const FixedVector& p, const FixedVector& q, const FixedVector& r) {
    return p.x * (q.y * r.z - q.z * r.y) + p.y * (q.z * r.x - q.x * r.z) + p.z * (q.x * r.y - q.y * r.x);
  };
  // Their shares in white, by Cramer's rule.
  const std::int64_t all = determinant(v[1], v[2], v[3]) >> 16;
  if (all > -15'000'000 && all < 15'000'000) return false;  // a thousandth
  const std::int64_t shares[3] = {determinant(v[0], v[2], v[3]), determinant(v[1], v[0], v[3]),
                                  determinant(v[1], v[2], v[0])};

  constexpr FixedMatrix bradford = {
      {{961106307, 286044822, -173301930}, {-805521116, 1839856615, 39406325}, {41768557, -73551315, 1105524582}}};
  constexpr FixedMatrix back = {
      {{1059775563, -157898306, 171758589}, {464184249, 556585103, 52926053}, {-9157584, 42995652, 1039904671}}};
  constexpr FixedVector d50 = {16714879, 17119930, 13734573};  // the cones under it, in steps of 1/2^24
  const FixedVector white = {(v[0].x << 24) / v[0].y, 1 << 24, (v[0].z << 24) / v[0].y};
  if (white.x > 8 << 24 || white.z > 8 << 24 || white.z < 0) return false;
  const FixedVector cones = shifted(times(bradford, white), 30);
  if (cones.x <= 0 || cones.y <= 0 || cones.z <= 0) return false;

  FixedVector primaries[3];
  for (int i = 0; i < 3; ++i) {
    const std::int64_t share = shares[i] * 256 / all;  // steps of 1/2^24
    const auto part = [&](std::int64_t value) { return value * share / v[0].y; };
    const FixedVector xyz = {part(v[i + 1].x), part(v[i + 1].y), part(v[i + 1].z)};
    for (const std::int64_t value : {xyz.x, xyz.y, xyz.z}) {
      if (value < -(8 << 24) || value > 8 << 24) return false;
    }
    const FixedVector seen = shifted(times(bradford, xyz), 30);
    const auto adapted = [](std::int64_t cone, std::int64_t to, std::int64_t from) {
      return clamp(cone * to / from, -(8 << 24), 8 << 24);
    };
    primaries[i] = shifted(times(back, {adapted(seen.x, d50.x, cones.x), adapted(seen.y, d50.y, cones.y),
                                        adapted(seen.z, d50.z, cones.z)}),
                           30);
  }
  return set_primaries(space, primaries);
}

}  // namespace handlaid::detail
