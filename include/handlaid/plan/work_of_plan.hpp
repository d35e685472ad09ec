// What there is to do for a panel, by either way of making it, so that the hours of both can be compared.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/takeoff/blade_gang.hpp"
#include "handlaid/takeoff/board_marks.hpp"
#include "handlaid/takeoff/cutting.hpp"
#include "handlaid/takeoff/frame.hpp"
#include "handlaid/takeoff/labour.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/paint_days.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/pilot.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// What is counted before the workshop is reckoned.
struct Counted {
  const Chart<>& chart;
  const Tally& tally;
  const PieceTakeoff& pieces;
  const std::optional<Order>& order;
  const std::optional<StripTakeoff>& strips;
  const BoardMarks& marks;
  /// What is made first, to try.
  const Patch& pilot;
};

/// The same chart, made in two ways.
struct MethodHours {
  LabourTakeoff piece_by_piece = {};
  /// One colour at a time, knife and guide: what needs no plan of sittings and no gang.
  LabourTakeoff painted_strips = {};
};

namespace detail {

/// What both ways have in common: the board with its marks and frame, and reading the list.
template <When = When::called>
WorkCounts common_work(const Counted& counted, const std::optional<FrameTakeoff>& frame) {
  WorkCounts counts;
  counts.board_marks = static_cast<std::int64_t>(counted.marks.across.size() + counted.marks.up.size());
  counts.runs = counted.tally.total_runs();
  counts.saw_cuts = 4;  // the panel
  if (frame) {
    for (const FramePart& part : frame->parts) counts.saw_cuts += part.count;
    counts.screws = frame->screws;
  }
  counts.sections_of = counted.tally.runs;
  if (!counts.sections_of.empty()) counts.sections_of[0] = 0;
  counts.pieces_of.assign(counts.sections_of.size(), 0);
  for (const PieceLine& line : counted.pieces.lines) {
    const auto number = static_cast<std::size_t>(line.number);
    if (number < counts.pieces_of.size()) counts.pieces_of[number] = line.pieces;
  }
  return counts;
}

template <When = When::called>
PaintPace pace_of(const Job& job) {
  return paint_pace(PaintDays{.bench_strips = 1'000'000,
                              .minutes_per_section = job.paint_days.minutes_per_section,
                              .minutes_per_opening = job.paint_days.minutes_per_opening,
                              .minutes_per_edge = job.paint_days.minutes_per_edge},
                    1);
}

/// Courses with a piece, and colours in each batch of them, added up.
struct StripCounts {
  std::int64_t strips = 0;
  std::int64_t openings = 0;
};
template <When = When::called>
StripCounts strip_counts(const Chart<>& chart, int strips_per_batch) {
  StripCounts counts;
  std::vector<bool> open;
  for (int course = 1; course <= chart.courses(); ++course) {
    bool laid = false;
    if (counts.strips % strips_per_batch == 0) open.assign(static_cast<std::size_t>(chart.palette.size()) + 1, false);
    for (const ColourNumber number : chart.course(course)) {
      if (number == 0) continue;
      laid = true;
      if (open[number]) continue;
      open[number] = true;
      ++counts.openings;
    }
    counts.strips += laid ? 1 : 0;
  }
  return counts;
}

}  // namespace detail

/// Work on painted strips with one colour at a time and with knife and guide, as counted from the chart alone.
template <When = When::called>
WorkCounts work_on_strips(const Job& job, const Counted& counted, const std::optional<FrameTakeoff>& frame) {
  WorkCounts counts = detail::common_work(counted, frame);
  const detail::StripCounts strips = detail::strip_counts(counted.chart, std::max(job.batches.strips_per_batch, 1));
  counts.strips = strips.strips;
  counts.strip_marks = counts.runs + counts.strips;
  const detail::PaintPace pace = detail::pace_of(job);
  const std::int64_t edges = std::max<std::int64_t>(counts.runs - counts.strips, 0);
  const std::int64_t coat_cs = counts.runs * pace.section_cs + edges * pace.edge_cs + strips.openings * pace.opening_cs;
  const std::int64_t per_batch = std::max(job.batches.strips_per_batch, 1);
  const std::int64_t batches = (strips.strips + per_batch - 1) / per_batch;
  const std::int64_t primer_cs = strips.strips * pace.section_cs + batches * pace.opening_cs;
  counts.painting_s = job.painting.faces * (job.painting.coats * coat_cs + job.painting.primer_coats * primer_cs) / 100;
  counts.cuts = std::max<std::int64_t>(counted.pieces.pieces() - counts.strips, 0);
  return counts;
}

/// Work on pieces that are laid one by one.
template <When = When::called>
WorkCounts work_on_pieces(const Counted& counted, const std::optional<FrameTakeoff>& frame) {
  WorkCounts counts = detail::common_work(counted, frame);
  counts.pieces = counted.pieces.pieces();
  return counts;
}

namespace detail {

/// The pilot by the same rates, each of its colours opened once a coat.
template <When = When::called>
TrialCounts trial_counts(const Job& job, const Counted& counted) {
  TrialCounts trial;
  if (!counted.strips) {
    for (const PieceLine& line : counted.pieces.lines) trial.pieces += line.trials;
    return trial;
  }
  const PaintPace pace = pace_of(job);
  std::int64_t sections = 0;
  for (const Strip& strip : counted.strips->trials) {
    ++trial.strips;
    sections += static_cast<std::int64_t>(strip.sections.size());
    trial.cuts += cells_of(strip) * counted.pieces.per_cell - 1;
  }
  trial.strip_marks = sections + trial.strips;
  const std::int64_t coat_cs =
      sections * pace.section_cs + (sections - trial.strips) * pace.edge_cs + counted.pilot.colours() * pace.opening_cs;
  const std::int64_t primer_cs = trial.strips * pace.section_cs + pace.opening_cs;
  trial.painting_s = job.painting.faces * (job.painting.coats * coat_cs + job.painting.primer_coats * primer_cs) / 100;
  return trial;
}

}  // namespace detail

/// Work by the job's own method, with the sittings and the gang that were planned, and what is tried first.
template <When = When::called>
WorkCounts work_of_job(const Job& job, const Counted& counted, const std::optional<FrameTakeoff>& frame,
                       const std::optional<PaintSchedule>& schedule, const std::optional<Gang>& gang) {
  WorkCounts counts = counted.strips ? work_on_strips(job, counted, frame) : work_on_pieces(counted, frame);
  counts.trial = detail::trial_counts(job, counted);
  if (schedule) counts.painting_s = schedule->ways.at(schedule->recommended).work_s;
  if (gang) {
    counts.cuts = 0;
    for (const Strip& strip : counted.strips->strips) {
      counts.passes += gang->passes(cells_of(strip) * counted.pieces.per_cell - 1);
    }
  }
  return counts;
}

}  // namespace handlaid
