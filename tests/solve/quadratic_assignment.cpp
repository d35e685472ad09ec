#include "handlaid/solve/quadratic_assignment.hpp"

#include <algorithm>
#include <array>

#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

PairTable random_table(std::size_t size, std::uint64_t seed) {
  Random random(seed);
  PairTable table(size);
  for (std::size_t a = 0; a < size; ++a) {
    for (std::size_t b = 0; b < a; ++b) table.set(a, b, static_cast<std::int64_t>(random.below(20)));
  }
  return table;
}

std::int64_t cost_of(const PairTable& traffic, const PairTable& cost, const std::vector<std::size_t>& places) {
  std::int64_t sum = 0;
  for (std::size_t a = 0; a < places.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) sum += traffic(a, b) * cost(places[a], places[b]);
  }
  return sum;
}

std::vector<std::size_t> as_they_are(std::size_t size) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < size; ++i) places.push_back(i);
  return places;
}

std::int64_t least_of_all(const PairTable& traffic, const PairTable& cost) {
  std::vector<std::size_t> places = as_they_are(traffic.size());
  std::int64_t least = cost_of(traffic, cost, places);
  while (std::next_permutation(places.begin(), places.end())) {
    least = std::min(least, cost_of(traffic, cost, places));
  }
  return least;
}

void check_places(const PlacesFound& found, const PairTable& traffic, const PairTable& cost) {
  std::vector<std::size_t> sorted = found.places;
  std::sort(sorted.begin(), sorted.end());
  REQUIRE(sorted == as_they_are(traffic.size()));
  REQUIRE(found.cost == cost_of(traffic, cost, found.places));
  REQUIRE(found.cost <= cost_of(traffic, cost, as_they_are(traffic.size())));
}

}  // namespace

TEST_CASE("a published instance of twelve is solved as it is known to be") {
  // nug12 of QAPLIB (R. E. Burkard, S. E. Karisch, F. Rendl, Journal of Global Optimization 10, 1997), after C. E.
  // Nugent, T. E. Vollmann, J. Ruml, 1968: distances on a grid of 3 x 4; its optimum is 578 over ordered pairs.
  constexpr std::array<std::array<int, 12>, 12> flows = {{{0, 5, 2, 4, 1, 0, 0, 6, 2, 1, 1, 1},
                                                          {5, 0, 3, 0, 2, 2, 2, 0, 4, 5, 0, 0},
                                                          {2, 3, 0, 0, 0, 0, 0, 5, 5, 2, 2, 2},
                                                          {4, 0, 0, 0, 5, 2, 2, 10, 0, 0, 5, 5},
                                                          {1, 2, 0, 5, 0, 10, 0, 0, 0, 5, 1, 1},
                                                          {0, 2, 0, 2, 10, 0, 5, 1, 1, 5, 4, 0},
                                                          {0, 2, 0, 2, 0, 5, 0, 10, 5, 2, 3, 3},
                                                          {6, 0, 5, 10, 0, 1, 10, 0, 0, 0, 5, 0},
                                                          {2, 4, 5, 0, 0, 1, 5, 0, 0, 0, 10, 10},
                                                          {1, 5, 2, 0, 5, 5, 2, 0, 0, 0, 5, 0},
                                                          {1, 0, 2, 5, 1, 4, 3, 5, 10, 5, 0, 2},
                                                          {1, 0, 2, 5, 1, 0, 3, 0, 10, 0, 2, 0}}};
  PairTable traffic(12);
  PairTable cost(12);
  for (std::size_t a = 0; a < 12; ++a) {
    for (std::size_t b = 0; b < 12; ++b) {
      traffic.set(a, b, flows[a][b]);
      const auto apart = [](std::size_t p, std::size_t q) { return p > q ? p - q : q - p; };
      cost.set(a, b, static_cast<std::int64_t>(apart(a / 4, b / 4) + apart(a % 4, b % 4)));
    }
  }
  const PlacesFound found = cheapest_places(traffic, cost, {}, {.starts = 60});
  check_places(found, traffic, cost);
  CHECK(2 * found.cost == 578);
  CHECK(!found.proven);
}

TEST_CASE("up to seven things no other places are cheaper") {
  for (std::size_t size = 0; size <= 7; ++size) {
    for (std::uint64_t seed = 0; seed < (size < 7 ? 20U : 4U); ++seed) {
      const PairTable traffic = random_table(size, seed);
      const PairTable cost = random_table(size, seed + 1'000);
      const PlacesFound found = cheapest_places(traffic, cost);
      check_places(found, traffic, cost);
      REQUIRE(found.proven);
      REQUIRE(found.cost == least_of_all(traffic, cost));
      const PlacesFound exchanged = cheapest_places(traffic, cost, {}, {.exact_up_to = 0});
      check_places(exchanged, traffic, cost);
      REQUIRE(exchanged.cost >= found.cost);
    }
  }
}

TEST_CASE("what is fixed stays, and the rest is as cheap as can be around it") {
  const PairTable traffic = random_table(7, 3);
  const PairTable cost = random_table(7, 4);
  const std::vector<bool> fixed = {false, true, false, false, true, false, false};
  const PlacesFound found = cheapest_places(traffic, cost, fixed);
  CHECK(found.places[1] == 1);
  CHECK(found.places[4] == 4);
  std::vector<std::size_t> places = as_they_are(7);
  std::int64_t least = cost_of(traffic, cost, places);
  do {
    if (places[1] == 1 && places[4] == 4) least = std::min(least, cost_of(traffic, cost, places));
  } while (std::next_permutation(places.begin(), places.end()));
  CHECK(found.cost == least);
}

TEST_CASE("many things end within their steps, never dearer than they were") {
  const PairTable traffic = random_table(60, 5);
  const PairTable cost = random_table(60, 6);
  const PlacesFound hasty = cheapest_places(traffic, cost, {}, {.steps = 1'000});
  const PlacesFound found = cheapest_places(traffic, cost);
  check_places(hasty, traffic, cost);
  check_places(found, traffic, cost);
  CHECK(found.cost < hasty.cost);
  CHECK(found == cheapest_places(traffic, cost));
  CHECK_THROWS_WITH(cheapest_places(traffic, random_table(59, 1)), contains("not of one size"));
}
