#include "handlaid/takeoff/cost.hpp"

#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("the bill adds up, and says what is left over") {
  const Order order{
      .lines = {{.number = 1, .packs = {{{100, 700}, 2}}, .bought = 200, .left_over = 50, .cost_hundredths = 1'400},
                {.number = 2, .from_hand = 5},
                {.number = 3, .packs = {{{30, 100}, 1}}, .bought = 30, .left_over = 29, .cost_hundredths = 100}}};
  const CostLine pieces = cost_of(order, "pieces");
  CHECK(pieces.count == 3);
  CHECK(pieces.cost_hundredths == 1'500);
  CHECK(pieces.left_over_hundredths == 350 + 96);  // a quarter of 14.00, 29 thirtieths of 1.00
  const CostLine rolls = cost_of("rolls", 3, 495, 125'250'000, 150'000'000);
  CHECK(rolls.cost_hundredths == 1'485);
  CHECK(rolls.left_over_hundredths == 245);  // 16.5 %
  CHECK(cost_of("sheets", 1, 3'000, 5, 5).left_over_hundredths == 0);
  const Cost bill{.lines = {pieces, rolls}, .currency = "EUR"};
  CHECK(bill.total_hundredths() == 2'985);
  CHECK(bill.left_over_hundredths() == 691);
}
