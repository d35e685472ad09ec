#include "handlaid/solve/pack_mix.hpp"

#include <array>
#include <numeric>
#include <sstream>
#include <tuple>

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"
#include "support/table.hpp"

using handlaid::cheapest_mix;
using handlaid::PackSize;
using handlaid_test::contains;
using handlaid_test::Table;
using Counts = std::vector<std::int64_t>;

namespace {

std::vector<std::int64_t> numbers(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::int64_t> list;
  for (std::int64_t value = 0; stream >> value;) list.push_back(value);
  return list;
}

std::int64_t sum(const std::vector<PackSize>& sizes, const Counts& counts, std::int64_t PackSize::*what) {
  std::int64_t total = 0;
  for (std::size_t i = 0; i < sizes.size(); ++i) total += counts[i] * (sizes[i].*what);
  return total;
}

/// Price, packs, pieces, then the counts from the largest size down: what a mix is judged by, less is better.
/// `sizes` is largest first.
using Judgement = std::tuple<std::int64_t, std::int64_t, std::int64_t, Counts>;
Judgement judge(const std::vector<PackSize>& sizes, const Counts& counts) {
  Counts fewer_large;
  std::int64_t packs = 0;
  for (const std::int64_t count : counts) {
    packs += count;
    fewer_large.push_back(-count);
  }
  return {sum(sizes, counts, &PackSize::price), packs, sum(sizes, counts, &PackSize::pieces), fewer_large};
}

/// Tries every mix in which no pack could be left out.
void try_all(const std::vector<PackSize>& sizes, std::size_t at, std::int64_t need, Counts& counts, Judgement& best) {
  if (need <= 0) {
    best = std::min(best, judge(sizes, counts));
    return;
  }
  if (at == sizes.size()) return;
  for (std::int64_t left = need;; left -= sizes[at].pieces) {
    try_all(sizes, at + 1, left, counts, best);
    if (left <= 0) break;
    ++counts[at];
  }
  counts[at] = 0;
}

}  // namespace

TEST_CASE("the price of the cheapest mix equals the integer programme's") {
  const Table table("packs.csv");  // exact dynamic programme, confirmed by HiGHS
  for (std::size_t row = 0; row < table.size(); ++row) {
    INFO("row " << row + 2);
    const auto pieces = numbers(table.text(row, "pack_sizes"));
    const auto prices = numbers(table.text(row, "prices_in_cents"));
    std::vector<PackSize> sizes;
    for (std::size_t i = 0; i < pieces.size(); ++i) sizes.push_back({.pieces = pieces[i], .price = prices[i]});
    const Counts counts = cheapest_mix(table.whole(row, "need"), sizes);
    CHECK(sum(sizes, counts, &PackSize::price) == table.whole(row, "least_cost_in_cents"));
    CHECK(sum(sizes, counts, &PackSize::pieces) >= table.whole(row, "need"));
  }
}

TEST_CASE("a mix is the best of all mixes, ties and all, in 1000 random cases") {
  handlaid::Random random(1);
  const auto from = [&](std::uint64_t low, std::uint64_t high) {
    return static_cast<std::int64_t>(low + random.below(high - low + 1));
  };
  for (int round = 0; round < 1000; ++round) {
    std::vector<PackSize> sizes;
    std::int64_t size = from(1, 12);
    const auto count = from(1, 4);
    const bool many_ties = round % 2 == 0;
    for (std::int64_t i = 0; i < count; ++i, size += from(1, 15)) {
      const std::int64_t price = many_ties ? (round % 4 == 0 ? size : from(0, 3)) : from(0, 60) + size * 3;
      sizes.insert(sizes.begin(), {.pieces = size, .price = price});
    }
    const std::int64_t need = from(0, 90);
    Judgement best{INT64_MAX, 0, 0, {}};
    Counts counts(sizes.size(), 0);
    try_all(sizes, 0, need, counts, best);
    const Judgement found = judge(sizes, cheapest_mix(need, sizes));
    INFO("round " << round << ", need " << need);
    REQUIRE(found == best);
  }
}

TEST_CASE("with least numbers of packs a mix is the best of all that the shop would sell, in 1000 random cases") {
  handlaid::Random random(3);
  for (int round = 0; round < 1000; ++round) {
    std::vector<PackSize> sizes;
    std::int64_t size = 1;
    const std::size_t count = 1 + random.below(3);
    for (std::size_t i = 0; i < count; ++i) {
      size += 1 + static_cast<std::int64_t>(random.below(12));
      const auto price = static_cast<std::int64_t>(random.below(40)) + size * (round % 2 == 0 ? 0 : 3);
      sizes.insert(sizes.begin(), {size, price, 1 + static_cast<std::int64_t>(random.below(5))});
    }
    const auto need = static_cast<std::int64_t>(random.below(60));
    Judgement best{INT64_MAX, 0, 0, {}};
    Counts counts(sizes.size(), 0);
    // Every number of each size that could be of use: enough for the need alone, or the least number.
    const auto try_numbers = [&](const auto& self, std::size_t at) -> void {
      if (at == sizes.size()) {
        if (sum(sizes, counts, &PackSize::pieces) >= need) best = std::min(best, judge(sizes, counts));
        return;
      }
      const std::int64_t most = std::max(need / sizes[at].pieces + 1, sizes[at].at_least);
      for (std::int64_t n = 0; n <= most; ++n) {
        if (n > 0 && n < sizes[at].at_least) continue;
        counts[at] = n;
        self(self, at + 1);
      }
      counts[at] = 0;
    };
    try_numbers(try_numbers, 0);
    INFO("round " << round << ", need " << need);
    REQUIRE(judge(sizes, cheapest_mix(need, sizes)) == best);
  }
}

