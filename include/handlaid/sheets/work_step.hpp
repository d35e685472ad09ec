// A step of the work as the bench book prints it, and the words that several steps share.
#pragma once

#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/cautions.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

/// One step: what to do, and what to mind.
struct WorkStep {
  std::string title = {};
  /// A paragraph a line.
  std::string text = {};
  std::vector<Hazard> hazards = {};
  /// Nothing after it is begun before it has passed.
  bool hold = false;
};

namespace detail {

/// "12 mm".
inline std::string with_unit(Length length, LengthUnit unit) { return mark_text(length, unit) + " " + symbol(unit); }

inline LengthUnit unit_of(const Plan& plan) { return plan.job.units.value_or(LengthUnit::millimetres); }

/// Where the pilot patch is, in words.
template <When = When::called>
std::string patch_words(const Patch& patch) {
  return "columns " + std::to_string(patch.first_column) + " to " + std::to_string(patch.last_column) + " of courses " +
         std::to_string(patch.first_course) + " to " + std::to_string(patch.last_course);
}

/// What is longer is not held close: common practice, no source.
inline constexpr Length held_close = 600 * mm;

/// Whether the panel is too heavy or too wide for one person.
inline bool takes_two(const Plan& plan) {
  const Size& board = plan.marks.board;
  return plan.fabrication.weight.persons > 1 || board.width > held_close || board.height > held_close;
}

/// What to do with the time of the pilot.
inline constexpr const char* timing_words =
    " Time it with a clock, type your seconds into the job and plan again (see \"When something changes\"), and look "
    "whether you still want the hours it says.";

}  // namespace detail

}  // namespace handlaid
