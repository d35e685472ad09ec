// K-means: moves colours to the middle of what they serve until nothing changes.
// S. Lloyd, "Least squares quantization in PCM", IEEE Trans. Information Theory 28(2), 1982; start by greedy k-means++
// (D. Arthur, S. Vassilvitskii, SODA 2007), with fixed seeds. All sums are whole numbers: the result is the same for
// any number of threads.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/executor.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/palette/complete.hpp"
#include "handlaid/palette/histogram.hpp"

namespace handlaid {

/// Fits a palette by weighted k-means in the space of the histogram.
/// Result: exactly `colours` entries, or fewer with a note where the histogram has fewer colours.
/// Throws Error when `colours` is not in 1 to 999, the histogram is empty, or the locked colours do not fit.
struct KMeans {
  int colours = 16;
  /// Colours that must be used: they never move and take the first numbers.
  std::vector<PaletteEntry> locked = {};
  /// Starts tried; the one with the least error is kept. 1 or more.
  int starts = 4;
  /// Most rounds of moving, for each start. 1 or more.
  int rounds = 100;

  template <MeasuredColour C>
  Palette operator()(const Histogram<C>& histogram, const Work& work = {}) const;
};

namespace detail {

/// One run of k-means on the bins of a histogram. The first `fixed` centres never move.
class KMeansRun {
 public:
  /// Weights are halved until all together stay below 2^31, so that no sum of squares can overflow.
  explicit KMeansRun(const std::vector<Bin>& bins) : bins_(bins) {
    std::uint64_t total = 0;
    for (const Bin& bin : bins_) total += bin.weight;
    int shift = 0;
    while ((total >> shift) >= (std::uint64_t{1} << 31)) ++shift;
    if (shift > 0) {
      for (Bin& bin : bins_) bin.weight = std::max<std::uint64_t>(bin.weight >> shift, 1);
    }
    distance_.resize(bins_.size());
    nearest_.resize(bins_.size());
  }

  void seed(std::size_t count, std::vector<FixedPoint> fixed, std::uint64_t number) {
    centres_ = std::move(fixed);
    fixed_ = centres_.size();
    std::fill(distance_.begin(), distance_.end(), UINT32_MAX);
    for (const FixedPoint& centre : centres_) serve(centre);
    Random random(number);
    if (centres_.empty() && count > 0) add(pick(random, [](const Bin& bin, std::uint32_t) { return bin.weight; }));
    const std::size_t tries = 2 + log2(count);
    while (centres_.size() < count) {
      // Greedy: of several random candidates, the one that lowers the error most.
      std::size_t best = bins_.size();
      std::uint64_t least = UINT64_MAX;
      for (std::size_t i = 0; i < tries; ++i) {
        const std::size_t candidate = pick(random, [](const Bin& bin, std::uint32_t d) { return bin.weight * d; });
        if (candidate == bins_.size()) return;  // every colour is served exactly
        const std::uint64_t error = error_with(bins_[candidate].point);
        if (error < least) {
          least = error;
          best = candidate;
        }
      }
      add(best);
    }
  }

  /// Moves until nothing changes; the error afterwards.
  std::uint64_t settle(int rounds, const Work& work) {
    assign(work);
    for (int round = 0; round < rounds && move(); ++round) assign(work);
    std::uint64_t error = 0;
    for (std::size_t i = 0; i < bins_.size(); ++i) error += bins_[i].weight * distance_[i];
    return error;
  }

  std::vector<FixedPoint> moved_centres() const {
    return {centres_.begin() + static_cast<std::ptrdiff_t>(fixed_), centres_.end()};
  }

 private:
  static std::size_t log2(std::size_t n) {
    std::size_t bits = 0;
    while (n > 1) {
      n /= 2;
      ++bits;
    }
    return bits;
  }
  void serve(const FixedPoint& centre) {
    for (std::size_t i = 0; i < bins_.size(); ++i) {
      distance_[i] = std::min(distance_[i], squared_distance(centre, bins_[i].point));
    }
  }
  void add(std::size_t bin) {
    centres_.push_back(bins_[bin].point);
    serve(centres_.back());
  }
  template <class Share>
  std::size_t pick(Random& random, Share&& share) const {
    std::uint64_t total = 0;
    for (std::size_t i = 0; i < bins_.size(); ++i) total += share(bins_[i], distance_[i]);
    if (total == 0) return bins_.size();
    std::uint64_t left = random.below(total);
    std::size_t i = 0;
    while (left >= share(bins_[i], distance_[i])) left -= share(bins_[i], distance_[i]), ++i;
    return i;
  }
  std::uint64_t error_with(const FixedPoint& centre) const {
    std::uint64_t error = 0;
    for (std::size_t i = 0; i < bins_.size(); ++i) {
      error += bins_[i].weight * std::min(distance_[i], squared_distance(centre, bins_[i].point));
    }
    return error;
  }

