#include "handlaid/takeoff/rolls.hpp"

#include "handlaid/takeoff/pilot.hpp"
#include "handlaid/takeoff/strip_spares.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

static_assert(Accepts<Rolls, StripTakeoff> && !Accepts<Rolls, Chart<>>);

namespace {
/// 167 courses of 100 cells at 7.5 mm: trade arithmetic, common practice, no source.
StripTakeoff large(const Strips& strips = {}) {
  return chart_of(std::vector<std::string>(167, std::string(100, '1')), 1, 7.5 * mm) | strips;
}
}  // namespace

TEST_CASE("trade arithmetic: 167 strips of 750 mm from rolls of 50 m") {  // common practice, no source
  const RollTakeoff flat = large() | Rolls{};
  CHECK(flat.lengths == std::vector<StripLength>{{750 * mm, 167}});
  CHECK(flat.rolls == 3);  // 66 to a roll: 66 + 66 + 35
  CHECK(flat.proven());
  CHECK(flat.face_mm2 == 939'375);  // 0.939 m2, the area of the panel
  // Folded end to end each takes 1.5 m: 33 to a roll.
  CHECK((large({.fold = Fold::end_to_end}) | Rolls{}).rolls == 6);
  // Folded lengthwise it takes a tape of 15 mm.
  const RollTakeoff folded = large({.fold = Fold::lengthwise}) | Rolls{};
  CHECK(folded.roll_width == 15 * mm);
  CHECK(folded.rolls == 3);
  CHECK(folded.face_mm2 == 1'878'750);
}

TEST_CASE("strips lie side by side on a wide roll or a sheet") {
  const StripTakeoff strips = large({.fold = Fold::lengthwise});
  const RollTakeoff wide = strips | Rolls{.length = 50'000 * mm, .width = 48 * mm};
  CHECK(wide.side_by_side == 3);
  CHECK(wide.rolls == 1);
  // A sheet of 1 m by 70 cm: 46 strips across, one along.
  const RollTakeoff sheet = strips | Rolls{.length = 1'000 * mm, .width = 700 * mm};
  CHECK(sheet.side_by_side == 46);
  CHECK(sheet.rolls == 4);
  CHECK((strips | Rolls{.length = 1'000 * mm, .width = 30 * mm, .kerf = 1 * mm}).side_by_side == 1);
}

TEST_CASE("shaped work: strips of several lengths from rolls, each strip once and the bound proven") {
  const StripTakeoff strips =
      chart_of({"1.....", "11....", "111...", "1111..", "11111.", "111111"}, 1, 100 * mm) | Strips{};
  const RollTakeoff takeoff = strips | Rolls{.length = 700 * mm};
  CHECK(takeoff.lengths.size() == 6);
  CHECK(takeoff.rolls == 3);  // 2.1 m in 0.7 m: 6+1, 5+2, 4+3
  CHECK(takeoff.proven());
}

TEST_CASE("joins use up every roll, and without them a strip must fit") {
  const StripTakeoff strips = large();
  CHECK((strips | Rolls{.length = 700 * mm, .joins = true}).rolls == 179);  // 125.25 m
  CHECK_THROWS_WITH((strips | Rolls{.length = 700 * mm}),
                    contains("roll-length: 700 mm is less than the 750 mm of the longest strip"));
  CHECK_THROWS_WITH((strips | Rolls{.width = 5 * mm}), contains("roll-width: 5 mm is less than the 7.5 mm"));
  CHECK_THROWS_WITH((strips | Rolls{.length = Length{}}), contains("roll-length: 0 mm"));
  CHECK_THROWS_WITH((strips | Rolls{.grams_per_m2 = -1}), contains("grams-per-m2"));
}

TEST_CASE("the weight of strips is that of their flat area") {
  CHECK((large() | Rolls{.grams_per_m2 = 80}).mass_g == 75);  // 0.939 m2
  CHECK((large({.fold = Fold::lengthwise}) | Rolls{.grams_per_m2 = 80}).mass_g == 150);
  CHECK((StripTakeoff{} | Rolls{}).rolls == 0);
}

TEST_CASE("spare and tried strips come off the rolls too, but only mounted ones are weighed") {
  // Of n strips each lost with 0.03, 167 remain with 0.99 from n = 178 on (summed exactly: 0.9815 for 177, 0.9921 for
  // 178).
  const StripTakeoff strips = large() | StripSpares{.loss = 0.03, .confidence = 0.99};
  CHECK(strips.spares == 11);
  const RollTakeoff takeoff = strips | Rolls{.grams_per_m2 = 80};
  CHECK(takeoff.lengths == std::vector<StripLength>{{750 * mm, 167 + strips.spares}});
  CHECK(takeoff.mass_g == 75);
  CHECK(takeoff.face_mm2 == 939'375);
  const Chart<> chart = chart_of({"1111", "1122", "2222"}, 2, 100 * mm);
  const StripTakeoff tried = chart | Strips{.fold = Fold::end_to_end, .trim = 10 * mm} |
                             TrialStrips{chart | PilotPatch{.columns = 2, .courses = 1}};
  CHECK((tried | Rolls{}).lengths == std::vector<StripLength>{{820 * mm, 3}, {420 * mm, 2}});
  CHECK((tried | Rolls{.length = 1'000 * mm, .joins = true}).rolls == 4);  // 3.3 m
  CHECK(tried.needed_length() == 3'300 * mm);
}
