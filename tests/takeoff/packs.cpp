#include "handlaid/takeoff/packs.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

static_assert(Accepts<ChoosePacks, PieceTakeoff> && !Accepts<ChoosePacks, Chart<>> && !Accepts<ChoosePacks, Stock>);

namespace {

PieceTakeoff takeoff_of(std::vector<std::int64_t> pieces) {
  PieceTakeoff takeoff;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const int number = static_cast<int>(i) + 1;
    takeoff.palette.entries.push_back({.name = "colour " + std::to_string(number)});
    takeoff.lines.push_back({.number = number, .cells = pieces[i], .pieces = pieces[i]});
  }
  return takeoff;
}

Stock small_stock() {
  return {.colours = {{.name = "colour 2", .packs = {{50, 300}, {200, 1000}}, .in_hand = 0},
                      {.name = "colour 1", .packs = {{10, 100}, {100, 700}}, .in_hand = 30},
                      {.name = "colour 3", .packs = {}, .in_hand = 30}},
          .currency = "EUR"};
}

}  // namespace

TEST_CASE("what is in hand is used first, the rest is bought at the least price") {
  const Order order = takeoff_of({141, 210, 30}) | choose_packs(small_stock());
  REQUIRE(order.lines.size() == 3);
  // 111 to buy: 100 + 2 x 10 for 9.00 against 2 x 100 for 14.00
  CHECK(order.lines[0] == OrderLine{.number = 1,
                                    .name = "colour 1",
                                    .needed = 141,
                                    .from_hand = 30,
                                    .packs = {{{100, 700}, 1}, {{10, 100}, 2}},
                                    .bought = 120,
                                    .left_over = 9,
                                    .cost_hundredths = 900});
  // 210: 200 + 50 for 13.00 against 5 x 50 for 15.00
  CHECK(order.lines[1].packs == std::vector<PackCount>{{{200, 1000}, 1}, {{50, 300}, 1}});
  CHECK(order.lines[1].left_over == 40);
  CHECK(order.lines[2].from_hand == 30);
  CHECK(order.lines[2].packs.empty());
  CHECK(order.cost_hundredths() == 2200);
  CHECK(order.pack_count() == 5);
  CHECK(order.currency == "EUR");
}

TEST_CASE("a colour that is not needed is not ordered, nor looked up") {
  const Order order = takeoff_of({5, 0, 0, 0}) | choose_packs(small_stock());
  REQUIRE(order.lines.size() == 1);
  CHECK(order.lines[0].from_hand == 5);
  CHECK(order.cost_hundredths() == 0);
}

TEST_CASE("two numbers of one stock colour share what is in hand") {
  PieceTakeoff takeoff = takeoff_of({20, 25});
  takeoff.palette.entries[1].name = "colour 1";
  const Order order = takeoff | choose_packs(small_stock());
  CHECK(order.lines[0].from_hand == 20);
  CHECK(order.lines[1].from_hand == 10);
  CHECK(order.lines[1].bought == 20);
}

TEST_CASE("yarn by length, felt by area, beads by weight: a need in the unit of the stock, rounded up once") {
  Stock yarn = small_stock();
  yarn.unit = StockUnit::millimetres;
  // 141 pieces of 35.5 mm are 5005.5 mm; 30 are in hand. 4976: 50 of 100 for 350.00, 49 and 8 of 10 for 351.00.
  const Order order = takeoff_of({141}) | AmountEach{StockUnit::millimetres, 35.5} | choose_packs(yarn);
  CHECK(order.unit == StockUnit::millimetres);
  CHECK(order.lines.at(0).needed == 5'006);
  CHECK(order.lines[0].bought == 5'000);
  const AmountTakeoff beads = takeoff_of({1'000, 1}) | AmountEach{StockUnit::grams, 0.012};
  CHECK(beads.lines[0].needed == 12);
  CHECK(beads.lines[1].needed == 1);
  const AmountTakeoff felt = takeoff_of({7}) | AmountEach{StockUnit::square_millimetres, 12.5 * 30};
  CHECK(felt.lines[0].needed == 2'625);
  CHECK_THROWS_WITH(takeoff_of({1}) | choose_packs(yarn), contains("measured in mm, what is needed in pieces"));
  CHECK_THROWS_WITH((takeoff_of({1}) | AmountEach{StockUnit::grams, 0}), contains("amount of a piece"));
  CHECK_THROWS_WITH((takeoff_of({2'000'000}) | AmountEach{StockUnit::grams, 1'000}), contains("at most 1000000000 g"));
}

TEST_CASE("a least number of packs is kept") {
  Stock stock = small_stock();
  stock.colours[0].packs = {{50, 300}, {200, 1000, 3}};
  // 210: three packs of 200 cost 30.00, five of 50 cost 15.00
  CHECK((takeoff_of({0, 210}) | choose_packs(stock)).lines.at(0).packs == std::vector<PackCount>{{{50, 300}, 5}});
  // 601: 600 and one of 50 for 33.00, thirteen of 50 for 39.00
  const Order large = takeoff_of({0, 601}) | choose_packs(stock);
  CHECK(large.lines.at(0).packs == std::vector<PackCount>{{{200, 1000, 3}, 3}, {{50, 300}, 1}});
}

TEST_CASE("a colour that cannot be had is named") {
  CHECK_THROWS_WITH(takeoff_of({1, 1, 1, 1}) | choose_packs(small_stock()),
                    contains("colour 4 (#000000): \"colour 4\" is not in the stock"));
  CHECK_THROWS_WITH(takeoff_of({1, 1, 31}) | choose_packs(small_stock()),
                    contains("\"colour 3\": 31 pieces are needed, 30 are in hand"));
  PieceTakeoff nameless = takeoff_of({1});
  nameless.palette.entries[0].name = "";
  CHECK_THROWS_WITH(nameless | choose_packs(small_stock()), contains("colour 1 (#000000): it has no name"));
}
