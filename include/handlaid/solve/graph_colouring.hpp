// Colouring the vertices of a graph with the fewest colours, so that no edge joins two of one colour. With a bound that
// no colouring can beat, and the word whether the answer is proven. What vertices stand for is the caller's business.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// A graph without loops; edges have no direction.
class Graph {
 public:
  static constexpr int most_vertices = 2'000;

  /// Throws Error for more than `most_vertices`, or a negative number.
  explicit Graph(int vertices) : vertices_(vertices), words_(static_cast<std::size_t>(vertices + 63) / 64) {
    if (vertices < 0 || vertices > most_vertices) {
      throw Error::out_of_range("graph", std::to_string(vertices) + " vertices", "0 to 2000");
    }
    bits_.resize(words_ * static_cast<std::size_t>(vertices));
  }
  /// Joins two vertices, from 0; once is enough. A loop is left out.
  void join(int a, int b) {
    if (a == b) return;
    set(a, b);
    set(b, a);
  }
  bool joined(int a, int b) const { return (bits_[row(a) + static_cast<std::size_t>(b) / 64] >> (b % 64) & 1U) != 0; }
  int vertices() const { return vertices_; }
  int degree(int vertex) const {
    int count = 0;
    for (int other = 0; other < vertices_; ++other) count += joined(vertex, other) ? 1 : 0;
    return count;
  }
  std::int64_t edges() const {
    std::int64_t ends = 0;
    for (int vertex = 0; vertex < vertices_; ++vertex) ends += degree(vertex);
    return ends / 2;
  }

 private:
  std::size_t row(int vertex) const { return static_cast<std::size_t>(vertex) * words_; }
  void set(int a, int b) { bits_[row(a) + static_cast<std::size_t>(b) / 64] |= std::uint64_t{1} << (b % 64); }

  int vertices_ = 0;
  std::size_t words_ = 0;
  std::vector<std::uint64_t> bits_ = {};
};

/// A colouring and how good it can be.
struct GraphColouring {
  /// From 0, one for each vertex; the largest is `count - 1`.
  std::vector<int> colours = {};
  int count = 0;
  /// As many vertices are all joined to each other, so no colouring has fewer.
  int clique = 0;
  /// Whether no colouring has fewer: the clique says so, or all others were ruled out.
  bool proven = false;
  friend bool operator==(const GraphColouring&, const GraphColouring&) = default;
};

/// How long is searched, in steps and not in time: the same answer on every machine.
struct ColouringEffort {
  std::int64_t steps = 300'000;
};

/// Colours a graph: vertices with the most differently coloured neighbours first (D. Brelaz, "New methods to color the
/// vertices of a graph", Communications of the ACM 22, 1979), then branch and bound in that order.
template <When = When::called>
GraphColouring colour_graph(const Graph& graph, const ColouringEffort& effort = {});

namespace detail {

/// The largest clique that the steps last for: vertices of high degree first.
template <When = When::called>
class CliqueSearch {
 public:
  CliqueSearch(const Graph& graph, std::int64_t steps) : graph_(graph), steps_(steps) {}

  template <When = When::called>
  std::vector<int> solve() {
    std::vector<std::pair<int, int>> by_degree;
    for (int v = 0; v < graph_.vertices(); ++v) by_degree.push_back({-graph_.degree(v), v});
    std::sort(by_degree.begin(), by_degree.end());
    std::vector<int> all;
    for (const auto& [degree, v] : by_degree) all.push_back(v);
    std::vector<int> chosen;
    grow(chosen, all);
    return best_;
  }

 private:
  template <When = When::called>
  void grow(std::vector<int>& chosen, const std::vector<int>& candidates) {
    if (chosen.size() > best_.size()) best_ = chosen;
    // As many colours as the candidates need at most: no clique among them is larger.
    std::vector<std::vector<int>> classes;
    for (const int v : candidates) {
      const auto fits = std::find_if(classes.begin(), classes.end(), [&](const std::vector<int>& group) {
        return std::none_of(group.begin(), group.end(), [&](int other) { return graph_.joined(v, other); });
      });
      if (fits == classes.end()) {
        classes.push_back({v});
      } else {
        fits->push_back(v);
      }
    }
    std::vector<std::pair<int, int>> ordered;  // vertex, colours among those up to it
    for (std::size_t c = 0; c < classes.size(); ++c) {
      for (const int v : classes[c]) ordered.push_back({v, static_cast<int>(c) + 1});
    }
    for (std::size_t i = ordered.size(); i-- > 0;) {
      if (static_cast<int>(chosen.size()) + ordered[i].second <= static_cast<int>(best_.size())) return;
      if (--steps_ < 0) return;
      std::vector<int> rest;
      for (std::size_t j = 0; j < i; ++j) {
        if (graph_.joined(ordered[i].first, ordered[j].first)) rest.push_back(ordered[j].first);
      }
      chosen.push_back(ordered[i].first);
      grow(chosen, rest);
      chosen.pop_back();
    }
  }

