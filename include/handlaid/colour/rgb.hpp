// Red, green, blue: sRGB codes of 8 and 16 bits, and linear light (IEC 61966-2-1:1999, Amendment 1:2003).
#pragma once

#include <compare>
#include <cstdint>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/colour/fixed.hpp"
#include "handlaid/colour/srgb_tables.hpp"

namespace handlaid {

/// sRGB, 8 bits a channel.
struct Srgb8 {
  using channel_type = std::uint8_t;
  std::uint8_t r = 0;
  std::uint8_t g = 0;
  std::uint8_t b = 0;

  constexpr Light light() const { return {srgb_to_linear_table[r], srgb_to_linear_table[g], srgb_to_linear_table[b]}; }
  static constexpr Srgb8 from_light(const Light& light) {
    return {srgb_code_of_linear(light.r), srgb_code_of_linear(light.g), srgb_code_of_linear(light.b)};
  }
  friend constexpr auto operator<=>(const Srgb8&, const Srgb8&) = default;
};

/// sRGB, 16 bits a channel: what a 16-bit PNG holds.
struct Srgb16 {
  using channel_type = std::uint16_t;
  std::uint16_t r = 0;
  std::uint16_t g = 0;
  std::uint16_t b = 0;

  constexpr Light light() const { return {decode(r), decode(g), decode(b)}; }
  static constexpr Srgb16 from_light(const Light& light) { return {encode(light.r), encode(light.g), encode(light.b)}; }
  friend constexpr auto operator<=>(const Srgb16&, const Srgb16&) = default;

 private:
  static constexpr std::int64_t decode(std::uint16_t code);
  static constexpr std::uint16_t encode(std::int64_t linear);
};

/// Linear light with sRGB primaries; 0 is black, 1 is white; values outside are out of gamut.
struct LinearRgb {
  float r = 0;
  float g = 0;
  float b = 0;

  constexpr Light light() const {
    return {detail::to_fixed(r, 24, 4), detail::to_fixed(g, 24, 4), detail::to_fixed(b, 24, 4)};
  }
  static constexpr LinearRgb from_light(const Light& light) {
    return {detail::from_fixed(light.r, 24), detail::from_fixed(light.g, 24), detail::from_fixed(light.b, 24)};
  }
  friend constexpr bool operator==(const LinearRgb&, const LinearRgb&) = default;
};

using Srgba8 = WithAlpha<Srgb8>;
using Srgba16 = WithAlpha<Srgb16>;

namespace detail {

/// The fifth root of x in steps of 1/2^30, x from 0 to 1, rounded down, by halving.
constexpr std::int64_t fixed_fifth_root(std::int64_t x) {
  std::int64_t root = 0;
  for (std::int64_t step = std::int64_t{1} << 30; step > 0; step /= 2) {
    const std::int64_t t = root + step;
    if (t > (std::int64_t{1} << 30)) continue;
    const std::int64_t square = (t * t) >> 30;
    const std::int64_t fifth = (((square * square) >> 30) * t) >> 30;
    if (fifth <= x) root = t;
  }
  return root;
}

}  // namespace detail

/// x^2.4 = x^2 * (x^(1/5))^2, in integers; to about 1 step of 1/2^24.
constexpr std::int64_t Srgb16::decode(std::uint16_t code) {
  if (code <= 2650) {                                                                        // 0.04045 * 65535 = 2650.9
    return (static_cast<std::int64_t>(code) * linear_white * 1000 + 423356100) / 846712200;  // / (12.92 * 65535)
  }
  // (code / 65535 + 0.055) / 1.055 in steps of 1/2^30
  const std::int64_t numerator = static_cast<std::int64_t>(code) * 1000 + 3604425;  // 0.055 * 65535 * 1000
  const std::int64_t x = ((numerator << 30) + 34569712) / 69139425;                 // 1.055 * 65535 * 1000
  const std::int64_t root = detail::fixed_fifth_root(x);
  const std::int64_t square = detail::round_shift(x * x, 30);
  return detail::round_shift(detail::round_shift(square * detail::round_shift(root * root, 30), 30), 6);
}

constexpr std::uint16_t Srgb16::encode(std::int64_t linear) {
  if (linear <= 0) return 0;
  if (linear >= linear_white) return 65535;
  // Along the straight line between two 8-bit codes, 257 apart, to within a few codes; then to the code whose light is
  // nearest, the lower one at a tie.
  std::size_t step = srgb_code_of_linear(linear);
  if (srgb_to_linear_table[step] > linear) --step;
  const std::int64_t start = srgb_to_linear_table[step];
  const std::int64_t rise = srgb_to_linear_table[step + 1] - start;
  auto code = static_cast<std::int64_t>(step) * 257 + (linear - start) * 257 / rise;
  const auto at = [](std::int64_t c) { return decode(static_cast<std::uint16_t>(c)); };
  std::int64_t here = at(code);
  while (code > 0) {
    const std::int64_t below = at(code - 1);
    if (linear - below > here - linear) break;
    here = below;
    --code;
  }
  while (code < 65535) {
    const std::int64_t above = at(code + 1);
    if (linear - here <= above - linear) break;
    here = above;
    ++code;
  }
  return static_cast<std::uint16_t>(code);
}

}  // namespace handlaid
