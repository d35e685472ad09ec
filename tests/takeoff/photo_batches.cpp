// Batches of courses as photos give them: how few sittings there are when each pot is opened once.
#include <algorithm>
#include <set>

#include "handlaid/palette/kmeans.hpp"
#include "handlaid/quantise/quantise.hpp"
#include "handlaid/solve/graph_colouring.hpp"
#include "handlaid/takeoff/strips.hpp"
#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// Colours that touch on the strips from `first` on, `count` of them; and which colours occur.
struct Touching {
  Graph graph;
  std::set<int> colours = {};
};
Touching touching(const StripTakeoff& strips, std::size_t first, std::size_t count, int colours) {
  Touching result{.graph = Graph(colours + 1)};
  for (std::size_t s = first; s < std::min(first + count, strips.strips.size()); ++s) {
    int before = 0;
    for (const StripSection& section : strips.strips[s].sections) {
      const int number = section.number;
      if (number != 0) result.colours.insert(number);
      if (number != 0 && before != 0) result.graph.join(before, number);
      before = number;
    }
  }
  return result;
}

}  // namespace

TEST_CASE("on 1008 batches of eight photos, each pot once takes at most a sitting more than the bound") {
  std::size_t batches = 0;
  std::size_t above = 0;
  std::size_t unproven = 0;
  std::int64_t wrong = 0;
  for (const char* name : {"astronaut", "chelsea", "china", "coffee", "flower", "hubble", "retina", "rocket"}) {
    const auto cells = cells_of(read_pnm(std::string("cells/") + name + ".ppm"));
    std::int64_t sittings = 0;
    std::int64_t one_by_one = 0;
    for (int colours = 8; colours <= 24; colours += 2) {
      const auto chart = cells | quantise(KMeans{.colours = colours, .effort = Effort::quick});
      const StripTakeoff strips = chart | Strips{};
      for (std::size_t first = 0; first < strips.strips.size(); first += 12) {
        const Touching batch = touching(strips, first, 12, colours);
        const GraphColouring once = colour_graph(batch.graph);
        ++batches;
        INFO(name << ", " << colours << " colours, course " << first + 1 << ": " << once.count << " sittings, clique "
                  << once.clique);
        REQUIRE(once.clique <= once.count);
        if (once.count > once.clique) ++above;
        if (!once.proven) ++unproven;
        CHECK(once.count <= once.clique + 1);
        for (const int a : batch.colours) {
          for (const int b : batch.colours) {
            const bool alike = once.colours[static_cast<std::size_t>(a)] == once.colours[static_cast<std::size_t>(b)];
            wrong += batch.graph.joined(a, b) && alike ? 1 : 0;
          }
        }
        sittings += once.count;
        one_by_one += static_cast<std::int64_t>(batch.colours.size());
      }
    }
    const std::int64_t saved_percent = 100 * (one_by_one - sittings) / one_by_one;
    INFO(name << ": " << sittings << " sittings, " << one_by_one << " one colour at a time, saved " << saved_percent
              << " %");
    // A greedy colouring on other photos had saved 44 to 74 %: our own trial, no source. Here 51 to 60 %.
    CHECK(saved_percent >= 44);
    CHECK(saved_percent <= 74);
  }
  CHECK(batches == 1008);
  CHECK(wrong == 0);
  CHECK(above <= 20);  // 15: the bound itself is met by nearly all
  CHECK(unproven == 0);
}
