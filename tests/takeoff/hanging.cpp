#include "handlaid/takeoff/hanging.hpp"

#include <cmath>

#include "handlaid/takeoff/board_growth.hpp"
#include "handlaid/takeoff/weight.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

TEST_CASE("the points of a wire stand in the upper third, and never below the middle") {
  // 516 mm apart on a panel 360 mm high: 30 degrees would put them 179 mm down, at its middle, where it tips.
  const HangingTakeoff low = Hanging{.way = HangingWay::wire, .wire_span = 516 * mm}({540 * mm, 360 * mm}, 1'600);
  CHECK(low.eye_drop == 120 * mm);
  const double angle = std::atan2(90.0, 258.0);
  CHECK(std::abs(static_cast<double>(low.wire_pull_g) - 1'600 / (2 * std::sin(angle))) <= 1.0);
  // Lower still, the wire is as flat as it may be: 15 degrees and not more than twice the weight.
  const HangingTakeoff flat = Hanging{.way = HangingWay::wire, .wire_span = 600 * mm}({700 * mm, 300 * mm}, 1'000);
  CHECK(flat.wire_pull_g <= 2'000);
  CHECK(flat.wire_pull_g >= 1'990);
  CHECK(flat.eye_drop > 100 * mm);
  CHECK(flat.eye_drop < 150 * mm);
  // and where even that is below the middle, there is no wire
  CHECK_THROWS_WITH((Hanging{.way = HangingWay::wire, .wire_span = 960 * mm}({1'000 * mm, 300 * mm}, 1'000)),
                    contains("hanging: the points of the wire would stand 153.936 mm below the top of a panel 300 mm "
                             "high, which would tip forward; take two hooks or a rail"));
  CHECK_THROWS_WITH(
      (Hanging{.way = HangingWay::wire, .wire_span = 500 * mm, .wire_rise = 300 * mm}({600 * mm, 400 * mm}, 1'000)),
      contains("or let the wire rise less"));
}

TEST_CASE("hooks share the width alike") {
  CHECK(hook_places(800 * mm, 2) == std::vector<Length>{200 * mm, 600 * mm});
  CHECK(hook_places(900 * mm, 3) == std::vector<Length>{150 * mm, 450 * mm, 750 * mm});
  CHECK(hook_places(500 * mm, 1) == std::vector<Length>{250 * mm});
}

TEST_CASE("a board weighs its volume times its density") {
  // 2440 x 1220 x 18 mm of plywood at 600 kg/m3: 0.0535824 m3, 32.1 kg, by hand
  const WeightTakeoff sheet = Weight{}({.board = {2'440 * mm, 1'220 * mm}, .board_thickness = 18 * mm});
  CHECK(sheet.total_g == 32'149);
  CHECK(sheet.persons == 3);  // of 16 kg each
  CHECK(Weight{.person_kg = 23}({.board = {2'440 * mm, 1'220 * mm}, .board_thickness = 18 * mm}).persons == 2);
  const WeightTakeoff all = Weight{.grams_per_piece = 0.25}({.board = {1'000 * mm, 500 * mm},
                                                             .board_thickness = 9.5 * mm,
                                                             .timber_mm3 = 4'000'000,
                                                             .pieces = 10'000,
                                                             .strips_g = 90,
                                                             .paint_ml = 1'000,
                                                             .glue_g = 120});
  CHECK(all.lines ==
        std::vector<WeightLine>{
            {"board", 2'850}, {"frame", 2'000}, {"pieces", 2'500}, {"strips", 90}, {"paint", 1'300}, {"glue", 120}});
  CHECK(all.total_g == 8'860);
  CHECK(all.persons == 1);
  CHECK_THROWS_WITH(Weight{.board_kg_per_m3 = 0}({}), contains("board-density"));
  CHECK_THROWS_WITH(Weight{.person_kg = std::nan("")}({}), contains("person-limit: not a number"));
}

TEST_CASE("a wire pulls with W / (2 sin of its angle), not with half the weight") {
  const Size panel = {800 * mm, 1500 * mm};
  // 30 degrees: the sine is 1/2, so the pull is the weight itself.
  const HangingTakeoff thirty = Hanging{.way = HangingWay::wire}(panel, 10'000);
  CHECK(thirty.wire_pull_g >= 9'999);
  CHECK(thirty.wire_pull_g <= 10'001);
  CHECK(thirty.points == 1);
  CHECK(thirty.load_per_point_g == 10'000);
  CHECK(thirty.rated_g == 40'000);
  // 3-4-5: half the span 400, rise 300, side 500; the sine is 0.6.
  const HangingTakeoff steep =
      Hanging{.way = HangingWay::wire, .wire_span = 800 * mm, .wire_rise = 300 * mm}(panel, 12'000);
  CHECK(steep.wire_pull_g == 10'000);
  CHECK(steep.wire_length == 1'000 * mm);
  CHECK(steep.eye_drop == 330 * mm);
  CHECK(steep.hook_height == 2'220 * mm);  // 1500 to the middle, 750 to the top edge, 30 below it
  for (const int rise : {150, 200, 333, 400, 700}) {
    const auto taken = Hanging{.way = HangingWay::wire, .wire_span = 800 * mm, .wire_rise = rise * mm}(panel, 12'345);
    const double angle = std::atan2(rise, 400.0);
    CHECK(std::abs(static_cast<double>(taken.wire_pull_g) - 12'345 / (2 * std::sin(angle))) <= 1.0);
  }
  CHECK_THROWS_WITH((Hanging{.way = HangingWay::wire, .wire_span = 800 * mm, .wire_rise = 80 * mm}(panel, 12'000)),
                    contains("80 mm over a span of 800 mm pulls with over twice the weight"));
  CHECK_THROWS_WITH((Hanging{.way = HangingWay::wire, .wire_span = 900 * mm}(panel, 12'000)), contains("wire-span"));
}

TEST_CASE("hooks and rails share the load, and the middle hangs at the height of the eyes") {
  const HangingTakeoff hooks = Hanging{.way = HangingWay::hooks, .points = 2, .rating = 3}({800 * mm, 600 * mm}, 9'001);
  CHECK(hooks.load_per_point_g == 4'501);
  CHECK(hooks.rated_g == 13'503);
  CHECK(hooks.wire_pull_g == 0);
  CHECK(hooks.top_height == 1'800 * mm);
  CHECK_THROWS_WITH((Hanging{.points = 0}({}, 1)), contains("hanging-points: 0"));
  CHECK_THROWS_WITH((Hanging{.rating = 0.5}({}, 1)), contains("hanging-rating"));
}

TEST_CASE("plywood of 1252.5 mm grows 1.0 mm from 30 to 70 % humidity") {
  // 0.0002 for 10 %: figure of a plywood makers' association; 1252.5 x 0.0008 = 1.002
  const Growth growth = Size{750 * mm, 1'252.5 * mm} | BoardGrowth{};
  CHECK(growth.height == Length::from_um(1'002));
  CHECK(growth.width == Length::from_um(600));
  CHECK((Size{750 * mm, 1'252.5 * mm} | BoardGrowth{.driest = 0.5, .dampest = 0.5}).height == Length{});
  CHECK_THROWS_WITH((Size{} | BoardGrowth{.driest = 0.6, .dampest = 0.5}),
                    contains("50 %, is drier than the driest, 60 %; make it 60 % or more"));
  CHECK_THROWS_WITH((Size{} | BoardGrowth{.dampest = 1.5}), contains("humidity-high"));
}
