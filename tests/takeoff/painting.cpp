#include "handlaid/takeoff/painting.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "handlaid/core/random.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/pilot.hpp"
#include "handlaid/takeoff/strip_spares.hpp"
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

TEST_CASE("paint for spare strips lasts whichever strips are spoilt, and not a strip longer") {
  Random random(12);
  for (int round = 0; round < 60; ++round) {
    std::vector<std::string> lines;
    for (int y = 0; y < 6; ++y) {
      lines.emplace_back();
      for (int x = 0; x < 9; ++x) lines.back() += "1234."[random.below(5)];
    }
    const Chart<> chart = chart_of(lines, 4, 100 * mm);
    StripTakeoff strips = chart | Strips{};
    strips.spares = static_cast<std::int64_t>(random.below(15));
    const Painting painting{.beyond_mark = {}};
    const PaintTakeoff paint = strips | painting;
    for (const PaintLine& line : paint.lines) {
      // The cells of the colour on each strip, most first; each spare is the strip that takes most, then the next.
      std::vector<std::int64_t> cells;
      for (const std::string& text : lines) {
        cells.push_back(std::count(text.begin(), text.end(), static_cast<char>('0' + line.number)));
      }
      std::sort(cells.begin(), cells.end(), std::greater<>());
      const std::size_t count = strips.strips.size();  // courses with a piece at all
      std::int64_t spoilt = 0;
      for (std::size_t i = 0; i < static_cast<std::size_t>(strips.spares); ++i) spoilt += cells[i % count];
      // 100 x 100 mm a cell, two coats at 8 m2 a litre, 15 % lost: 2.875 ml a cell.
      REQUIRE(line.spare_ml == (spoilt * 2'875 + 999) / 1'000);
    }
  }
}

TEST_CASE("paint and primer of spare and tried strips are bought with the rest, and weigh nothing on the panel") {
  const Chart<> chart = chart_of({"1111", "1122", "2222"}, 2, 100 * mm);
  const Patch patch = chart | PilotPatch{.columns = 2, .courses = 1};  // columns 2 and 3 of course 2: one cell of each
  const StripTakeoff strips = chart | Strips{} | TrialStrips{patch} | StripSpares{.loss = 0.2, .confidence = 0.9};
  const PaintTakeoff paint = strips | Painting{.beyond_mark = {}};
  const PaintTakeoff plain = chart | Strips{} | Painting{.beyond_mark = {}};
  // Of n strips each lost with 0.2, three remain with 0.9 from n = 5 on: 0.942 (0.819 for 4; binomial tables).
  CHECK(strips.spares == 2);
  CHECK(paint.ml() == plain.ml());
  CHECK(paint.primer_ml == plain.primer_ml);
  REQUIRE(paint.lines.size() == 2);
  CHECK(paint.lines[0].spare_ml == 18);  // strips of 4 and 2 cells, 2.875 ml each
  CHECK(paint.lines[0].trial_ml == 6);   // a cell of the patch, and one of the strip before it
  CHECK(paint_needs(paint, chart.palette).lines[0].needed == paint.lines[0].ml + 24);
  // Primer: 3 strips, 2 spares of 400 mm, two tried of 200 mm: 2.4 m by 100 mm, at 8 m2 a litre with 15 %: 34.5 ml.
  CHECK(paint.needed_primer_ml == 35);
}
