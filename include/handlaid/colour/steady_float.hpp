// Float arithmetic that gives the same bits in every build, for the loops that must be wide.
// A product and the sum that takes it may be fused by one compiler and not by another. Here every product that goes
// into a sum first loses its last bit, which no compiler can fuse; each other operation is rounded once, as IEEE 754
// says.
#pragma once

#include <bit>
#include <cstdint>

namespace handlaid::detail {

/// a * b without its last bit: off by less than 1/2^22 of itself.
constexpr float cut_product(float a, float b) {
  return std::bit_cast<float>(std::bit_cast<std::uint32_t>(a * b) & ~std::uint32_t{1});
}

/// `value` held within +-`limit`, which is positive; NaN counts as the limit of its sign. In bits, because magnitudes
/// of floats stand in the order of theirs, and two comparisons of floats are more than a compiler dares to make wide.
constexpr float held(float value, float limit) {
  const auto bits = std::bit_cast<std::uint32_t>(value);
  const auto magnitude = static_cast<std::int32_t>(bits & 0x7fffffffU);
  const auto most = std::bit_cast<std::int32_t>(limit);
  const auto kept = static_cast<std::uint32_t>(magnitude < most ? magnitude : most);
  return std::bit_cast<float>(kept | (bits & 0x80000000U));
}

/// `yes` where `condition` holds, else `no`, without a branch.
constexpr float pick(bool condition, float yes, float no) {
  const std::uint32_t mask = std::uint32_t{0} - static_cast<std::uint32_t>(condition);
  return std::bit_cast<float>((std::bit_cast<std::uint32_t>(yes) & mask) | (std::bit_cast<std::uint32_t>(no) & ~mask));
}
constexpr float magnitude(float value) {
  return std::bit_cast<float>(std::bit_cast<std::uint32_t>(value) & 0x7fffffffU);
}
/// 1 with the sign of `value`.
constexpr float sign(float value) {
  return std::bit_cast<float>((std::bit_cast<std::uint32_t>(value) & 0x80000000U) | 0x3f800000U);
}

/// The nearest whole number, halves away from zero, for |value| below 2^23. What is left of the whole part is exact.
constexpr std::int32_t rounded(float value) {
  const auto whole = static_cast<std::int32_t>(value);
  const float rest = value - static_cast<float>(whole);
  return whole + (rest >= 0.5F ? 1 : 0) - (rest <= -0.5F ? 1 : 0);
}

/// The cube root of `x` from 1 to 2^40, and 0 for 0, to 7e-7 of itself.
constexpr float steady_cbrt(float x) {
  // The bits of a float are nearly its logarithm: a third of them taken from a constant gives y, x^(-1/3) to 3.5 %.
  const auto third = static_cast<std::int32_t>(static_cast<float>(std::bit_cast<std::int32_t>(x)) * 0.33333333F);
  const float y = std::bit_cast<float>(0x54a20000 - third);
  // With t = x y^3, from 0.898 to 1.103, the root is x y^2 t^(-2/3); a polynomial in 1 - t, of least greatest error.
  const float xyy = x * y * y;
  const float h = 1.0F - cut_product(xyy, y);
  const float hh = h * h;
  const float low = 1.00000004F + cut_product(h, 0.66665193F);
  const float high = (0.5555507F + cut_product(h, 0.49941648F)) + cut_product(hh, 0.4568996F);
  return cut_product(xyy, low + cut_product(hh, high));
}

}  // namespace handlaid::detail
