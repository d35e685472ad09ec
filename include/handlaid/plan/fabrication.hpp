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
#include "handlaid/plan/work_of_plan.hpp"
#include "handlaid/takeoff/batches.hpp"
#include "handlaid/takeoff/blade_gang.hpp"
#include "handlaid/takeoff/board_growth.hpp"
#include "handlaid/takeoff/board_marks.hpp"
#include "handlaid/takeoff/consumables.hpp"
#include "handlaid/takeoff/cost.hpp"
#include "handlaid/takeoff/cutting.hpp"
#include "handlaid/takeoff/flat_spares.hpp"
#include "handlaid/takeoff/frame.hpp"
#include "handlaid/takeoff/hanging.hpp"
#include "handlaid/takeoff/labour.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/paint_days.hpp"
#include "handlaid/takeoff/paint_order.hpp"
#include "handlaid/takeoff/painting.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/pilot.hpp"
#include "handlaid/takeoff/rolls.hpp"
#include "handlaid/takeoff/screws.hpp"
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
  std::optional<PaintTakeoff> paint = {};
  std::optional<BatchTakeoff> batches = {};
  std::optional<PaintSchedule> schedule = {};
  std::optional<CuttingTakeoff> cutting = {};
  std::optional<Gang> gang = {};
  SettingOutChecks checks = {};
  /// Empty for a panel that is too small or too large for stock sheets.
  std::optional<SheetTakeoff> sheets = {};
  std::optional<FrameTakeoff> frame = {};
  /// Through the board into the frame, and through its top rail into the wall rail; 0 where there is no frame, or where
  /// no common screw holds.
  Length frame_screw = {};
  Length keeper_screw = {};
  Growth growth = {};
  WeightTakeoff weight = {};
  HangingTakeoff hanging = {};
  std::vector<ConsumableLine> consumables = {};
  /// By the plan's own method, and by both ways in their plainest form.
  LabourTakeoff labour = {};
  MethodHours methods = {};
  Cost cost = {};
};

/// What a wire has beyond its two eyes, for the knots: common practice, no source.
inline constexpr Length knots_of_wire = 300 * mm;

/// Below the top rail, for the hook of a wire: common practice, no source.
inline constexpr Length room_of_hook = 20 * mm;

/// The frame that the job asks for, with the rail on the wall where the panel hangs by one.
template <When = When::called>
Frame frame_of(const Job& job) {
  Frame frame = job.frame;
  frame.kerf = job.sheets.kerf;
  frame.wall_rail = job.hanging.way == HangingWay::rail;
  frame.free_middle = job.hanging.way == HangingWay::wire;
  return frame;
}

/// Throws Error where words of the job contradict each other or the panel.
template <When = When::called>
Fabrication fabricate(const Job& job, const Counted& counted);

