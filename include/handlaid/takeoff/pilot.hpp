// The pilot: a small patch that is made first, to the end, before the rest is bought. The richest part of the panel, so
// that as many colours as can be are tried on it. `chart | PilotPatch{.columns = 10, .courses = 5}`
// It is made on an offcut and stays there, so what it takes comes beside the panel and its spares:
// `pieces | TrialPieces{.patch = patch}`, `strips | TrialStrips{.patch = patch}`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// A part of the panel, columns and courses from 1, all included.
struct Patch {
  int first_column = 0;
  int last_column = 0;
  int first_course = 0;
  int last_course = 0;
  /// Cells of each colour in it; index 0 is the empty ones.
  std::vector<std::int64_t> cells = {};

  std::int64_t laid() const {
    std::int64_t total = 0;
    for (std::size_t n = 1; n < cells.size(); ++n) total += cells[n];
    return total;
  }
  int colours() const {
    int used = 0;
    for (std::size_t n = 1; n < cells.size(); ++n) used += cells[n] > 0 ? 1 : 0;
    return used;
  }
  friend bool operator==(const Patch&, const Patch&) = default;
};

/// Chooses the patch with the most colours; of equals the one with the most cells, the lowest, the leftmost one.
/// Of a chart above a million cells only patches are tried that stand on one another, so that a mural takes no longer.
struct PilotPatch {
  using is_stage = void;
  /// 1 or more each; a smaller chart is a patch as a whole. Ten by five is an evening's work: common practice, no
  /// source.
  int columns = 10;
  int courses = 5;
  friend constexpr bool operator==(const PilotPatch&, const PilotPatch&) = default;

  /// Throws Error for a patch without a cell.
  template <AnyChart C>
  Patch operator()(const C& chart) const;
};

/// Counts the pieces that are tried beside the panel: those of the patch, and a few of the commonest colour (the lowest
/// number of equals) that are torn off again the next day.
struct TrialPieces {
  using is_stage = void;
  Patch patch = {};
  /// 0 or more; ten show whether the glue holds: common practice, no source.
  int torn_off = 10;

  /// Throws Error for a patch of another palette, or fewer than none torn off.
  template <When = When::called>
  PieceTakeoff operator()(PieceTakeoff takeoff) const;
};

/// Adds the strips that are tried beside the panel: those of the patch, each from its first column on, and before them
/// one that is made to the end alone, with the colours of the lowest.
struct TrialStrips {
  using is_stage = void;
  Patch patch = {};

  template <When = When::called>
  StripTakeoff operator()(StripTakeoff takeoff) const;
};

/// An order in two parts: what the patch needs, to be bought first, and what is bought once it has passed.
/// Together they are the packs of the whole order: trying first costs nothing more.
struct SplitOrder {
  Order pilot = {};
  Order rest = {};
  friend bool operator==(const SplitOrder&, const SplitOrder&) = default;
};

/// Takes for the patch the smallest packs of the order that cover what it needs of each colour, index n being colour n,
/// in the order's own unit. What is in hand is used first.
template <When = When::called>
SplitOrder split_for_pilot(const Order& order, const std::vector<std::int64_t>& needed);

namespace detail {

/// What stands in a window that is moved along a chart.
struct PatchCounts {
  std::vector<std::int64_t> cells = {};
  int colours = 0;
  std::int64_t laid = 0;

  void add(ColourNumber number) {
    if (cells[number]++ == 0 && number != 0) ++colours;
    laid += number != 0 ? 1 : 0;
  }
  void remove(ColourNumber number) {
    if (--cells[number] == 0 && number != 0) --colours;
    laid -= number != 0 ? 1 : 0;
  }
};

}  // namespace detail

template <AnyChart C>
Patch PilotPatch::operator()(const C& chart) const {
  if (columns < 1 || courses < 1) {
    throw Error::out_of_range("pilot", std::to_string(columns) + " x " + std::to_string(courses) + " cells",
                              "1 column and 1 course or more");
  }
  const int wide = std::min(columns, chart.columns());
  const int high = std::min(courses, chart.courses());
  Patch best;
  int best_colours = -1;
  std::int64_t best_laid = -1;
  const int step = std::int64_t{chart.columns()} * chart.courses() > 1'000'000 ? high : 1;
  for (int course = 1; course + high - 1 <= chart.courses(); course += step) {
    detail::PatchCounts counts{.cells = std::vector<std::int64_t>(static_cast<std::size_t>(chart.palette.size()) + 1)};
    for (int column = 1; column <= chart.columns(); ++column) {
      for (int up = 0; up < high; ++up) {
        const auto cells = chart.course(course + up);
        counts.add(cells[static_cast<std::size_t>(column - 1)]);
        if (column > wide) counts.remove(cells[static_cast<std::size_t>(column - 1 - wide)]);
      }
      if (column < wide) continue;
      if (std::pair(counts.colours, counts.laid) <= std::pair(best_colours, best_laid)) continue;
      best_colours = counts.colours;
      best_laid = counts.laid;
      best = {column - wide + 1, column, course, course + high - 1, counts.cells};
    }
  }
  return best;
}

