// Ways of cutting: a quick one, many varied ones, and a search that ends with a way or the proof that there is none.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "handlaid/core/random.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/cut_bound.hpp"
#include "handlaid/solve/cut_patterns.hpp"

namespace handlaid::detail {

/// A pattern and how often it is cut.
struct RepeatedPattern {
  CutCounts counts = {};
  std::int64_t times = 0;
};
using CutWay = std::vector<RepeatedPattern>;

inline std::int64_t stock_lengths(const CutWay& way) {
  std::int64_t total = 0;
  for (const RepeatedPattern& pattern : way) total += pattern.times;
  return total;
}

/// Cuts the pattern as often as what is left allows, at most `times`.
template <When = When::called>
void cut(CutJob& job, CutCounts counts, std::int64_t times, CutWay& way) {
  for (std::size_t i = 0; i < job.kinds(); ++i) {
    if (counts[i] > 0) times = std::min(times, job.counts[i] / counts[i]);
  }
  if (times == 0) return;
  for (std::size_t i = 0; i < job.kinds(); ++i) job.counts[i] -= counts[i] * times;
  way.push_back({std::move(counts), times});
}

/// Longest pieces first, each stock length filled up before the next (first fit, decreasing).
template <When = When::called>
CutWay cut_longest_first(CutJob job) {
  CutWay way;
  while (!job.done()) {
    CutCounts counts(job.kinds());
    std::int64_t room = job.capacity;
    for (std::size_t i = 0; i < job.kinds(); ++i) {
      counts[i] = std::min(job.counts[i], room / job.sizes[i]);
      room -= counts[i] * job.sizes[i];
    }
    cut(job, std::move(counts), INT64_MAX, way);
  }
  return way;
}

/// The longest piece that is left, and beside it whatever wastes least, one stock length after the other.
template <When = When::called>
CutWay cut_fullest_first(CutJob job, std::int64_t steps_each) {
  CutWay way;
  while (!job.done()) cut(job, FullestPattern(job).solve({steps_each}), INT64_MAX, way);
  return way;
}

/// The same by worth: `prices` are changed by chance in every round, so that awkward pieces get their turn early
/// (after G. Belov, G. Scheithauer, "Setup and open-stacks minimization in one-dimensional stock cutting", INFORMS
/// Journal on Computing 19, 2007: sequential value correction).
template <When = When::called>
CutWay cut_by_worth(CutJob job, std::vector<std::int64_t>& prices, Random& random) {
  CutWay way;
  while (!job.done()) {
    CutBudget steps{2'000};
    CutCounts counts = PatternKnapsack(job, prices).solve(steps).counts;
    std::int64_t room = job.capacity;
    for (std::size_t i = 0; i < job.kinds(); ++i) room -= counts[i] * job.sizes[i];
    for (std::size_t i = 0; i < job.kinds(); ++i) {  // what still fits, as the search may have been cut short
      const std::int64_t more = std::min(job.counts[i] - counts[i], room / job.sizes[i]);
      counts[i] += more;
      room -= more * job.sizes[i];
    }
    for (std::size_t i = 0; i < job.kinds(); ++i) {
      if (counts[i] == 0) continue;
      const std::int64_t used = job.capacity - room;
      const std::int64_t worth = job.sizes[i] * 1'000 / used * (job.capacity * 1'000 / used) / 1'000 + 1;
      const auto weight = static_cast<std::int64_t>(random.below(3)) + 1;
      prices[i] = std::max<std::int64_t>((prices[i] * weight + worth * 1'000) / (weight + 1), 1);
    }
    cut(job, std::move(counts), INT64_MAX, way);
  }
  return way;
}

/// Looks for a way with so many stock lengths, pattern by pattern, longest piece first (bin completion, after
/// S. Martello, P. Toth, "Knapsack Problems", 1990, chapter 8): all waste together is known, so little may be wasted.
template <When = When::called>
class CutCompletion {
 public:
  CutCompletion(CutJob job, std::int64_t stock, CutBudget& budget) : job_(std::move(job)), budget_(budget) {
    waste_ = stock * job_.capacity - job_.total();
    stock_ = stock;
  }
  /// True with the way in `way`; false where there is none, or the budget is spent.
  bool find(CutWay& way) {
    if (waste_ < 0) return false;
    if (!next()) return false;
    way.insert(way.end(), way_.begin(), way_.end());
    return true;
  }

 private:
  bool next() {
    if (job_.done()) return true;
    if (stock_ == 0 || waste_ < 0 || budget_.spent()) return false;
    std::size_t longest = 0;
    while (job_.counts[longest] == 0) ++longest;
    CutCounts counts(job_.kinds());
    counts[longest] = 1;
    return fill(longest, job_.capacity - job_.sizes[longest], longest, counts);
  }

  bool fill(std::size_t at, std::int64_t room, std::size_t longest, CutCounts& counts) {
    if (!budget_.take()) return false;
    if (at == job_.kinds()) return room <= waste_ && maximal(room, counts) && place(room, counts);
    const std::int64_t placed = at == longest ? 1 : 0;
    for (std::int64_t n = std::min(job_.counts[at] - placed, room / job_.sizes[at]); n >= 0; --n) {
      counts[at] = n + placed;
      if (fill(at + 1, room - n * job_.sizes[at], longest, counts)) return true;
      if (budget_.spent()) break;
    }
    counts[at] = placed;
    return false;
  }

  bool maximal(std::int64_t room, const CutCounts& counts) const {
    for (std::size_t i = 0; i < job_.kinds(); ++i) {
      if (job_.sizes[i] <= room && counts[i] < job_.counts[i]) return false;
    }
    return true;
  }

  bool place(std::int64_t room, const CutCounts& counts) {
    for (std::size_t i = 0; i < job_.kinds(); ++i) job_.counts[i] -= counts[i];
    waste_ -= room;
    --stock_;
    way_.push_back({counts, 1});
    if (next()) return true;
    way_.pop_back();
    ++stock_;
    waste_ += room;
    for (std::size_t i = 0; i < job_.kinds(); ++i) job_.counts[i] += counts[i];
    return false;
  }

  CutJob job_;
  CutBudget& budget_;
  std::int64_t waste_ = 0;
  std::int64_t stock_ = 0;
  CutWay way_ = {};
};

/// The whole part of a fractional plan is cut, what is left is searched for in fewer stock lengths than `best` has.
template <When = When::called>
void cut_by_relaxation(const CutJob& job, const CutRelaxation<>& relaxation, std::int64_t bound, CutBudget& budget,
                       CutWay& best) {
  // With a little taken back from the whole part the rest has more ways to come out.
  for (std::int64_t back = 0; back <= 2 && stock_lengths(best) > bound && !budget.spent(); ++back) {
    CutJob rest = job;
    CutWay way;
    for (const WeightedPattern& pattern : relaxation.patterns()) {
      const std::int64_t times = (pattern.weight + 1'024) / CutRelaxation<>::unit - back;
      CutCounts counts = pattern.counts;
      if (times > 0) cut(rest, std::move(counts), times, way);
    }
    const std::int64_t begun = stock_lengths(way);
    while (stock_lengths(best) > bound) {
      CutWay trial = way;
      CutBudget steps{std::min<std::int64_t>(budget.steps, 200'000)};
      budget.steps -= steps.steps;
      CutCompletion completion(rest, stock_lengths(best) - 1 - begun, steps);
      if (!completion.find(trial)) break;
      best = std::move(trial);
    }
  }
}

}  // namespace handlaid::detail
