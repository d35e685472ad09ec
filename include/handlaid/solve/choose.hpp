// Choosing k of n: the candidates that serve weighted points at the least total cost, each point by its cheapest one
// (the p-median problem). Greedy start, then interchange as long as one helps: M. Teitz, P. Bart, Operations Research
// 16(5), 1968; each pair valued in one pass as in R. Whitaker, INFOR 21, 1983.
#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/random.hpp"

namespace handlaid {

/// The points, what each candidate costs each point, and which candidates are in from the start.
struct ChoiceProblem {
  /// One a point; together below 2^31.
  std::span<const std::uint64_t> weights = {};
  /// `costs[p * candidates + c]` for point p and candidate c.
  std::span<const std::uint32_t> costs = {};
  std::size_t candidates = 0;
  /// How many to choose, the fixed ones included.
  std::size_t wanted = 0;
  /// Indices of candidates that must be chosen.
  std::vector<std::size_t> fixed = {};
};

/// What was chosen: ascending indices, and the total of weight times cost.
struct Choice {
  std::vector<std::size_t> chosen = {};
  std::uint64_t cost = 0;
};

namespace detail {

class Interchange {
 public:
  explicit Interchange(const ChoiceProblem& problem) : problem_(problem), is_fixed_(problem.candidates, false) {
    for (const std::size_t c : problem.fixed) {
      is_fixed_[c] = true;
      chosen_.push_back(c);
    }
  }

  /// Interchange from a greedy start, and from as many random ones as the work allows (some 2^28 looks at a cost a
  /// round).
  Choice solve() {
    while (chosen_.size() < problem_.wanted) {
      rank();
      chosen_.push_back(best_addition());
    }
    Choice best = settled();
    const std::uint64_t round = problem_.costs.size() * problem_.wanted + 1;
    const std::uint64_t starts = std::min<std::uint64_t>((std::uint64_t{1} << 28) / round, 24);
    for (std::uint64_t seed = 1; seed <= starts; ++seed) {
      random_start(seed);
      Choice rival = settled();
      if (rival.cost < best.cost) best = std::move(rival);
    }
    return best;
  }

 private:
  static constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

  void random_start(std::uint64_t seed) {
    Random random(seed);
    chosen_ = problem_.fixed;
    while (chosen_.size() < problem_.wanted) {
      const auto c = static_cast<std::size_t>(random.below(problem_.candidates));
      if (!is_chosen(c)) chosen_.push_back(c);
    }
  }

  /// Exchanges as long as one helps.
  Choice settled() {
    rank();
    while (improve()) rank();
    Choice choice = {.chosen = chosen_, .cost = 0};
    std::sort(choice.chosen.begin(), choice.chosen.end());
    for (std::size_t p = 0; p < problem_.weights.size(); ++p) choice.cost += problem_.weights[p] * first_[p];
    return choice;
  }

  std::uint32_t cost(std::size_t point, std::size_t candidate) const {
    return problem_.costs[point * problem_.candidates + candidate];
  }

  /// For each point the cheapest chosen candidate (its place in `chosen_`), and the two least costs.
  void rank() {
    const std::size_t points = problem_.weights.size();
    first_.assign(points, none);
    second_.assign(points, none);
    by_.assign(points, 0);
    for (std::size_t p = 0; p < points; ++p) {
      for (std::size_t i = 0; i < chosen_.size(); ++i) {
        const std::uint32_t c = cost(p, chosen_[i]);
        if (c < first_[p]) {
          second_[p] = first_[p];
          first_[p] = c;
          by_[p] = i;
        } else {
          second_[p] = std::min(second_[p], c);
        }
      }
    }
  }

  bool is_chosen(std::size_t candidate) const {
    return std::find(chosen_.begin(), chosen_.end(), candidate) != chosen_.end();
  }

  std::size_t best_addition() const {
    std::vector<std::uint64_t> gains(problem_.candidates, 0);
    for (std::size_t p = 0; p < problem_.weights.size(); ++p) {
      for (std::size_t c = 0; c < problem_.candidates; ++c) {
        const std::uint32_t with = cost(p, c);
        if (with < first_[p]) gains[c] += problem_.weights[p] * (first_[p] - with);
      }
    }
    std::size_t best = problem_.candidates;
    for (std::size_t c = 0; c < problem_.candidates; ++c) {
      if (!is_chosen(c) && (best == problem_.candidates || gains[c] > gains[best])) best = c;
    }
    return best;
  }

  /// Makes the exchange that helps most, of equals the first; says whether there was one.
  bool improve() {
    const std::size_t places = chosen_.size();
    // For each candidate: what it saves, and what each chosen one would then be missed by.
    std::vector<std::int64_t> saved(problem_.candidates, 0);
    std::vector<std::int64_t> missed(problem_.candidates * places, 0);
    for (std::size_t p = 0; p < problem_.weights.size(); ++p) {
      const auto weight = static_cast<std::int64_t>(problem_.weights[p]);
      for (std::size_t c = 0; c < problem_.candidates; ++c) {
        const std::int64_t with = cost(p, c);
        if (with < first_[p]) {
          saved[c] += weight * (first_[p] - with);
        } else {
          missed[c * places + by_[p]] += weight * (std::min<std::int64_t>(with, second_[p]) - first_[p]);
        }
      }
    }
    std::int64_t most = 0;
    std::size_t in = problem_.candidates;
    std::size_t out = 0;
    for (std::size_t c = 0; c < problem_.candidates; ++c) {
      if (is_chosen(c)) continue;
      for (std::size_t i = 0; i < places; ++i) {
        if (is_fixed_[chosen_[i]]) continue;
        const std::int64_t profit = saved[c] - missed[c * places + i];
        if (profit > most) {
          most = profit;
          in = c;
          out = i;
        }
      }
    }
    if (in == problem_.candidates) return false;
    chosen_[out] = in;
    return true;
  }

  const ChoiceProblem& problem_;
  std::vector<bool> is_fixed_;
  std::vector<std::size_t> chosen_;
  std::vector<std::uint32_t> first_;
  std::vector<std::uint32_t> second_;
  std::vector<std::size_t> by_;
};

}  // namespace detail

/// Chooses by greedy start and interchange: a local optimum, usually within a few percent of the best; the same for the
/// same input. Throws Error when sizes do not fit, or more are wanted than there are, or fewer than are fixed.
inline Choice choose_candidates(const ChoiceProblem& problem) {
  if (problem.costs.size() != problem.weights.size() * problem.candidates) {
    throw Error::bad_option("choice", "costs do not fit points and candidates", "give one cost for each pair");
  }
  if (problem.wanted < 1 || problem.wanted > problem.candidates || problem.fixed.size() > problem.wanted) {
    throw Error::out_of_range(
        "candidates wanted", std::to_string(problem.wanted),
        std::to_string(std::max<std::size_t>(problem.fixed.size(), 1)) + " to " + std::to_string(problem.candidates));
  }
  for (const std::size_t c : problem.fixed) {
    if (c >= problem.candidates) {
      throw Error::out_of_range("fixed candidate", std::to_string(c),
                                "an index below " + std::to_string(problem.candidates));
    }
  }
  return detail::Interchange(problem).solve();
}

}  // namespace handlaid
