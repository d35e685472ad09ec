// Centres that a fitter found, brought to keep the rules of a palette: far enough apart, not like a forbidden colour,
// none too rare. What is given up is used where it helps most.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/palette/colour_tree.hpp"
#include "handlaid/palette/rules.hpp"

namespace handlaid::detail {

/// A search that never leaves what the rules allow. Every centre is the point of an sRGB code, so that rounding breaks
/// no rule afterwards.
template <MeasuredColour C>
class RuledSearch {
 public:
  RuledSearch(const std::vector<Bin>& bins, const std::vector<FixedPoint>& fixed, const Spacing& spacing,
              std::uint64_t least_weight)
      : tree_(bins),
        bins_(tree_.bins()),
        spacing_(spacing),
        least_weight_(least_weight >> tree_.halvings()),
        fixed_(fixed.size()),
        kept_(fixed) {}

  /// At most `wanted` centres beside the fixed ones.
  std::vector<FixedPoint> settle(const std::vector<FixedPoint>& found, std::size_t wanted) {
    keep_apart(found);
    count_ = fixed_ + wanted;
    if (kept_.size() > count_) kept_.resize(count_);
    reach();
    exchange();
    return {kept_.begin() + static_cast<std::ptrdiff_t>(fixed_), kept_.end()};
  }

 private:
  static constexpr std::size_t most_rounds = 24;
  /// Comparisons of colours, after which no further exchange is tried.
  static constexpr std::size_t most_work = 80'000'000;
  static constexpr std::size_t none = SIZE_MAX;

  static FixedPoint as_code(const FixedPoint& point) {
    return convert_colour<C>(convert_colour<Srgb8>(C::from_fixed(point))).fixed();
  }

  /// Adds, moves and gives up until no rule is broken.
  void reach() {
    for (std::size_t round = 0; round < most_rounds; ++round) {
      while (kept_.size() < count_ && add_best()) continue;
      move();
      const std::size_t rare = rarest();
      if (rare == kept_.size()) return;
      erase(rare);
    }
    for (std::size_t rare = rarest(); rare < kept_.size(); rare = rarest()) erase(rare);
  }

  /// Takes each centre away in turn and lets the search place it again, as long as the error falls and the work lasts.
  void exchange() {
    std::uint64_t least = error();
    std::size_t unchanged = 0;
    for (std::size_t c = fixed_; work_ < most_work && unchanged < kept_.size() - fixed_;) {
      const std::vector<FixedPoint> before = kept_;
      erase(c);
      reach();
      const std::uint64_t now = error();
      if (kept_.size() > before.size() || (kept_.size() == before.size() && now < least)) {
        least = now;
        unchanged = 0;
      } else {
        kept_ = before;
        ++unchanged;
      }
      if (++c >= kept_.size()) c = fixed_;
    }
  }

