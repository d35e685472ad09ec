#include "handlaid/solve/scarce_goods.hpp"

#include <sstream>

#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::Table;

namespace {

/// in_hand:places:stands_in:packs, a pack pieces/price/at_least
std::vector<ScarceGood> goods_of(const std::string& text) {
  std::vector<ScarceGood> goods;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    std::istringstream fields(word);
    ScarceGood good;
    char sign = ':';
    fields >> good.in_hand >> sign >> good.places >> sign >> good.stands_in >> sign;
    for (PackSize pack; fields >> pack.pieces >> sign >> pack.price >> sign >> pack.at_least; fields >> sign) {
      good.packs.push_back(pack);
    }
    goods.push_back(good);
  }
  return goods;
}

std::vector<std::int64_t> numbers_of(const std::string& text) {
  std::istringstream words(text);
  std::vector<std::int64_t> numbers;
  for (std::int64_t number = 0; words >> number;) numbers.push_back(number);
  return numbers;
}

/// What a plan truly costs, by its packs and changes alone; -1 where it leaves a place without its good.
std::int64_t true_total(const ScarceGoods& problem, const GoodsPlan& plan) {
  std::int64_t total = 0;
  std::vector<std::int64_t> has;
  std::vector<std::int64_t> stays;
  for (std::size_t g = 0; g < problem.goods.size(); ++g) {
    const ScarceGood& good = problem.goods[g];
    has.push_back(good.in_hand);
    stays.push_back(good.places);
    if (plan.to_buy.at(g) == 0) continue;
    const std::vector<std::int64_t> counts = cheapest_mix(plan.to_buy[g], good.packs);
    for (std::size_t i = 0; i < counts.size(); ++i) {
      has.back() += counts[i] * good.packs[i].pieces;
      total += counts[i] * good.packs[i].price * 1'000;
    }
  }
  for (const GoodsChange& change : plan.changes) {
    if (!problem.goods.at(change.to).stands_in) return -1;
    stays.at(change.from) -= change.places;
    if (stays[change.from] < 0) return -1;
    has.at(change.to) -= change.places * problem.per_place;
    total += change.places * problem.change_thousandths.at(change.from * problem.goods.size() + change.to);
  }
  for (std::size_t g = 0; g < has.size(); ++g) {
    if (has[g] < stays[g] * problem.per_place) return -1;
  }
  return total;
}

}  // namespace

TEST_CASE("packs and changes cost what an integer programme finds") {
  const Table table("scarce_goods.csv");  // scipy.optimize.milp with HiGHS
  int mixed = 0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    INFO("row " << row + 2);
    const ScarceGoods problem{.goods = goods_of(table.text(row, "goods")),
                              .per_place = table.whole(row, "per place"),
                              .change_thousandths = numbers_of(table.text(row, "changes"))};
    const std::optional<GoodsPlan> plan = cheapest_goods(problem);
    REQUIRE(plan);
    CHECK(plan->total_thousandths == table.whole(row, "total"));
    CHECK(plan->proven());
    CHECK(true_total(problem, *plan) == plan->total_thousandths);
    for (std::size_t g = 0; g < problem.goods.size(); ++g) {
      const bool changed = std::any_of(plan->changes.begin(), plan->changes.end(),
                                       [&](const GoodsChange& change) { return change.from == g; });
      mixed += changed && plan->to_buy[g] > 0 ? 1 : 0;
    }
  }
  CHECK(mixed >= 3);  // goods that are partly bought, partly replaced
}

TEST_CASE("a pack is bought, and the rest that would open another is replaced") {
  // By hand: 12 units short, packs of 10 at 5.00; one pack and 2 changes at 1.00 are 7.00, two packs 10.00.
  ScarceGoods problem{.goods = {{.in_hand = 8, .places = 20, .packs = {{.pieces = 10, .price = 500}}}, {.in_hand = 90}},
                      .change_thousandths = {0, 100'000, 0, 0}};
  const GoodsPlan plan = cheapest_goods(problem).value();
  CHECK(plan == GoodsPlan{.to_buy = {10, 0},
                          .changes = {{.from = 0, .to = 1, .places = 2}},
                          .total_thousandths = 700'000,
                          .bound_thousandths = 700'000});
  // What is left over of the second pack stands in for another good.
  problem.goods[1] = {.in_hand = 0, .places = 6};
  problem.change_thousandths = {0, 100'000, 10'000, 0};
  CHECK(cheapest_goods(problem)->to_buy == std::vector<std::int64_t>{18, 0});
}

TEST_CASE("a search that is cut short says how far from the least it can be") {
  const Table table("scarce_goods.csv");
  int unproven = 0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    INFO("row " << row + 2);
    const ScarceGoods problem{.goods = goods_of(table.text(row, "goods")),
                              .per_place = table.whole(row, "per place"),
                              .change_thousandths = numbers_of(table.text(row, "changes")),
                              .most_flows = 3};
    const std::optional<GoodsPlan> plan = cheapest_goods(problem);
    REQUIRE(plan);
    CHECK(plan->bound_thousandths <= table.whole(row, "total"));
    CHECK(plan->total_thousandths >= table.whole(row, "total"));
    CHECK(true_total(problem, *plan) == plan->total_thousandths);
    unproven += plan->proven() ? 0 : 1;
  }
  CHECK(unproven > 0);
}

TEST_CASE("goods that cannot be had give no plan, and numbers out of range are refused") {
  ScarceGoods problem{.goods = {{.places = 1}, {.in_hand = 5}}, .change_thousandths = {0, 1, 1, 0}};
  CHECK(cheapest_goods(problem));
  problem.goods[1].stands_in = false;
  CHECK_FALSE(cheapest_goods(problem));
  CHECK_THROWS_WITH(cheapest_goods({.goods = {{}}, .per_place = 0, .change_thousandths = {0}}), contains("per place"));
  CHECK_THROWS_WITH(cheapest_goods({.goods = {{}}}), contains("changes"));
  CHECK_THROWS_WITH(cheapest_goods({.goods = {{.in_hand = -1}}, .change_thousandths = {0}}), contains("-1 units"));
  CHECK_THROWS_WITH(cheapest_goods({.goods = {{}}, .change_thousandths = {0}, .most_flows = 0}), contains("flows"));
}
