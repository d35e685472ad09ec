// What a course can be checked by when it is laid: how many cells and runs it has, and its check figures.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/solve/check_figure.hpp"
#include "handlaid/solve/edits.hpp"

namespace handlaid {

/// The figures of a course. Empty cells count as number 0 in `figure`.
struct CourseCheck {
  int course = 0;
  /// Cells that get a piece.
  int laid = 0;
  /// Runs as the course is read out: gaps count.
  int runs = 0;
  CheckFigure figure = {};
  friend bool operator==(const CourseCheck&, const CourseCheck&) = default;
};

/// The figures of a course, 1 to `chart.courses()`; throws Error for any other, or above 100,002 columns.
template <AnyChart C>
CourseCheck check_course(const C& chart, int course) {
  if (course < 1 || course > chart.courses()) {
    throw Error::out_of_range("course", std::to_string(course), "1 to " + std::to_string(chart.courses()));
  }
  CourseCheck check{.course = course, .figure = check_figure(chart.course(course))};
  for_each_run(chart, course, [&](const Run& run) {
    ++check.runs;
    if (run.number != 0) check.laid += run.length();
  });
  return check;
}

/// The figures of every course, course 1 first; as a stage, `chart | course_checks`.
struct CourseChecksStage {
  using is_stage = void;
  template <AnyChart C>
  std::vector<CourseCheck> operator()(const C& chart) const {
    std::vector<CourseCheck> checks;
    for (int course = 1; course <= chart.courses(); ++course) checks.push_back(check_course(chart, course));
    return checks;
  }
};
inline constexpr CourseChecksStage course_checks;

/// The column that a run of a course ends at, runs from 1; 0 where the course has fewer. Throws Error for a course out
/// of range.
template <AnyChart C>
int end_of_run(const C& chart, int course, int run) {
  check_course(chart, course);
  int end = 0;
  for_each_run(chart, course, [&](const Run& r) {
    if (--run == 0) end = r.last;
  });
  return end;
}

/// A slip in a course: cells `first` to `last` of the course as it should be, columns from 1.
struct CourseSlip {
  EditKind kind = EditKind::changed;
  int first = 0;
  int last = 0;
  /// What stands there and what should be; 0 is an empty cell. Of a swap, of the first of the two. Of missing cells
  /// `found`, of extra ones `wanted` says nothing.
  ColourNumber found = 0;
  ColourNumber wanted = 0;
  int length() const { return last - first + 1; }
  friend bool operator==(const CourseSlip&, const CourseSlip&) = default;
};

/// The fewest slips that explain what stands in a course, from the datum end. Neighbours with the same slip are one.
/// Extra cells stand before column `first` of the course as it should be. Throws Error for a course out of range.
template <AnyChart C>
std::vector<CourseSlip> course_slips(const C& chart, int course, const std::vector<ColourNumber>& laid) {
  check_course(chart, course);
  const auto wanted = chart.course(course);
  std::vector<CourseSlip> slips;
  for (const Edit& edit : fewest_edits(std::span<const ColourNumber>(laid), wanted)) {
    CourseSlip slip{.kind = edit.kind, .first = static_cast<int>(edit.wanted_place)};
    slip.last = edit.kind == EditKind::swapped ? slip.first + 1 : slip.first;
    if (edit.kind != EditKind::missing) slip.found = laid[static_cast<std::size_t>(edit.found_place) - 1];
    if (edit.kind != EditKind::extra) slip.wanted = wanted[static_cast<std::size_t>(edit.wanted_place) - 1];
    const bool goes_on = !slips.empty() && slip.kind != EditKind::swapped && slips.back().kind == slip.kind &&
                         slips.back().found == slip.found && slips.back().wanted == slip.wanted;
    if (goes_on && slip.kind == EditKind::extra && slips.back().first == slip.first) {
      ++slips.back().last;
    } else if (goes_on && slip.kind != EditKind::extra && slips.back().last + 1 == slip.first) {
      slips.back().last = slip.last;
    } else {
      slips.push_back(slip);
    }
  }
  return slips;
}

}  // namespace handlaid
