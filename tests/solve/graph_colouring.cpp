#include "handlaid/solve/graph_colouring.hpp"

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

/// Mycielski's graphs, without triangles beyond the first: J. Mycielski, "Sur le coloriage des graphes", Colloquium
/// Mathematicum 3, 1955. myciel2 is the ring of five; each next one needs a colour more.
Graph mycielski(int order) {
  Graph graph(5);
  for (int v = 0; v < 5; ++v) graph.join(v, (v + 1) % 5);
  for (int step = 2; step < order; ++step) {
    const int n = graph.vertices();
    Graph next(2 * n + 1);
    for (int a = 0; a < n; ++a) {
      for (int b = 0; b < n; ++b) {
        if (!graph.joined(a, b)) continue;
        next.join(a, b);
        next.join(n + a, b);
      }
      next.join(n + a, 2 * n);
    }
    graph = next;
  }
  return graph;
}

/// Squares of a board, joined where a queen moves from one to the other.
Graph queens(int size) {
  Graph graph(size * size);
  for (int a = 0; a < size * size; ++a) {
    for (int b = a + 1; b < size * size; ++b) {
      const int x = a % size - b % size;
      const int y = a / size - b / size;
      if (x == 0 || y == 0 || x == y || x == -y) graph.join(a, b);
    }
  }
  return graph;
}

void check_colouring(const Graph& graph, const GraphColouring& colouring) {
  for (int a = 0; a < graph.vertices(); ++a) {
    REQUIRE(colouring.colours[static_cast<std::size_t>(a)] >= 0);
    REQUIRE(colouring.colours[static_cast<std::size_t>(a)] < colouring.count);
    for (int b = 0; b < a; ++b) {
      if (!graph.joined(a, b)) continue;
      REQUIRE(colouring.colours[static_cast<std::size_t>(a)] != colouring.colours[static_cast<std::size_t>(b)]);
    }
  }
  REQUIRE(colouring.clique <= colouring.count);
}

}  // namespace

TEST_CASE("published graphs get their published numbers of colours") {
  // DIMACS graph colouring instances (D. Johnson, M. Trick, "Cliques, Coloring, and Satisfiability", 1996): vertices,
  // edges and optimum of myciel3, 4, 5 and of queen5_5 to queen8_8, whose files hold each edge twice.
  struct Known {
    Graph graph;
    int vertices, edges, colours;
  };
  const Known all[] = {{mycielski(3), 11, 20, 4}, {mycielski(4), 23, 71, 5}, {mycielski(5), 47, 236, 6},
                       {queens(5), 25, 160, 5},   {queens(6), 36, 290, 7},   {queens(7), 49, 476, 7},
                       {queens(8), 64, 728, 9}};
  for (const Known& known : all) {
    INFO(known.vertices << " vertices");
    CHECK(known.graph.vertices() == known.vertices);
    CHECK(known.graph.edges() == known.edges);
    const GraphColouring colouring = colour_graph(known.graph, {.steps = 3'000'000});
    check_colouring(known.graph, colouring);
    CHECK(colouring.count == known.colours);
  }
  CHECK(colour_graph(mycielski(4)).clique == 2);  // no triangle: the clique alone proves nothing here
  CHECK(colour_graph(mycielski(4)).proven);
  CHECK(colour_graph(queens(7)).clique == 7);
}

TEST_CASE("small graphs: no colouring has fewer colours, by trying all") {
  Random random(11);
  for (int round = 0; round < 200; ++round) {
    const int n = 1 + static_cast<int>(random.below(8));
    Graph graph(n);
    for (int a = 0; a < n; ++a) {
      for (int b = 0; b < a; ++b) {
        if (random.below(100) < 20 + random.below(70)) graph.join(a, b);
      }
    }
    const GraphColouring colouring = colour_graph(graph);
    check_colouring(graph, colouring);
    REQUIRE(colouring.proven);
    std::vector<int> colours(static_cast<std::size_t>(n), 0);
    const auto possible = [&](const auto& self, int v, int most) -> bool {
      if (v == n) return true;
      for (int c = 0; c < most; ++c) {
        bool free = true;
        for (int other = 0; other < v; ++other) {
          free = free && !(graph.joined(v, other) && colours[static_cast<std::size_t>(other)] == c);
        }
        colours[static_cast<std::size_t>(v)] = c;
        if (free && self(self, v + 1, most)) return true;
      }
      return false;
    };
    REQUIRE(possible(possible, 0, colouring.count));
    REQUIRE(!possible(possible, 0, colouring.count - 1));
  }
}

TEST_CASE("with few steps a colouring is found all the same, and not called proven") {
  const GraphColouring hasty = colour_graph(queens(8), {.steps = 5});
  check_colouring(queens(8), hasty);
  CHECK(!hasty.proven);
  CHECK(colour_graph(Graph(0)).proven);
  CHECK(colour_graph(Graph(3)).count == 1);
  CHECK_THROWS_WITH(Graph(2'001), contains("2001 vertices"));
}
