// How an error is shared among the cells around it, as data; and the published ways of sharing.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// How an error is shared: `weights[row][2 + dx]` goes to the cell dx to the right in this row (0) or a row below.
/// Weights are shares of `divisor`; cells already placed have weight 0.
struct DiffusionKernel {
  std::array<std::array<int, 5>, 3> weights = {};
  int divisor = 1;
  friend constexpr bool operator==(const DiffusionKernel&, const DiffusionKernel&) = default;
};

/// Floyd and Steinberg 1976.
inline constexpr DiffusionKernel floyd_steinberg = {.weights = {{{0, 0, 0, 7, 0}, {0, 3, 5, 1, 0}, {0, 0, 0, 0, 0}}},
                                                    .divisor = 16};
/// J. Jarvis, C. Judice, W. Ninke, "A survey of techniques for the display of continuous tone pictures on bilevel
/// displays", Computer Graphics and Image Processing 5(1), 1976.
inline constexpr DiffusionKernel jarvis_judice_ninke = {
    .weights = {{{0, 0, 0, 7, 5}, {3, 5, 7, 5, 3}, {1, 3, 5, 3, 1}}}, .divisor = 48};
/// B. Atkinson's filter of 1984, from memory: three quarters of the error are passed on, so that flat areas stay calm.
inline constexpr DiffusionKernel atkinson = {.weights = {{{0, 0, 0, 1, 1}, {0, 1, 1, 1, 0}, {0, 0, 1, 0, 0}}},
                                             .divisor = 8};

/// Throws Error unless the divisor is 1 to 64, weights go only to cells yet to be placed, and they pass on no more
/// than the whole error (or it would grow from cell to cell).
template <When = When::called>
void check_kernel(const DiffusionKernel& kernel) {
  if (kernel.divisor < 1 || kernel.divisor > 64) {
    throw Error::out_of_range("kernel divisor", std::to_string(kernel.divisor), "1 to 64");
  }
  int passed_on = 0;
  for (std::size_t row = 0; row < 3; ++row) {
    for (std::size_t at = 0; at < 5; ++at) {
      const int weight = kernel.weights[row][at];
      if (weight < -kernel.divisor || weight > kernel.divisor) {
        throw Error::out_of_range("kernel weight", std::to_string(weight),
                                  "-" + std::to_string(kernel.divisor) + " to " + std::to_string(kernel.divisor));
      }
      if (row == 0 && at <= 2 && weight != 0) {
        throw Error::bad_option("kernel", "it gives error to a cell that has its number already",
                                "set the first three weights of the first row to 0");
      }
      passed_on += weight < 0 ? -weight : weight;
    }
  }
  if (passed_on > kernel.divisor) {
    throw Error::bad_option("kernel",
                            "it passes on " + std::to_string(passed_on) + " parts of " + std::to_string(kernel.divisor),
                            "make the weights, without their signs, add up to the divisor or less");
  }
}

namespace detail {

/// A kernel that the compiler knows, so that it multiplies and divides by constants, and one that it does not.
template <DiffusionKernel Kernel>
struct KnownKernel {
  static constexpr std::uint32_t divisor() { return Kernel.divisor; }
  static constexpr int weight(std::size_t row, std::size_t at) { return Kernel.weights[row][at]; }
};
struct AnyKernel {
  const DiffusionKernel& kernel;
  std::uint32_t divisor() const { return static_cast<std::uint32_t>(kernel.divisor); }
  int weight(std::size_t row, std::size_t at) const { return kernel.weights[row][at]; }
};

}  // namespace detail

}  // namespace handlaid
