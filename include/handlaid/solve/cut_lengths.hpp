// The fewest stock lengths (rolls, battens, boards) that given lengths can be cut from: one-dimensional cutting stock,
// with a bound that no way of cutting can beat. Whole numbers of any unit; craft and timber are takeoff's business.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <numeric>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/cut_bound.hpp"
#include "handlaid/solve/cut_patterns.hpp"
#include "handlaid/solve/cut_search.hpp"

namespace handlaid {

/// Pieces of one length that are needed.
struct LengthNeed {
  std::int64_t length = 0;
  std::int64_t count = 0;
  friend constexpr bool operator==(const LengthNeed&, const LengthNeed&) = default;
};

/// What is cut from one stock length, and how often.
struct CutPattern {
  /// Pieces of each need, in the order given.
  std::vector<std::int64_t> counts = {};
  std::int64_t times = 0;
  /// Of each such stock length, usable: after the kerf that cuts it off; 0 where no more than a kerf is left.
  std::int64_t left_over = 0;
  friend bool operator==(const CutPattern&, const CutPattern&) = default;
};

/// A way of cutting, and how good it can be.
struct CutPlan {
  /// Patterns with the longest pieces first.
  std::vector<CutPattern> patterns = {};
  std::int64_t stock_count = 0;
  /// No way of cutting takes fewer.
  std::int64_t lower_bound = 0;
  bool proven() const { return stock_count == lower_bound; }
  friend bool operator==(const CutPlan&, const CutPlan&) = default;
};

/// How long is searched, in steps and not in time: the same answer on every machine.
struct CutEffort {
  std::int64_t steps = 3'000'000;
};

/// The most different lengths, and the most of one of them.
inline constexpr std::size_t most_cut_lengths = 1'000;
inline constexpr std::int64_t most_cut_pieces = 1'000'000;

/// Cuts all needs from stock of one length. Between two pieces a kerf is lost: n pieces take their sum and n - 1 kerfs.
/// Lengths are 1…1,000,000,000,000, the kerf 0 or more. Needs of one length are cut together; those of count 0 are
/// left. Throws Error for more than `most_cut_lengths` needs or `most_cut_pieces` pieces of one, a number out of range,
/// and a piece longer than the stock.
template <When = When::called>
CutPlan cut_lengths(std::span<const LengthNeed> needs, std::int64_t stock_length, std::int64_t kerf = 0,
                    const CutEffort& effort = {});

namespace detail {

template <When = When::called>
void check_cuts(std::span<const LengthNeed> needs, std::int64_t stock_length, std::int64_t kerf) {
  constexpr std::int64_t longest = 1'000'000'000'000;
  if (stock_length < 1 || stock_length > longest) {
    throw Error::out_of_range("stock length", std::to_string(stock_length), "1 to 1000000000000");
  }
  if (kerf < 0 || kerf > stock_length) {
    throw Error::out_of_range("kerf", std::to_string(kerf), "0 to the stock length");
  }
  if (needs.size() > most_cut_lengths) {
    throw Error::out_of_range("lengths to cut", std::to_string(needs.size()), "at most 1000");
  }
  for (const LengthNeed& need : needs) {
    if (need.count < 0 || need.count > most_cut_pieces) {
      throw Error::out_of_range("pieces to cut", std::to_string(need.count), "0 to 1000000 of a length");
    }
    if (need.length < 1 || need.length > stock_length) {
      throw Error::out_of_range("length to cut", std::to_string(need.length),
                                "1 to the stock length of " + std::to_string(stock_length));
    }
  }
}

/// The needs, longest first, in the largest unit that divides them all.
template <When = When::called>
CutJob cut_job(std::span<const LengthNeed> needs, std::int64_t stock_length, std::int64_t kerf) {
  CutJob job{.capacity = stock_length + kerf};
  std::vector<LengthNeed> sorted;
  for (const LengthNeed& need : needs) {
    if (need.count > 0) sorted.push_back({need.length + kerf, need.count});
  }
  std::sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.length > b.length; });
  std::int64_t common = 0;
  for (const LengthNeed& need : sorted) {
    common = std::gcd(common, need.length);
    if (!job.sizes.empty() && job.sizes.back() == need.length) {
      job.counts.back() += need.count;
    } else {
      job.sizes.push_back(need.length);
      job.counts.push_back(need.count);
    }
  }
  if (common > 1) {
    job.capacity /= common;
    for (std::int64_t& size : job.sizes) size /= common;
  }
  return job;
}

