// Minimum-cost flow in whole numbers, exactly: successive shortest paths with potentials, ties broken by the order of
// nodes and arcs. J. Edmonds, R. Karp, Theoretical Improvements in Algorithmic Efficiency for Network Flow Problems,
// Journal of the ACM 19(2), 1972.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <queue>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// An arc of a network; nodes count from 0.
struct FlowArc {
  int from = 0;
  int to = 0;
  /// Units that can flow, 0 to 10^12.
  std::int64_t capacity = 0;
  /// For each unit, 0 to 10^12.
  std::int64_t cost = 0;
  friend constexpr bool operator==(const FlowArc&, const FlowArc&) = default;
};

/// A flow: how much goes from the source to the sink, what each arc carries, and the cost of all.
struct Flow {
  std::int64_t amount = 0;
  std::int64_t cost = 0;
  std::vector<std::int64_t> carried = {};
  friend bool operator==(const Flow&, const Flow&) = default;
};

/// The greatest flow up to `wanted` at the least cost. Throws Error for nodes outside 0 to `nodes` - 1, numbers out of
/// range, or a cost that could pass 9 * 10^18.
template <When = When::called>
Flow min_cost_flow(int nodes, const std::vector<FlowArc>& arcs, int source, int sink, std::int64_t wanted);

namespace detail {

/// Arcs and their reverses, arc i at 2 i and its reverse at 2 i + 1, with what they can still take.
struct Residual {
  std::vector<int> to = {};
  std::vector<std::int64_t> room = {};
  std::vector<std::int64_t> cost = {};
  std::vector<std::vector<std::size_t>> out = {};

  template <When = When::called>
  Residual(int nodes, const std::vector<FlowArc>& arcs) : out(static_cast<std::size_t>(nodes)) {
    for (const FlowArc& arc : arcs) {
      out[static_cast<std::size_t>(arc.from)].push_back(to.size());
      to.push_back(arc.to);
      room.push_back(arc.capacity);
      cost.push_back(arc.cost);
      out[static_cast<std::size_t>(arc.to)].push_back(to.size());
      to.push_back(arc.from);
      room.push_back(0);
      cost.push_back(-arc.cost);
    }
  }
};

template <When = When::called>
void check_network(int nodes, const std::vector<FlowArc>& arcs, int source, int sink, std::int64_t wanted) {
  constexpr std::int64_t most = 1'000'000'000'000;
  const auto outside = [&](int node) { return node < 0 || node >= nodes; };
  if (nodes < 2 || nodes > 1'000'000) throw Error::out_of_range("nodes", std::to_string(nodes), "2 to 1000000 nodes");
  if (outside(source) || outside(sink) || source == sink) {
    throw Error::bad_option("source and sink", std::to_string(source) + " and " + std::to_string(sink) + " do not fit",
                            "give two of the nodes 0 to " + std::to_string(nodes - 1));
  }
  if (wanted < 0 || wanted > most) throw Error::out_of_range("flow", std::to_string(wanted), "0 to 10^12");
  std::int64_t dearest = 0;
  for (std::size_t i = 0; i < arcs.size(); ++i) {
    const FlowArc& arc = arcs[i];
    const bool wrong = outside(arc.from) || outside(arc.to) || arc.capacity < 0 || arc.capacity > most ||
                       arc.cost < 0 || arc.cost > most;
    if (wrong) {
      throw Error::bad_option("arc " + std::to_string(i), "its nodes, capacity or cost are out of range",
                              "give nodes of the network, and capacity and cost from 0 to 10^12");
    }
    dearest = std::max(dearest, arc.cost);
  }
  // No path is longer than the nodes.
  const std::int64_t largest = std::numeric_limits<std::int64_t>::max() / 4;
  if (dearest > 0 && std::max<std::int64_t>(wanted, 1) > largest / dearest / nodes) {
    throw Error::bad_option("network", "its costs are too large to add up", "give costs in a coarser unit");
  }
}

}  // namespace detail

template <When>
Flow min_cost_flow(int nodes, const std::vector<FlowArc>& arcs, int source, int sink, std::int64_t wanted) {
  detail::check_network(nodes, arcs, source, sink, wanted);
  detail::Residual net(nodes, arcs);
  constexpr std::int64_t far = std::numeric_limits<std::int64_t>::max();
  constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
  const auto count = static_cast<std::size_t>(nodes);
  const auto first = static_cast<std::size_t>(source);
  const auto last = static_cast<std::size_t>(sink);
  std::vector<std::int64_t> potential(count, 0);  // costs are not below 0, so nothing has to be found out first
  Flow flow;
  while (flow.amount < wanted) {
    std::vector<std::int64_t> distance(count, far);
    std::vector<std::size_t> by(count, none);
    using Reached = std::pair<std::int64_t, std::size_t>;
    std::priority_queue<Reached, std::vector<Reached>, std::greater<Reached>> open;
    distance[first] = 0;
    open.push({0, first});
    while (!open.empty()) {
      const auto [length, node] = open.top();
      open.pop();
      if (length > distance[node]) continue;
      for (const std::size_t arc : net.out[node]) {
        if (net.room[arc] == 0) continue;
        const auto to = static_cast<std::size_t>(net.to[arc]);
        const std::int64_t next = length + net.cost[arc] + potential[node] - potential[to];
        if (next >= distance[to]) continue;
        distance[to] = next;
        by[to] = arc;
        open.push({next, to});
      }
    }
    if (distance[last] == far) break;
    // Nodes farther than the sink move with it: reduced costs stay at 0 or above.
    for (std::size_t node = 0; node < count; ++node) potential[node] += std::min(distance[node], distance[last]);
    std::int64_t push = wanted - flow.amount;
    for (std::size_t node = last; node != first; node = static_cast<std::size_t>(net.to[by[node] ^ 1])) {
      push = std::min(push, net.room[by[node]]);
    }
    for (std::size_t node = last; node != first; node = static_cast<std::size_t>(net.to[by[node] ^ 1])) {
      net.room[by[node]] -= push;
      net.room[by[node] ^ 1] += push;
    }
    flow.amount += push;
  }
  for (std::size_t i = 0; i < arcs.size(); ++i) {
    flow.carried.push_back(net.room[2 * i + 1]);
    flow.cost += flow.carried.back() * arcs[i].cost;
  }
  return flow;
}

}  // namespace handlaid
