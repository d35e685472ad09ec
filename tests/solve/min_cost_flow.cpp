#include "handlaid/solve/min_cost_flow.hpp"

#include <sstream>

#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::Table;

namespace {

std::vector<FlowArc> arcs_of(const std::string& text) {
  std::vector<FlowArc> arcs;
  std::istringstream words(text);
  char colon = ':';
  for (FlowArc arc; words >> arc.from >> colon >> arc.to >> colon >> arc.capacity >> colon >> arc.cost;) {
    arcs.push_back(arc);
  }
  return arcs;
}

}  // namespace

TEST_CASE("flows cost what a linear programme finds, and keep the balance of every node") {
  const Table table("min_cost_flow.csv");  // scipy.optimize.linprog with HiGHS
  for (std::size_t row = 0; row < table.size(); ++row) {
    INFO("row " << row + 2);
    const int nodes = table.whole(row, "nodes");
    const std::vector<FlowArc> arcs = arcs_of(table.text(row, "arcs"));
    const Flow flow = min_cost_flow(nodes, arcs, 0, nodes - 1, table.whole(row, "wanted"));
    CHECK(flow.amount == table.whole(row, "amount"));
    CHECK(flow.cost == table.whole(row, "cost"));
    std::vector<std::int64_t> balance(static_cast<std::size_t>(nodes), 0);
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      CHECK(flow.carried.at(i) >= 0);
      CHECK(flow.carried.at(i) <= arcs[i].capacity);
      balance.at(static_cast<std::size_t>(arcs[i].from)) += flow.carried.at(i);
      balance.at(static_cast<std::size_t>(arcs[i].to)) -= flow.carried.at(i);
    }
    CHECK(balance.front() == flow.amount);
    CHECK(balance.back() == -flow.amount);
    for (std::size_t node = 1; node + 1 < balance.size(); ++node) CHECK(balance[node] == 0);
  }
}

TEST_CASE("a unit is sent back where the first path was in the way") {
  // By hand: 0-1-2-3 costs 3, but two units need 0-1-3 and 0-2-3, at 1 + 5 + 5 + 1.
  const std::vector<FlowArc> arcs{{0, 1, 1, 1}, {1, 2, 1, 1}, {2, 3, 1, 1}, {0, 2, 1, 5}, {1, 3, 1, 5}};
  CHECK(min_cost_flow(4, arcs, 0, 3, 1).cost == 3);
  CHECK(min_cost_flow(4, arcs, 0, 3, 9) == Flow{.amount = 2, .cost = 12, .carried = {1, 0, 1, 1, 1}});
  CHECK(min_cost_flow(4, arcs, 3, 0, 9).amount == 0);
}

TEST_CASE("networks that are none are refused") {
  CHECK_THROWS_WITH(min_cost_flow(1, {}, 0, 0, 1), contains("nodes: 1"));
  CHECK_THROWS_WITH(min_cost_flow(2, {}, 0, 0, 1), contains("source and sink: 0 and 0"));
  CHECK_THROWS_WITH(min_cost_flow(2, {}, 0, 1, -1), contains("flow: -1"));
  CHECK_THROWS_WITH(min_cost_flow(2, {{0, 2, 1, 1}}, 0, 1, 1), contains("arc 0"));
  CHECK_THROWS_WITH(min_cost_flow(2, {{0, 1, 1, -1}}, 0, 1, 1), contains("arc 0"));
  CHECK_THROWS_WITH(min_cost_flow(2, {{0, 1, 1, 1'000'000'000'000}}, 0, 1, 100'000'000), contains("too large"));
}
