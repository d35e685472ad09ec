// The search under k-means: rounds of moving (S. Lloyd, IEEE Trans. Information Theory 28(2), 1982) on a tree of boxes,
// then exchange: a centre is taken from where it is missed least and set where a split gains most, and the result is
// kept if it is better (after S. Lattanzi, C. Sohler, ICML 2019; ours picks the pairs by
// measured gain and cost). Effort is counted in work, never in time, and whole numbers decide everything.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "handlaid/core/random.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/bin_scan.hpp"
#include "handlaid/palette/colour_tree.hpp"
#include "handlaid/palette/longest_axis.hpp"

namespace handlaid::detail {

/// k-means++ (D. Arthur, S. Vassilvitskii, SODA 2007): after the fixed centres, bins chosen at random in proportion to
/// weight times squared distance to the nearest centre so far. Fewer than `count` where every bin is a centre.
template <When = When::called>
std::vector<FixedPoint> random_start(const ColourTree& tree, std::vector<FixedPoint> centres, std::size_t count,
                                     std::uint64_t seed) {
  Random random(seed);
  const std::vector<Bin>& bins = tree.bins();
  std::vector<std::uint64_t> shares(bins.size());
  std::vector<std::uint32_t> distances(bins.size(), 1);
  const auto serve = [&](const FixedPoint& centre, bool first) {
    for (std::size_t i = 0; i < bins.size(); ++i) {
      const std::uint32_t d = squared_distance(centre, bins[i].point);
      distances[i] = first ? d : std::min(distances[i], d);
    }
  };
  for (std::size_t c = 0; c < centres.size(); ++c) serve(centres[c], c == 0);
  while (centres.size() < count) {
    std::uint64_t total = 0;
    for (std::size_t i = 0; i < bins.size(); ++i) total += shares[i] = bins[i].weight * distances[i];
    if (total == 0) break;
    std::uint64_t left = random.below(total);
    std::size_t chosen = 0;
    while (left >= shares[chosen]) left -= shares[chosen++];
    centres.push_back(bins[chosen].point);
    serve(centres.back(), centres.size() == 1);
  }
  return centres;
}

/// The bins of a search: as a tree, and for scans where those are faster for `count` centres.
struct SearchedBins {
  ColourTree tree;
  std::optional<BinScan> scan = {};

  template <When = When::called>
  SearchedBins(const std::vector<Bin>& bins, std::size_t count) : tree(bins) {
    if (count >= BinScan::least_centres()) scan.emplace(tree.bins());
  }
};

/// Centres on bins; the first `fixed` never move.
template <When = When::called>
class KMeansSearch {
 public:
  KMeansSearch(const SearchedBins& bins, std::vector<FixedPoint> centres, std::size_t fixed)
      : tree_(bins.tree), scan_(bins.scan ? &*bins.scan : nullptr), fixed_(fixed) {
    best_.centres = std::move(centres);
  }

  const std::vector<FixedPoint>& centres() const { return best_.centres; }
  std::uint64_t error() const { return best_.error; }

  /// Goes on from another search's centres on the same tree.
  void take_over(const KMeansSearch& other) { best_ = other.best_; }

  /// Moves until nothing changes, or for `rounds`.
  void settle(int rounds) { settle(best_, rounds, UINT64_MAX); }

  /// Tries up to `budget` exchanges; ends when none of the most promising ones helps. Returns how many were tried.
  int exchange(int budget, int rounds) {
    int tried = 0;
    while (tried < budget) {
      const std::vector<Exchange> offers = promising();
      bool improved = false;
      for (const Exchange& offer : offers) {
        if (tried++ >= budget) break;
        State trial = best_;
        trial.centres[offer.split] = offer.one;
        trial.centres[offer.taken] = offer.other;
        settle(trial, rounds, best_.error);
        if (trial.error < best_.error) {
          best_ = std::move(trial);
          improved = true;
          break;
        }
      }
      if (!improved) break;
    }
    return tried;
  }

 private:
  struct State {
    std::vector<FixedPoint> centres = {};
    std::vector<Share> shares = {};
    std::uint64_t error = 0;
  };
  /// `taken` is missed by `cost`; splitting what `split` serves into `one` and `other` gains `gain`.
  struct Exchange {
    std::size_t taken = 0;
    std::size_t split = 0;
    FixedPoint one = {};
    FixedPoint other = {};
    std::int64_t balance = 0;
  };
  static constexpr std::size_t most_offers = 12;

  void measure(State& state) const {
    if (scan_ != nullptr) {
      scan_->share(state.centres, state.shares);
      state.error = scan_->squares();  // of all at once; what follows goes below 0 and wraps round
    } else {
      tree_.share(state.centres, state.shares);
      state.error = 0;
    }
    for (std::size_t c = 0; c < state.centres.size(); ++c) state.error += state.shares[c].error(state.centres[c]);
  }

