// Choosing k of n: the candidates that serve weighted points at the least total cost, each point by its cheapest one
// (the p-median problem). Greedy start, then interchange as long as one helps: M. Teitz, P. Bart, Operations Research
// 16(5), 1968. What each exchange would bring is kept up to date for the points it touches only: M. Resende,
// R. Werneck, "A fast swap-based local search procedure for location problems", Annals of OR 150, 2007.
// Then a few exchanges at random and interchange again, as long as the work allows.
#pragma once

#include <algorithm>
#include <concepts>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// What a candidate costs a point, below 2^32 - 1: `cost(point, candidate)`. It is asked again and again, so that no
/// table of all pairs is needed.
template <class F>
concept PairCost = requires(const F& cost, std::size_t point, std::size_t candidate) {
  { cost(point, candidate) } -> std::same_as<std::uint32_t>;
};

/// Costs from a table: `costs[point * candidates + candidate]`.
struct CostTable {
  std::span<const std::uint32_t> costs = {};
  std::size_t candidates = 0;
  std::uint32_t operator()(std::size_t point, std::size_t candidate) const {
    return costs[point * candidates + candidate];
  }
};

/// Points and candidates go by their indices, from 0.
struct ChoiceProblem {
  /// One a point; together below 2^31.
  std::span<const std::uint64_t> weights = {};
  std::size_t candidates = 0;
  /// How many to choose, the fixed ones included.
  std::size_t wanted = 0;
  /// Candidates that must be chosen.
  std::vector<std::size_t> fixed = {};
  /// Looks at a cost after which no further start is made; the first one always ends.
  std::uint64_t most_looks = 20'000'000;
};

/// What was chosen: ascending indices, and the total of weight times cost.
struct Choice {
  std::vector<std::size_t> chosen = {};
  std::uint64_t cost = 0;
  friend bool operator==(const Choice&, const Choice&) = default;
};

/// Chooses. The result is one that no single exchange betters, usually within a percent of the best; the same for the
/// same input. Memory: some 24 bytes a point and 8 a pair of candidate and chosen one.
/// Throws Error when weights are too large, a candidate is fixed twice or is none, or more are wanted than there are,
/// or fewer than are fixed.
template <PairCost Cost>
Choice choose_candidates(const ChoiceProblem& problem, const Cost& cost);

namespace detail {

template <class Cost>
class Interchange {
 public:
  Interchange(const ChoiceProblem& problem, const Cost& cost)
      : problem_(problem),
        cost_(cost),
        ranks_(problem.weights.size()),
        is_chosen_(problem.candidates, 0),
        saved_(problem.candidates, 0),
        missed_(problem.wanted, 0),
        spared_(problem.candidates * problem.wanted, 0) {}

  Choice solve() {
    chosen_.assign(problem_.wanted, nobody);
    for (std::size_t p = 0; p < ranks_.size(); ++p) account(p, {.first = 0, .second = 0}, {});
    std::size_t place = 0;
    for (const std::size_t c : problem_.fixed) put(place++, c);
    while (place < problem_.wanted) put(place++, best_addition());
    while (improve()) {
    }
    std::vector<std::size_t> best = chosen_;
    std::uint64_t least = total();
    const bool one_way = problem_.wanted == problem_.candidates || problem_.fixed.size() == problem_.wanted;
    Random random(1);
    for (int start = 0; start < most_starts && looks_ < problem_.most_looks && !one_way; ++start) {
      for (std::size_t i = 0; i < 2 + problem_.wanted / 8; ++i) exchange_any(random);
      while (improve()) {
      }
      if (total() < least) {
        least = total();
        best = chosen_;
      } else {
        return_to(best);
      }
    }
    std::sort(best.begin(), best.end());
    return {.chosen = std::move(best), .cost = least};
  }

 private:
  static constexpr std::uint32_t far = std::numeric_limits<std::uint32_t>::max();
  static constexpr std::size_t nobody = std::numeric_limits<std::size_t>::max();
  static constexpr int most_starts = 50;

