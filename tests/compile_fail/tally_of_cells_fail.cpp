// expect: Refusal<(const )?(handlaid::)?TallyStage, (handlaid::)?Cells<
// Cells have no numbers yet: quantise first, then count.
#include "handlaid/core/pipe.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/runs.hpp"

int main() {
  const auto count = handlaid::Cells<handlaid::Oklab>{} | handlaid::tally;  // here
  (void)count;
}
