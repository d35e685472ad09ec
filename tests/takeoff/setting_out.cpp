#include "handlaid/takeoff/setting_out.hpp"

#include <string>
#include <utility>

#include "handlaid/core/random.hpp"
#include "handlaid/sheets/figures.hpp"
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

TEST_CASE("the stated error is that of the marks as they are written, by fractions, on boards up to 100 m") {
  // Micrometres as numerator and denominator.
  using Fraction = std::pair<std::int64_t, std::int64_t>;
  const auto distance = [](const Fraction& a, const Fraction& b) {
    const std::int64_t top = a.first * b.second - b.first * a.second;
    return Fraction{top < 0 ? -top : top, a.second * b.second};
  };
  const auto less = [](const Fraction& a, const Fraction& b) { return a.first * b.second < b.first * a.second; };
  // What a mark of the tape says: "12 3/16" as 195/16 inch, "132.5" as 1325/10 mm.
  const auto place_of = [](const std::string& text, LengthUnit unit) {
    if (unit == LengthUnit::millimetres) {
      const std::size_t dot = text.find('.');
      const std::int64_t tenths = std::stoll(text) * 10 + (dot == text.npos ? 0 : text[dot + 1] - '0');
      return Fraction{tenths * 100, 1};
    }
    const std::size_t slash = text.find('/');
    if (slash == text.npos) return Fraction{std::stoll(text) * 25'400, 1};
    const std::size_t space = text.find(' ');
    const std::int64_t whole = space == text.npos ? 0 : std::stoll(text);
    const std::int64_t part = std::stoll(text.substr(space == text.npos ? 0 : space + 1));
    const std::int64_t parts = std::stoll(text.substr(slash + 1));
    return Fraction{(whole * parts + part) * 25'400, parts};
  };
  Random random(8);
  for (int round = 0; round < 40; ++round) {
    const auto pitch = Length::from_um(1'000 + static_cast<std::int64_t>(random.below(24'000)));
    const BoardMarks marks = Rectangular{.columns = 4'000, .rows = 3, .pitch = pitch} | BoardMarking{};
    for (const LengthUnit unit : {LengthUnit::millimetres, LengthUnit::inches}) {
      Fraction largest = {0, 1};
      for (const auto* list : {&marks.across, &marks.up}) {
        for (const Length mark : *list) {
          const Fraction off = distance(place_of(mark_text(mark, unit), unit), {mark.um(), 1});
          if (less(largest, off)) largest = off;
        }
      }
      const std::int64_t stated = (marks | SettingOut{.unit = unit}).largest_error.um();
      INFO(pitch.um() << " um: " << largest.first << "/" << largest.second << " um, stated " << stated);
      REQUIRE_FALSE(less({stated, 1}, largest));
      REQUIRE(less({stated - 1, 1}, largest));
      // half a step, which does not grow along the board
      REQUIRE(stated <= (unit == LengthUnit::millimetres ? 50 : 794));
    }
  }
}

TEST_CASE("a sixteenth of an inch: the stated error is what a mark really has") {
  const BoardMarks marks = Rectangular{.columns = 3, .rows = 1, .pitch = 10 * mm} | BoardMarking{};
  // 10, 20, 30 mm stand at 6.30, 12.60, 18.90 sixteenths: 0.475, 0.6375 and 0.1625 mm away, by hand
  const SettingOutChecks checks = marks | SettingOut{.unit = LengthUnit::inches};
  CHECK(checks.largest_error == Length::from_um(638));
  CHECK(checks.triangle == Length{});
  // Columns of six sixteenths stand on the tape exactly, however many there are.
  const BoardMarks exact = Rectangular{.columns = 5'000, .rows = 1, .pitch = 0.375 * inch} | BoardMarking{};
  CHECK((exact | SettingOut{.unit = LengthUnit::inches}).largest_error == Length{});
}

TEST_CASE("a board without marks has nothing to be wrong") {
  CHECK((BoardMarks{} | SettingOut{}).largest_error == Length{});
}
