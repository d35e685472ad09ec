// The search behind solve/chain_rounds: each kind has a set of rounds in which it may be worked; small sets that still
// let every chain be worked are few take-ups.
#pragma once

#include <algorithm>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "handlaid/core/random.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/graph_colouring.hpp"

namespace handlaid {

/// Kinds of the links along a chain, from 0. Neighbours in the list touch; a gap makes two chains.
using Chain = std::vector<int>;

namespace detail {

/// Which rounds each kind may be worked in, and whether every chain can then be worked.
template <When = When::called>
class RoundSets {
 public:
  using Mask = std::uint64_t;

  RoundSets(const std::vector<Chain>& chains, int kinds, int rounds)
      : full_(rounds >= 64 ? ~Mask{0} : (Mask{1} << rounds) - 1), sets(static_cast<std::size_t>(kinds), full_) {
    of_kind_.resize(sets.size());
    for (const Chain& chain : chains) {
      for (const int kind : chain) {
        std::vector<const Chain*>& list = of_kind_[static_cast<std::size_t>(kind)];
        if (list.empty() || list.back() != &chain) list.push_back(&chain);
      }
    }
  }

  /// Whether every chain with the kind in it can be worked.
  bool works_for(int kind) const {
    const auto& list = of_kind_[static_cast<std::size_t>(kind)];
    return std::all_of(list.begin(), list.end(), [&](const Chain* chain) { return works(*chain); });
  }
  std::int64_t take_ups() const {
    std::int64_t total = 0;
    for (std::size_t kind = 0; kind < sets.size(); ++kind)
      total += of_kind_[kind].empty() ? 0 : std::popcount(sets[kind]);
    return total;
  }
  Mask full() const { return full_; }

  /// A way of working the chain: forwards what can be reached, backwards a choice of it.
  template <When = When::called>
  std::vector<int> way(const Chain& chain) const {
    std::vector<Mask> reach;
    Mask before = 0;
    for (const int kind : chain) {
      before = next(before, kind);
      reach.push_back(before);
    }
    std::vector<int> rounds(chain.size());
    int after = -1;
    for (std::size_t i = chain.size(); i-- > 0;) {
      Mask open = reach[i];
      if (after >= 0) open &= ~(Mask{1} << after);
      rounds[i] = after = std::countr_zero(open);
    }
    return rounds;
  }

 private:
  bool works(const Chain& chain) const {
    Mask before = 0;
    for (const int kind : chain) {
      before = next(before, kind);
      if (before == 0) return false;
    }
    return true;
  }
  /// Where two rounds or more can be reached, the next link may be worked in any of its own.
  Mask next(Mask before, int kind) const {
    const Mask set = sets[static_cast<std::size_t>(kind)];
    return std::has_single_bit(before) ? set & ~before : set;
  }

  Mask full_;
  std::vector<std::vector<const Chain*>> of_kind_ = {};

 public:
  std::vector<Mask> sets;
};

/// Few take-ups with a given number of rounds.
template <When = When::called>
class RoundSearch {
 public:
  using Mask = std::uint64_t;

  RoundSearch(const std::vector<Chain>& chains, const Graph& conflicts, std::vector<int> used, int rounds)
      : conflicts_(conflicts), used_(std::move(used)), sets_(chains, conflicts.vertices(), rounds), rounds_(rounds) {
    std::stable_sort(used_.begin(), used_.end(),
                     [&](int a, int b) { return conflicts.degree(a) > conflicts.degree(b); });
  }

  /// Narrows the sets in many orders, then swaps; keeps the best.
  template <When = When::called>
  void search(std::int64_t steps, std::int64_t enough) {
    Random random(static_cast<std::uint64_t>(rounds_));
    best_ = sets_.sets;
    best_take_ups_ = sets_.take_ups();
    std::vector<int> order = used_;
    for (int trial = 0; steps > 0 && best_take_ups_ > enough; ++trial) {
      std::fill(sets_.sets.begin(), sets_.sets.end(), sets_.full());
      for (const int kind : order) narrow(kind, random, steps);
      for (int pass = 0; pass < 3; ++pass) {  // widen one, narrow those beside it, keep what got better
        const std::int64_t before = sets_.take_ups();
        for (const int kind : order) {
          if (std::popcount(set(kind)) > 1) improve(kind, random, steps);
        }
        if (sets_.take_ups() == before) break;
      }
      if (sets_.take_ups() < best_take_ups_) {
        best_take_ups_ = sets_.take_ups();
        best_ = sets_.sets;
      }
      for (std::size_t i = 0; i + 1 < order.size(); ++i) {  // another order, near to the one by conflicts
        if (random.below(3) == 0) std::swap(order[i], order[i + 1 + random.below(order.size() - i - 1)]);
      }
    }
    sets_.sets = best_;
  }