  /// The cheapest and the second cheapest chosen candidate of a point: their costs and places in `chosen_`.
  struct Rank {
    std::uint32_t first = far;
    std::uint32_t second = far;
    std::uint32_t first_place = 0;
    std::uint32_t second_place = 0;
  };

  /// Adds up what exchanges bring: with candidate c instead of the one at place r, the total falls by
  /// `saved_[c] + spared_[r][c] - missed_[r]`. A point of place r misses the step from its cheapest to its second
  /// cheapest, and is spared the part of it that c covers. Only candidates nearer than the second cheapest matter.
  void account(std::size_t point, const Rank& old, const Rank& now) {
    const std::uint64_t weight = problem_.weights[point];
    const std::size_t n = problem_.candidates;
    missed_[old.first_place] -= weight * (old.second - old.first);
    missed_[now.first_place] += weight * (now.second - now.first);
    std::uint64_t* const spared_old = spared_.data() + old.first_place * n;
    std::uint64_t* const spared_now = spared_.data() + now.first_place * n;
    const std::uint32_t horizon = std::max(old.second, now.second);
    for (std::size_t c = 0; c < n; ++c) {
      const std::uint32_t with = cost_(point, c);
      if (with >= horizon) continue;
      saved_[c] += weight * (now.first - std::min(with, now.first)) - weight * (old.first - std::min(with, old.first));
      spared_old[c] -= weight * (old.second - std::min(std::max(with, old.first), old.second));
      spared_now[c] += weight * (now.second - std::min(std::max(with, now.first), now.second));
    }
    looks_ += n;
  }

  Rank ranked(std::size_t point) const {
    Rank rank;
    for (std::size_t place = 0; place < chosen_.size(); ++place) {
      if (chosen_[place] != nobody) insert(rank, cost_(point, chosen_[place]), static_cast<std::uint32_t>(place));
    }
    return rank;
  }
  static void insert(Rank& rank, std::uint32_t cost, std::uint32_t place) {
    if (cost < rank.first) {
      rank = {.first = cost, .second = rank.first, .first_place = place, .second_place = rank.first_place};
    } else if (cost < rank.second) {
      rank.second = cost;
      rank.second_place = place;
    }
  }

  /// Puts a candidate at a place, in place of the one that is there.
  void put(std::size_t place, std::size_t candidate) {
    const bool replaces = chosen_[place] != nobody;
    if (replaces) is_chosen_[chosen_[place]] = 0;
    chosen_[place] = candidate;
    is_chosen_[candidate] = 1;
    for (std::size_t p = 0; p < ranks_.size(); ++p) {
      Rank now = ranks_[p];
      if (replaces && (now.first_place == place || now.second_place == place)) {
        now = ranked(p);
      } else {
        insert(now, cost_(p, candidate), static_cast<std::uint32_t>(place));
      }
      if (now.first != ranks_[p].first || now.second != ranks_[p].second || now.first_place != ranks_[p].first_place) {
        account(p, ranks_[p], now);
      }
      ranks_[p] = now;
    }
    looks_ += ranks_.size();
  }

  /// The candidate that saves most, of equals the first.
  std::size_t best_addition() const {
    std::size_t best = nobody;
    for (std::size_t c = 0; c < problem_.candidates; ++c) {
      if (is_chosen_[c] == 0 && (best == nobody || saved_[c] > saved_[best])) best = c;
    }
    return best;
  }

  /// Makes the exchange that brings most, of equals the one with the lowest index in, then out; says whether any helps.
  bool improve() {
    std::int64_t most = 0;
    std::size_t in = nobody;
    std::size_t out = 0;
    for (std::size_t place = problem_.fixed.size(); place < problem_.wanted; ++place) {
      const std::uint64_t* const spared = spared_.data() + place * problem_.candidates;
      for (std::size_t c = 0; c < problem_.candidates; ++c) {
        const auto profit = static_cast<std::int64_t>(saved_[c] + spared[c] - missed_[place]);
        if (profit < most || profit <= 0 || is_chosen_[c] != 0) continue;
        if (profit == most && (c > in || (c == in && chosen_[place] > chosen_[out]))) continue;
        most = profit;
        in = c;
        out = place;
      }
    }
    if (in == nobody) return false;
    put(out, in);
    return true;
  }