/// The best way that the steps last for, and the bound.
template <When = When::called>
CutWay cut_best(const CutJob& job, std::int64_t steps, std::int64_t& bound) {
  CutBudget budget{steps};
  CutWay best = cut_longest_first(job);
  const auto keep = [&](CutWay way) {
    if (stock_lengths(way) < stock_lengths(best)) best = std::move(way);
    return stock_lengths(best) > bound;
  };
  bound = bound_by_sums(job);
  if (!keep(cut_fullest_first(job, 20'000))) return best;
  if (job.kinds() <= 100) {
    CutBudget third{steps / 3};
    CutRelaxation relaxation(job);
    relaxation.solve(stock_lengths(best), third);
    bound = std::max(bound, relaxation.bound());
    CutBudget next{steps / 3};
    if (stock_lengths(best) > bound) cut_by_relaxation(job, relaxation, bound, next, best);
    if (stock_lengths(best) == bound) return best;
  }
  Random random(1);
  std::vector<std::int64_t> prices;
  for (const std::int64_t size : job.sizes) prices.push_back(size * 1'000 / job.capacity * 1'000 + 1);
  for (int round = 0; round < 30; ++round) {
    if (!keep(cut_by_worth(job, prices, random))) return best;
  }
  while (stock_lengths(best) > bound) {
    CutWay way;
    CutCompletion completion(job, stock_lengths(best) - 1, budget);
    if (completion.find(way)) {
      best = std::move(way);
    } else {
      if (!budget.spent()) bound = stock_lengths(best);  // searched to the end: there is no such way
      break;
    }
  }
  return best;
}

/// Deals the pieces of the ways out to the needs that asked for them.
template <When = When::called>
CutPlan plan_of(const CutWay& way, const CutJob& job, std::span<const LengthNeed> needs, std::int64_t stock_length,
                std::int64_t kerf) {
  std::vector<std::size_t> by_length(needs.size());
  std::iota(by_length.begin(), by_length.end(), std::size_t{0});
  std::stable_sort(by_length.begin(), by_length.end(),
                   [&](std::size_t a, std::size_t b) { return needs[a].length > needs[b].length; });
  std::vector<std::vector<std::size_t>> asked(job.kinds());
  std::size_t kind = 0;
  std::int64_t last = -1;
  for (const std::size_t place : by_length) {
    if (needs[place].count == 0) continue;
    if (last >= 0 && needs[place].length != last) ++kind;
    last = needs[place].length;
    asked[kind].push_back(place);
  }
  std::vector<std::int64_t> missing;
  for (const LengthNeed& need : needs) missing.push_back(need.count);
  CutPlan plan;
  for (const RepeatedPattern& repeated : way) {
    for (std::int64_t left = repeated.times; left > 0;) {
      CutPattern pattern{.counts = std::vector<std::int64_t>(needs.size()), .times = left};
      std::int64_t used = -kerf;
      for (std::size_t i = 0; i < job.kinds(); ++i) {
        std::int64_t pieces = repeated.counts[i];
        for (const std::size_t place : asked[i]) {
          const std::int64_t part = std::min(pieces, missing[place]);
          pattern.counts[place] = part;
          pieces -= part;
          used += part * (needs[place].length + kerf);
          // The same once more only as long as each need still asks for it.
          if (part > 0) pattern.times = std::min(pattern.times, missing[place] / part);
        }
      }
      for (std::size_t i = 0; i < needs.size(); ++i) missing[i] -= pattern.counts[i] * pattern.times;
      pattern.left_over = std::max<std::int64_t>(stock_length - used - kerf, 0);
      left -= pattern.times;
      plan.stock_count += pattern.times;
      plan.patterns.push_back(std::move(pattern));
    }
  }
  return plan;
}

/// Equal patterns together, those with more of the longest pieces first.
template <When = When::called>
void sort_patterns(CutPlan& plan, std::span<const LengthNeed> needs) {
  std::vector<std::size_t> by_length(needs.size());
  std::iota(by_length.begin(), by_length.end(), std::size_t{0});
  std::stable_sort(by_length.begin(), by_length.end(),
                   [&](std::size_t a, std::size_t b) { return needs[a].length > needs[b].length; });
  std::stable_sort(plan.patterns.begin(), plan.patterns.end(), [&](const CutPattern& a, const CutPattern& b) {
    for (const std::size_t i : by_length) {
      if (a.counts[i] != b.counts[i]) return a.counts[i] > b.counts[i];
    }
    return false;
  });
  std::vector<CutPattern> merged;
  for (CutPattern& pattern : plan.patterns) {
    if (!merged.empty() && merged.back().counts == pattern.counts) {
      merged.back().times += pattern.times;
    } else {
      merged.push_back(std::move(pattern));
    }
  }
  plan.patterns = std::move(merged);
}

}  // namespace detail

template <When>
CutPlan cut_lengths(std::span<const LengthNeed> needs, std::int64_t stock_length, std::int64_t kerf,
                    const CutEffort& effort) {
  detail::check_cuts(needs, stock_length, kerf);
  const detail::CutJob job = detail::cut_job(needs, stock_length, kerf);
  if (job.done()) return {};
  std::int64_t bound = 0;
  const detail::CutWay way = detail::cut_best(job, std::max<std::int64_t>(effort.steps, 0), bound);
  CutPlan plan = detail::plan_of(way, job, needs, stock_length, kerf);
  plan.lower_bound = bound;
  detail::sort_patterns(plan, needs);
  return plan;
}

}  // namespace handlaid
