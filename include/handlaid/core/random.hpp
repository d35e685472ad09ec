// Numbers that look random and are the same on every machine: used for starts of a search, never for a result.
#pragma once

#include <cstdint>

namespace handlaid {

/// The generator "splitmix64" (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).
class Random {
 public:
  constexpr explicit Random(std::uint64_t seed) : state_(seed) {}

  constexpr std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31U);
  }
  /// A whole number from 0 to `bound` - 1; `bound` is 1 or more. The bias is below bound / 2^64.
  constexpr std::uint64_t below(std::uint64_t bound) {
    const std::uint64_t x = next();
    const std::uint64_t high = bound >> 32U;
    const std::uint64_t low = bound & 0xffffffffULL;
    const std::uint64_t xh = x >> 32U;
    const std::uint64_t xl = x & 0xffffffffULL;
    // The upper 64 bits of x * bound, so that every compiler agrees without a 128-bit type.
    const std::uint64_t middle = xh * low + ((xl * low) >> 32U);
    return xh * high + (middle >> 32U) + (((middle & 0xffffffffULL) + xl * high) >> 32U);
  }

 private:
  std::uint64_t state_;
};

}  // namespace handlaid
