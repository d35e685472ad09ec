// The plain loops that anyone would write, built with the same flags: what the fast ways are measured against.
#pragma once

#include <cstddef>
#include <span>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid_bench {

/// The number of the nearest of `palette` for each of `colours`, in floats.
inline void plain_nearest(std::span<const handlaid::Oklab> colours, std::span<const handlaid::Oklab> palette,
                          std::span<handlaid::ColourNumber> numbers) {
  for (std::size_t i = 0; i < colours.size(); ++i) {
    float least = 1e30F;
    std::size_t nearest = 0;
    for (std::size_t k = 0; k < palette.size(); ++k) {
      const float L = colours[i].L - palette[k].L;
      const float a = colours[i].a - palette[k].a;
      const float b = colours[i].b - palette[k].b;
      const float distance = L * L + a * a + b * b;
      if (distance < least) {
        least = distance;
        nearest = k;
      }
    }
    numbers[i] = static_cast<handlaid::ColourNumber>(nearest + 1);
  }
}

}  // namespace handlaid_bench