  const Graph& graph_;
  std::int64_t steps_;
  std::vector<int> best_ = {};
};

/// Branch and bound over the vertices, the most constrained one first.
template <When = When::called>
class ColouringSearch {
 public:
  ColouringSearch(const Graph& graph, const std::vector<int>& clique, std::int64_t steps)
      : graph_(graph),
        colours_(static_cast<std::size_t>(graph.vertices()), -1),
        near_(static_cast<std::size_t>(graph.vertices())),
        clique_(static_cast<int>(clique.size())),
        steps_(steps) {
    for (std::vector<int>& counts : near_) counts.assign(static_cast<std::size_t>(graph.vertices()) + 1, 0);
    saturation_.assign(static_cast<std::size_t>(graph.vertices()), 0);
    for (int v = 0; v < graph.vertices(); ++v) degrees_.push_back(graph.degree(v));
    for (std::size_t i = 0; i < clique.size(); ++i) paint(clique[i], static_cast<int>(i));  // any names will do
    used_ = clique_;
    left_ = graph.vertices() - clique_;
  }

  template <When = When::called>
  GraphColouring solve() {
    best_.clique = clique_;
    best_.count = graph_.vertices() + 1;
    search();
    best_.proven = best_.count == clique_ || steps_ >= 0;
    return best_;
  }

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }

  void paint(int vertex, int colour) {
    colours_[at(vertex)] = colour;
    for (int other = 0; other < graph_.vertices(); ++other) {
      if (graph_.joined(vertex, other) && near_[at(other)][at(colour)]++ == 0) ++saturation_[at(other)];
    }
  }
  void wipe(int vertex) {
    const int colour = colours_[at(vertex)];
    colours_[at(vertex)] = -1;
    for (int other = 0; other < graph_.vertices(); ++other) {
      if (graph_.joined(vertex, other) && --near_[at(other)][at(colour)] == 0) --saturation_[at(other)];
    }
  }
  int most_constrained() const {
    int best = -1;
    for (int v = 0; v < graph_.vertices(); ++v) {
      if (colours_[at(v)] >= 0) continue;
      if (best < 0 || saturation_[at(v)] > saturation_[at(best)] ||
          (saturation_[at(v)] == saturation_[at(best)] && degrees_[at(v)] > degrees_[at(best)])) {
        best = v;
      }
    }
    return best;
  }

  template <When = When::called>
  void search() {
    if (left_ == 0) {
      best_.colours = colours_;
      best_.count = used_;
      return;
    }
    const int vertex = most_constrained();
    for (int colour = 0; colour <= used_ && colour + 1 < best_.count; ++colour) {
      if (near_[at(vertex)][at(colour)] > 0) continue;
      if (best_.count <= graph_.vertices() && --steps_ < 0) return;  // the first way is always found
      const int before = used_;
      used_ = std::max(used_, colour + 1);
      --left_;
      paint(vertex, colour);
      search();
      wipe(vertex);
      ++left_;
      used_ = before;
      if (best_.count == clique_ || used_ >= best_.count) return;
    }
  }

  const Graph& graph_;
  std::vector<int> colours_;
  std::vector<std::vector<int>> near_;
  std::vector<int> saturation_ = {};
  std::vector<int> degrees_ = {};
  int clique_ = 0;
  int used_ = 0;
  int left_ = 0;
  std::int64_t steps_ = 0;
  GraphColouring best_ = {};
};

}  // namespace detail

template <When>
GraphColouring colour_graph(const Graph& graph, const ColouringEffort& effort) {
  if (graph.vertices() == 0) return {.proven = true};
  const std::vector<int> clique = detail::CliqueSearch(graph, effort.steps).solve();
  return detail::ColouringSearch(graph, clique, effort.steps).solve();
}

}  // namespace handlaid
