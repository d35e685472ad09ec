#include "handlaid/takeoff/setting_out.hpp"

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

static_assert(Accepts<SettingOut, BoardMarks> && !Accepts<SettingOut, Rectangular>);

TEST_CASE("the checks of a panel of 750 x 1252.5 mm") {
  const BoardMarks marks = Rectangular{.columns = 100, .rows = 167, .pitch = 7.5 * mm} | BoardMarking{};
  const SettingOutChecks checks = marks | SettingOut{};
  CHECK(checks.largest_error == Length{});  // all are whole tenths
  CHECK(checks.triangle == 250 * mm);       // 750, 1000, 1250: the builder's 3-4-5
  CHECK(checks.pole_across == 750 * mm);
  CHECK(checks.pole_up == 1252.5 * mm);
  // 2 W s / D: 1500 / 1459.9 = 1.027, 2505 / 1459.9 = 1.716, by hand
  CHECK(checks.diagonals_for_1_mm_sideways == Length::from_um(1'027));
  CHECK(checks.diagonals_for_1_mm_up == Length::from_um(1'716));
}

TEST_CASE("the error of a mark is half a step at most, on any length, and does not grow along it") {
  Random random(8);
  for (int round = 0; round < 300; ++round) {
    const auto pitch = Length::from_um(1'000 + static_cast<std::int64_t>(random.below(40'000)));
    const auto step = Length::from_um(1 + static_cast<std::int64_t>(random.below(2'000)));
    const BoardMarks marks = Rectangular{.columns = 4'000, .rows = 3, .pitch = pitch} | BoardMarking{};
    const SettingOutChecks checks = marks | SettingOut{.step = step};
    REQUIRE(checks.largest_error.times(2) <= step);
    for (const std::size_t at : {std::size_t{1}, std::size_t{3'999}, std::size_t{4'000}}) {
      const Length rounded = to_step(pitch.times(static_cast<std::int64_t>(at)), step);
      const Length off = rounded - marks.across[at];
      REQUIRE(off.times(2) <= step);
      REQUIRE(off.times(-2) <= step);
    }
  }
}

TEST_CASE("a sixteenth of an inch: the stated error is what a mark really has") {
  const BoardMarks marks = Rectangular{.columns = 3, .rows = 1, .pitch = 10 * mm} | BoardMarking{};
  // 10, 20, 30 mm stand at 6.30, 12.59, 18.89 sixteenths: 0.48, 0.65 and 0.17 mm away, by hand
  const SettingOutChecks checks = marks | SettingOut{.step = Length::from_um(1'588), .unit = LengthUnit::inches};
  CHECK(checks.largest_error == Length::from_um(644));
  CHECK(checks.triangle == Length{});
}

TEST_CASE("a step of no sense is refused") {
  CHECK_THROWS_WITH(BoardMarks{} | SettingOut{.step = Length{}}, contains("step of the marks: 0 mm"));
  CHECK((BoardMarks{} | SettingOut{}).largest_error == Length{});
}
