// Strips: a length of material that makes one course, marked and painted run by run, then mounted and cut into pieces.
// `chart | Strips{…}`
#pragma once

#include <cstdint>
#include <vector>

#include "handlaid/core/length.hpp"
#include "handlaid/grid/runs.hpp"

namespace handlaid {

/// A stretch of a strip in one colour, between two marks measured from the datum end.
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

/// All strips of a chart, from the bottom course up.
struct StripTakeoff {
  std::vector<Strip> strips = {};
  /// Length of every strip, and its width when finished and flat (before folding: twice the width where folded).
  Length length = {};
  Length finished_width = {};
  Length flat_width = {};
  /// Length of material for all strips together.
  Length total_length = {};
  friend bool operator==(const StripTakeoff&, const StripTakeoff&) = default;
};

}  // namespace handlaid
