// Choosing k of n against brute force and against proven optima.
#include "handlaid/solve/choose.hpp"

#include <array>
#include <cmath>

#include "handlaid/core/random.hpp"
#include "handlaid/solve/square_root.hpp"
#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(PairCost<CostTable>);
static_assert(!PairCost<int> && !PairCost<double (*)(std::size_t, std::size_t)>);

namespace {

std::uint64_t cost_of(const ChoiceProblem& problem, const CostTable& cost, const std::vector<std::size_t>& chosen) {
  std::uint64_t total = 0;
  for (std::size_t p = 0; p < problem.weights.size(); ++p) {
    std::uint32_t least = UINT32_MAX;
    for (const std::size_t c : chosen) least = std::min(least, cost(p, c));
    total += problem.weights[p] * least;
  }
  return total;
}

/// How far beyond the proven optimum a choice may be. In fact all 32 below are at it.
constexpr double most_beyond = 1.01;

/// Points and candidates of an instance: axes as whole numbers of one unit.
struct Instance {
  std::vector<std::uint64_t> weights = {};
  std::vector<std::array<std::int64_t, 3>> points = {};
  std::vector<std::array<std::int64_t, 3>> candidates = {};

  Instance(const Table& points_table, const Table& candidate_table, const std::vector<std::string>& axes,
           double units) {
    const auto place = [&](const Table& table, std::size_t row) {
      std::array<std::int64_t, 3> at = {};
      for (std::size_t i = 0; i < 3; ++i) at[i] = std::llround(table.number(row, axes[i]) * units);
      return at;
    };
    for (std::size_t p = 0; p < points_table.size(); ++p) {
      weights.push_back(static_cast<std::uint64_t>(points_table.whole(p, "weight")));
      points.push_back(place(points_table, p));
    }
    for (std::size_t c = 0; c < candidate_table.size(); ++c) candidates.push_back(place(candidate_table, c));
  }
  std::int64_t square(std::size_t p, std::size_t c) const {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < 3; ++i) sum += (points[p][i] - candidates[c][i]) * (points[p][i] - candidates[c][i]);
    return sum;
  }
  ChoiceProblem choose(int wanted) const {
    return {.weights = weights, .candidates = candidates.size(), .wanted = static_cast<std::size_t>(wanted)};
  }
};

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
    const CostTable cost = {.costs = costs, .candidates = n};
    ChoiceProblem problem = {.weights = weights, .candidates = n, .wanted = wanted};
    if (wanted > 1 && round % 3 == 0) problem.fixed = {random.below(n)};
    std::uint64_t best = UINT64_MAX;
    for (unsigned set = 0; set < (1U << n); ++set) {
      std::vector<std::size_t> chosen;
      for (std::size_t c = 0; c < n; ++c) {
        if ((set >> c) & 1U) chosen.push_back(c);
      }
      bool allowed = chosen.size() == wanted;
      for (const std::size_t c : problem.fixed) allowed = allowed && ((set >> c) & 1U) != 0;
      if (allowed) best = std::min(best, cost_of(problem, cost, chosen));
    }
    const Choice choice = choose_candidates(problem, cost);
    CHECK(choice.chosen.size() == wanted);
    CHECK(choice.cost == cost_of(problem, cost, choice.chosen));
    CHECK(choice.cost >= best);
    CHECK(static_cast<double>(choice.cost) <= 1.1 * static_cast<double>(best));
    optimal += choice.cost == best;
  }
  CHECK(optimal >= 195);  // 200 in fact
}

TEST_CASE("a choice of stocked colours comes near the proven optimum, for squared distances and for distances") {
  // Optima proven by two integer solvers (HiGHS, CBC): weighted Lab points, 40 to 120 candidates.
  const Table optima("pmedian_exact.csv");
  REQUIRE(optima.size() == 12);
  for (std::size_t i = 0; i < optima.size(); ++i) {
    const std::string number = std::to_string(101 + i).substr(1);  // two digits from 01
    const Instance instance(Table("pmedian_exact/points_" + number + ".csv"),
                            Table("pmedian_exact/stock_" + number + ".csv"), {"L10", "a10", "b10"}, 1);
    const ChoiceProblem problem = instance.choose(optima.whole(i, "k"));
    const Choice squared = choose_candidates(problem, [&](std::size_t p, std::size_t c) {
      return static_cast<std::uint32_t>((instance.square(p, c) + 50) / 100);  // as the instances define it
    });
    const Choice plain = choose_candidates(problem, [&](std::size_t p, std::size_t c) {
      return static_cast<std::uint32_t>(nearest_square_root(static_cast<std::uint64_t>(instance.square(p, c))));
    });
    const auto optimum_squared = std::stoull(optima.text(i, "optimum_sum_weight_squared"));
    const auto optimum_plain = std::stoull(optima.text(i, "optimum_sum_weight_distance_tenths"));
    INFO("instance " << i + 1);
    CHECK(squared.cost >= optimum_squared);
    CHECK(plain.cost >= optimum_plain);
    CHECK(static_cast<double>(squared.cost) <= most_beyond * static_cast<double>(optimum_squared));
    CHECK(static_cast<double>(plain.cost) <= most_beyond * static_cast<double>(optimum_plain));
  }
}

