#include "handlaid/solve/cut_lengths.hpp"

#include <sstream>

#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::Table;

namespace {

std::vector<std::int64_t> numbers(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::int64_t> list;
  for (std::int64_t value = 0; stream >> value;) list.push_back(value);
  return list;
}

std::vector<LengthNeed> needs_of(const std::string& lengths, const std::string& quantities) {
  const auto length = numbers(lengths);
  const auto count = numbers(quantities);
  std::vector<LengthNeed> needs;
  for (std::size_t i = 0; i < length.size(); ++i) needs.push_back({length[i], count[i]});
  return needs;
}

/// Every piece is there, and nothing longer than the stock is cut.
void check_way(const CutPlan& plan, const std::vector<LengthNeed>& needs, std::int64_t stock, std::int64_t kerf) {
  std::vector<std::int64_t> made(needs.size());
  std::int64_t lengths = 0;
  for (const CutPattern& pattern : plan.patterns) {
    std::int64_t used = 0;
    std::int64_t pieces = 0;
    for (std::size_t i = 0; i < needs.size(); ++i) {
      made[i] += pattern.counts[i] * pattern.times;
      used += pattern.counts[i] * needs[i].length;
      pieces += pattern.counts[i];
    }
    REQUIRE(pieces > 0);
    REQUIRE(pattern.times > 0);
    const std::int64_t rest = stock - used - (pieces - 1) * kerf;
    REQUIRE(rest >= 0);
    REQUIRE(pattern.left_over == std::max<std::int64_t>(rest - kerf, 0));
    lengths += pattern.times;
  }
  for (std::size_t i = 0; i < needs.size(); ++i) REQUIRE(made[i] == needs[i].count);
  REQUIRE(lengths == plan.stock_count);
  REQUIRE(plan.lower_bound <= plan.stock_count);
}

}  // namespace

TEST_CASE("stock cutting meets the proven optimum of every reference instance") {
  const Table table("cutting_stock.csv");  // HiGHS over all patterns; the last one is the published example, 73 rolls
  for (std::size_t row = 0; row < table.size(); ++row) {
    const auto needs = needs_of(table.text(row, "lengths"), table.text(row, "quantities"));
    const auto stock = table.whole(row, "stock_length");
    const auto kerf = table.whole(row, "kerf");
    const CutPlan plan = cut_lengths(needs, stock, kerf);
    INFO(table.text(row, "name"));
    check_way(plan, needs, stock, kerf);
    CHECK(plan.stock_count == table.whole(row, "rolls"));
    CHECK(plan.proven());
  }
}

TEST_CASE("stock cutting meets the optimum of published instances, or shows its bound") {
  const Table table("cutting_stock_more.csv");  // sources in the last column; optima by an arc-flow model in HiGHS
  for (std::size_t row = 0; row < table.size(); ++row) {
    const auto needs = needs_of(table.text(row, "lengths"), table.text(row, "quantities"));
    const auto stock = table.whole(row, "stock_length");
    const auto kerf = table.whole(row, "kerf");
    const CutPlan plan = cut_lengths(needs, stock, kerf);
    INFO(table.text(row, "name"));
    check_way(plan, needs, stock, kerf);
    CHECK(plan.stock_count == table.whole(row, "least_stock_lengths"));
    CHECK(plan.lower_bound >= table.whole(row, "material_lower_bound"));
    CHECK(plan.lower_bound <= table.whole(row, "least_stock_lengths"));
    CHECK(plan.proven());
  }
}

TEST_CASE("small jobs: never more than any way of dealing the pieces out") {
  Random random(5);
  for (int round = 0; round < 300; ++round) {
    const std::int64_t stock = 20 + static_cast<std::int64_t>(random.below(30));
    const auto kerf = static_cast<std::int64_t>(random.below(3));
    std::vector<std::int64_t> pieces;
    std::vector<LengthNeed> needs;
    for (int i = 0; i < 7; ++i) {
      pieces.push_back(1 + static_cast<std::int64_t>(random.below(static_cast<std::uint64_t>(stock))));
      needs.push_back({pieces.back(), 1});
    }
    std::vector<std::int64_t> used;
    std::size_t least = pieces.size();
    const auto deal = [&](const auto& self, std::size_t at) -> void {
      if (used.size() >= least) return;
      if (at == pieces.size()) {
        least = used.size();
        return;
      }
      for (std::size_t i = 0; i <= used.size(); ++i) {
        const bool fresh = i == used.size();
        const std::int64_t with = (fresh ? 0 : used[i] + kerf) + pieces[at];
        if (with > stock) continue;
        if (fresh) used.push_back(0);
        const std::int64_t before = used[i];
        used[i] = with;
        self(self, at + 1);
        used[i] = before;
        if (fresh) {
          used.pop_back();
          break;
        }
      }
    };
    deal(deal, 0);
    const CutPlan plan = cut_lengths(needs, stock, kerf);
    check_way(plan, needs, stock, kerf);
    REQUIRE(plan.stock_count == static_cast<std::int64_t>(least));
    REQUIRE(plan.proven());
  }
}

TEST_CASE("two hundred lengths: within one of the bound") {
  Random random(6);
  std::vector<LengthNeed> needs;
  for (int i = 0; i < 200; ++i) needs.push_back({300'000 + static_cast<std::int64_t>(random.below(1'200'000)), 1});
  const CutPlan plan = cut_lengths(needs, 2'400'000, 3'200);
  check_way(plan, needs, 2'400'000, 3'200);
  CHECK(plan.stock_count <= plan.lower_bound + 1);
}

TEST_CASE("needs of one length are told apart, and those of nothing are left") {
  const std::vector<LengthNeed> needs = {{600, 3}, {900, 0}, {600, 2}, {1'100, 1}};
  const CutPlan plan = cut_lengths(needs, 1'800, 0);
  check_way(plan, needs, 1'800, 0);
  CHECK(plan.stock_count == 3);
  CHECK(cut_lengths({}, 100) == CutPlan{});
  CHECK(plan.patterns.front().counts[3] == 1);
}

TEST_CASE("a little effort gives a way and an honest bound") {
  const Table table("cutting_stock_more.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const auto needs = needs_of(table.text(row, "lengths"), table.text(row, "quantities"));
    const CutPlan plan = cut_lengths(needs, table.whole(row, "stock_length"), table.whole(row, "kerf"), {.steps = 10});
    check_way(plan, needs, table.whole(row, "stock_length"), table.whole(row, "kerf"));
    CHECK(plan.lower_bound <= table.whole(row, "least_stock_lengths"));
  }
}

TEST_CASE("cuts that make no sense are refused") {
  const auto cuts = [](std::vector<LengthNeed> needs, std::int64_t stock, std::int64_t kerf = 0) {
    return cut_lengths(needs, stock, kerf);
  };
  CHECK_THROWS_WITH(cuts({{101, 1}}, 100), contains("length to cut: 101 is out of range"));
  CHECK_THROWS_WITH(cuts({{0, 1}}, 100), contains("length to cut: 0"));
  CHECK_THROWS_WITH(cuts({{5, -1}}, 100), contains("pieces to cut: -1"));
  CHECK_THROWS_WITH(cuts({{5, 1}}, 0), contains("stock length: 0"));
  CHECK_THROWS_WITH(cuts({{5, 1}}, 100, -1), contains("kerf: -1"));
  CHECK_THROWS_WITH(cuts(std::vector<LengthNeed>(1'001, {5, 1}), 100), contains("at most 1000"));
}
