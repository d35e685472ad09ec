// Strips: a length of material that makes one course, marked and painted run by run, then mounted and cut into pieces.
// `chart | Strips{…}`
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/runs.hpp"

namespace handlaid {

/// A stretch of a strip in one colour, between two marks measured from the datum end, the left one.
/// Number 0 is a gap: nothing is laid there, and it stays unpainted.
struct StripSection {
  ColourNumber number = 0;
  int first_column = 0;
  int last_column = 0;
  Length start = {};
  Length end = {};
  friend constexpr bool operator==(const StripSection&, const StripSection&) = default;
};

/// The strip of one course.
struct Strip {
  /// From 1 at the bottom.
  int course = 0;
  std::vector<StripSection> sections = {};
  friend bool operator==(const Strip&, const Strip&) = default;
};

/// All strips of a chart, from the bottom course up; a course without a single piece has none.
struct StripTakeoff {
  std::vector<Strip> strips = {};
  /// Length of every strip, trim included, and its width when finished and flat (before folding: twice the width where
  /// folded).
  Length length = {};
  Length finished_width = {};
  Length flat_width = {};
  /// Length of material for all strips together.
  Length total_length = {};
  friend bool operator==(const StripTakeoff&, const StripTakeoff&) = default;
};

/// Makes a strip of each course. Only a lattice of equal columns has strips.
struct Strips {
  using is_stage = void;
  /// Width as mounted; zero means the distance of courses.
  Length finished_width = {};
  /// Folded along its length: twice as wide before.
  bool folded = false;
  /// Added beyond the last mark, and cut off after mounting.
  Length trim = {};

  /// Throws Error for a negative trim or width, or one over 10 m.
  template <When = When::called>
  StripTakeoff operator()(const Chart<Rectangular>& chart) const {
    const auto check = [](const char* name, Length length) {
      if (length < Length{} || length > 10'000 * mm) {
        throw Error::out_of_range(name, std::to_string(length.um()) + " um", "0 to 10 m");
      }
    };
    check("strip width", finished_width);
    check("strip trim", trim);
    const Rectangular& lattice = chart.lattice;
    StripTakeoff takeoff;
    takeoff.length = lattice.pitch_x().times(chart.columns()) + trim;
    takeoff.finished_width = finished_width == Length{} ? lattice.pitch_y() : finished_width;
    takeoff.flat_width = takeoff.finished_width.times(folded ? 2 : 1);
    for (int course = 1; course <= chart.courses(); ++course) {
      Strip strip{.course = course};
      bool laid = false;
      for_each_run(chart, course, [&](const Run& run) {
        laid = laid || run.number != 0;
        strip.sections.push_back({.number = run.number,
                                  .first_column = run.first,
                                  .last_column = run.last,
                                  .start = lattice.pitch_x().times(run.first - 1),
                                  .end = lattice.pitch_x().times(run.last)});
      });
      if (laid) takeoff.strips.push_back(std::move(strip));
    }
    takeoff.total_length = takeoff.length.times(static_cast<std::int64_t>(takeoff.strips.size()));
    return takeoff;
  }
};

}  // namespace handlaid
