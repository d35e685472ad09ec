// Square roots of whole numbers, exactly.
#pragma once

#include <cstdint>

namespace handlaid {

/// The greatest whole number whose square is at most `value`.
constexpr std::uint64_t square_root(std::uint64_t value) {
  std::uint64_t root = 0;
  for (std::uint64_t step = std::uint64_t{1} << 31; step > 0; step /= 2) {
    if ((root + step) * (root + step) <= value) root += step;
  }
  return root;
}

/// The square root rounded to the nearest whole number; there are no ties, because (r + 1/2)^2 is never whole.
constexpr std::uint64_t nearest_square_root(std::uint64_t value) {
  const std::uint64_t root = square_root(value);
  return value - root * root > root ? root + 1 : root;
}

}  // namespace handlaid
