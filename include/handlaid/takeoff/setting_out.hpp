// Setting out by hand: how far a mark that is read off a tape can be from where it should stand, and the checks that
// show whether corners are square. `marks | SettingOut{.unit = LengthUnit::inches}`
#pragma once

#include <algorithm>
#include <cstdint>

#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/takeoff/board_marks.hpp"

namespace handlaid {

/// What a maker checks by.
struct SettingOutChecks {
  /// The largest distance of a mark, as read off a tape, from its place, rounded up to a whole micrometre: half of what
  /// the tape is read to at most, on any length.
  Length largest_error = {};
  /// Sides 3, 4 and 5 times this: the largest such triangle in round figures that fits the field; zero where none does.
  Length triangle = {};
  /// A rod for each direction carries all marks from the datum: so long at least.
  Length pole_across = {};
  Length pole_up = {};
  /// By how much the difference of the diagonals changes where the top edge stands 1 mm too far to one side, and where
  /// one side stands 1 mm too high: 2 W s / D and 2 H s / D for a field W wide, H high, of diagonal D.
  Length diagonals_for_1_mm_sideways = {};
  Length diagonals_for_1_mm_up = {};
  friend bool operator==(const SettingOutChecks&, const SettingOutChecks&) = default;
};

/// What a tape is read to, in sixteenths of a micrometre, so that a sixteenth of an inch, 1587.5 um, is a whole number.
constexpr std::int64_t tape_step_16ths_um(LengthUnit unit) {
  return unit == LengthUnit::millimetres ? 16 * 100 : 25'400;
}

/// How far a mark is from the nearest tenth of a millimetre or sixteenth of an inch, in sixteenths of a micrometre.
/// `mark` is 0 or more.
constexpr std::int64_t tape_error_16ths_um(Length mark, LengthUnit unit) {
  const std::int64_t step = tape_step_16ths_um(unit);
  const std::int64_t beyond = mark.um() * 16 % step;
  return std::min(beyond, step - beyond);
}

/// Reckons the checks.
struct SettingOut {
  using is_stage = void;
  /// Millimetres are read to a tenth, inches to a sixteenth.
  LengthUnit unit = LengthUnit::millimetres;
  friend constexpr bool operator==(const SettingOut&, const SettingOut&) = default;

  template <When = When::called>
  SettingOutChecks operator()(const BoardMarks& marks) const {
    SettingOutChecks checks;
    std::int64_t error = 0;
    for (const auto* list : {&marks.across, &marks.up}) {
      for (const Length mark : *list) error = std::max(error, tape_error_16ths_um(mark, unit));
    }
    checks.largest_error = Length::from_um((error + 15) / 16);
    if (marks.across.empty() || marks.up.empty()) return checks;
    const Size field = {marks.across.back() - marks.across.front(), marks.up.back() - marks.up.front()};
    const Length round = unit == LengthUnit::millimetres ? 10 * mm : 1 * inch;
    const Length most = std::min(field.width.divided(3), field.height.divided(4));
    checks.triangle = round.times(most.count_of(round));
    if (checks.triangle.times(3) > field.width || checks.triangle.times(4) > field.height) checks.triangle -= round;
    checks.pole_across = marks.across.back();
    checks.pole_up = marks.up.back();
    if (marks.diagonal > Length{}) {
      const auto change = [&](Length side) {
        return Length::from_um((2'000 * side.um() + marks.diagonal.um() / 2) / marks.diagonal.um());
      };
      checks.diagonals_for_1_mm_sideways = change(field.width);
      checks.diagonals_for_1_mm_up = change(field.height);
    }
    return checks;
  }
};

}  // namespace handlaid