template <When>
PieceTakeoff TrialPieces::operator()(PieceTakeoff takeoff) const {
  if (torn_off < 0 || torn_off > 1'000'000) {
    throw Error::out_of_range("pieces to tear off", std::to_string(torn_off), "0 to 1000000");
  }
  if (patch.cells.size() > takeoff.lines.size() + 1) {
    throw Error::bad_input("pilot",
                           "its patch has " + std::to_string(patch.cells.size() - 1) + " colours, the takeoff " +
                               std::to_string(takeoff.lines.size()),
                           "give a patch of the same chart");
  }
  PieceLine* commonest = nullptr;
  for (PieceLine& line : takeoff.lines) {
    const auto number = static_cast<std::size_t>(line.number);
    line.trials = number < patch.cells.size() ? patch.cells[number] * takeoff.per_cell : 0;
    if (commonest == nullptr || line.cells > commonest->cells) commonest = &line;
  }
  if (commonest != nullptr && commonest->cells > 0) commonest->trials += torn_off;
  return takeoff;
}

template <When>
StripTakeoff TrialStrips::operator()(StripTakeoff takeoff) const {
  takeoff.trials.clear();
  for (const Strip& strip : takeoff.strips) {
    if (strip.course < patch.first_course || strip.course > patch.last_course) continue;
    Strip trial{.course = strip.course};
    for (const StripSection& section : strip.sections) {
      if (section.last_column < patch.first_column || section.first_column > patch.last_column) continue;
      // Columns of strips are equally wide.
      const Length pitch = section.end.divided(section.last_column);
      const int first = std::max(section.first_column, patch.first_column) - patch.first_column;
      const int last = std::min(section.last_column, patch.last_column) - patch.first_column + 1;
      trial.sections.push_back({section.number, first + 1, last, pitch.times(first), pitch.times(last)});
    }
    while (!trial.sections.empty() && trial.sections.back().number == 0) trial.sections.pop_back();
    if (trial.sections.empty()) continue;
    if (takeoff.trials.empty()) takeoff.trials.push_back(trial);
    takeoff.trials.push_back(std::move(trial));
  }
  return takeoff;
}

template <When>
SplitOrder split_for_pilot(const Order& order, const std::vector<std::int64_t>& needed) {
  SplitOrder split{.pilot = {.currency = order.currency, .unit = order.unit},
                   .rest = {.currency = order.currency, .unit = order.unit}};
  for (const OrderLine& line : order.lines) {
    const auto number = static_cast<std::size_t>(line.number);
    OrderLine first{.number = line.number, .name = line.name};
    OrderLine rest = line;
    first.needed = std::min(line.needed, number < needed.size() ? needed[number] : 0);
    first.from_hand = std::min(first.needed, line.from_hand);
    rest.packs.clear();
    std::vector<PackCount> taken;
    for (auto packs = line.packs.rbegin(); packs != line.packs.rend(); ++packs) {  // the smallest first
      const std::int64_t missing = std::max<std::int64_t>(first.needed - first.from_hand - first.bought, 0);
      const std::int64_t size = std::max<std::int64_t>(packs->pack.pieces, 1);
      std::int64_t count = std::min(packs->count, (missing + size - 1) / size);
      if (count > 0 && count < packs->pack.at_least) count = std::min(packs->count, packs->pack.at_least);
      if (count > 0 && packs->count - count > 0 && packs->count - count < packs->pack.at_least) count = packs->count;
      first.bought += count * packs->pack.pieces;
      first.cost_hundredths += count * packs->pack.price_hundredths;
      if (count > 0) taken.insert(taken.begin(), {packs->pack, count});
      if (packs->count > count) rest.packs.insert(rest.packs.begin(), {packs->pack, packs->count - count});
    }
    first.packs = std::move(taken);
    first.left_over = first.bought - std::min(first.bought, first.needed - first.from_hand);
    rest.needed -= first.needed;
    rest.from_hand -= first.from_hand;
    rest.bought -= first.bought;
    rest.cost_hundredths -= first.cost_hundredths;
    // What the patch leaves over goes into the panel; what the panel leaves over is as in the whole order.
    if (first.needed > 0) split.pilot.lines.push_back(std::move(first));
    split.rest.lines.push_back(std::move(rest));
  }
  return split;
}

}  // namespace handlaid
