// K-means: moves colours to the middle of what they serve until nothing changes, then takes colours from where they are
// missed least to where they help most. Starts from cuts of least error, and for few colours from random choices too;
// the method stands in kmeans_search.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/work.hpp"
#include "handlaid/palette/fit_by_rules.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/kmeans_search.hpp"
#include "handlaid/palette/median_cut.hpp"

namespace handlaid {

/// How much work a fit may take; counted in steps, so that the result never depends on the machine.
enum class Effort {
  quick,  ///< one start, few exchanges: for trying variants
  best    ///< until no promising exchange helps: for the palette that is bought
};

/// Fits a palette by weighted k-means in the space of the histogram.
/// Result: exactly `colours` entries, or fewer with a note that says why.
/// Throws Error when `colours` is not in 1 to 999, the histogram is empty, or the rules contradict each other.
struct KMeans {
  int colours = 16;
  PaletteRules rules = {};
  Effort effort = Effort::best;

  template <MeasuredColour C>
  Palette operator()(const Histogram<C>& histogram, const Work& work = {}) const;
};

template <MeasuredColour C>
Palette KMeans::operator()(const Histogram<C>& histogram, const Work& work) const {
  if (!work.progress("choosing colours", 0)) throw Error::stopped("k-means");
  return fit_by_rules(
      histogram, colours, rules, "k-means",
      [&](const std::vector<Bin>& bins, const std::vector<FixedPoint>& fixed, std::size_t wanted) {
        const std::size_t count = fixed.size() + wanted;
        const ColourTree tree(bins);
        const bool quick = effort == Effort::quick;
        const int rounds = quick ? 12 : 100;

        std::vector<FixedPoint> start = fixed;
        const std::vector<FixedPoint> cut = detail::BoxCutter(bins, CutAt::best_fit).centres(wanted);
        start.insert(start.end(), cut.begin(), cut.end());
        detail::KMeansSearch search(tree, std::move(start), fixed.size());
        search.settle(rounds);
        // Small pictures have room for more starts within the same work.
        const std::size_t more = quick ? 0 : std::min<std::size_t>(200'000 / (bins.size() * count), 32);
        for (std::size_t seed = 1; seed <= more; ++seed) {
          detail::KMeansSearch rival(tree, detail::random_start(tree, fixed, count, seed), fixed.size());
          rival.settle(rounds);
          if (rival.error() < search.error()) search.take_over(rival);
        }
        search.exchange(quick ? 6 : 40 + 12 * colours, rounds);
        const auto& found = search.centres();
        return std::vector<FixedPoint>(found.begin() + static_cast<std::ptrdiff_t>(fixed.size()), found.end());
      });
}

}  // namespace handlaid
