// Runs: neighbouring cells of one colour along a course. Visited, never stored: a chart may have millions.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/grid/chart.hpp"

namespace handlaid {

/// Cells `first` to `last` (columns from 1, both included) of a course have this number. 0 is a gap.
struct Run {
  int course = 0;
  int first = 0;
  int last = 0;
  ColourNumber number = 0;
  constexpr int length() const { return last - first + 1; }
  friend constexpr bool operator==(const Run&, const Run&) = default;
};

/// Calls `visit(Run)` for each run of a course, from the left; gaps are visited too, with number 0.
template <AnyChart C, class Visit>
void for_each_run(const C& chart, int course, Visit&& visit) {
  const auto cells = chart.course(course);
  const int columns = static_cast<int>(cells.size());
  for (int first = 0; first < columns;) {
    int end = first + 1;
    while (end < columns && cells[static_cast<std::size_t>(end)] == cells[static_cast<std::size_t>(first)]) ++end;
    visit(Run{course, first + 1, end, cells[static_cast<std::size_t>(first)]});
    first = end;
  }
}

/// What is counted of a chart, once, for every sheet: index 0 is the empty cells, index n is colour n.
/// Tallies of parts add up to the tally of the whole, as long as parts are cut between courses.
struct Tally {
  std::vector<std::int64_t> cells = {};
  std::vector<std::int64_t> runs = {};
  /// Courses that a colour occurs in.
  std::vector<std::int64_t> courses = {};
  std::int64_t course_count = 0;

  int colours() const { return cells.empty() ? 0 : static_cast<int>(cells.size()) - 1; }
  /// Cells that get a piece.
  std::int64_t laid() const { return sum(cells); }
  /// Runs of cells that get a piece.
  std::int64_t total_runs() const { return sum(runs); }
  /// Colours with at least one cell.
  int colours_used() const {
    int used = 0;
    for (std::size_t n = 1; n < cells.size(); ++n) used += cells[n] > 0 ? 1 : 0;
    return used;
  }

  friend Tally operator+(Tally a, const Tally& b) {
    add(a.cells, b.cells);
    add(a.runs, b.runs);
    add(a.courses, b.courses);
    a.course_count += b.course_count;
    return a;
  }
  friend bool operator==(const Tally&, const Tally&) = default;

 private:
  static std::int64_t sum(const std::vector<std::int64_t>& counts) {
    std::int64_t total = 0;
    for (std::size_t n = 1; n < counts.size(); ++n) total += counts[n];
    return total;
  }
  static void add(std::vector<std::int64_t>& to, const std::vector<std::int64_t>& from) {
    to.resize(std::max(to.size(), from.size()));
    for (std::size_t n = 0; n < from.size(); ++n) to[n] += from[n];
  }
};

/// Counts a chart; as a stage, `chart | tally`.
struct TallyStage {
  using is_stage = void;
  template <AnyChart C>
  Tally operator()(const C& chart) const {
    const auto colours = static_cast<std::size_t>(chart.palette.size()) + 1;
    Tally count;
    count.cells.resize(colours);
    count.runs.resize(colours);
    count.courses.resize(colours);
    count.course_count = chart.courses();
    std::vector<int> last_seen(colours, 0);
    for (int course = 1; course <= chart.courses(); ++course) {
      for_each_run(chart, course, [&](const Run& run) {
        count.cells[run.number] += run.length();
        ++count.runs[run.number];
        if (last_seen[run.number] != course) ++count.courses[run.number];
        last_seen[run.number] = course;
      });
    }
    return count;
  }
};
inline constexpr TallyStage tally;

}  // namespace handlaid