  /// Most of the way down is made in the first rounds: who is still far above the rival then, stays above.
  static bool hopeless(std::uint64_t error, std::uint64_t rival, int round) {
    return (round == 1 && error > rival + rival / 16) || (round == 3 && error > rival + rival / 48) ||
           (round == 7 && error > rival + rival / 128);
  }

  /// Gives up early where `rival` will not be bettered.
  void settle(State& state, int rounds, std::uint64_t rival) const {
    measure(state);
    for (int round = 0; round < rounds; ++round) {
      bool moved = false;
      for (std::size_t c = fixed_; c < state.centres.size(); ++c) {
        if (state.shares[c].weight == 0) continue;  // exchange or the last step of the fitter puts it to use
        const FixedPoint mean = state.shares[c].mean();
        moved = moved || mean != state.centres[c];
        state.centres[c] = mean;
      }
      if (!moved) break;
      measure(state);
      if (rival != UINT64_MAX && hopeless(state.error, rival, round)) break;
    }
  }

  std::vector<Exchange> promising() const {
    const std::size_t count = best_.centres.size();
    if (count - fixed_ < 2) return {};
    struct Split {
      std::size_t centre = 0;
      Share parts[2] = {};
      std::uint64_t gain = 0;
    };
    std::vector<std::uint16_t> labels;
    tree_.label(best_.centres, labels);
    std::vector<LongestAxis> axes(count);
    const auto& bins = tree_.bins();
    for (std::size_t i = 0; i < bins.size(); ++i) {
      const FixedPoint& c = best_.centres[labels[i]];
      const FixedPoint& p = bins[i].point;
      axes[labels[i]].add(bins[i].weight, p.x - c.x, p.y - c.y, p.z - c.z);
    }
    std::vector<std::array<std::int64_t, 3>> directions;
    for (const LongestAxis& axis : axes) directions.push_back(axis.direction());
    std::vector<Split> splits(count);
    for (std::size_t c = 0; c < count; ++c) splits[c].centre = c;
    for (std::size_t i = 0; i < bins.size(); ++i) {
      const std::size_t c = labels[i];
      const FixedPoint& p = bins[i].point;
      const FixedPoint& q = best_.centres[c];
      const auto& d = directions[c];
      const std::int64_t side = d[0] * (p.x - q.x) + d[1] * (p.y - q.y) + d[2] * (p.z - q.z);
      splits[c].parts[side > 0 ? 1 : 0].add(bins[i]);
    }
    for (Split& split : splits) {
      if (split.parts[0].weight == 0 || split.parts[1].weight == 0) continue;
      Share both = split.parts[0];
      both.add(split.parts[1]);
      const std::uint64_t before = both.error(best_.centres[split.centre]);
      const std::uint64_t after =
          split.parts[0].error(split.parts[0].mean()) + split.parts[1].error(split.parts[1].mean());
      split.gain = before > after ? before - after : 0;
    }
    std::sort(splits.begin(), splits.end(),
              [](const Split& a, const Split& b) { return a.gain != b.gain ? a.gain > b.gain : a.centre < b.centre; });

    // Taking a centre away costs about what joining its share to its nearest neighbour's does (J. Ward, JASA 1963).
    std::vector<Exchange> offers;
    for (std::size_t c = fixed_; c < count; ++c) {
      std::uint64_t cost = UINT64_MAX;
      for (std::size_t other = 0; other < count; ++other) {
        if (other == c) continue;
        const std::uint64_t d = squared_distance(best_.centres[c], best_.centres[other]);
        const std::uint64_t w = best_.shares[c].weight;
        const std::uint64_t v = best_.shares[other].weight;
        const std::uint64_t joined = other < fixed_ ? w : (w + v == 0 ? 0 : w * v / (w + v));
        cost = std::min(cost, joined * d);
      }
      for (std::size_t s = 0; s < std::min<std::size_t>(splits.size(), 4); ++s) {
        const Split& split = splits[s];
        if (split.centre == c || split.centre < fixed_ || split.gain == 0) continue;
        offers.push_back({.taken = c,
                          .split = split.centre,
                          .one = split.parts[0].mean(),
                          .other = split.parts[1].mean(),
                          .balance = static_cast<std::int64_t>(cost) - static_cast<std::int64_t>(split.gain)});
      }
    }
    std::sort(offers.begin(), offers.end(), [](const Exchange& a, const Exchange& b) {
      if (a.balance != b.balance) return a.balance < b.balance;
      return a.taken != b.taken ? a.taken < b.taken : a.split < b.split;
    });
    if (offers.size() > most_offers) offers.resize(most_offers);
    return offers;
  }

  const ColourTree& tree_;
  const BinScan* scan_;
  std::size_t fixed_ = 0;
  State best_ = {};
};

}  // namespace handlaid::detail
