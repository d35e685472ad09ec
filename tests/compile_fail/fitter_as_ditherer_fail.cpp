// expect: Ditherer
// A fitter stands where the ditherer belongs.
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "handlaid/quantise/quantise.hpp"

int main() {
  const auto stage = handlaid::quantise(handlaid::KMeans{}, handlaid::MedianCut{});  // here
  (void)stage;
}
