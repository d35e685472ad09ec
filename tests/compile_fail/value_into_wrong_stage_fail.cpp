// expect: Refusal<Halve, (handlaid::)?Raster<int>
// A stage that wants a number is given a raster.
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/raster.hpp"

struct Halve {
  using is_stage = void;
  int operator()(int value) const { return value / 2; }
};

int main() {
  const auto half = handlaid::Raster<int>(2, 2) | Halve{};  // here
  return half;
}
