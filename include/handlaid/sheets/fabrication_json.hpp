// The part of plan.json that tells how the panel is made: rolls, paint, sittings, cuts, board, frame, wall, hours,
// cost.
#pragma once

#include <cstdint>
#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_values.hpp"
#include "handlaid/plan/fabrication.hpp"
#include "handlaid/sheets/json.hpp"

namespace handlaid {

namespace detail {

template <When = When::called>
void add_rolls(Json& json, const RollTakeoff& rolls) {
  json.open_object("rolls").add("count", rolls.rolls).add("fewest", rolls.fewest_rolls);
  json.add("length_um", rolls.roll_length.um()).add("width_um", rolls.roll_width.um());
  json.add("side_by_side", rolls.side_by_side).add("face_mm2", rolls.face_mm2).add("mass_g", rolls.mass_g).close();
}

template <When = When::called>
void add_paint(Json& json, const Fabrication& made) {
  const PaintTakeoff& paint = *made.paint;
  json.open_object("paint").add("faces", paint.faces).add("coats", paint.coats);
  json.add("primer_coats", paint.primer_coats).add("primer_ml", paint.primer_ml);
  json.add("needed_primer_ml", paint.needed_primer_ml).open_array("colours");
  for (const PaintLine& line : paint.lines) {
    json.open_object().add("number", line.number).add("sections", line.sections);
    json.add("area_mm2", line.area_mm2).add("ml", line.ml).add("spare_ml", line.spare_ml);
    json.add("trial_ml", line.trial_ml).close();
  }
  json.close().open_array("ways");
  for (const PaintWay& way : made.schedule->ways) {
    json.open_object().add("sittings", way.sittings).add("waits", way.waits).add("openings", way.openings);
    json.add("least_openings", way.least_openings).add("edges", way.edges);
    json.add("work_s", way.work_s).add("days", way.days).close();
  }
  json.close().add("recommended_way", static_cast<std::int64_t>(made.schedule->recommended)).open_array("batches");
  for (const Batch& batch : made.batches->batches) {
    json.open_object().add("strips", static_cast<std::int64_t>(batch.strips.size()));
    json.add("sections", batch.sections).add("sittings_for_each_pot_once", batch.frontier.rounds_for_once);
    json.add("sittings_at_least", batch.frontier.clique).open_array("frontier");
    for (const RoundPlan& plan : batch.frontier.plans) {
      json.open_object().add("sittings", plan.rounds).add("openings", plan.take_ups);
      json.add("least_openings", plan.least_take_ups).close();
    }
    json.close().close();
  }
  json.close().close();
}

template <When = When::called>
void add_gang(Json& json, const Gang& gang) {
  json.open_object("gang").add("largest_error_um", gang.largest_error.um()).open_array("blades");
  for (const GangBlade& blade : gang.blades) {
    json.open_object().add("wanted_um", blade.wanted.um()).add("stands_um", blade.stands.um()).open_array("spacers");
    for (const int count : blade.spacers) json.item(count);
    json.close().close();
  }
  json.close().close();
}

template <When = When::called>
void add_frame(Json& json, const FrameTakeoff& frame) {
  json.open_object("frame").add("lengths", frame.cuts.stock_count).add("fewest_lengths", frame.cuts.lower_bound);
  json.add("length_um", frame.stock_length.um()).add("screws", frame.screws).open_array("parts");
  for (const FramePart& part : frame.parts) {
    json.open_object().add("name", part.name).add("length_um", part.length.um()).add("count", part.count);
    json.add("screws_each", part.screws).close();
  }
  json.close().close();
}

template <When = When::called>
void add_labour(Json& json, std::string_view name, const LabourTakeoff& labour) {
  json.open_object(name).add("seconds", labour.seconds()).open_array("steps");
  for (const LabourLine& line : labour.lines) {
    json.open_object().add("step", line.step).add("count", line.count).add("seconds", line.seconds).close();
  }
  json.close().open_array("seconds_of_colours");
  for (std::size_t n = 1; n < labour.seconds_of.size(); ++n) json.item(labour.seconds_of[n]);
  json.close().close();
}

}  // namespace detail

/// Adds "fabrication" to an open object.
template <When = When::called>
void add_fabrication(Json& json, const Fabrication& made) {
  json.open_object("fabrication").open_object("pilot");
  json.add("first_column", made.pilot.first_column).add("last_column", made.pilot.last_column);
  json.add("first_course", made.pilot.first_course).add("last_course", made.pilot.last_course).close();
  if (made.orders) {
    json.add("pilot_cost_hundredths", made.orders->pilot.cost_hundredths());
    json.add("cost_after_pilot_hundredths", made.orders->rest.cost_hundredths());
  }
  json.open_array("flat_spares");
  for (const FlatSpareRisk& risk : made.flat_spares) {
    json.open_object().add_figure("share", risk.share).add("spares", risk.spares);
    json.add("any_runs_out_ppm", risk.any_runs_out_ppm).close();
  }
  json.close();
  if (made.rolls) detail::add_rolls(json, *made.rolls);
  if (made.paint && made.schedule && made.batches) detail::add_paint(json, made);
  if (made.cutting) {
    json.open_object("cutting").add("cuts", made.cutting->cuts).add("piece_width_um", made.cutting->piece_width.um());
    json.add("cut_length_um", made.cutting->cut_length.um()).close();
  }
  if (made.gang) detail::add_gang(json, *made.gang);
  json.open_object("setting_out").add("largest_error_um", made.checks.largest_error.um());
  json.add("triangle_um", made.checks.triangle.um()).close();
  if (made.sheets) {
    json.open_object("sheets").add("count", made.sheets->sheets).add("fewest", made.sheets->fewest_sheets);
    json.add("parts", made.sheets->parts()).close();
  }
  if (made.frame) detail::add_frame(json, *made.frame);
  json.open_object("growth").add("width_um", made.growth.width.um()).add("height_um", made.growth.height.um()).close();
  json.open_object("weight").add("total_g", made.weight.total_g).add("persons", made.weight.persons).close();
  json.open_object("hanging").add("way", value_text(made.hanging.way, {})).add("points", made.hanging.points);
  json.add("load_per_point_g", made.hanging.load_per_point_g).add("rated_g", made.hanging.rated_g);
  json.add("wire_pull_g", made.hanging.wire_pull_g).add("centre_height_um", made.hanging.centre_height.um()).close();
  json.open_array("consumables");
  for (const ConsumableLine& line : made.consumables) {
    json.open_object().add("name", name_of(line.good)).add("amount", line.amount).add("unit", line.unit).close();
  }
  json.close();
  detail::add_labour(json, "labour", made.labour);
  detail::add_labour(json, "labour_piece_by_piece", made.methods.piece_by_piece);
  detail::add_labour(json, "labour_painted_strips", made.methods.painted_strips);
  json.open_object("cost").add("total_hundredths", made.cost.total_hundredths());
  json.add("left_over_hundredths", made.cost.left_over_hundredths()).close().close();
}

}  // namespace handlaid