  void exchange_any(Random& random) {
    const std::size_t open = problem_.wanted - problem_.fixed.size();
    const std::size_t place = problem_.fixed.size() + static_cast<std::size_t>(random.below(open));
    std::size_t c = static_cast<std::size_t>(random.below(problem_.candidates));
    while (is_chosen_[c] != 0) c = (c + 1) % problem_.candidates;
    put(place, c);
  }

  void return_to(const std::vector<std::size_t>& places) {
    // Some may stand at other places now; those make way first.
    for (std::size_t place = 0; place < places.size(); ++place) {
      if (chosen_[place] == places[place]) continue;
      const auto other = std::find(chosen_.begin(), chosen_.end(), places[place]);
      if (other == chosen_.end()) {
        put(place, places[place]);
      } else {
        swap_places(place, static_cast<std::size_t>(other - chosen_.begin()));
      }
    }
  }

  void swap_places(std::size_t a, std::size_t b) {
    std::swap(chosen_[a], chosen_[b]);
    const std::size_t n = problem_.candidates;
    const auto row = [&](std::size_t place) { return spared_.begin() + static_cast<std::ptrdiff_t>(place * n); };
    std::swap(missed_[a], missed_[b]);
    std::swap_ranges(row(a), row(a + 1), row(b));
    const auto swapped = [&](std::uint32_t& place) {
      place = static_cast<std::uint32_t>(place == a ? b : place == b ? a : place);
    };
    for (Rank& rank : ranks_) {
      swapped(rank.first_place);
      swapped(rank.second_place);
    }
  }

  std::uint64_t total() const {
    std::uint64_t sum = 0;
    for (std::size_t p = 0; p < ranks_.size(); ++p) sum += problem_.weights[p] * ranks_[p].first;
    return sum;
  }

  const ChoiceProblem& problem_;
  const Cost& cost_;
  std::vector<Rank> ranks_;
  std::vector<std::size_t> chosen_ = {};
  std::vector<std::uint8_t> is_chosen_;
  std::vector<std::uint64_t> saved_;
  std::vector<std::uint64_t> missed_;
  std::vector<std::uint64_t> spared_;
  std::uint64_t looks_ = 0;
};

template <When = When::called>
void check_choice(const ChoiceProblem& problem) {
  const std::size_t least = std::max<std::size_t>(problem.fixed.size(), 1);
  if (problem.wanted < least || problem.wanted > problem.candidates) {
    throw Error::out_of_range("candidates wanted", std::to_string(problem.wanted),
                              std::to_string(least) + " to " + std::to_string(problem.candidates));
  }
  std::vector<std::size_t> fixed = problem.fixed;
  std::sort(fixed.begin(), fixed.end());
  for (std::size_t i = 0; i < fixed.size(); ++i) {
    if (fixed[i] >= problem.candidates || (i > 0 && fixed[i] == fixed[i - 1])) {
      throw Error::out_of_range("fixed candidate", std::to_string(fixed[i]),
                                "each once, an index below " + std::to_string(problem.candidates));
    }
  }
  constexpr std::uint64_t limit = std::uint64_t{1} << 31;
  std::uint64_t total = 0;
  for (const std::uint64_t weight : problem.weights) {
    total = weight >= limit ? limit : total + weight;
    if (total >= limit) throw Error::bad_option("weights", "together they are 2^31 or more", "halve them all");
  }
}

}  // namespace detail

template <PairCost Cost>
Choice choose_candidates(const ChoiceProblem& problem, const Cost& cost) {
  detail::check_choice(problem);
  return detail::Interchange<Cost>(problem, cost).solve();
}

}  // namespace handlaid
