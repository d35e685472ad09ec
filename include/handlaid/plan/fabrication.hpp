// How a planned panel is made: everything that follows from its chart and the job's words on material, tools, board and
// wall. Part of a plan; `fabricate(job, …)` makes it from what is counted already.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/takeoff/blade_gang.hpp"
#include "handlaid/takeoff/board_growth.hpp"
#include "handlaid/takeoff/board_marks.hpp"
#include "handlaid/takeoff/consumables.hpp"
#include "handlaid/takeoff/cutting.hpp"
#include "handlaid/takeoff/flat_spares.hpp"
#include "handlaid/takeoff/frame.hpp"
#include "handlaid/takeoff/hanging.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/pilot.hpp"
#include "handlaid/takeoff/rolls.hpp"
#include "handlaid/takeoff/setting_out.hpp"
#include "handlaid/takeoff/sheet_goods.hpp"
#include "handlaid/takeoff/strips.hpp"
#include "handlaid/takeoff/weight.hpp"

namespace handlaid {

/// All that is reckoned for the workshop. What the method has no use for is empty.
struct Fabrication {
  Patch pilot = {};
  /// The order in two parts, before and after the pilot.
  std::optional<SplitOrder> orders = {};
  /// What flat percentages of spares would risk, for comparison.
  std::vector<FlatSpareRisk> flat_spares = {};
  std::optional<RollTakeoff> rolls = {};
  std::optional<CuttingTakeoff> cutting = {};
  std::optional<Gang> gang = {};
  SettingOutChecks checks = {};
  /// Empty for a panel that is too small or too large for stock sheets.
  std::optional<SheetTakeoff> sheets = {};
  std::optional<FrameTakeoff> frame = {};
  Growth growth = {};
  WeightTakeoff weight = {};
  HangingTakeoff hanging = {};
  std::vector<ConsumableLine> consumables = {};
};

/// What is counted before.
struct Counted {
  const Chart<>& chart;
  const Tally& tally;
  const PieceTakeoff& pieces;
  const std::optional<Order>& order;
  const std::optional<StripTakeoff>& strips;
  const BoardMarks& marks;
};

/// Throws Error where words of the job contradict each other or the panel.
template <When = When::called>
Fabrication fabricate(const Job& job, const Counted& counted);

namespace detail {

/// Rolls, cuts and tools of strips.
template <When = When::called>
void fabricate_strips(const Job& job, const Counted& counted, Fabrication& made) {
  made.rolls = *counted.strips | job.rolls;
  const Length pitch = counted.chart.lattice.pitch_x();
  made.cutting = *counted.strips | Cutting{.pieces_per_cell = counted.pieces.per_cell, .pitch = pitch};
  if (!job.gang.spacers.empty()) made.gang = job.gang(pitch, counted.pieces.per_cell);
}

template <When = When::called>
ConsumableNeeds needs_of(const Counted& counted, const Fabrication& made) {
  const auto area_mm2 = [](const Size& size) { return (size.width.um() / 100) * (size.height.um() / 100) / 100; };
  const Rectangular& lattice = counted.chart.lattice;
  ConsumableNeeds needs{.board_mm2 = area_mm2(counted.marks.board),
                        .hanging_points = made.hanging.points,
                        .screws = made.frame ? made.frame->screws : 0};
  needs.laid_mm2 = counted.tally.laid() * area_mm2({lattice.pitch_x(), lattice.pitch_y()});
  if (made.cutting) {
    needs.cut = made.cutting->total;
    needs.blades_at_once = made.gang ? static_cast<std::int64_t>(made.gang->blades.size()) : 1;
  }
  return needs;
}

}  // namespace detail

template <When>
Fabrication fabricate(const Job& job, const Counted& counted) {
  Fabrication made;
  const Size board = counted.marks.board;
  made.pilot = counted.chart | job.pilot;
  if (counted.order) {
    const std::int64_t each = counted.order->unit == StockUnit::pieces
                                  ? 1'000
                                  : (static_cast<std::int64_t>(job.piece_amount.each * 16'000.0) + 8) / 16;
    made.orders = split_for_pilot(*counted.order, made.pilot, counted.pieces.per_cell * each);
  }
  if (counted.pieces.confidence > 0) {
    for (const double share : {0.05, 0.1, 0.15}) made.flat_spares.push_back(counted.pieces | FlatSpares{share});
  }
  if (counted.strips) detail::fabricate_strips(job, counted, made);
  const LengthUnit unit = job.units.value_or(LengthUnit::millimetres);
  // Millimetres are read to a tenth, inches to a sixteenth.
  const Length step = unit == LengthUnit::millimetres ? Length::from_um(100) : Length::from_um(1'588);
  made.checks = counted.marks | SettingOut{.step = step, .unit = unit};
  if (job.sheets.takes(board)) made.sheets = board | job.sheets;
  if (job.framed.value_or(job.frame.fits(board))) {
    Frame frame = job.frame;
    frame.kerf = job.sheets.kerf;
    made.frame = frame(board);
  }
  made.growth = board | job.growth;
  made.hanging.points = 1;
  const ConsumableNeeds needs = detail::needs_of(counted, made);
  WeighedParts parts{.board = board,
                     .board_thickness = job.board_thickness,
                     .timber_mm3 = made.frame ? made.frame->timber_mm3 : 0,
                     .pieces = counted.strips ? 0 : counted.pieces.pieces(),
                     .strips_g = made.rolls ? made.rolls->mass_g : 0};
  for (const ConsumableLine& line : job.consumables(needs)) {
    if (line.name == "glue") parts.glue_g = line.amount;
  }
  made.weight = job.weight(parts);
  made.hanging = job.hanging(board, made.weight.total_g);
  made.consumables = job.consumables(detail::needs_of(counted, made));
  return made;
}

}  // namespace handlaid
