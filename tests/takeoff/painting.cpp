#include "handlaid/takeoff/painting.hpp"

#include <cmath>

#include "handlaid/takeoff/packs.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

static_assert(Accepts<Painting, StripTakeoff> && !Accepts<Painting, Chart<>>);

TEST_CASE("area takeoff: 12.5 m2, two coats at 8 m2 a litre, 15 % lost in the pots") {
  // 100 strips of 2.5 m by 50 mm; 12.5 m2 x 2 / 8 = 3.125 l, with 15 %: 3.594 l. By hand, as handbooks of paint show
  // it.
  const Chart<> chart = chart_of(std::vector<std::string>(100, std::string(50, '1')), 1, 50 * mm);
  const PaintTakeoff paint = chart | Strips{} | Painting{};
  REQUIRE(paint.lines.size() == 1);
  CHECK(paint.lines[0].area_mm2 == 12'500'000);
  CHECK(paint.lines[0].ml == 3'594);
  CHECK(paint.primed_mm2 == 12'500'000);
  CHECK(paint.primer_ml == 1'797);
  // One coat at 9.8 m2 a litre (400 square feet a US gallon: 0.0245424 m2/l each, exact units), nothing lost.
  const Painting gallon{.coats = 1, .primer_coats = 0, .spreading_m2_per_l = 9.817, .pot_loss = 0};
  CHECK((chart | Strips{} | gallon).lines[0].ml == 1'274);  // 12.5 / 9.817 = 1.2733
  CHECK((chart | Strips{} | gallon).primer_ml == 0);
}

TEST_CASE("folds, faces and what is painted beyond the marks") {
  const Chart<> chart = chart_of({"1122", ".33."}, 3, 10 * mm);
  const auto area = [&](const Strips& strips, const Painting& painting, int number) {
    for (const PaintLine& line : (chart | strips | painting).lines) {
      if (line.number == number) return line.area_mm2;
    }
    return std::int64_t{-1};
  };
  CHECK(area({}, {.beyond_mark = {}}, 1) == 200);
  CHECK(area({}, {.beyond_mark = 4 * mm}, 1) == 220);  // half of 4 mm over its one inner mark
  CHECK(area({}, {.beyond_mark = 4 * mm}, 3) == 200);  // gaps at both ends
  CHECK(area({.fold = Fold::lengthwise}, {.beyond_mark = {}}, 1) == 400);
  CHECK(area({.fold = Fold::end_to_end}, {.beyond_mark = {}}, 1) == 400);
  CHECK(area({.fold = Fold::end_to_end}, {.faces = 2, .beyond_mark = {}}, 1) == 800);
}

TEST_CASE("tins are chosen by the pack mix") {
  const Chart<> chart = chart_of(std::vector<std::string>(100, std::string(50, '1')), 1, 50 * mm);
  const Stock tins{.colours = {{.name = "colour 1", .packs = {{250, 700}, {1'000, 2'200}, {2'500, 4'900}}}},
                   .unit = StockUnit::millilitres};
  const Order order = paint_needs(chart | Strips{} | Painting{}, chart.palette) | choose_packs(tins);
  // 3594 ml: 2500 + 1000 + 250 for 78.00 against 2 x 2500 for 98.00 and 4 x 1000 for 88.00
  CHECK(order.lines.at(0).cost_hundredths == 7'800);
  CHECK(order.lines[0].left_over == 156);
}

TEST_CASE("paint of no sense is refused") {
  const StripTakeoff strips = chart_of({"11"}) | Strips{};
  CHECK_THROWS_WITH((strips | Painting{.spreading_m2_per_l = 0}), contains("spreading-rate"));
  CHECK_THROWS_WITH((strips | Painting{.primer_m2_per_l = std::nan("")}), contains("primer-rate: not a number"));
  CHECK_THROWS_WITH((strips | Painting{.pot_loss = -0.1}), contains("pot-loss"));
  CHECK_THROWS_WITH((strips | Painting{.faces = 3}), contains("faces: 3"));
  CHECK_THROWS_WITH((strips | Painting{.coats = 0}), contains("coats: 0"));
  CHECK((StripTakeoff{} | Painting{}).lines.empty());
}
