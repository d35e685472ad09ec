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

/// The whole part of the cube root of `x`, 0 to 2^60, bit by bit.
constexpr std::int64_t slow_cbrt(std::int64_t x) {
  std::int64_t root = 0;
  for (std::int64_t bit = std::int64_t{1} << 20; bit > 0; bit /= 2) {
    const std::int64_t next = root + bit;
    if (next * next * next <= x) root = next;
  }
  return root;
}

/// Cube roots of 1 to 8 in steps of 1/2^30: three octaves of 128 equal parts each, with the slope and the curve to the
/// next entry.
struct CubeRoots {
  struct Entry {
    std::int64_t root = 0;
    std::int64_t slope = 0;
    std::int64_t curve = 0;
  };
  static constexpr int parts = 128;
  Entry entries[3 * parts] = {};

  constexpr CubeRoots() {
    for (int octave = 0; octave < 3; ++octave) {
      for (int part = 0; part < parts; ++part) {
        // Ends and middle of the part; twelve bits below the whole root by proportion, as it is nearly straight there.
        const auto root = [&](int halves) {
          const std::int64_t x = (std::int64_t{2 * parts} + 2 * part + halves) << (49 + octave);  // 1/2^57
          const std::int64_t whole = slow_cbrt(x);
          const std::int64_t rest = x - whole * whole * whole;
          const std::int64_t gap = 3 * whole * (whole + 1) + 1;
          return (whole << 12) + ((rest << 12) + gap / 2) / gap;
        };
        const std::int64_t first = root(0);
        const std::int64_t middle = root(1);
        const std::int64_t last = root(2);
        entries[octave * parts + part] = {first, 4 * middle - 3 * first - last, 2 * (first + last - 2 * middle)};
      }
    }
  }
};
inline constexpr CubeRoots cube_roots;

/// The cube root of `x` (steps of 1/2^54, below 8) in steps of 1/2^30; odd in `x`; off by at most 4e-9 of itself or a
/// step.
constexpr std::int64_t fixed_cbrt(std::int64_t x) {
  if (x < 0) return -fixed_cbrt(-x);
  if (x == 0) return 0;
  // x = m * 2^b with m from 1 to 2; of the power of two a multiple of three comes out of the root.
  const int b = static_cast<int>(std::bit_width(static_cast<std::uint64_t>(x))) - 1;
  const int octave = b % 3;
  const std::int64_t m = b > 48 ? x >> (b - 48) : x << (48 - b);
  const std::int64_t part = (m >> 41) & (CubeRoots::parts - 1);
  const std::int64_t t = (m >> 13) & ((std::int64_t{1} << 28) - 1);  // 0 to 1 within the part, steps of 1/2^28
  const CubeRoots::Entry& e = cube_roots.entries[octave * CubeRoots::parts + part];
  const std::int64_t root = e.root + (((e.slope + ((e.curve * t) >> 28)) * t) >> 28);
  const int down = 18 - b / 3 + 1;  // the entries are in steps of 1/2^31; 2^54 is 18 times three
  return down > 0 ? round_shift(root, down) : root << -down;
}

}  // namespace handlaid::detail