  void assign(const Work& work) {
    for_each_band(static_cast<int>(bins_.size()), work, [&](int first, int end) {
      for (auto i = static_cast<std::size_t>(first); i < static_cast<std::size_t>(end); ++i) {
        std::uint32_t least = UINT32_MAX;
        std::size_t nearest = 0;
        for (std::size_t c = 0; c < centres_.size(); ++c) {
          const std::uint32_t d = squared_distance(centres_[c], bins_[i].point);
          if (d < least) {
            least = d;
            nearest = c;
          }
        }
        distance_[i] = least;
        nearest_[i] = static_cast<ColourNumber>(nearest);
      }
    });
  }

  /// Moves each free centre to the mean of its bins, or, if it has none, to the worst-served bin. Says whether any
  /// moved.
  bool move() {
    struct Sum {
      std::int64_t x = 0, y = 0, z = 0, weight = 0;
    };
    std::vector<Sum> sums(centres_.size());
    for (std::size_t i = 0; i < bins_.size(); ++i) {
      Sum& sum = sums[nearest_[i]];
      const auto w = static_cast<std::int64_t>(bins_[i].weight);
      sum.x += w * bins_[i].point.x;
      sum.y += w * bins_[i].point.y;
      sum.z += w * bins_[i].point.z;
      sum.weight += w;
    }
    bool moved = false;
    for (std::size_t c = fixed_; c < centres_.size(); ++c) {
      const Sum& sum = sums[c];
      FixedPoint centre;
      if (sum.weight > 0) {
        const auto mean = [&](std::int64_t s) {
          return static_cast<std::int16_t>((s < 0 ? s - sum.weight / 2 : s + sum.weight / 2) / sum.weight);
        };
        centre = {mean(sum.x), mean(sum.y), mean(sum.z)};
      } else {
        std::size_t worst = 0;
        for (std::size_t i = 1; i < bins_.size(); ++i) {
          if (bins_[i].weight * distance_[i] > bins_[worst].weight * distance_[worst]) worst = i;
        }
        if (distance_[worst] == 0) continue;
        centre = bins_[worst].point;
        distance_[worst] = 0;
      }
      moved = moved || centre != centres_[c];
      centres_[c] = centre;
    }
    return moved;
  }

  std::vector<Bin> bins_;
  std::vector<std::uint32_t> distance_;
  std::vector<ColourNumber> nearest_;
  std::vector<FixedPoint> centres_;
  std::size_t fixed_ = 0;
};

}  // namespace detail

template <MeasuredColour C>
Palette KMeans::operator()(const Histogram<C>& histogram, const Work& work) const {
  check_locked(colours, locked);
  if (starts < 1) throw Error::out_of_range("starts", std::to_string(starts), "1 or more");
  if (rounds < 1) throw Error::out_of_range("rounds", std::to_string(rounds), "1 or more");
  if (histogram.bins.empty()) throw Error::bad_input("k-means", "there are no colours to fit", "lay some cells");
  std::vector<FixedPoint> fixed;
  for (const PaletteEntry& entry : locked) fixed.push_back(convert_colour<C>(entry.colour).fixed());
  detail::KMeansRun run(histogram.bins);
  std::vector<FixedPoint> best;
  std::uint64_t least = UINT64_MAX;
  for (int start = 0; start < starts; ++start) {
    if (!work.progress("choosing colours", static_cast<double>(start) / starts)) throw Error::stopped("k-means");
    run.seed(static_cast<std::size_t>(colours), fixed, static_cast<std::uint64_t>(start) + 1);
    const std::uint64_t error = run.settle(rounds, work);
    if (error < least) {
      least = error;
      best = run.moved_centres();
    }
  }
  return complete_palette(best, locked, colours, histogram);
}

}  // namespace handlaid
