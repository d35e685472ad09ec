// CIEDE2000 in whole steps, the same in every build: what decides may hang on it.
// Angles never occur: of hues there are only unit vectors, their sum (the middle hue) and their difference (twice the
// sine of half the angle). Doubles only where an operation is exact or stands alone between two roundings.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/fixed.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/quality/whole_plane.hpp"

namespace handlaid {

/// Steps of `whole_ciede2000` to a difference of 1.
inline constexpr std::int64_t difference_steps = 1 << 16;

/// CIEDE2000 (CIE 142-2001; Sharma, Wu, Dalal 2005), within 1e-4 of the formula, in steps of 1/65,536. a and b are held
/// within +-360, L within -70 to 170.
template <class White>
std::int64_t whole_ciede2000(const Lab<White>& p, const Lab<White>& q);

namespace detail {

/// x^7 / (x^7 + 1), and its root, for x of 0 or more.
template <When = When::called>
double seventh_root_of_share(double x) {
  if (x < 0.01) return 0;
  const double square = x * x;
  const double power = square * square * square * x;
  const double rest = 1.0 / power;
  return 1.0 / std::sqrt(1.0 + rest);
}

/// Steps of 1/2^28, as `p` and `q` are.
constexpr std::int64_t product28(std::int64_t p, std::int64_t q) { return (p * q + (1 << 27)) >> 28; }

/// T of CIEDE2000 for the middle hue of this cosine and sine; all in steps of 1/2^28.
constexpr std::int64_t hue_weight(std::int64_t c, std::int64_t s) {
  constexpr std::int64_t one = 1 << 28;
  const std::int64_t c2 = 2 * product28(c, c) - one;
  const std::int64_t s2 = 2 * product28(c, s);
  const std::int64_t c3 = product28(c, 2 * c2 - one);
  const std::int64_t s3 = product28(s, 2 * c2 + one);
  const std::int64_t c4 = 2 * product28(c2, c2) - one;
  const std::int64_t s4 = 2 * product28(s2, c2);
  const std::int64_t first = product28(c, 232471924) + product28(s, 134217728);     // cos(h - 30)
  const std::int64_t third = product28(c3, 266964938) - product28(s3, 28059146);    // cos(3h + 6)
  const std::int64_t fourth = product28(c4, 121867147) + product28(s4, 239177743);  // cos(4h - 63)
  return one + (-17 * first + 24 * c2 + 32 * third - 20 * fourth) / 100;
}

/// The sine of twice the turn of blue hues, sin(60 exp(-((h - 275) / 25)^2)); all in steps of 1/2^28.
constexpr std::int64_t blue_turn(std::int64_t c, std::int64_t s) {
  constexpr std::int64_t one = 1 << 28;
  const std::int64_t y = one - product28(c, 23395692) + product28(s, 267413978);  // 1 - cos(h - 275)
  if (y >= one) return 0;                                                         // 90 degrees away
  // The square of the angle from its cosine: 2y + y^2/3 + 4y^3/45 + y^4/35 + ..., times 1 / 25 degrees squared.
  constexpr std::int64_t terms[] = {536870912, 89478485, 23860929, 7669584, 2726963,
                                    1032941,   408636,   166860,   69797,   29756};
  std::int64_t sum = 0;
  for (int i = 9; i >= 0; --i) sum = product28(sum + terms[i], y);
  const std::int64_t e = fixed_exp_minus(product28(sum, 1409954591) << 2) >> 2;
  const std::int64_t x = product28(e, 281104952);  // 60 degrees
  const std::int64_t x2 = product28(x, x);
  std::int64_t sine = one;
  for (const std::int64_t n : {72, 42, 20, 6}) sine = one - product28(sine, x2) / n;
  return product28(sine, x);
}

/// The length of a vector of any size.
template <When = When::called>
double length_of(double x, double y) {
  const double most = std::max(std::abs(x), std::abs(y));
  if (most == 0) return 0;
  const double u = whole(x / most * 33554432.0);
  const double v = whole(y / most * 33554432.0);
  return most * (std::sqrt(u * u + v * v) / 33554432.0);
}

/// A colour without its lightness: red-green and blue-yellow as whole numbers, chroma in the same steps of 1/2^17, and
/// the hue as a vector of length 1 (0 for grey).
struct HueVector {
  double a = 0;
  double b = 0;
  double chroma = 0;
  double x = 0;
  double y = 0;