TEST_CASE("a choice of Lab colours comes near the proven optimum") {
  // Optima by scipy's HiGHS, confirmed by CBC; 20 to 80 candidates, Lab to two decimals.
  const Table optima("stock/optimum.csv");
  REQUIRE(optima.size() == 8);
  for (std::size_t i = 0; i < optima.size(); ++i) {
    const Instance instance(Table("stock/points_" + std::to_string(i) + ".csv"),
                            Table("stock/colours_" + std::to_string(i) + ".csv"), {"L", "a", "b"}, 100);
    const Choice choice = choose_candidates(instance.choose(optima.whole(i, "k")), [&](std::size_t p, std::size_t c) {
      return static_cast<std::uint32_t>(instance.square(p, c));
    });
    const double cost = static_cast<double>(choice.cost) / 10'000;
    const double optimum = optima.number(i, "weighted_sum_of_squared_lab_distance");
    INFO("instance " << i);
    CHECK(cost >= optimum * (1 - 1e-9));
    CHECK(cost <= optimum * most_beyond);
  }
}

TEST_CASE("a choice is the same from a function and from a table, and does not depend on the order of points") {
  Random random(4);
  constexpr std::size_t n = 40;
  std::vector<std::uint64_t> weights;
  std::vector<std::uint32_t> costs;
  for (int p = 0; p < 500; ++p) {
    weights.push_back(random.below(9));
    for (std::size_t c = 0; c < n; ++c) costs.push_back(static_cast<std::uint32_t>(random.below(4)));  // many ties
  }
  const CostTable table = {.costs = costs, .candidates = n};
  const ChoiceProblem problem = {.weights = weights, .candidates = n, .wanted = 7, .fixed = {39, 3}, .most_looks = 0};
  const Choice choice = choose_candidates(problem, table);
  CHECK(choose_candidates(problem, [&](std::size_t p, std::size_t c) { return costs[p * n + c]; }) == choice);
  const std::vector<std::uint64_t> backwards(weights.rbegin(), weights.rend());
  ChoiceProblem turned = problem;
  turned.weights = backwards;
  CHECK(choose_candidates(turned, [&](std::size_t p, std::size_t c) { return costs[(499 - p) * n + c]; }) == choice);
  for (const std::size_t c : problem.fixed) CHECK(std::count(choice.chosen.begin(), choice.chosen.end(), c) == 1);
}

TEST_CASE("one of many, and all of them") {
  const std::vector<std::uint64_t> weights = {1, 1};
  const std::vector<std::uint32_t> costs = {5, 2, 9, 5, 3, 1};
  const CostTable cost = {.costs = costs, .candidates = 3};
  CHECK(choose_candidates({.weights = weights, .candidates = 3, .wanted = 1}, cost) == Choice{{1}, 5});
  CHECK(choose_candidates({.weights = weights, .candidates = 3, .wanted = 3}, cost) == Choice{{0, 1, 2}, 3});
  CHECK(choose_candidates({.weights = weights, .candidates = 3, .wanted = 1, .fixed = {2}}, cost) == Choice{{2}, 10});
}

TEST_CASE("choices that cannot be made are refused") {
  const std::vector<std::uint64_t> weights = {1, 2};
  const std::vector<std::uint32_t> costs = {1, 2, 3, 4, 5, 6};
  const CostTable cost = {.costs = costs, .candidates = 3};
  const ChoiceProblem good = {.weights = weights, .candidates = 3, .wanted = 2};
  CHECK(choose_candidates(good, cost).chosen.size() == 2);
  auto wrong = good;
  wrong.wanted = 4;
  CHECK_THROWS_WITH(choose_candidates(wrong, cost), contains("candidates wanted: 4"));
  wrong.wanted = 0;
  CHECK_THROWS_WITH(choose_candidates(wrong, cost), contains("candidates wanted: 0"));
  wrong = good;
  wrong.fixed = {7};
  CHECK_THROWS_WITH(choose_candidates(wrong, cost), contains("fixed candidate: 7"));
  wrong.fixed = {1, 1};
  CHECK_THROWS_WITH(choose_candidates(wrong, cost), contains("fixed candidate: 1"));
  const std::vector<std::uint64_t> heavy = {1U << 30, 1U << 30};
  wrong = good;
  wrong.weights = heavy;
  CHECK_THROWS_WITH(choose_candidates(wrong, cost), contains("weights"));
}
