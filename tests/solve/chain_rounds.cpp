#include "handlaid/solve/chain_rounds.hpp"

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::Table;

namespace {

std::vector<Chain> chains_of(const std::string& words) {
  std::vector<Chain> chains(1);
  for (const char c : words) {
    if (c == ' ') {
      chains.emplace_back();
    } else {
      chains.back().push_back(c - 'a');
    }
  }
  return chains;
}

void check_plan(const std::vector<Chain>& chains, const RoundPlan& plan) {
  std::set<std::pair<int, int>> met;
  REQUIRE(plan.round_of.size() == chains.size());
  for (std::size_t c = 0; c < chains.size(); ++c) {
    REQUIRE(plan.round_of[c].size() == chains[c].size());
    for (std::size_t i = 0; i < chains[c].size(); ++i) {
      REQUIRE(plan.round_of[c][i] >= 0);
      REQUIRE(plan.round_of[c][i] < plan.rounds);
      if (i > 0) REQUIRE(plan.round_of[c][i] != plan.round_of[c][i - 1]);
      met.insert({chains[c][i], plan.round_of[c][i]});
    }
  }
  REQUIRE(static_cast<std::int64_t>(met.size()) == plan.take_ups);
  REQUIRE(plan.least_take_ups <= plan.take_ups);
}

}  // namespace

TEST_CASE("for small batches the frontier is the integer programme's") {
  const Table table("chain_rounds.csv");  // HiGHS, record_rounds.py
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::vector<Chain> chains = chains_of(table.text(row, "chains"));
    const RoundFrontier frontier = round_frontier(chains);
    const auto rounds = table.whole(row, "rounds");
    INFO(table.text(row, "chains") << ", " << rounds << " rounds");
    // The plan for so many rounds is the last one with no more: where one more round saves nothing it is left out.
    const RoundPlan* plan = nullptr;
    for (const RoundPlan& one : frontier.plans) {
      check_plan(chains, one);
      CHECK(one.proven());
      if (one.rounds <= rounds) plan = &one;
    }
    REQUIRE(plan != nullptr);
    CHECK(plan->take_ups == table.whole(row, "take_ups"));
    if (table.whole(row, "take_ups") == frontier.kinds && plan->rounds == rounds) {
      CHECK(frontier.rounds_for_once == rounds);
    }
  }
}

TEST_CASE("two rounds always do, and more rounds never take more take-ups") {
  Random random(12);
  for (int round = 0; round < 60; ++round) {
    std::vector<Chain> chains(12);
    const int kinds = 4 + static_cast<int>(random.below(14));
    for (Chain& chain : chains) {
      const std::size_t length = 1 + random.below(30);
      while (chain.size() < length) {
        const auto kind = static_cast<int>(random.below(static_cast<std::uint64_t>(kinds)));
        if (chain.empty() || chain.back() != kind) chain.push_back(kind);
      }
    }
    const RoundFrontier frontier = round_frontier(chains, {.steps = 500});
    REQUIRE(!frontier.plans.empty());
    REQUIRE(frontier.plans.front().rounds <= 2);
    for (std::size_t i = 0; i < frontier.plans.size(); ++i) {
      check_plan(chains, frontier.plans[i]);
      if (i == 0) continue;
      REQUIRE(frontier.plans[i].rounds > frontier.plans[i - 1].rounds);
      REQUIRE(frontier.plans[i].take_ups < frontier.plans[i - 1].take_ups);
    }
    REQUIRE(frontier.plans.back().take_ups == frontier.kinds);
    REQUIRE(frontier.plans.back().rounds == frontier.rounds_for_once);
    REQUIRE(frontier.rounds_for_once <= frontier.kinds);
  }
}

TEST_CASE("work without touching needs one round, none at all none") {
  CHECK(round_frontier({{0}, {1}, {2}}).plans.at(0).rounds == 1);
  CHECK(round_frontier({}).plans.empty());
  CHECK(round_frontier({{}, {3}}).kinds == 1);
  const RoundFrontier alternating = round_frontier({{0, 1, 0, 1}});
  CHECK(alternating.plans.size() == 1);
  CHECK(alternating.plans[0].rounds == 2);
  CHECK(alternating.plans[0].take_ups == 2);
  CHECK_THROWS_WITH(round_frontier({{0, 0}}), contains("two links of kind 0 touch"));
  CHECK_THROWS_WITH(round_frontier({{-1}}), contains("kind: -1"));
}