namespace detail {

/// Rolls, cuts and tools of strips.
template <When = When::called>
void fabricate_strips(const Job& job, const Counted& counted, Fabrication& made) {
  made.rolls = job.rolls(*counted.strips);
  made.paint = job.painting(*counted.strips);
  made.batches = job.batches(*counted.strips);
  made.schedule = job.paint_days(*made.batches, *made.paint);
  const Length pitch = counted.chart.lattice.pitch_x();
  made.cutting = Cutting{.pieces_per_cell = counted.pieces.per_cell, .pitch = pitch}(*counted.strips);
  if (!job.gang.spacers.empty()) made.gang = job.gang(pitch, counted.pieces.per_cell);
}

/// What the pilot needs of each colour, in the unit of the order.
template <When = When::called>
std::vector<std::int64_t> needed_for_pilot(const Job& job, const Counted& counted, const Fabrication& made) {
  std::vector<std::int64_t> needed(static_cast<std::size_t>(counted.chart.palette.size()) + 1);
  if (made.paint) {
    for (const PaintLine& line : made.paint->lines) needed[static_cast<std::size_t>(line.number)] = line.trial_ml;
    return needed;
  }
  // Thousandths of a unit, as AmountEach takes them.
  const std::int64_t each = (static_cast<std::int64_t>(job.piece_amount.each * 16'000.0) + 8) / 16;
  for (const PieceLine& line : counted.pieces.lines) {
    needed[static_cast<std::size_t>(line.number)] = (line.trials * each + 999) / 1'000;
  }
  return needed;
}

/// The bill: what has a price.
template <When = When::called>
Cost cost_of_job(const Job& job, const Counted& counted, const Fabrication& made) {
  Cost cost{.currency = counted.order ? counted.order->currency : ""};
  const auto hundredths = [](double price) { return (static_cast<std::int64_t>(price * 1'600.0) + 8) / 16; };
  if (counted.order) cost.lines.push_back(cost_of(*counted.order, counted.strips ? "paint" : "pieces"));
  if (made.rolls && job.prices.roll > 0) {
    // By length: what is slit off beside the strips is used up with them.
    const std::int64_t used = counted.strips->needed_length().um() / made.rolls->side_by_side;
    cost.lines.push_back(cost_of("rolls", made.rolls->rolls, hundredths(job.prices.roll), used,
                                 made.rolls->roll_length.um() * made.rolls->rolls));
  }
  const auto area = [](const Size& size) { return (size.width.um() / 1'000) * (size.height.um() / 1'000); };
  if (made.sheets && job.prices.sheet > 0) {
    cost.lines.push_back(cost_of("sheets of board", made.sheets->sheets, hundredths(job.prices.sheet),
                                 area(made.sheets->panel), area(made.sheets->sheet) * made.sheets->sheets));
  }
  if (made.frame && job.prices.timber > 0) {
    std::int64_t used = 0;
    for (const FramePart& part : made.frame->parts) used += part.count * part.length.um();
    cost.lines.push_back(cost_of("lengths of timber", made.frame->cuts.stock_count, hundredths(job.prices.timber), used,
                                 made.frame->stock_length.um() * made.frame->cuts.stock_count));
  }
  return cost;
}

template <When = When::called>
ConsumableNeeds needs_of(const Counted& counted, const Fabrication& made) {
  const auto area_mm2 = [](const Size& size) { return (size.width.um() / 100) * (size.height.um() / 100) / 100; };
  const Rectangular& lattice = counted.chart.lattice;
  ConsumableNeeds needs{.board_mm2 = area_mm2(counted.marks.board),
                        .hanging_points = made.hanging.points,
                        .screws = made.frame ? made.frame->screws : 0};
  if (made.keeper_screw > Length{}) needs.keepers = 2;
  if (made.hanging.way == HangingWay::hooks) needs.eyes = made.hanging.points;
  if (made.hanging.way == HangingWay::wire) needs.eyes = 2;
  if (needs.eyes > 0) needs.pads = 2;
  if (made.hanging.way == HangingWay::wire) {
    needs.wire = made.hanging.wire_length + knots_of_wire;
  }
  needs.glued_mm2 = counted.strips ? counted.strips->glued_mm2()
                                   : counted.tally.laid() * area_mm2({lattice.pitch_x(), lattice.pitch_y()});
  if (made.paint) needs.primer_ml = made.paint->needed_primer_ml;
  if (made.schedule) needs.masking_edges = made.schedule->ways.at(made.schedule->recommended).edges;
  if (counted.strips) {
    std::int64_t tried = 0;
    for (const Strip& strip : counted.strips->trials) {
      tried += static_cast<std::int64_t>(strip.sections.size()) - 1;
      needs.held_edge += strip.length();
    }
    if (made.paint) needs.masking_edges += tried * made.paint->coats * made.paint->faces;
    for (const Strip& strip : counted.strips->strips) needs.held_edge += strip.length();
    if (counted.strips->fastened_edge == Length{}) needs.held_edge = {};
  }
  if (made.frame) {
    for (const FramePart& part : made.frame->parts) {
      if (part.name == "wall rail") continue;
      needs.frame_sides_mm2 += part.count * area_mm2({part.length, made.frame->timber_thickness}) * 2;
    }
  }
  if (made.batches) {
    needs.masking_edge = counted.strips->flat_width;
    const int sittings = made.schedule ? made.schedule->ways.at(made.schedule->recommended).sittings : 0;
    for (const Batch& batch : made.batches->batches) {
      std::int64_t pots = 0;
      PaintStretch last;
      for (const PaintStretch& stretch : paint_order(*counted.strips, batch, sittings)) {
        if (stretch.sitting != last.sitting) pots = 0;
        if (stretch.sitting != last.sitting || stretch.number != last.number) ++pots;
        needs.colours_at_once = std::max(needs.colours_at_once, pots);
        last = stretch;
      }
    }
  }
  if (made.cutting) {
    needs.cut = made.cutting->total;
    needs.blades_at_once = made.gang ? static_cast<std::int64_t>(made.gang->blades.size()) : 1;
  }
  return needs;
}

template <When = When::called>
std::int64_t glue_of(const Job& job, const ConsumableNeeds& needs) {
  for (const ConsumableLine& line : job.consumables(needs)) {
    if (line.good == ConsumableGood::glue) return line.amount;
  }
  return 0;
}

}  // namespace detail

template <When>
Fabrication fabricate(const Job& job, const Counted& counted) {
  Fabrication made;
  const Size board = counted.marks.board;
  made.pilot = counted.pilot;
  if (counted.pieces.confidence > 0) {
    for (const double share : {0.05, 0.1, 0.15}) made.flat_spares.push_back(FlatSpares{share}(counted.pieces));
  }
  if (counted.strips) detail::fabricate_strips(job, counted, made);
  if (counted.order) {
    made.orders = split_for_pilot(*counted.order, detail::needed_for_pilot(job, counted, made));
  }
  const LengthUnit unit = job.units.value_or(LengthUnit::millimetres);
  made.checks = SettingOut{.unit = unit}(counted.marks);
  // Sheets that were asked for are refused where they cannot be used; the usual ones only where they fit.
  if (job.sheets.takes(board) || job.sheets.sheet != SheetGoods{}.sheet) made.sheets = job.sheets(board);
  if (const Frame frame = frame_of(job); job.framed.value_or(frame.fits(board))) {
    made.frame = frame(board);
    made.frame_screw = screw_into(job.board_thickness, frame.timber_thickness, unit);
    if (frame.wall_rail) made.keeper_screw = screw_into(frame.timber_width, frame.timber_width, unit);
  }
  made.growth = job.growth(board);
  const std::int64_t glue_g = detail::glue_of(job, detail::needs_of(counted, made));
  WeighedParts parts{.board = board,
                     .board_thickness = job.board_thickness,
                     .timber_mm3 = made.frame ? made.frame->timber_mm3 : 0,
                     .pieces = counted.strips ? 0 : counted.pieces.pieces(),
                     .strips_g = made.rolls ? made.rolls->mass_g : 0,
                     .paint_ml = made.paint ? made.paint->ml() + made.paint->primer_ml : 0,
                     .glue_g = glue_g};
  made.weight = job.weight(parts);
  Hanging hanging = job.hanging;
  // The points of a wire stand on the side rails, where there are any.
  if (made.frame && hanging.wire_span == Length{}) hanging.wire_span = board.width - made.frame->timber_width;
  if (made.frame) hanging.hook_drop = made.frame->timber_width + room_of_hook;
  made.hanging = hanging(board, made.weight.total_g);
  made.consumables = job.consumables(detail::needs_of(counted, made));
  made.labour = job.rates(work_of_job(job, counted, made.frame, made.schedule, made.gang));
  made.methods = {job.rates(work_on_pieces(counted, made.frame)), job.rates(work_on_strips(job, counted, made.frame))};
  made.cost = detail::cost_of_job(job, counted, made);
  return made;
}

}  // namespace handlaid
