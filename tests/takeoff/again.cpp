#include "handlaid/takeoff/again.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

namespace {

/// Sells colour 1 to 4 in packs of 10 at this price; greys 20 codes apart.
Stock stock_at(std::int64_t price) {
  Stock stock{.currency = "EUR"};
  for (int n = 1; n <= 4; ++n) {
    stock.colours.push_back(
        {.name = "colour " + std::to_string(n), .packs = {{.pieces = 10, .price_hundredths = price}}});
  }
  return stock;
}

const Chart<> chart = chart_of({"2122111", "1112222", "3333333"}, 4);  // course 1: colour 3

}  // namespace

TEST_CASE("nothing changes where all lasts") {
  const Again again = PlanAgain{}(chart, {.done = {{.course = 1}}}, {7, 7, 0, 0}, stock_at(500));
  CHECK(again.changes.empty());
  CHECK(again.order.lines.empty());
}

TEST_CASE("a short colour is bought where a pack is cheaper than the change") {
  const Again again = PlanAgain{.cell_hundredths = 100'000}(chart, {}, {5, 7, 9, 0}, stock_at(1));
  CHECK(again.changes.empty());
  CHECK(again.order.cost_hundredths() == 1);
  CHECK(again.order.lines.at(0).number == 1);
  CHECK(again.order.lines.at(0).needed == 2);
  CHECK(again.order.lines.at(0).left_over == 8);
}

TEST_CASE("or replaced by the nearest colour that is over, single cells first, then ends of runs") {
  // Colour 1 lacks two cells, 2 has one over, 3 too. Two cells of 1 become 2, and one of 2 becomes 3: three small steps
  // are less than one small and one large, as steps count by their square: 3 x 1 against 1 + 4.
  const Again again = PlanAgain{.cell_hundredths = 1}(chart, {.done = {{.course = 1}}}, {5, 8, 1, 9}, stock_at(90'000));
  CHECK(again.order.lines.empty());
  CHECK(again.changes == std::vector<CellChange>{{.course = 2, .column = 1, .from = 1, .to = 2},
                                                 {.course = 3, .column = 1, .from = 2, .to = 3},
                                                 {.course = 3, .column = 2, .from = 1, .to = 2}});
}

TEST_CASE("packs and near colours are mixed where that is least") {
  // Colour 1 lacks 2 x 7 pieces. By hand: a pack of 10 at 3.00 and two changes at 0.73 are
  // 4.47; two packs 6.00, seven changes 5.13.
  const PlanAgain planning{.per_cell = 2};
  const Again again = planning(chart, {}, {0, 40, 40, 0}, stock_at(300));
  CHECK(again.order.cost_hundredths() == 300);
  CHECK(again.order.lines.at(0).left_over == 0);
  REQUIRE(again.changes.size() == 2);
  CHECK(again.changes[0] == CellChange{.course = 2, .column = 1, .from = 1, .to = 2});
  CHECK(again.proven());
  CHECK(again.total_thousandths() == 300'000 + again.change_thousandths);
  // Greys #141414 and #282828: the cube roots of their linear light are 0.19125 and 0.27685, and are the lightness of
  // Oklab (B. Ottosson 2020); 2 x (0.08560 / 0.1)^2 x 1.00 is 1.465.
  CHECK(again.change_thousandths / 1'000 >= 145);
  CHECK(again.change_thousandths / 1'000 <= 148);
}

TEST_CASE("laid courses are never touched, and what remains lasts") {
  for (unsigned set = 0; set < 8; ++set) {
    Progress progress;
    for (int course = 1; course <= 3; ++course) {
      if ((set >> (course - 1) & 1) != 0) progress.done.push_back({.course = course});
    }
    for (const std::int64_t price : {1, 100, 100'000}) {
      const std::vector<std::int64_t> in_hand{8, 6, 4, 40};
      const Again again = PlanAgain{.per_cell = 2}(chart, progress, in_hand, stock_at(price));
      const Chart<> after = changed(chart, again.changes);
      for (const DoneCourse& done : progress.done) {
        for (int column = 0; column < 7; ++column)
          CHECK(after.course(done.course)[static_cast<std::size_t>(column)] ==
                chart.course(done.course)[static_cast<std::size_t>(column)]);
      }
      const Remaining rest = remaining(after, progress, 2);
      for (std::size_t c = 0; c < 4; ++c) {
        std::int64_t has = in_hand[c];
        for (const OrderLine& line : again.order.lines) has += line.number == static_cast<int>(c) + 1 ? line.bought : 0;
        CHECK(rest.lines[c].left <= has);
      }
    }
  }
}

TEST_CASE("what cannot be done, or is of another chart, is refused") {
  CHECK_THROWS_WITH(PlanAgain{}(chart, {}, {7, 7, 6, 0}, {}), contains("colour 3 (1 piece short): no pack is on sale"));
  CHECK_THROWS_WITH(PlanAgain{}(chart, {}, {7, 7}, {}), contains("it has 2 colours, the palette has 4"));
  CHECK_THROWS_WITH(PlanAgain{}(chart, {}, {7, 7, 7, -1}, {}), contains("colour 4: -1 pieces"));
  CHECK_THROWS_WITH(PlanAgain{.cell_hundredths = -1}(chart, {}, {7, 7, 7, 0}, {}), contains("cell-hundredths"));
  CHECK_THROWS_WITH(changed(chart, {{.course = 1, .column = 1, .from = 1, .to = 2}}), contains("not of this chart"));
  Chart<> exact = chart;
  exact.palette.entries[3].lock = Lock::exact_only;  // only cells of that very colour take it
  CHECK_THROWS_WITH(PlanAgain{}(exact, {}, {7, 7, 6, 9}, {}), contains("colour 3"));
}
