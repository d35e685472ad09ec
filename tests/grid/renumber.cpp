#include "handlaid/grid/renumber.hpp"

#include <algorithm>

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

Chart<> random_chart(int colours, std::uint64_t seed) {
  Random random(seed);
  Chart<> chart{.lattice = {.columns = 20, .rows = 15}, .numbers = {20, 15}};
  for (int n = 0; n < colours; ++n) {
    const auto code = [&] { return static_cast<std::uint8_t>(random.below(256)); };
    chart.palette.entries.push_back({.colour = {code(), code(), code()}, .name = std::to_string(n)});
  }
  for (auto& number : chart.numbers.pixels()) {
    number = static_cast<ColourNumber>(random.below(static_cast<std::uint64_t>(colours) + 1));
  }
  return chart;
}

std::int64_t mix_ups(const Chart<>& chart) {
  const PairTable traffic = mix_up_traffic(chart);
  std::int64_t sum = 0;
  for (int a = 1; a <= chart.palette.size(); ++a) {
    for (int b = 1; b < a; ++b) {
      sum += traffic(static_cast<std::size_t>(a - 1), static_cast<std::size_t>(b - 1)) * numeral_confusion(a, b);
    }
  }
  return sum;
}

/// The same picture: every cell has the colour that it had.
void check_same_colours(const Chart<>& one, const Chart<>& other) {
  for (std::size_t i = 0; i < one.numbers.size(); ++i) {
    const int a = one.numbers.pixels()[i];
    const int b = other.numbers.pixels()[i];
    REQUIRE((a == 0) == (b == 0));
    if (a != 0) REQUIRE(one.palette[a] == other.palette[b]);
  }
}

}  // namespace

TEST_CASE("for up to seven colours no other numbers are clearer") {
  for (int colours = 1; colours <= 7; ++colours) {
    const Chart<> chart = random_chart(colours, static_cast<std::uint64_t>(colours));
    const Chart<> clear = chart | ClearNumbers{};
    check_same_colours(chart, clear);
    std::vector<ColourNumber> numbers;
    for (int n = 1; n <= colours; ++n) numbers.push_back(static_cast<ColourNumber>(n));
    std::int64_t least = mix_ups(chart);
    do {
      least = std::min(least, mix_ups(renumbered(chart, numbers)));
    } while (std::next_permutation(numbers.begin(), numbers.end()));
    CHECK(mix_ups(clear) == least);
  }
}

TEST_CASE("many colours keep their picture and their locks, and are never less clear than before") {
  for (const int colours : {16, 40, 120}) {
    Chart<> chart = random_chart(colours, 9);
    chart.palette.entries[2].lock = Lock::used;
    chart.palette.entries[7].lock = Lock::exact_only;
    const Chart<> clear = ClearNumbers{.effort = {.steps = 20'000'000}}(chart);
    check_same_colours(chart, clear);
    CHECK(clear.palette[3] == chart.palette[3]);
    CHECK(clear.palette[8] == chart.palette[8]);
    CHECK(mix_ups(clear) < mix_ups(chart));
  }
}

TEST_CASE("two greys that lie side by side do not become 6 and 9") {
  Chart<> chart = random_chart(9, 4);
  chart.palette.entries[5].colour = {120, 120, 120};
  chart.palette.entries[8].colour = {124, 124, 124};
  for (std::size_t i = 0; i < chart.numbers.size(); ++i) {
    chart.numbers.pixels()[i] = static_cast<ColourNumber>(i % 3 == 0 ? 6 : i % 3 == 1 ? 9 : i / 3 % 9 + 1);
  }
  const Chart<> clear = chart | ClearNumbers{};
  std::vector<int> greys;
  for (int n = 1; n <= 9; ++n) {
    if (clear.palette[n].colour.r == clear.palette[n].colour.g && clear.palette[n].colour.g >= 120 &&
        clear.palette[n].colour.g <= 124 && clear.palette[n].colour.b == clear.palette[n].colour.g) {
      greys.push_back(n);
    }
  }
  REQUIRE(greys.size() == 2);
  CHECK(numeral_confusion(greys[0], greys[1]) <= 10);
}

TEST_CASE("numbers that are not each once are refused") {
  const Chart<> chart = random_chart(3, 1);
  CHECK_THROWS_WITH(renumbered(chart, {1, 2}), contains("give each number once"));
  CHECK_THROWS_WITH(renumbered(chart, {1, 2, 2}), contains("give each number once"));
  CHECK_THROWS_WITH(renumbered(chart, {0, 1, 2}), contains("give each number once"));
  CHECK_THROWS_WITH(renumbered(chart, {2, 3, 4}), contains("give each number once"));
  CHECK(renumbered(renumbered(chart, {2, 3, 1}), {3, 1, 2}) == chart);
}
