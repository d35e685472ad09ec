// plan.json: every figure of the plan, for other programs. Lengths are whole micrometres, money whole hundredths;
// reported shares and differences have four digits.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_fields.hpp"
#include "handlaid/files/palette_table.hpp"
#include "handlaid/plan/dither_choice.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/fabrication_json.hpp"
#include "handlaid/sheets/json.hpp"

namespace handlaid {

namespace detail {

/// Every option as it stands in the job file; those that can be given more than once as a list.
template <When = When::called>
void add_job(Json& json, const Job& job) {
  json.open_object("job");
  for (const JobField& field : job_fields()) {
    const std::vector<std::string> texts = field.write(job, job.units.value_or(LengthUnit::millimetres));
    if (field.repeats && !texts.empty()) {
      json.open_array(field.word);
      for (const std::string& text : texts) json.item(text);
      json.close();
    } else if (!texts.empty()) {
      json.add(field.word, texts.front());
    }
  }
  json.close();
}

template <When = When::called>
void add_marks(Json& json, std::string_view name, const std::vector<Length>& marks) {
  json.open_array(name);
  for (const Length mark : marks) json.item(mark.um());
  json.close();
}

template <When = When::called>
void add_totals(Json& json, const Plan& plan) {
  json.open_object("totals");
  json.add("cells", plan.tally.laid());
  json.add("empty_cells", plan.tally.cells.empty() ? 0 : plan.tally.cells[0]);
  json.add("runs", plan.tally.total_runs());
  json.add("colours", plan.tally.colours_used());
  json.add("pieces", plan.pieces.pieces());
  json.add("spares", plan.pieces.spares()).add("trials", plan.pieces.trials());
  json.add("needed", plan.pieces.needed());
  if (plan.order) {
    json.add("packs", plan.order->pack_count());
    json.add("cost_hundredths", plan.order->cost_hundredths());
    json.add("currency", plan.order->currency);
  }
  json.close();
}

template <When = When::called>
void add_palette(Json& json, const Plan& plan) {
  json.open_array("palette");
  for (int number = 1; number <= plan.chart.palette.size(); ++number) {
    const PaletteEntry& entry = plan.chart.palette[number];
    const auto index = static_cast<std::size_t>(number);
    json.open_object().add("number", number).add("name", entry.name).add("colour", to_hex(entry.colour));
    json.add("lock", lock_words[static_cast<std::size_t>(entry.lock)]);
    if (index < plan.tally.cells.size()) {
      json.add("cells", plan.tally.cells[index]).add("runs", plan.tally.runs[index]);
      json.add("courses", plan.tally.courses[index]);
    }
    if (index <= plan.pieces.lines.size()) {
      const PieceLine& line = plan.pieces.lines[index - 1];
      json.add("pieces", line.pieces)
          .add("spares", line.spares)
          .add("trials", line.trials)
          .add("needed", line.needed());
    }
    json.close();
  }
  json.close();
}

template <When = When::called>
void add_order(Json& json, const Order& order) {
  json.open_array("order");
  for (const OrderLine& line : order.lines) {
    json.open_object().add("number", line.number).add("name", line.name).add("needed", line.needed);
    json.add("from_hand", line.from_hand).open_array("packs");
    for (const PackCount& packs : line.packs) {
      json.open_object().add("pieces", packs.pack.pieces).add("price_hundredths", packs.pack.price_hundredths);
      if (!packs.pack.article.empty()) json.add("article", packs.pack.article);
      json.add("count", packs.count).close();
    }
    json.close().add("bought", line.bought).add("left_over", line.left_over);
    json.add("cost_hundredths", line.cost_hundredths).close();
  }
  json.close();
}

template <When = When::called>
void add_strips(Json& json, const StripTakeoff& strips) {
  json.open_object("strips").add("length_um", strips.length.um());
  json.add("finished_width_um", strips.finished_width.um()).add("flat_width_um", strips.flat_width.um());
  json.add("total_length_um", strips.total_length.um());
  // each section: colour number, start and end from the datum end
  json.open_array("sections_by_course");
  for (const Strip& strip : strips.strips) {
    json.open_array();
    for (const StripSection& section : strip.sections) {
      json.open_array().item(int{section.number}).item(section.start.um()).item(section.end.um()).close();
    }
    json.close();
  }
  json.close().close();
}

template <When = When::called>
void add_error(Json& json, std::string_view name, const WholeError& error) {
  json.open_object(name).add_figure("mean", error.mean()).add_figure("high", error.high()).close();
}

template <When = When::called>
void add_worst(Json& json, std::string_view name, const std::vector<WorstCell>& cells) {
  json.open_array(name);
  for (const WorstCell& cell : cells) {
    json.open_object().add("course", cell.course).add("column", cell.column);
    json.add_figure("difference", cell.difference()).close();
  }
  json.close();
}

template <When = When::called>
void add_quality_figures(Json& json, const Plan& plan) {
  const PlanQuality& quality = plan.quality;
  json.open_object("quality").add_figure("mean_squared_oklab", quality.squared.oklab);
  json.add_figure("mean_squared_srgb", quality.squared.srgb);
  json.add("viewing_distance_um", quality.distance.um()).add("viewing_distance_pitches", pitches_away(plan));
  add_error(json, "seen_difference", quality.seen);
  json.add_figure("seen_similarity", quality.similarity).open_array("dithers");
  for (const DitherLook& look : quality.dithers) {
    json.open_object().add("dither", value_text(look.dither, {})).add("runs", look.runs);
    add_error(json, "seen_difference", look.seen);
    json.close();
  }
  json.close();
  if (!quality.dithers.empty()) json.add("recommended_dither", value_text(recommended(quality.dithers).dither, {}));
  add_worst(json, "worst_cells", quality.worst);
  add_worst(json, "worst_cells_seen", quality.worst_seen);
  if (quality.stability) {
    const Stability& stable = *quality.stability;
    json.open_object("palette_distance").add_figure("one_colour_fewer", stable.one_colour_fewer);
    json.add_figure("one_colour_more", stable.one_colour_more).add_figure("cropped", stable.cropped);
    json.add_figure("halved", stable.halved).add_figure("doubled", stable.doubled).close();
  }
  json.close();
}

}  // namespace detail

/// The plan as JSON. `order` and `strips` are left out where the plan has none.
template <When = When::called>
std::string plan_json(const Plan& plan) {
  const Rectangular& lattice = plan.chart.lattice;
  Json json;
  json.open_object().add("format", "handlaid plan").add("version", 1);
  json.add("title", plan.job.title.value_or(""));
  json.add("method", plan.strips ? "strips" : "pieces");
  detail::add_job(json, plan.job);
  json.open_object("lattice").add("columns", lattice.columns).add("courses", lattice.rows);
  json.add("pitch_um", lattice.pitch_x().um()).add("course_pitch_um", lattice.pitch_y().um());
  json.add("width_um", lattice.extent().width.um()).add("height_um", lattice.extent().height.um()).close();
  json.open_object("picture").add("width", plan.picture_width).add("height", plan.picture_height);
  json.open_array("crop").item(plan.crop.left).item(plan.crop.top).item(plan.crop.right).item(plan.crop.bottom);
  json.close().close();
  detail::add_totals(json, plan);
  json.add("pieces_per_cell", plan.pieces.per_cell);
  json.add_figure("loss", plan.pieces.loss).add_figure("confidence", plan.pieces.confidence);
  json.add_figure("mean_difference", plan.mean_difference).add_figure("high_difference", plan.high_difference);
  json.add("lone_cells", plan.lone_cells);
  detail::add_quality_figures(json, plan);
  detail::add_palette(json, plan);
  if (plan.order) detail::add_order(json, *plan.order);
  json.open_object("board").add("width_um", plan.marks.board.width.um());
  json.add("height_um", plan.marks.board.height.um()).add("margin_x_um", plan.marks.margin_x.um());
  json.add("margin_y_um", plan.marks.margin_y.um()).add("diagonal_um", plan.marks.diagonal.um());
  detail::add_marks(json, "across_um", plan.marks.across);
  detail::add_marks(json, "up_um", plan.marks.up);
  json.close();
  if (plan.strips) detail::add_strips(json, *plan.strips);
  add_fabrication(json, plan.fabrication);
  // rows from the top, as in chart.csv; 0 is an empty cell
  json.open_array("chart");
  for (int row = 0; row < plan.chart.courses(); ++row) {
    json.open_array();
    for (const ColourNumber number : plan.chart.numbers.row(row)) json.item(int{number});
    json.close();
  }
  json.close().open_array("reasons");
  for (const Reason& reason : plan.reasons) {
    json.open_object().add("word", reason.word).add("value", reason.value);
    json.add("sentence", reason.sentence).close();
  }
  json.close().open_array("notes");
  for (const std::string& note : plan.notes) json.item(note);
  json.close().close();
  return std::move(json).finish();
}

}  // namespace handlaid
