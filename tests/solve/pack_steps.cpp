#include "handlaid/solve/pack_steps.hpp"

#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("a line lies nowhere above what places cost in packs, and touches it") {
  // By hand: two units a place, one in hand; packs of 10 at 3.00 cover 5 places, one more each 5.
  PackSteps tens({{.pieces = 10, .price = 300}}, 2, 1);
  CHECK(tens.units(3) == 5);
  CHECK(tens.price(5) == 300'000);
  CHECK(tens.price(6) == 600'000);
  CHECK(tens.line(0, 20) == PackLine{.free = 0, .each = 60'000});
  CHECK(tens.line(1, 20) == PackLine{.free = 5, .each = 60'000});
  CHECK(tens.line(0, 3) == PackLine{.free = 0, .each = 100'000});

  for (const std::int64_t beside : {0, 1, 2}) {
    PackSteps mixed(
        {{.pieces = 7, .price = 120}, {.pieces = 40, .price = 500, .at_least = 2}, {.pieces = 3, .price = 80}}, 3,
        beside);
    for (const std::int64_t most : {1, 9, 40, 2'000}) {  // 2,000 lie beyond the steps that are kept
      for (const std::int64_t least : {0, 1, 5, 30}) {
        if (least > most) continue;
        INFO(beside << " beside, " << least << " to " << most);
        const PackLine line = mixed.line(least, most);
        int above = 0;
        for (std::int64_t places = least; places <= most; ++places) {
          const std::int64_t said = mixed.price(least) + std::max<std::int64_t>(places - line.free, 0) * line.each;
          above += said > mixed.price(places) ? 1 : 0;
        }
        CHECK(above == 0);
        CHECK((line.free == most || line.each > 0));
      }
    }
  }
}
