// Choosing k of n against brute force and against proven optima.
#include "handlaid/solve/choose.hpp"

#include <cmath>

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

std::uint64_t cost_of(const ChoiceProblem& problem, const std::vector<std::size_t>& chosen) {
  std::uint64_t total = 0;
  for (std::size_t p = 0; p < problem.weights.size(); ++p) {
    std::uint32_t least = UINT32_MAX;
    for (const std::size_t c : chosen) least = std::min(least, problem.costs[p * problem.candidates + c]);
    total += problem.weights[p] * least;
  }
  return total;
}

}  // namespace

TEST_CASE("a choice from few candidates is rarely beaten by brute force, and never beats it") {
  Random random(9);
  int optimal = 0;
  for (int round = 0; round < 200; ++round) {
    constexpr std::size_t n = 9;
    std::vector<std::uint64_t> weights;
    std::vector<std::uint32_t> costs;
    for (int p = 0; p < 25; ++p) {
      weights.push_back(random.below(20) + 1);
      for (std::size_t c = 0; c < n; ++c) costs.push_back(static_cast<std::uint32_t>(random.below(100)));
    }
    const std::size_t wanted = 1 + random.below(5);
    ChoiceProblem problem = {.weights = weights, .costs = costs, .candidates = n, .wanted = wanted};
    if (wanted > 1 && round % 3 == 0) problem.fixed = {random.below(n)};
    std::uint64_t best = UINT64_MAX;
    for (unsigned set = 0; set < (1U << n); ++set) {
      std::vector<std::size_t> chosen;
      for (std::size_t c = 0; c < n; ++c) {
        if ((set >> c) & 1U) chosen.push_back(c);
      }
      bool allowed = chosen.size() == wanted;
      for (const std::size_t c : problem.fixed) allowed = allowed && ((set >> c) & 1U) != 0;
      if (allowed) best = std::min(best, cost_of(problem, chosen));
    }
    const Choice choice = choose_candidates(problem);
    CHECK(choice.chosen.size() == wanted);
    CHECK(choice.cost == cost_of(problem, choice.chosen));
    CHECK(choice.cost >= best);
    CHECK(static_cast<double>(choice.cost) <= 1.1 * static_cast<double>(best));
    optimal += choice.cost == best;
  }
  CHECK(optimal >= 180);
}

TEST_CASE("a choice of stocked colours comes within a percent of the proven optimum") {
  // Twelve instances with optima proven by two integer solvers (HiGHS, CBC): weighted Lab points, 40 to 120 candidates.
  const Table optima("pmedian_exact.csv");
  REQUIRE(optima.size() == 12);
  double worst = 1;
  for (std::size_t i = 0; i < optima.size(); ++i) {
    const std::string number = (i < 9 ? "0" : "") + std::to_string(i + 1);
    const Table points("pmedian_exact/points_" + number + ".csv");
    const Table stock("pmedian_exact/stock_" + number + ".csv");
    std::vector<std::uint64_t> weights;
    std::vector<std::uint32_t> costs;
    for (std::size_t p = 0; p < points.size(); ++p) {
      weights.push_back(static_cast<std::uint64_t>(points.whole(p, "weight")));
      for (std::size_t c = 0; c < stock.size(); ++c) {
        int square = 0;
        for (const char* axis : {"L10", "a10", "b10"}) {
          const int d = points.whole(p, axis) - stock.whole(c, axis);
          square += d * d;
        }
        costs.push_back(static_cast<std::uint32_t>((square + 50) / 100));  // as the instances define it
      }
    }
    const Choice choice = choose_candidates({.weights = weights,
                                             .costs = costs,
                                             .candidates = stock.size(),
                                             .wanted = static_cast<std::size_t>(optima.whole(i, "k"))});
    const auto optimum = std::stoull(optima.text(i, "optimum_sum_weight_squared"));
    CHECK(choice.cost >= optimum);
    worst = std::max(worst, static_cast<double>(choice.cost) / static_cast<double>(optimum));
  }
  INFO("worst ratio to the optimum " << worst);
  CHECK(worst <= 1.01);
}

TEST_CASE("choices that cannot be made are refused") {
  const std::vector<std::uint64_t> weights = {1, 2};
  const std::vector<std::uint32_t> costs = {1, 2, 3, 4, 5, 6};
  const ChoiceProblem good = {.weights = weights, .costs = costs, .candidates = 3, .wanted = 2};
  CHECK(choose_candidates(good).chosen.size() == 2);
  auto wrong = good;
  wrong.wanted = 4;
  CHECK_THROWS_WITH(choose_candidates(wrong), contains("candidates wanted: 4"));
  wrong.wanted = 0;
  CHECK_THROWS_WITH(choose_candidates(wrong), contains("candidates wanted: 0"));
  wrong = good;
  wrong.candidates = 2;
  CHECK_THROWS_WITH(choose_candidates(wrong), contains("do not fit"));
  wrong = good;
  wrong.fixed = {7};
  CHECK_THROWS_WITH(choose_candidates(wrong), contains("fixed candidate: 7"));
}
