// Setting out by hand: how far a mark that is read off a tape can be from where it should stand, and the checks that
// show whether corners are square. `marks | SettingOut{.step = 100 * um}`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/takeoff/board_marks.hpp"

namespace handlaid {

/// What a maker checks by.
struct SettingOutChecks {
  /// Marks are read to whole steps.
  Length step = {};
  /// The largest distance of a rounded mark from its place; half a step at most, on any length.
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

/// A mark to the nearest whole step, half a step up. `mark` is 0 or more.
constexpr Length to_step(Length mark, Length step) {
  return step.times((mark + Length::from_um(step.um() / 2)).count_of(step));
}

/// Reckons the checks.
struct SettingOut {
  using is_stage = void;
  /// What the tape is read to: a tenth of a millimetre by default, 1/16 inch is 1587.5 and so 1588 um.
  Length step = Length::from_um(100);
  LengthUnit unit = LengthUnit::millimetres;

  /// Throws Error for a step that is not positive, or over 100 mm.
  template <When = When::called>
  SettingOutChecks operator()(const BoardMarks& marks) const {
    if (step <= Length{} || step > 100 * mm) {
      throw Error::out_of_range("step of the marks", to_text(step, LengthUnit::millimetres),
                                "above 0 and at most 100 mm");
    }
    SettingOutChecks checks{.step = step};
    for (const auto* list : {&marks.across, &marks.up}) {
      for (const Length mark : *list) {
        const Length rounded = to_step(mark, step);
        checks.largest_error = std::max(checks.largest_error, rounded > mark ? rounded - mark : mark - rounded);
      }
    }
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