  /// Of centres too near to each other the one that serves most stays.
  void keep_apart(const std::vector<FixedPoint>& found) {
    std::vector<FixedPoint> all = kept_;
    all.insert(all.end(), found.begin(), found.end());
    tree_.share(all, shares_);
    std::vector<std::size_t> order;
    for (std::size_t i = fixed_; i < all.size(); ++i) order.push_back(i);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return shares_[a].weight > shares_[b].weight; });
    for (const std::size_t i : order) {
      const FixedPoint point = as_code(all[i]);
      if (spacing_.allows(point, kept_, none)) kept_.push_back(point);
    }
  }

  /// Adds the colour of a bin that lowers the error most, among a sample of those that break no rule.
  bool add_best() {
    work_ += bins_.size() * sample();
    std::vector<std::uint16_t> owners;
    if (!kept_.empty()) {
      tree_.label(kept_, owners);
      tree_.share(kept_, shares_);
    }
    std::vector<std::uint32_t> distance(bins_.size(), UINT32_MAX >> 1);
    for (std::size_t i = 0; i < owners.size(); ++i) distance[i] = squared_distance(kept_[owners[i]], bins_[i].point);
    const std::size_t stride = std::max<std::size_t>(bins_.size() / sample(), 1);
    std::vector<std::uint64_t> taken(kept_.size());
    std::uint64_t most = 0;
    FixedPoint best = {};
    for (std::size_t at = 0; at < bins_.size(); at += stride) {
      // Of each stretch of bins, the one in most need.
      std::size_t bin = at;
      for (std::size_t i = at; i < std::min(at + stride, bins_.size()); ++i) {
        if (need(i, distance) > need(bin, distance)) bin = i;
      }
      const FixedPoint point = as_code(bins_[bin].point);
      if (!spacing_.allows(point, kept_, none)) continue;
      std::uint64_t gain = 0;
      std::uint64_t weight = 0;
      std::fill(taken.begin(), taken.end(), std::uint64_t{0});
      for (std::size_t i = 0; i < bins_.size(); ++i) {
        const std::uint32_t d = squared_distance(point, bins_[i].point);
        if (d >= distance[i]) continue;
        gain += bins_[i].weight * (distance[i] - d);
        weight += bins_[i].weight;
        if (!owners.empty()) taken[owners[i]] += bins_[i].weight;
      }
      if (gain > most && weight >= least_weight_ && all_left_enough(taken)) {
        most = gain;
        best = point;
      }
    }
    if (most == 0) return false;
    kept_.push_back(best);
    return true;
  }
  /// Whether no centre becomes too rare by what a new one takes.
  bool all_left_enough(const std::vector<std::uint64_t>& taken) const {
    for (std::size_t c = fixed_; c < taken.size(); ++c) {
      if (taken[c] > 0 && shares_[c].weight < taken[c] + least_weight_) return false;
    }
    return true;
  }
  std::uint64_t need(std::size_t bin, const std::vector<std::uint32_t>& distance) const {
    return bins_[bin].weight * distance[bin];
  }

  /// Centres go to the middle of what they serve, or as far on the way as the rules allow.
  void move() {
    for (std::size_t round = 0; round < most_rounds; ++round) {
      tree_.share(kept_, shares_);
      work_ += bins_.size();
      bool moved = false;
      for (std::size_t c = fixed_; c < kept_.size(); ++c) {
        if (shares_[c].weight == 0) continue;
        const FixedPoint mean = shares_[c].mean();
        for (int part = 4; part > 0; part /= 2) {
          const auto toward = [part](std::int16_t from, std::int16_t to) {
            return static_cast<std::int16_t>(from + (to - from) * part / 4);
          };
          const FixedPoint& from = kept_[c];
          const FixedPoint point = as_code({toward(from.x, mean.x), toward(from.y, mean.y), toward(from.z, mean.z)});
          if (!spacing_.allows(point, kept_, c)) continue;
          moved = moved || point != from;
          kept_[c] = point;
          break;
        }
      }
      if (!moved) break;
    }
  }

  /// The centre that serves least, if that is too little; of equals the last.
  std::size_t rarest() {
    tree_.share(kept_, shares_);
    std::size_t found = kept_.size();
    for (std::size_t c = fixed_; c < kept_.size(); ++c) {
      if (shares_[c].weight >= least_weight_) continue;
      if (found == kept_.size() || shares_[c].weight <= shares_[found].weight) found = c;
    }
    return found;
  }

  /// How many colours are looked at for a new centre.
  std::size_t sample() const { return std::clamp<std::size_t>(4'000'000 / bins_.size(), 16, 192); }
  void erase(std::size_t centre) { kept_.erase(kept_.begin() + static_cast<std::ptrdiff_t>(centre)); }

  std::uint64_t error() {
    tree_.share(kept_, shares_);
    std::uint64_t sum = 0;
    for (std::size_t c = 0; c < kept_.size(); ++c) sum += shares_[c].error(kept_[c]);
    return sum;
  }

  ColourTree tree_;
  const std::vector<Bin>& bins_;
  const Spacing& spacing_;
  std::uint64_t least_weight_ = 0;
  std::size_t fixed_ = 0;
  std::size_t count_ = 0;
  std::size_t work_ = 0;
  std::vector<FixedPoint> kept_;
  std::vector<Share> shares_;
};

}  // namespace handlaid::detail
