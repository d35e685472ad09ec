// K-means: moves colours to the middle of what they serve until nothing changes, then takes colours from where they are
// missed least to where they help most. Starts from cuts of least error; the method stands in kmeans_search.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/core/work.hpp"
#include "handlaid/palette/coarse_bins.hpp"
#include "handlaid/palette/fit_by_rules.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/kmeans_search.hpp"
#include "handlaid/palette/median_cut.hpp"

namespace handlaid {

/// How much work a fit may take; counted in steps, so that the result never depends on the machine.
enum class Effort {
  quick,  ///< few exchanges, on joined colours only: for trying variants
  best    ///< until hardly any exchange helps: for the palette that is bought
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

namespace detail {

/// Bins joined as coarsely as leaves enough of them for `count` colours: boxes of 1/64, 1/128 or 1/256 of white in
/// Oklab. What is enough was measured: with more, errors hardly fall.
template <When = When::called>
std::vector<Bin> joined_bins(const std::vector<Bin>& bins, std::size_t count, bool quick) {
  std::vector<Bin> joined = coarse_bins(bins, 8);
  if (joined.size() < (quick ? 48 : 100) * count) joined = coarse_bins(bins, 7);
  if (joined.size() < 32 * count) joined = coarse_bins(bins, 6);
  return joined.size() < 8 * count ? bins : joined;
}

}  // namespace detail

template <MeasuredColour C>
Palette KMeans::operator()(const Histogram<C>& histogram, const Work& work) const {
  if (!work.progress("choosing colours", 0)) throw Error::stopped("k-means");
  return fit_by_rules(
      histogram, colours, rules, "k-means",
      [&](const std::vector<Bin>& bins, const std::vector<FixedPoint>& fixed, std::size_t wanted) {
        const std::size_t count = fixed.size() + wanted;
        const bool quick = effort == Effort::quick;
        const int rounds = quick ? 12 : 100;
        // Colours that hardly differ are joined for the search; only the last steps look at all of them.
        const std::vector<Bin> few = detail::joined_bins(bins, count, quick);
        const bool joined = few.size() < bins.size();
        const detail::SearchedBins coarse(few, count);
        std::vector<FixedPoint> centres = fixed;
        const std::vector<FixedPoint> cut = detail::BoxCutter(few, CutAt::best_fit).centres(wanted);
        centres.insert(centres.end(), cut.begin(), cut.end());
        detail::KMeansSearch search(coarse, std::move(centres), fixed.size());
        search.settle(rounds);
        // Where there is little to fit, other starts fit into the same work.
        const std::size_t more = quick ? 0 : std::min<std::size_t>(40'000 / (few.size() * count), 32);
        for (std::size_t seed = 1; seed <= more; ++seed) {
          detail::KMeansSearch rival(coarse, detail::random_start(coarse.tree, fixed, count, seed), fixed.size());
          rival.settle(rounds);
          if (rival.error() < search.error()) search.take_over(rival);
        }
        const bool large = bins.size() > 30'000;  // a picture rather than cells: counting took longer than this will
        const int quick_tries = large ? 40 : std::clamp(30'000 / static_cast<int>(few.size()), 10, 40);
        search.exchange(quick ? quick_tries : 40 + 4 * colours, rounds);
        centres = search.centres();
        if (joined && (large || !quick)) {
          const detail::SearchedBins all(bins, count);
          detail::KMeansSearch last(all, std::move(centres), fixed.size());
          last.settle(rounds);
          if (!quick) last.exchange(1, rounds);
          centres = last.centres();
        }
        centres.erase(centres.begin(), centres.begin() + static_cast<std::ptrdiff_t>(fixed.size()));
        return centres;
      });
}

}  // namespace handlaid