  /// Proves that no way has fewer than the best, or finds one, as far as the steps last. Returns the bound.
  template <When = When::called>
  std::int64_t prove(std::int64_t bound, std::int64_t steps) {
    if (rounds_ > 8) return bound;  // too many sets to go through
    for (; bound < best_take_ups_; ++bound) {
      std::fill(sets_.sets.begin(), sets_.sets.end(), sets_.full());
      const Answer answer = deepen(0, 0, bound - static_cast<std::int64_t>(used_.size()), steps);
      if (answer == Answer::found) {
        best_ = sets_.sets;
        best_take_ups_ = bound;
      }
      if (answer != Answer::none) break;
    }
    sets_.sets = best_;
    return bound;
  }

  const RoundSets<>& sets() const { return sets_; }
  std::int64_t take_ups() const { return best_take_ups_; }

 private:
  enum class Answer { none, found, gave_up };

  Mask& set(int kind) { return sets_.sets[static_cast<std::size_t>(kind)]; }

  /// The smallest set that still works: one round if one does, tried from a random one on.
  template <When = When::called>
  void narrow(int kind, Random& random, std::int64_t& steps) {
    const Mask before = set(kind);
    const auto works_with = [&](Mask mask) {
      const Mask kept = std::exchange(set(kind), mask);
      --steps;
      if (sets_.works_for(kind)) return true;
      set(kind) = kept;
      return false;
    };
    const int first = static_cast<int>(random.below(static_cast<std::uint64_t>(rounds_)));
    for (int i = 0; i < rounds_; ++i) {
      const Mask one = Mask{1} << ((first + i) % rounds_);
      if ((one & before) != 0 && works_with(one)) return;
    }
    for (int i = 0; i < rounds_ && std::popcount(set(kind)) > 2; ++i) {
      const Mask without = set(kind) & ~(Mask{1} << ((first + i) % rounds_));
      if (without != set(kind)) works_with(without);
    }
  }

  /// Gives a neighbour another single round, so that this kind may get by with one.
  template <When = When::called>
  void improve(int kind, Random& random, std::int64_t& steps) {
    const std::vector<Mask> before = sets_.sets;
    const std::int64_t take_ups = sets_.take_ups();
    for (int other = 0; other < conflicts_.vertices() && steps > 0; ++other) {
      if (!conflicts_.joined(kind, other)) continue;
      set(kind) = sets_.full();
      set(other) = sets_.full();
      narrow(kind, random, steps);
      narrow(other, random, steps);
      if (sets_.take_ups() < take_ups) return;
      sets_.sets = before;
    }
  }

  /// All ways with so many take-ups beyond one for each kind. Rounds are named in the order of their first use, as a
  /// way is the same with rounds renamed.
  template <When = When::called>
  Answer deepen(std::size_t at, int named, std::int64_t extra, std::int64_t& steps) {
    if (at == used_.size()) return Answer::found;
    const int kind = used_[at];
    const int most = std::min(rounds_, named + 1 + static_cast<int>(std::min<std::int64_t>(extra, 64)));
    for (Mask mask = 1; mask < (Mask{1} << most); ++mask) {
      const int size = std::popcount(mask);
      if (size - 1 > extra) continue;
      const Mask fresh = mask >> named;
      if ((fresh & (fresh + 1)) != 0) continue;  // a later new name before an earlier one
      if (--steps < 0) return Answer::gave_up;
      set(kind) = mask;
      if (sets_.works_for(kind)) {
        const Answer answer =
            deepen(at + 1, std::max(named, static_cast<int>(std::bit_width(mask))), extra - size + 1, steps);
        if (answer != Answer::none) return answer;
      }
    }
    set(kind) = sets_.full();
    return Answer::none;
  }

  const Graph& conflicts_;
  std::vector<int> used_;
  RoundSets<> sets_;
  int rounds_;
  std::vector<Mask> best_ = {};
  std::int64_t best_take_ups_ = 0;
};

}  // namespace detail

}  // namespace handlaid
