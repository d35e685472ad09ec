// What a number of places costs when their goods are bought in packs: a step function, and a convex line below it for
// searches that need one (solve/scarce_goods).
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/pack_mix.hpp"

namespace handlaid {

/// A line below a step function: nothing more up to `free` places, then `each` for every one.
struct PackLine {
  std::int64_t free = 0;
  std::int64_t each = 0;
  friend constexpr bool operator==(const PackLine&, const PackLine&) = default;
};

/// Prices are in thousandths of those of the packs. What was found out is kept.
template <When = When::called>
class PackSteps {
 public:
  /// Each place takes `per_place` units, 1 to 1000; `beside`, 0 to `per_place` - 1, are in hand for the first.
  PackSteps(std::vector<PackSize> packs, std::int64_t per_place, std::int64_t beside)
      : packs_(std::move(packs)), per_place_(per_place), beside_(beside) {}

  const std::vector<PackSize>& packs() const { return packs_; }
  /// Units to buy for so many places.
  std::int64_t units(std::int64_t places) const { return places == 0 ? 0 : places * per_place_ - beside_; }

  /// What so many places cost. Throws Error as `cheapest_mix`.
  std::int64_t price(std::int64_t places) {
    if (places == 0) return 0;
    const auto [at, is_new] = prices_.try_emplace(places, 0);
    if (is_new) {
      const std::vector<std::int64_t> counts = cheapest_mix(units(places), packs_);
      for (std::size_t i = 0; i < counts.size(); ++i) at->second += counts[i] * packs_[i].price * 1'000;
    }
    return at->second;
  }

  /// The steepest line from the end of the step of `least` places that is nowhere above the price from there to `most`
  /// places; at most 10^9 for each, so that costs can be added up.
  template <When = When::called>
  PackLine line(std::int64_t least, std::int64_t most) {
    const std::int64_t paid = price(least);
    PackLine result{.free = least, .each = 1'000'000'000};
    find_steps(most);
    for (const Step& step : steps_) {
      if (step.last < least) continue;
      if (step.price <= paid) {
        result.free = std::min(step.last, most);
      } else if (result.free < most) {
        result.each = std::min(result.each, (step.price - paid) / (std::min(step.last, most) - result.free));
      }
      if (step.last >= most) break;
    }
    const std::int64_t next = std::max(steps_.back().last, result.free) + 1;
    if (next > most) return result;
    // Beyond the steps nothing is below the best price of all packs: a line, seen least steep at one of its ends.
    const PackSize& pack = *std::min_element(packs_.begin(), packs_.end(), [](const PackSize& a, const PackSize& b) {
      return a.price * b.pieces < b.price * a.pieces;
    });
    const std::int64_t far = pack.price * 1'000 * per_place_ / pack.pieces;
    const std::int64_t beside = (pack.price * 1'000 / pack.pieces + 1) * beside_;
    const std::int64_t near = std::max<std::int64_t>(far * next - beside - paid, 0) / (next - result.free);
    result.each = std::min({result.each, far, near});
    return result;
  }

 private:
  static constexpr std::size_t most_steps = 256;

  /// So many places, and fewer down to the step before, cost so much.
  struct Step {
    std::int64_t last = 0;
    std::int64_t price = 0;
  };

  /// The steps as far as `most` places, or `most_steps` of them.
  void find_steps(std::int64_t most) {
    while (steps_.back().last < most && steps_.size() < most_steps) {
      const std::int64_t places = steps_.back().last + 1;
      const std::vector<std::int64_t> counts = cheapest_mix(units(places), packs_);
      std::int64_t pieces = beside_;
      for (std::size_t i = 0; i < counts.size(); ++i) pieces += counts[i] * packs_[i].pieces;
      if (const std::int64_t cost = price(places); cost > steps_.back().price) steps_.push_back({0, cost});
      steps_.back().last = pieces / per_place_;  // the same packs cover so many
    }
  }

  std::vector<PackSize> packs_ = {};
  std::int64_t per_place_ = 1;
  std::int64_t beside_ = 0;
  std::map<std::int64_t, std::int64_t> prices_ = {};
  std::vector<Step> steps_ = {{}};
};

}  // namespace handlaid