  static HueVector of(double a, double b) {
    const double chroma = std::sqrt(a * a + b * b);
    if (chroma == 0) return {};
    return {a, b, chroma, a / chroma, b / chroma};
  }
  bool in_upper_half() const { return b > 0 || (b == 0 && a > 0); }
};

}  // namespace detail

template <class White>
std::int64_t whole_ciede2000(const Lab<White>& p, const Lab<White>& q) {
  using detail::HueVector;
  constexpr double unit = 1 << 17;
  const auto held = [](float v, float middle, float most) {
    return static_cast<double>(detail::to_fixed(v - middle, 17, most));
  };
  const double l1 = held(p.L, 50, 120);
  const double l2 = held(q.L, 50, 120);
  const double a1 = held(p.a, 0, 360);
  const double a2 = held(q.a, 0, 360);
  const double b1 = held(p.b, 0, 360);
  const double b2 = held(q.b, 0, 360);
  if (l1 == l2 && a1 == a2 && b1 == b2) return 0;

  const double plain = std::sqrt(a1 * a1 + b1 * b1) + std::sqrt(a2 * a2 + b2 * b2);
  const double stretch = 1.5 - detail::seventh_root_of_share(plain / (50 * unit)) / 2;
  const auto stretched = [&](double a) { return static_cast<double>(static_cast<std::int64_t>(stretch * a)); };
  const HueVector v1 = HueVector::of(stretched(a1), b1);
  const HueVector v2 = HueVector::of(stretched(a2), b2);

  // The middle hue; for opposite hues it lies a quarter turn on from the one in the upper half.
  double x = v1.x + v2.x;
  double y = v1.y + v2.y;
  if (x == 0 && y == 0) {
    const HueVector& from = v1.in_upper_half() ? v1 : v2;
    x = -from.y;
    y = from.x;
  }
  const double length = detail::length_of(x, y);
  const auto share = [&](double v) {
    return length == 0 ? std::int64_t{0} : static_cast<std::int64_t>(detail::whole(v / length * 268435456.0));
  };
  const std::int64_t cosine = share(x);
  const std::int64_t sine = share(y);

  const double off = l1 + l2;                       // of the middle lightness from 50, in steps of 1/2^18
  const double square = off * off / 68719476736.0;  // exact
  const double weight_l = 1 + square / std::sqrt(20 + square) / (200 / 3.0);
  const double chroma = (v1.chroma + v2.chroma) / (2 * unit);
  const double weight_c = 1 + chroma / (200 / 9.0);
  const double weight = static_cast<double>(detail::hue_weight(cosine, sine)) / 268435456.0;
  const double weight_h = 1 + chroma * weight / (200 / 3.0);
  const double chord = detail::length_of(v2.x - v1.x, v2.y - v1.y) * std::sqrt(v1.chroma * v2.chroma);
  const bool backward = v1.a * v2.b < v1.b * v2.a;

  // Each difference in steps of 1/2^22.
  const auto lightness = static_cast<std::int64_t>((l2 - l1) / weight_l * 32.0);
  const auto colourful = static_cast<std::int64_t>((v2.chroma - v1.chroma) / weight_c * 32.0);
  const bool grey = v1.chroma == 0 || v2.chroma == 0;
  auto hue = grey ? 0 : static_cast<std::int64_t>(chord / weight_h * 32.0);
  if (backward) hue = -hue;
  const auto turn = static_cast<std::int64_t>(-2.0 * static_cast<double>(detail::blue_turn(cosine, sine)) *
                                              detail::seventh_root_of_share(chroma / 25));
  const std::int64_t sum =
      lightness * lightness + colourful * colourful + hue * hue + ((turn * (colourful >> 2)) >> 26) * hue;
  if (sum <= 0) return 0;
  return (static_cast<std::int64_t>(std::sqrt(static_cast<double>(sum))) + 32) >> 6;
}

}  // namespace handlaid