TEST_CASE("a large need is what the small one says, plus packs of the best value") {
  // For needs this large the plain table of all sums is the second opinion.
  handlaid::Random random(2);
  for (int round = 0; round < 60; ++round) {
    std::vector<PackSize> sizes;
    for (int i = 0; i < 5; ++i) {
      const auto pieces = static_cast<std::int64_t>(random.below(60) + 1);
      const auto extra = static_cast<std::int64_t>(random.below(round % 3 == 0 ? 1 : 20));
      sizes.push_back({.pieces = pieces, .price = pieces * 7 + extra});
    }
    const std::int64_t need = 40'000 + static_cast<std::int64_t>(random.below(100));
    using Value = std::array<std::int64_t, 3>;  // price, packs, pieces
    std::vector<Value> least(static_cast<std::size_t>(need) + 1, Value{INT64_MAX, 0, 0});
    least[0] = {};
    for (std::int64_t n = 1; n <= need; ++n) {
      for (const PackSize& size : sizes) {
        Value value = least[static_cast<std::size_t>(std::max<std::int64_t>(0, n - size.pieces))];
        value = {value[0] + size.price, value[1] + 1, value[2] + size.pieces};
        least[static_cast<std::size_t>(n)] = std::min(least[static_cast<std::size_t>(n)], value);
      }
    }
    const Counts counts = cheapest_mix(need, sizes);
    INFO("round " << round);
    CHECK(sum(sizes, counts, &PackSize::price) == least.back()[0]);
    CHECK(std::accumulate(counts.begin(), counts.end(), std::int64_t{0}) == least.back()[1]);
    CHECK(sum(sizes, counts, &PackSize::pieces) == least.back()[2]);
  }
}

TEST_CASE("ties: fewest packs, then least left over, then larger packs") {
  const auto mix = [](std::int64_t need, std::vector<PackSize> sizes) { return cheapest_mix(need, sizes); };
  CHECK(mix(100, {{50, 500}, {100, 1000}}) == Counts{0, 1});
  CHECK(mix(90, {{100, 1000}, {95, 1000}, {120, 1000}}) == Counts{0, 1, 0});
  CHECK(mix(12, {{6, 60}, {4, 40}, {8, 80}}) == Counts{0, 1, 1});  // 8 + 4 before 6 + 6
  CHECK(mix(100, {{50, 500}, {50, 500}}) == Counts{2, 0});
  CHECK(mix(100, {{50, 500}, {50, 400}}) == Counts{0, 2});
  CHECK(mix(7, {{1'000'000'000, 5}, {1, 1}}) == Counts{1, 0});
  CHECK(mix(0, {{5, 1}}) == Counts{0});
  CHECK(mix(10, {{5, 0}, {1, 0}}) == Counts{2, 0});
}

TEST_CASE("a need of a million pieces in twelve sizes") {
  std::vector<PackSize> sizes;
  for (std::int64_t i = 0; i < 12; ++i)
    sizes.push_back({.pieces = 997 - i * 61, .price = 9970 - i * 610 + i * 37 % 11});
  const Counts counts = cheapest_mix(1'000'000, sizes);
  CHECK(sum(sizes, counts, &PackSize::pieces) >= 1'000'000);
  CHECK(sum(sizes, counts, &PackSize::price) <= 1004 * 9970);
}

TEST_CASE("packs that make no sense are refused") {
  const auto mix = [](std::int64_t need, std::vector<PackSize> sizes) { return cheapest_mix(need, sizes); };
  CHECK_THROWS_WITH(mix(1, {}), contains("no pack size"));
  CHECK_THROWS_WITH(mix(1, {{0, 5}}), contains("pack size: 0"));
  CHECK_THROWS_WITH(mix(1, {{5, -1}}), contains("pack price: -1"));
  CHECK_THROWS_WITH(mix(-1, {{5, 1}}), contains("need: -1"));
  CHECK_THROWS_WITH(mix(1, std::vector<PackSize>(65, {5, 1})), contains("65 pack sizes"));
  CHECK_THROWS_WITH(mix(1, {{5, 1, 0}}), contains("least number of packs: 0"));
  CHECK_THROWS_WITH(mix(1, std::vector<PackSize>(7, {5, 1, 2})), contains("at most 6"));
  CHECK_THROWS_WITH(mix(900'000'000, {{899'999'999, 899'999'999}, {899'999'998, 899'999'998}}),
                    contains("smaller need"));
}
