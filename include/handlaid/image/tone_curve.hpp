// The curve from the codes of a channel to its light, as ICC profiles give it: a power with straight parts, or a table.
// All in integers, so that every build makes the same table. ICC.1:2022, 10.6 (curveType) and 10.18
// (parametricCurveType).
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <vector>

#include "handlaid/colour/fixed.hpp"
#include "handlaid/colour/srgb_tables.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/picture_format.hpp"

namespace handlaid::detail {

/// 2^(1/2), 2^(1/4), 2^(1/8) and so on, in steps of 1/2^31.
inline constexpr auto roots_of_two = [] {
  std::array<std::uint64_t, 32> roots{};
  std::uint64_t last = std::uint64_t{2} << 31;
  for (auto& root : roots) {
    const std::uint64_t square = last << 31;  // at most 2^63
    for (std::uint64_t bit = std::uint64_t{1} << 31; bit > 0; bit /= 2) {
      const std::uint64_t next = root + bit;
      if (next * next <= square) root = next;
    }
    last = root;
  }
  return roots;
}();

/// x to the power g; x and the result in steps of 1/2^30, below 2^46 and held at 8; g in steps of 1/2^16, above 0 and
/// at most 16. Nothing for x of 0 and below. Off by less than 4e-8 of the result for g up to 4.
constexpr std::int64_t fixed_power(std::int64_t x, std::int64_t g) {
  if (x <= 0) return 0;
  // The logarithm to base 2, a bit for each squaring; steps of 1/2^32.
  const int width = static_cast<int>(std::bit_width(static_cast<std::uint64_t>(x)));
  auto m = static_cast<std::uint64_t>(x);
  m = width <= 32 ? m << (32 - width) : m >> (width - 32);  // 1 to 2 in steps of 1/2^31
  std::int64_t logarithm = width - 31;
  for (int bit = 0; bit < 32; ++bit) {
    m = (m * m) >> 31;
    logarithm *= 2;
    if (m >= std::uint64_t{2} << 31) {
      m /= 2;
      ++logarithm;
    }
  }
  const std::int64_t exponent = round_shift(logarithm * g, 16);
  const std::int64_t whole = exponent >> 32;
  if (whole >= 3) return std::int64_t{8} << 30;
  if (whole < -32) return 0;
  std::uint64_t power = std::uint64_t{1} << 31;
  for (std::size_t bit = 0; bit < 32; ++bit) {
    if ((exponent >> (31 - bit) & 1) != 0) power = (power * roots_of_two[bit] + (1U << 30)) >> 31;
  }
  const int down = 1 - static_cast<int>(whole);
  return down > 0 ? round_shift(static_cast<std::int64_t>(power), down) : static_cast<std::int64_t>(power << -down);
}

/// (a x + b)^g + e from x = d on, c x + f below, in steps of 1/2^16; or the straight lines between the entries of a
/// table, 65535 being white.
struct ToneCurve {
  static constexpr std::int64_t one = 65536;
  std::int64_t g = one;
  std::int64_t a = one;
  std::int64_t b = 0;
  std::int64_t c = 0;
  std::int64_t d = INT32_MIN;
  std::int64_t e = 0;
  std::int64_t f = 0;
  std::vector<std::uint16_t> table = {};

  /// Linear light, 0 to 2^24, of `code`, 0 to `most` (255 or 65535).
  std::int64_t light(std::int64_t code, std::int64_t most) const {
    if (!table.empty()) {
      const std::int64_t place = code * static_cast<std::int64_t>(table.size() - 1);
      const auto at = static_cast<std::size_t>(place / most);
      const std::int64_t part = place % most;
      std::int64_t value = table[at] * most;
      if (part > 0) value += (table[at + 1] - table[at]) * part;
      return (value * linear_white + 65535 * most / 2) / (65535 * most);
    }
    const std::int64_t x = ((code << 30) + most / 2) / most;
    const std::int64_t y = x >= d << 14 ? fixed_power(((a * x) >> 16) + (b << 14), g) + (e << 14)  //
                                        : ((c * x) >> 16) + (f << 14);
    return clamp(round_shift(y, 6), 0, linear_white);
  }
  /// Whether it can be a curve of light: white is lighter than black, and its power is of a size that can be meant.
  bool sensible() const {
    return g >= one / 16 && g <= 16 * one && light(255, 255) - light(0, 255) > linear_white / 16;
  }
  friend bool operator==(const ToneCurve&, const ToneCurve&) = default;
};

/// The curve of sRGB (IEC 61966-2-1) as profiles of version 4 have it.
inline ToneCurve srgb_tone_curve() { return {.g = 157286, .a = 62119, .b = 3417, .c = 5072, .d = 2651}; }

/// Reads a tag of type curv or para; false where it is cut short or of another type.
template <When = When::called>
bool read_tone_curve(Bytes tag, ToneCurve& curve) {
  curve = {};
  if (tag.size() < 12) return false;
  if (has_at(tag, 0, "curv")) {
    const std::size_t count = big32(tag, 8);
    if (count > (tag.size() - 12) / 2) return false;
    if (count == 1) curve.g = static_cast<std::int64_t>(big16(tag, 12)) << 8U;
    if (count < 2) return true;
    curve.table.reserve(count);
    for (std::size_t i = 0; i < count; ++i) curve.table.push_back(static_cast<std::uint16_t>(big16(tag, 12 + 2 * i)));
    return true;
  }
  if (!has_at(tag, 0, "para")) return false;
  constexpr std::size_t counts[] = {1, 3, 4, 5, 7};
  const std::size_t type = big16(tag, 8);
  if (type > 4 || tag.size() < 12 + 4 * counts[type]) return false;
  const auto number = [&](std::size_t i) -> std::int64_t { return static_cast<std::int32_t>(big32(tag, 12 + 4 * i)); };
  curve.g = number(0);
  if (type >= 1) {
    curve.a = number(1);
    curve.b = number(2);
  }
  // Of the first two bends, where a x + b = 0, nothing need be known: below it the power is nothing.
  if (type == 2) curve.e = number(3);
  if (type >= 3) {
    curve.c = number(3);
    curve.d = number(4);
  }
  if (type == 4) {
    curve.e = number(5);
    curve.f = number(6);
  }
  return true;
}

}  // namespace handlaid::detail
