// Strips: a length of material that makes one course, marked and painted run by run, mounted and cut into pieces.
// `chart | Strips{…}`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
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
  /// From the datum to the last that is not a gap.
  std::vector<StripSection> sections = {};
  /// As mounted, from the datum to its last section, without trim: all its marks are measured from its left end.
  Length length() const { return sections.empty() ? Length{} : sections.back().end; }
  friend bool operator==(const Strip&, const Strip&) = default;
};

/// How the material lies in a strip.
enum class Fold {
  none,        ///< one layer
  end_to_end,  ///< doubled along its length: twice as long before
  lengthwise   ///< folded along its length: twice as wide before
};

/// All strips of a chart, from the bottom course up; a course without a single piece has none.
struct StripTakeoff {
  std::vector<Strip> strips = {};
  Fold fold = Fold::none;
  /// Length of the longest strip as mounted, trim included.
  Length length = {};
  /// Added to each strip, and cut off after mounting.
  Length trim = {};
  /// Width as mounted.
  Length finished_width = {};
  /// How much of it lies on the course below.
  Length overlap = {};
  /// How much of it, along the edge that is fastened to the board, is never cut.
  Length fastened_edge = {};
  /// Width of the material before folding.
  Length flat_width = {};
  /// Length of material for the strips of all courses together.
  Length total_length = {};
  /// Strips beyond those of the courses, as long as the longest, for those that are spoilt; 0 until `StripSpares`
  /// (takeoff/strip_spares) has set it.
  std::int64_t spares = 0;
  /// Strips that are made to try and stay off the panel, their marks measured from their own end; none until
  /// `TrialStrips` (takeoff/pilot) has set them.
  std::vector<Strip> trials = {};

  /// Layers of material at any place of a strip.
  int layers() const { return fold == Fold::none ? 1 : 2; }
  /// Length of material that the strip is made from.
  Length flat_length(const Strip& strip) const {
    return (strip.length() + trim).times(fold == Fold::end_to_end ? 2 : 1);
  }
  /// The same of a spare one.
  Length flat_length_of_spare() const { return length.times(fold == Fold::end_to_end ? 2 : 1); }
  /// Length of material for strips, spares and trials together.
  Length needed_length() const {
    Length needed = total_length + flat_length_of_spare().times(spares);
    for (const Strip& strip : trials) needed += flat_length(strip);
    return needed;
  }
  /// What of its width is glued: the fastened edge, or all of it where there is none.
  Length glued_width() const { return fastened_edge > Length{} ? fastened_edge : finished_width; }
  /// Under the strips of all courses, and as much again between the halves of folded ones.
  std::int64_t glued_mm2() const {
    std::int64_t glued = 0;
    for (const Strip& strip : strips) glued += (strip.length().um() / 100) * (glued_width().um() / 100) / 100;
    return glued * layers();
  }
  friend bool operator==(const StripTakeoff&, const StripTakeoff&) = default;
};

/// Makes a strip of each course, from the datum as far as anything is laid of it. Only a lattice of equal columns has
/// strips.
struct Strips {
  using is_stage = void;
  Fold fold = Fold::none;
  /// Width as mounted; zero means the distance of courses and the overlap.
  Length finished_width = {};
  /// How far each strip reaches over the course below; zero means what the width has beyond the distance of courses.
  Length overlap = {};
  /// Along the edge by which a strip hangs on the board: never cut, so that pieces do not come off.
  Length fastened_edge = {};
  /// Added beyond the last mark, and cut off after mounting.
  Length trim = {};
  friend constexpr bool operator==(const Strips&, const Strips&) = default;

  /// Throws Error for a length that is negative or over 10 m, a width that is not the distance of courses and the
  /// overlap or is less than that distance, and a fastened edge that leaves nothing to cut.
  template <When = When::called>
  StripTakeoff operator()(const Chart<Rectangular>& chart) const {
    const Rectangular& lattice = chart.lattice;
    StripTakeoff takeoff{.fold = fold, .trim = trim, .fastened_edge = fastened_edge};
    takeoff.finished_width = checked_width(lattice.pitch_y());
    takeoff.overlap = takeoff.finished_width - lattice.pitch_y();
    takeoff.flat_width = takeoff.finished_width.times(fold == Fold::lengthwise ? 2 : 1);
    for (int course = 1; course <= chart.courses(); ++course) {
      Strip strip{.course = course};
      for_each_run(chart, course, [&](const Run& run) {
        strip.sections.push_back({.number = run.number,
                                  .first_column = run.first,
                                  .last_column = run.last,
                                  .start = lattice.pitch_x().times(run.first - 1),
                                  .end = lattice.pitch_x().times(run.last)});
      });
      if (strip.sections.back().number == 0) strip.sections.pop_back();
      if (strip.sections.empty()) continue;
      takeoff.length = std::max(takeoff.length, strip.length() + trim);
      takeoff.total_length += takeoff.flat_length(strip);
      takeoff.strips.push_back(std::move(strip));
    }
    return takeoff;
  }

 private:
  template <When = When::called>
  Length checked_width(Length course_pitch) const {
    const auto text = [](Length length) { return to_text(length, LengthUnit::millimetres); };
    const auto check = [&](const char* name, Length length) {
      if (length < Length{} || length > 10'000 * mm) throw Error::out_of_range(name, text(length), "0 to 10 m");
    };
    check("strip-width", finished_width);
    check("overlap", overlap);
    check("fastened-edge", fastened_edge);
    check("strip-trim", trim);
    const Length needed = course_pitch + overlap;
    if (finished_width != Length{} && overlap != Length{} && finished_width != needed) {
      throw Error::bad_option("strip-width",
                              text(finished_width) + " is not the " + text(course_pitch) + " between courses and the " +
                                  text(overlap) + " of overlap",
                              "make it " + text(needed) + ", or leave one of the two out");
    }
    if (finished_width != Length{} && finished_width < course_pitch) {
      throw Error::bad_option("strip-width",
                              text(finished_width) + " is less than the " + text(course_pitch) +
                                  " between courses and leaves the board bare",
                              "make it " + text(course_pitch) + " or more, or the courses nearer");
    }
    const Length width = finished_width == Length{} ? needed : finished_width;
    if (width <= fastened_edge) {
      throw Error::bad_option("fastened-edge",
                              text(fastened_edge) + " of a strip that is " + text(width) + " wide leave nothing to cut",
                              "make it " + text(width.divided(2)) + " or less, or the strip wider");
    }
    return width;
  }
};

}  // namespace handlaid
