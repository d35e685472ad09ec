// expect: Refusal<(const )?(handlaid::)?ClearNumbers, (handlaid::)?Cells<
// Cells have no numbers yet: quantise first, then give clear ones.
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/renumber.hpp"

int main() {
  const auto chart = handlaid::Cells<handlaid::Oklab>{} | handlaid::ClearNumbers{};  // here
  (void)chart;
}
