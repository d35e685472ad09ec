// The pace of laying: from the courses laid so far and their minutes, how many courses each day to come should see.
// `day_targets(fit_learning(timed_courses(chart, progress)), …)`
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/takeoff/learning.hpp"
#include "handlaid/takeoff/progress.hpp"

namespace handlaid {

/// The courses that were timed, by their place in the order of laying, with their pieces; those without a time or a
/// piece tell nothing. Throws Error as `laid_courses`.
template <AnyChart C>
std::vector<TimedWork> timed_courses(const C& chart, const Progress& progress, int per_cell = 1) {
  laid_courses(progress, chart.courses());
  std::vector<TimedWork> timed;
  for (std::size_t i = 0; i < progress.done.size(); ++i) {
    std::int64_t pieces = 0;
    for (const ColourNumber number : chart.course(progress.done[i].course)) pieces += number > 0 ? per_cell : 0;
    if (progress.done[i].time_s == 0 || pieces == 0) continue;
    timed.push_back({.unit = static_cast<std::int64_t>(i) + 1, .amount = pieces, .seconds = progress.done[i].time_s});
  }
  return timed;
}

/// Courses that are finished on each day, from the next day on, in the likely time. A course may go on the next day,
/// so a day can have none; all of them together are the courses asked for.
/// `first` is the place of the next course in the order of laying, from 1; `pieces` are those of each course to come;
/// `minutes_a_day` is 1 to 1440. Throws Error for others, and where it would take more than 100,000 days.
template <When = When::called>
std::vector<int> day_targets(const LearningCurve& curve, std::int64_t first, std::span<const std::int64_t> pieces,
                             int minutes_a_day) {
  if (minutes_a_day < 1 || minutes_a_day > 1'440) {
    throw Error::out_of_range("minutes a day", std::to_string(minutes_a_day), "1 to 1440 minutes");
  }
  const std::int64_t day_ms = std::int64_t{minutes_a_day} * 60'000;
  std::vector<int> days;
  std::int64_t done_ms = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const std::int64_t factor = learning_factor(first + static_cast<std::int64_t>(i), curve.percent);
    done_ms += pieces[i] * (curve.first_ms * factor / detail::learning_unit);
    // The day that a course ends on; one that takes no time ends with the one before.
    const std::int64_t day = done_ms == 0 ? 0 : (done_ms - 1) / day_ms;
    if (day >= 100'000) {
      throw Error::out_of_range("minutes a day", std::to_string(minutes_a_day), "enough of them to end in 100000 days");
    }
    if (static_cast<std::size_t>(day) >= days.size()) days.resize(static_cast<std::size_t>(day) + 1, 0);
    ++days[static_cast<std::size_t>(day)];
  }
  return days;
}

}  // namespace handlaid
