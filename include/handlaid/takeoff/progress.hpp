// Progress: which courses are laid, how long each took, and what remains of each colour.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"

namespace handlaid {

/// A course that is laid.
struct DoneCourse {
  /// From 1 at the bottom.
  int course = 0;
  /// Time it took in seconds, 1 to 3,600,000; 0 where it was not timed.
  std::int64_t time_s = 0;
  friend constexpr bool operator==(const DoneCourse&, const DoneCourse&) = default;
};

/// The courses laid, in the order in which they were laid.
struct Progress {
  std::vector<DoneCourse> done = {};
  friend bool operator==(const Progress&, const Progress&) = default;
};

/// What is done of a colour and what remains, in pieces. Together they are the whole.
struct RemainingLine {
  /// Colour number, from 1.
  int number = 0;
  std::int64_t done = 0;
  std::int64_t left = 0;
  friend constexpr bool operator==(const RemainingLine&, const RemainingLine&) = default;
};

/// What remains of a chart: a line for each colour of the palette, and the courses to lay, from the bottom.
struct Remaining {
  std::vector<RemainingLine> lines = {};
  std::vector<int> courses = {};
  /// Pieces of each of those courses.
  std::vector<std::int64_t> course_pieces = {};

  std::int64_t left() const {
    std::int64_t total = 0;
    for (const RemainingLine& line : lines) total += line.left;
    return total;
  }
  friend bool operator==(const Remaining&, const Remaining&) = default;
};

/// True at `course - 1` where that course is laid. Throws Error for a course beyond the chart, one that stands twice,
/// or a time out of range.
template <When = When::called>
std::vector<bool> laid_courses(const Progress& progress, int courses) {
  std::vector<bool> laid(static_cast<std::size_t>(courses < 0 ? 0 : courses), false);
  for (const DoneCourse& done : progress.done) {
    const std::string where = "progress, course " + std::to_string(done.course);
    if (done.course < 1 || done.course > courses) {
      throw Error::bad_input(where, "the chart has courses 1 to " + std::to_string(courses), "give one of them");
    }
    if (done.time_s < 0 || done.time_s > 3'600'000) {
      throw Error::bad_input(where, std::to_string(done.time_s) + " seconds are out of range",
                             "give at most 1000 hours, or 0 where it was not timed");
    }
    const auto at = static_cast<std::size_t>(done.course) - 1;
    if (laid[at]) throw Error::bad_input(where, "it stands there twice", "keep one of them");
    laid[at] = true;
  }
  return laid;
}

/// Counts what remains. `per_cell` is pieces a cell, 1 to 1000. Throws Error as `laid_courses`.
template <AnyChart C>
Remaining remaining(const C& chart, const Progress& progress, int per_cell = 1) {
  if (per_cell < 1 || per_cell > 1000) {
    throw Error::out_of_range("pieces-per-cell", std::to_string(per_cell), "1 to 1000 pieces a cell");
  }
  const std::vector<bool> laid = laid_courses(progress, chart.courses());
  Remaining result;
  for (int number = 1; number <= chart.palette.size(); ++number) result.lines.push_back({.number = number});
  for (int course = 1; course <= chart.courses(); ++course) {
    const bool done = laid[static_cast<std::size_t>(course) - 1];
    std::int64_t pieces = 0;
    for_each_run(chart, course, [&](const Run& run) {
      if (run.number == 0) return;
      const std::int64_t count = std::int64_t{run.length()} * per_cell;
      RemainingLine& line = result.lines.at(static_cast<std::size_t>(run.number) - 1);
      (done ? line.done : line.left) += count;
      pieces += count;
    });
    if (done) continue;
    result.courses.push_back(course);
    result.course_pieces.push_back(pieces);
  }
  return result;
}

}  // namespace handlaid
