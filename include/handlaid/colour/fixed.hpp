// Fixed-point arithmetic under the colour spaces: matrices and a cube root in integers.
// A floating-point product and sum may be fused by one compiler and not by another; integers are the same everywhere.
#pragma once

#include <bit>
#include <cstdint>

namespace handlaid::detail {

/// Coefficients in steps of 1/2^30.
struct FixedMatrix {
  std::int64_t m[3][3];
};

struct FixedVector {
  std::int64_t x, y, z;
};

constexpr std::int64_t round_shift(std::int64_t value, int bits) {
  return (value + (std::int64_t{1} << (bits - 1))) >> bits;
}

/// `matrix * v`, in steps 2^30 finer than `v`. Sums stay below 2^63 for |v| below 2^30.
constexpr FixedVector times(const FixedMatrix& matrix, const FixedVector& v) {
  const auto& m = matrix.m;
  return {m[0][0] * v.x + m[0][1] * v.y + m[0][2] * v.z, m[1][0] * v.x + m[1][1] * v.y + m[1][2] * v.z,
          m[2][0] * v.x + m[2][1] * v.y + m[2][2] * v.z};
}
constexpr FixedVector shifted(const FixedVector& v, int bits) {
  return {round_shift(v.x, bits), round_shift(v.y, bits), round_shift(v.z, bits)};
}

constexpr std::int64_t clamp(std::int64_t value, std::int64_t low, std::int64_t high) {
  return value < low ? low : (value > high ? high : value);
}

/// `value` in steps of 1/2^bits, rounded half away from zero and held within +-`limit` (in units of `value`).
/// NaN counts as -`limit`. Scaling by a power of two is exact, so the result is the same everywhere.
constexpr std::int64_t to_fixed(float value, int bits, float limit) {
  if (!(value > -limit)) value = -limit;
  if (value > limit) value = limit;
  const double scaled = static_cast<double>(value) * static_cast<double>(std::int64_t{1} << bits);
  return static_cast<std::int64_t>(scaled < 0 ? scaled - 0.5 : scaled + 0.5);
}
/// The float nearest to `value` steps of 1/2^bits.
constexpr float from_fixed(std::int64_t value, int bits) {
  return static_cast<float>(static_cast<double>(value) / static_cast<double>(std::int64_t{1} << bits));
}

/// The cube root of `x` (steps of 1/2^60, at most 7.9) in steps of 1/2^30; odd in `x`; error below 2e-9 from 0.001 up.
constexpr std::int64_t fixed_cbrt(std::int64_t x) {
  if (x < 0) return -fixed_cbrt(-x);
  if (x == 0) return 0;
  const auto value = static_cast<double>(x);
  // A third of the exponent is a first guess; two Halley steps make it good to about 1 in 10^12. The guess may differ
  // between builds, but the loops below end at the same integer from any guess.
  double root = std::bit_cast<double>(std::bit_cast<std::uint64_t>(value) / 3 + 0x2a9f7893782da1ceULL);
  for (int i = 0; i < 2; ++i) {
    const double cube = root * root * root;
    root *= (cube + 2 * value) / (2 * cube + value);
  }
  auto whole = static_cast<std::int64_t>(root);
  while (whole * whole * whole > x) --whole;
  while ((whole + 1) * (whole + 1) * (whole + 1) <= x) ++whole;
  // Between two whole steps the root is nearly straight: ten more bits by proportion.
  const std::int64_t rest = x - whole * whole * whole;
  const std::int64_t gap = 3 * whole * (whole + 1) + 1;
  return (whole << 10) + ((rest << 10) + gap / 2) / gap;
}

}  // namespace handlaid::detail
