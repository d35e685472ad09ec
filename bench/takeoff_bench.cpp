// Solvers and takeoff: quantiles, pack mixes, choices of k from n, and everything that is counted from a chart.
#include <benchmark/benchmark.h>

#include "handlaid/core/random.hpp"
#include "handlaid/files/chart_table.hpp"
#include "handlaid/plan/fabrication.hpp"
#include "handlaid/solve/binomial.hpp"
#include "handlaid/solve/choose.hpp"
#include "handlaid/solve/cut_lengths.hpp"
#include "handlaid/solve/pack_mix.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/strips.hpp"

using namespace handlaid;

namespace {

void fewest_to_start_of(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(fewest_to_start(state.range(0), 0.03, 0.99));
}
BENCHMARK(fewest_to_start_of)->Arg(100)->Arg(50'100)->Arg(10'000'000);

/// Twelve sizes whose prices by the piece differ as in a shop, hardly at all, or not at all.
void pack_mix_of_a_million(benchmark::State& state) {
  std::vector<PackSize> sizes;
  for (std::int64_t i = 0; i < 12; ++i) {
    const std::int64_t pieces = 997 - i * 61;
    const std::int64_t extra[] = {pieces * i / 2, i * 37 % 11, 0};
    sizes.push_back({.pieces = pieces, .price = pieces * 10 + extra[state.range(0)]});
  }
  for (auto _ : state) benchmark::DoNotOptimize(cheapest_mix(1'000'000, sizes));
}
BENCHMARK(pack_mix_of_a_million)->ArgName("likeness")->Arg(0)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond);

/// Points and candidates anywhere in a cube, squared distances: points, candidates, wanted.
void choice(benchmark::State& state) {
  Random random(1);
  using Place = std::array<int, 3>;
  const auto places = [&](std::int64_t count) {
    std::vector<Place> list(static_cast<std::size_t>(count));
    for (Place& place : list) {
      for (int& axis : place) axis = static_cast<int>(random.below(4000) + random.below(4000));
    }
    return list;
  };
  const auto points = places(state.range(0));
  const auto candidates = places(state.range(1));
  const std::vector<std::uint64_t> weights(points.size(), 1);
  for (auto _ : state) {
    benchmark::DoNotOptimize(choose_candidates(
        {.weights = weights, .candidates = candidates.size(), .wanted = static_cast<std::size_t>(state.range(2))},
        [&](std::size_t p, std::size_t c) {
          std::uint32_t sum = 0;
          for (std::size_t i = 0; i < 3; ++i) {
            const int d = points[p][i] - candidates[c][i];
            sum += static_cast<std::uint32_t>(d * d);
          }
          return sum;
        }));
  }
}
BENCHMARK(choice)
    ->Args({7'000, 60, 16})
    ->Args({30'000, 60, 16})
    ->Args({30'000, 1'000, 16})
    ->Args({100'000, 1'000, 16})
    ->Unit(benchmark::kMillisecond);

/// A chart of 2:3 with runs of a few cells in 20 colours; the argument is its columns.
Chart<> made_chart(std::int64_t columns) {
  const int width = static_cast<int>(columns);
  Chart<> chart{.lattice = {.columns = width, .rows = width * 3 / 2}, .numbers = {width, width * 3 / 2}};
  Random random(1);
  ColourNumber number = 1;
  for (ColourNumber& cell : chart.numbers.pixels()) {
    if (random.below(3) == 0) number = static_cast<ColourNumber>(random.below(20) + 1);
    cell = number;
  }
  for (std::uint8_t i = 0; i < 20; ++i) chart.palette.entries.push_back({.colour = {i, i, i}, .name = "colour"});
  return chart;
}

void pieces_and_spares(benchmark::State& state) {
  const Chart<> chart = made_chart(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(chart | Pieces{} | Spares{});
}
BENCHMARK(pieces_and_spares)->Arg(72)->Arg(1'000)->Arg(4'000)->Unit(benchmark::kMillisecond);

/// Everything that is reckoned of a panel of pieces: count, spares, marks, pilot, board, frame, weight, hours.
void whole_takeoff(benchmark::State& state) {
  const Chart<> chart = made_chart(state.range(0));
  for (auto _ : state) {
    const Tally count = chart | tally;
    const PieceTakeoff pieces = Pieces{.per_cell = 2}.from_tally(count, chart.palette) | Spares{};
    const BoardMarks marks = chart | BoardMarking{};
    const std::optional<Order> order;
    const std::optional<StripTakeoff> no_strips;
    const Patch pilot = chart | PilotPatch{};
    benchmark::DoNotOptimize(fabricate({}, {chart, count, pieces, order, no_strips, marks, pilot}));
  }
}
BENCHMARK(whole_takeoff)->Arg(72)->Arg(1'000)->Arg(4'000)->Unit(benchmark::kMillisecond);

/// Two hundred lengths from stock of 2.4 m with a kerf, and the published example of 13 widths on rolls of 5600 mm.
void two_hundred_lengths(benchmark::State& state) {
  Random random(6);
  std::vector<LengthNeed> needs;
  for (int i = 0; i < 200; ++i) needs.push_back({300'000 + static_cast<std::int64_t>(random.below(1'200'000)), 1});
  CutPlan plan;
  for (auto _ : state) benchmark::DoNotOptimize(plan = cut_lengths(needs, 2'400'000, 3'200));
  state.counters["lengths"] = static_cast<double>(plan.stock_count);
  state.counters["bound"] = static_cast<double>(plan.lower_bound);
}
BENCHMARK(two_hundred_lengths)->Unit(benchmark::kMillisecond);

void thirteen_widths(benchmark::State& state) {
  const std::vector<LengthNeed> needs = {{1380, 22}, {1520, 25}, {1560, 12}, {1710, 14}, {1820, 18},
                                         {1880, 18}, {1930, 20}, {2000, 10}, {2050, 12}, {2100, 14},
                                         {2140, 16}, {2150, 18}, {2200, 20}};
  CutPlan plan;
  for (auto _ : state) benchmark::DoNotOptimize(plan = cut_lengths(needs, 5'600));
  state.counters["rolls"] = static_cast<double>(plan.stock_count);
  state.counters["bound"] = static_cast<double>(plan.lower_bound);
}
BENCHMARK(thirteen_widths)->Unit(benchmark::kMillisecond);

void strips(benchmark::State& state) {
  const Chart<> chart = made_chart(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(chart | Strips{});
}
BENCHMARK(strips)->Arg(72)->Arg(1'000)->Unit(benchmark::kMillisecond);

void chart_written_and_read(benchmark::State& state) {
  const Chart<> chart = made_chart(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(read_chart_numbers(write_chart(chart), "chart.csv"));
}
BENCHMARK(chart_written_and_read)->Arg(72)->Arg(1'000)->Unit(benchmark::kMillisecond);

}  // namespace
