// Hours: each kind of work by its count and its rate, step by step and colour by colour. Rates are the maker's own as
// soon as there are any (takeoff/learning). `Rates{…}(counts)`
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/binomial.hpp"

namespace handlaid {

/// What is made first, to try.
struct TrialCounts {
  std::int64_t pieces = 0;
  std::int64_t strips = 0;
  std::int64_t strip_marks = 0;
  std::int64_t painting_s = 0;
  /// With knife and guide.
  std::int64_t cuts = 0;
};

/// What there is to do, counted elsewhere.
struct WorkCounts {
  TrialCounts trial = {};
  /// On the board and its rods.
  std::int64_t board_marks = 0;
  /// On strips.
  std::int64_t strip_marks = 0;
  std::int64_t strips = 0;
  std::int64_t painting_s = 0;
  /// Runs read off the course list and checked.
  std::int64_t runs = 0;
  /// Pieces laid one by one; 0 where strips are mounted.
  std::int64_t pieces = 0;
  /// With knife and guide, or passes of a gang and how many strips they run over.
  std::int64_t cuts = 0;
  std::int64_t passes = 0;
  /// Timbers and sheets to saw, and screws.
  std::int64_t saw_cuts = 0;
  std::int64_t screws = 0;
  /// Sections and pieces of each colour, from index 1.
  std::vector<std::int64_t> sections_of = {};
  std::vector<std::int64_t> pieces_of = {};
};

/// One kind of work.
struct LabourLine {
  std::string step = {};
  std::int64_t count = 0;
  /// For one, in thousandths of a second; 0 where it is not counted by the piece.
  std::int64_t each_ms = 0;
  std::int64_t seconds = 0;
  friend bool operator==(const LabourLine&, const LabourLine&) = default;
};

/// The hours.
struct LabourTakeoff {
  std::vector<LabourLine> lines = {};
  /// Laying, or marking and painting, of each colour from index 1.
  std::vector<std::int64_t> seconds_of = {};

  std::int64_t seconds() const {
    std::int64_t total = 0;
    for (const LabourLine& line : lines) total += line.seconds;
    return total;
  }
  friend bool operator==(const LabourTakeoff&, const LabourTakeoff&) = default;
};

/// Seconds for one of each: common practice, no source. Time your own pilot and put in what it says.
struct Rates {
  double seconds_per_mark = 6;
  double seconds_per_strip_mark = 4;
  /// To cut a strip to length, fold and label it.
  double seconds_per_strip = 90;
  /// To glue a strip on and press it.
  double seconds_per_mounting = 150;
  /// To find a run on the list and check it.
  double seconds_per_run = 3;
  double seconds_per_piece = 6;
  double seconds_per_cut = 4;
  double seconds_per_pass = 12;
  double seconds_per_saw_cut = 120;
  double seconds_per_screw = 20;
  friend constexpr bool operator==(const Rates&, const Rates&) = default;

  /// Lines with a count of 0 are left out. Throws Error for a rate outside 0…100,000 s, or NaN.
  template <When = When::called>
  LabourTakeoff operator()(const WorkCounts& counts) const;
};

namespace detail {

template <When = When::called>
std::int64_t rate_ms(double seconds, const char* name) {
  constexpr auto range = "0 to 100000 seconds";
  if (!(seconds >= 0)) throw Error::out_of_range(name, seconds != seconds ? "not a number" : "the value given", range);
  return billionths(seconds / 1e6, 0.1, name, range);
}

}  // namespace detail

template <When>
LabourTakeoff Rates::operator()(const WorkCounts& counts) const {
  LabourTakeoff labour;
  const auto add = [&](const char* step, std::int64_t count, double seconds, const char* word) {
    const std::int64_t each = detail::rate_ms(seconds, word);
    if (count > 0) labour.lines.push_back({step, count, each, (count * each + 500) / 1'000});
    return each;
  };
  const std::int64_t trial_ms =
      counts.trial.pieces * detail::rate_ms(seconds_per_piece, "seconds-per-piece") +
      counts.trial.strips * (detail::rate_ms(seconds_per_strip, "seconds-per-strip") +
                             detail::rate_ms(seconds_per_mounting, "seconds-per-mounting")) +
      counts.trial.strip_marks * detail::rate_ms(seconds_per_strip_mark, "seconds-per-strip-mark") +
      counts.trial.cuts * detail::rate_ms(seconds_per_cut, "seconds-per-cut") + counts.trial.painting_s * 1'000;
  if (trial_ms > 0) labour.lines.push_back({"make the pilot", 0, 0, (trial_ms + 500) / 1'000});
  add("set out marks on the board", counts.board_marks, seconds_per_mark, "seconds-per-mark");
  add("saw timber and sheets", counts.saw_cuts, seconds_per_saw_cut, "seconds-per-saw-cut");
  add("drive screws", counts.screws, seconds_per_screw, "seconds-per-screw");
  add("cut, fold and label strips", counts.strips, seconds_per_strip, "seconds-per-strip");
  const std::int64_t mark =
      add("mark sections on strips", counts.strip_marks, seconds_per_strip_mark, "seconds-per-strip-mark");
  if (counts.painting_s > 0) labour.lines.push_back({"prime and paint", 0, 0, counts.painting_s});
  const std::int64_t run = add("read and check runs", counts.runs, seconds_per_run, "seconds-per-run");
  const std::int64_t piece = add("lay pieces", counts.pieces, seconds_per_piece, "seconds-per-piece");
  add("mount strips", counts.strips, seconds_per_mounting, "seconds-per-mounting");
  add("cut with knife and guide", counts.cuts, seconds_per_cut, "seconds-per-cut");
  add("cut with the gang of blades", counts.passes, seconds_per_pass, "seconds-per-pass");

  // A colour's share: its pieces, or its sections with their marks and its part of the painting; reading for both.
  std::int64_t all_sections = 0;
  for (const std::int64_t sections : counts.sections_of) all_sections += sections;
  for (std::size_t n = 0; n < counts.sections_of.size(); ++n) {
    const std::int64_t sections = counts.sections_of[n];
    std::int64_t ms = sections * run;
    if (counts.pieces > 0) {
      ms += (n < counts.pieces_of.size() ? counts.pieces_of[n] : 0) * piece;
    } else if (all_sections > 0) {
      ms += sections * mark + counts.painting_s * 1'000 / all_sections * sections;
    }
    labour.seconds_of.push_back((ms + 500) / 1'000);
  }
  return labour;
}

}  // namespace handlaid
