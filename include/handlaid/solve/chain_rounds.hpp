// Work on chains in rounds: links that touch must not be worked in the same round, and each kind of link costs once for
// every round in which it is taken up. Few rounds or few take-ups: the frontier between the two.
// (Chains are strips, links their sections, kinds colours, rounds sittings; here it is the mathematics alone.)
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/graph_colouring.hpp"
#include "handlaid/solve/round_search.hpp"

namespace handlaid {

/// All links dealt out to rounds.
struct RoundPlan {
  int rounds = 0;
  /// Kinds taken up, counted once for each round they are worked in.
  std::int64_t take_ups = 0;
  /// With so many rounds nothing takes fewer.
  std::int64_t least_take_ups = 0;
  /// The round of each link of each chain, from 0.
  std::vector<std::vector<int>> round_of = {};
  bool proven() const { return take_ups == least_take_ups; }
  friend bool operator==(const RoundPlan&, const RoundPlan&) = default;
};

/// The plans that no other beats in both, fewest rounds first.
struct RoundFrontier {
  std::vector<RoundPlan> plans = {};
  /// Kinds that are there.
  int kinds = 0;
  /// Rounds when each kind is taken up once: no fewer than the clique, and proven where the colouring was.
  int rounds_for_once = 0;
  int clique = 0;
  bool once_proven = false;
  friend bool operator==(const RoundFrontier&, const RoundFrontier&) = default;
};

/// How long is searched, in steps and not in time.
struct RoundEffort {
  std::int64_t steps = 5'000;
};

/// The most kinds, and the most links of all chains.
inline constexpr int most_kinds = 1'000;
inline constexpr std::size_t most_links = 10'000'000;

/// The frontier. Throws Error for kinds outside 0…999, too many links, or links of one kind that touch.
template <When = When::called>
RoundFrontier round_frontier(const std::vector<Chain>& chains, const RoundEffort& effort = {});

namespace detail {

/// Kinds in excess of the rounds, summed over cliques that share no kind: each must be taken up once more.
template <When = When::called>
std::int64_t excess_of_cliques(const Graph& conflicts, const std::vector<int>& used, int rounds) {
  std::vector<int> left = used;
  std::int64_t excess = 0;
  for (;;) {
    Graph rest(static_cast<int>(left.size()));
    for (std::size_t a = 0; a < left.size(); ++a) {
      for (std::size_t b = 0; b < a; ++b) {
        if (conflicts.joined(left[a], left[b])) rest.join(static_cast<int>(a), static_cast<int>(b));
      }
    }
    const std::vector<int> clique = CliqueSearch(rest, 5'000).solve();
    if (static_cast<int>(clique.size()) <= rounds) return excess;
    excess += static_cast<std::int64_t>(clique.size()) - rounds;
    std::vector<int> kept;
    for (std::size_t i = 0; i < left.size(); ++i) {
      if (std::find(clique.begin(), clique.end(), static_cast<int>(i)) == clique.end()) kept.push_back(left[i]);
    }
    left = kept;
  }
}

/// Kinds and rounds that meet.
template <When = When::called>
std::int64_t take_ups_of(const std::vector<Chain>& chains, const std::vector<std::vector<int>>& round_of, int kinds,
                         int rounds) {
  std::vector<bool> met(static_cast<std::size_t>(kinds) * static_cast<std::size_t>(rounds), false);
  for (std::size_t c = 0; c < chains.size(); ++c) {
    for (std::size_t i = 0; i < chains[c].size(); ++i) {
      met[static_cast<std::size_t>(chains[c][i] * rounds + round_of[c][i])] = true;
    }
  }
  return std::count(met.begin(), met.end(), true);
}

template <When = When::called>
void check_chains(const std::vector<Chain>& chains) {
  std::size_t links = 0;
  for (const Chain& chain : chains) {
    links += chain.size();
    for (std::size_t i = 0; i < chain.size(); ++i) {
      if (chain[i] < 0 || chain[i] >= most_kinds) {
        throw Error::out_of_range("kind", std::to_string(chain[i]), "0 to 999");
      }
      if (i > 0 && chain[i] == chain[i - 1]) {
        throw Error::bad_input("chain", "two links of kind " + std::to_string(chain[i]) + " touch", "join them to one");
      }
    }
  }
  if (links > most_links) throw Error::out_of_range("chains", std::to_string(links) + " links", "at most 10000000");
}

}  // namespace detail

template <When>
RoundFrontier round_frontier(const std::vector<Chain>& chains, const RoundEffort& effort) {
  detail::check_chains(chains);
  int kinds = 0;
  for (const Chain& chain : chains) {
    for (const int kind : chain) kinds = std::max(kinds, kind + 1);
  }
  std::vector<bool> there(static_cast<std::size_t>(kinds), false);
  Graph conflicts(kinds);
  for (const Chain& chain : chains) {
    for (std::size_t i = 0; i < chain.size(); ++i) {
      there[static_cast<std::size_t>(chain[i])] = true;
      if (i > 0) conflicts.join(chain[i - 1], chain[i]);
    }
  }
  std::vector<int> used;
  for (int kind = 0; kind < kinds; ++kind) {
    if (there[static_cast<std::size_t>(kind)]) used.push_back(kind);
  }
  RoundFrontier frontier{.kinds = static_cast<int>(used.size())};
  if (used.empty()) return frontier;
  const GraphColouring once = colour_graph(conflicts, {.steps = 20 * effort.steps});
  frontier.rounds_for_once = once.count;
  frontier.clique = once.clique;
  frontier.once_proven = once.proven;
  const auto least = static_cast<std::int64_t>(used.size());
  for (int rounds = std::min(2, once.count); rounds < std::min(once.count, 64); ++rounds) {
    std::int64_t bound = least + detail::excess_of_cliques(conflicts, used, rounds);
    if (once.proven) bound = std::max(bound, least + 1);  // fewer rounds than once for each asks for
    detail::RoundSearch search(chains, conflicts, used, rounds);
    search.search(effort.steps, bound);
    bound = search.prove(bound, effort.steps);
    RoundPlan plan{.rounds = rounds, .least_take_ups = bound};
    for (const Chain& chain : chains) plan.round_of.push_back(search.sets().way(chain));
    plan.take_ups = detail::take_ups_of(chains, plan.round_of, kinds, rounds);
    if (!frontier.plans.empty() && frontier.plans.back().take_ups <= plan.take_ups) continue;
    frontier.plans.push_back(std::move(plan));
  }
  RoundPlan each_once{.rounds = once.count, .take_ups = least, .least_take_ups = least};
  for (const Chain& chain : chains) {
    std::vector<int> way;
    for (const int kind : chain) way.push_back(once.colours[static_cast<std::size_t>(kind)]);
    each_once.round_of.push_back(std::move(way));
  }
  if (frontier.plans.empty() || frontier.plans.back().take_ups > least) frontier.plans.push_back(std::move(each_once));
  return frontier;
}

}  // namespace handlaid
