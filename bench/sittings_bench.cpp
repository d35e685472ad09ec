// Sittings of painting: colouring of a published graph, and the frontier of a batch of courses of a photo.
#include <benchmark/benchmark.h>

#include "../tests/support/pnm.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/quantise/quantise.hpp"
#include "handlaid/solve/graph_colouring.hpp"
#include "handlaid/takeoff/batches.hpp"
#include "handlaid/takeoff/strips.hpp"

using namespace handlaid;

namespace {

/// DIMACS colouring instance queen8_8: a vertex for each square, joined where a queen could move. Optimum 9, which
/// takes more steps than are usual; the argument is their number in thousands.
void queen8_8(benchmark::State& state) {
  constexpr int side = 8;
  Graph graph(side * side);
  for (int a = 0; a < side * side; ++a) {
    for (int b = a + 1; b < side * side; ++b) {
      const int across = b % side - a % side;
      const int down = b / side - a / side;
      if (across == 0 || down == 0 || across == down || across == -down) graph.join(a, b);
    }
  }
  GraphColouring found;
  for (auto _ : state) benchmark::DoNotOptimize(found = colour_graph(graph, {.steps = state.range(0) * 1'000}));
  state.counters["colours"] = found.count;
  state.counters["clique"] = found.clique;
}
BENCHMARK(queen8_8)->ArgName("thousand_steps")->Arg(300)->Arg(3'000)->Unit(benchmark::kMillisecond);

/// Twelve courses from the middle of a photo of 100 x 167 cells; the argument is the number of colours.
void frontier_of_a_batch(benchmark::State& state) {
  const int colours = static_cast<int>(state.range(0));
  const auto chart = handlaid_test::cells_of(handlaid_test::read_pnm("cells/coffee.ppm")) |
                     quantise(KMeans{.colours = colours, .effort = Effort::quick});
  StripTakeoff strips = chart | Strips{};
  strips.strips = {strips.strips.begin() + 78, strips.strips.begin() + 90};
  BatchTakeoff batches;
  for (auto _ : state) benchmark::DoNotOptimize(batches = strips | Batches{.strips_per_batch = 12});
  const RoundFrontier& frontier = batches.batches.front().frontier;
  double unproven = 0;
  for (const RoundPlan& plan : frontier.plans) unproven += plan.proven() ? 0 : 1;
  state.counters["plans"] = static_cast<double>(frontier.plans.size());
  state.counters["unproven"] = unproven;
  state.counters["sittings"] = frontier.rounds_for_once;
  state.counters["one_by_one"] = frontier.kinds;
}
BENCHMARK(frontier_of_a_batch)->ArgName("colours")->Arg(8)->Arg(16)->Arg(24)->Unit(benchmark::kMillisecond);

}  // namespace
