// What is ordered beside the colours: material, board, timber and what is used up, each with its kind and size, in two
// parts, for the pilot and after it.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/work_step.hpp"

namespace handlaid {

/// A line of the order.
struct OrderItem {
  std::string what = {};
  /// Empty where the maker chooses: a line to write on.
  std::string kind = {};
  std::string amount = {};
  std::string basis = {};
};

namespace detail {

// What has a price in a job.
inline constexpr const char* pieces_item = "pieces";
inline constexpr const char* paint_item = "paint";
inline constexpr const char* material_item = "material of the strips";
inline constexpr const char* board_item = "board";
inline constexpr const char* timber_item = "timber";

inline bool is_thick(Length screw) { return screw > 40 * mm; }

/// The hole that a screw holds in, about the core of its thread: common practice, no source.
inline const char* core_hole(Length screw, LengthUnit unit) {
  if (unit == LengthUnit::millimetres) return is_thick(screw) ? "2.5 mm" : "2 mm";
  return is_thick(screw) ? "7/64 in" : "3/32 in";
}

/// The hole that it slips through: common practice, no source.
inline const char* slip_hole(Length screw, LengthUnit unit) {
  if (unit == LengthUnit::millimetres) return is_thick(screw) ? "4.5 mm" : "4 mm";
  return is_thick(screw) ? "3/16 in" : "5/32 in";
}

/// Screws are named by their thread and length: 3.5 mm is No. 6, 4 mm No. 8 (from memory).
template <When = When::called>
std::string screw_kind(Length screw, LengthUnit unit) {
  if (screw == Length{}) return "no common one holds: take thicker timber, or glue alone";
  const bool thick = is_thick(screw);
  const std::string gauge =
      unit == LengthUnit::millimetres ? (thick ? "4 × " : "3.5 × ") : (thick ? "No. 8 × " : "No. 6 × ");
  return "wood, countersunk, " + gauge + mark_text(screw, unit) + " " + symbol(unit) + ", holes bored with " +
         core_hole(screw, unit);
}

/// The screws of eyes must not come out at the face.
template <When = When::called>
std::string eye_screw_words(const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Length deep =
      (plan.fabrication.frame ? plan.fabrication.frame->timber_thickness : Length{}) + plan.job.board_thickness;
  const Length screw = longest_screw(deep - 2 * mm, unit);
  if (screw == Length{}) return {};
  return "their screws no longer than " + mark_text(screw, unit) + " " + symbol(unit) + ", ";
}

/// How long the glue of the frame must stay open: until the last screw is driven, in steps of five minutes.
template <When = When::called>
int open_minutes(const Plan& plan) {
  const std::int64_t screws = plan.fabrication.frame ? plan.fabrication.frame->screws : 0;
  const double minutes = static_cast<double>(screws) * plan.job.rates.seconds_per_screw / 60;
  return 5 * (static_cast<int>(std::min(minutes, 600.0) / 5) + 1);
}

/// Kind and size of what is used up, where the plan knows them.
template <When = When::called>
std::string kind_of(const Plan& plan, ConsumableGood good) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Fabrication& made = plan.fabrication;
  const auto rated = [](std::int64_t grams) { return "rated for " + mass_text(grams) + " or more each"; };
  switch (good) {
    case ConsumableGood::glue:
      return plan.job.glue.value_or("");
    case ConsumableGood::masking_tape:
      return "for delicate surfaces, narrower than a cell, " + mark_text(plan.chart.lattice.pitch_x(), unit) + " " +
             symbol(unit) + (plan.strips->fastened_edge > Length{} ? "; a wider roll to hold strips" : "");
    case ConsumableGood::brushes:
      return "flat, no wider than a cell, " + mark_text(plan.chart.lattice.pitch_x(), unit) + " " + symbol(unit) +
             "; as wide as the strip for primer";
    case ConsumableGood::blades:
      return made.gang ? "round, all of one make, " + to_text(plan.job.gang.blade_diameter, LengthUnit::millimetres) +
                             " across and " + to_text(made.gang->blade_thickness, LengthUnit::millimetres) + " thick"
                       : "for the knife you cut with, straight and thin";
    case ConsumableGood::screws:
      return screw_kind(made.frame_screw, unit);
    case ConsumableGood::wood_glue:
      return "white or yellow, for bare wood, that stays open for " + std::to_string(open_minutes(plan)) +
             " minutes or more";
    case ConsumableGood::filler:
      return "for wood, to be sanded";
    case ConsumableGood::keepers:
      return screw_kind(made.keeper_screw, unit);
    case ConsumableGood::eyes:
      return "flat, a ring on a plate, " + eye_screw_words(plan) +
             rated(made.hanging.way == HangingWay::wire ? made.hanging.wire_pull_g * made.hanging.rated_g /
                                                              std::max<std::int64_t>(made.hanging.load_per_point_g, 1)
                                                        : made.hanging.rated_g);
    case ConsumableGood::pads:
      return "felt or cork, as thick as the hook holds the panel off the wall";
    case ConsumableGood::wire:
      return rated(made.hanging.wire_pull_g * made.hanging.rated_g /
                   std::max<std::int64_t>(made.hanging.load_per_point_g, 1));
    case ConsumableGood::wall_fixings:
      return (made.frame && made.frame->wall_rail > Length{}
                  ? "countersunk, through " + mark_text(made.frame->timber_thickness, unit) + " " + symbol(unit) +
                        " of rail, "
              : made.hanging.way == HangingWay::rail
                  ? std::string{}
                  : std::string("a hook with its screw or nail, ") +
                        (made.frame ? "reaching out less than " + mark_text(made.frame->timber_thickness, unit) + " " +
                                          symbol(unit) + ", "
                                    : "")) +
             "for this kind of wall, " + rated(made.hanging.rated_g);
    // What to look for, where the maker chooses: common practice, no source; the pilot shows whether it holds.
    case ConsumableGood::sealer:
      return "clear, water-based, for wood; the glue's sheet must allow it";
    case ConsumableGood::primer:
      return "acrylic, one that bends with the material";
  }
  return {};
}

template <When = When::called>
void add_consumables(const Plan& plan, bool pilot, std::vector<OrderItem>& items) {
  for (const ConsumableLine& line : plan.fabrication.consumables) {
    if (line.for_pilot != pilot) continue;
    items.push_back({name_of(line.good), kind_of(plan, line.good),
                     count_text(line.amount) + (line.unit == "pieces" ? "" : " " + line.unit), line.basis});
  }
}

/// The offcut that the pilot is made on: its patch, ten pieces or a strip beside it, and a margin.
template <When = When::called>
Size pilot_offcut(const Plan& plan) {
  const Patch& patch = plan.fabrication.pilot;
  const Rectangular& lattice = plan.chart.lattice;
  constexpr Length margin = 50 * mm;
  const auto whole_cm = [](Length length) { return Length::from_um((length.um() + 9'999) / 10'000 * 10'000); };
  return {whole_cm(lattice.pitch_x().times(patch.last_column - patch.first_column + 1) + margin.times(2)),
          whole_cm(lattice.pitch_y().times(patch.last_course - patch.first_course + 2) + margin.times(2))};
}

template <When = When::called>
std::vector<OrderItem> pilot_items(const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Fabrication& made = plan.fabrication;
  std::vector<OrderItem> items;
  if (!plan.strips) {
    const Rectangular& lattice = plan.chart.lattice;
    items.push_back(
        {pieces_item, plan.job.material.value_or(""),
         plan.order ? "the packs of the table" : count_text(plan.pieces.needed()),
         "each covers " +
             size_text({lattice.pitch_x().divided(std::max(plan.pieces.per_cell, 1)), lattice.pitch_y()}, unit) +
             (plan.order ? ", named as the stock file does" : "")});
  } else {
    items.push_back({paint_item, plan.job.paint_kind.value_or(""), "one of each number",
                     plan.order ? "the table names them as the stock file does"
                                : "by the swatch cards, as the painting pages say how much"});
  }
  if (made.rolls) {
    items.push_back({material_item, plan.job.material.value_or(""), "1 roll",
                     mark_text(made.rolls->roll_width, unit) + " " + symbol(unit) + " wide and " +
                         material_text(made.rolls->roll_length, unit) + " long; it serves the panel too"});
  }
  items.push_back(
      {"offcut of the board", plan.job.board_kind.value_or(""), size_text(pilot_offcut(plan), unit),
       "or larger, of the kind that the panel will have: one that the shop has over, or from its sheet, bought now"});
  add_consumables(plan, true, items);
  if (made.gang) {
    std::string spacers;
    for (std::size_t k = 0; k < made.gang->spacers.size(); ++k) {
      std::int64_t used = 0;
      for (const GangBlade& blade : made.gang->blades) used += k < blade.spacers.size() ? blade.spacers[k] : 0;
      if (used == 0) continue;
      spacers += (spacers.empty() ? "" : ", ") + count_text(used) + " of " +
                 to_text(made.gang->spacers[k].thickness, LengthUnit::millimetres);
    }
    items.push_back({"arbor with two handles and a guard",
                     "a rod that fits the hole of the blades, nuts at both ends, the handles outside them; from a tool "
                     "dealer, or made for you; only for the gang, a knife does the same",
                     "1",
                     "room for " + to_text(made.gang->width(), LengthUnit::millimetres) + " of blades and spacers"});
    items.push_back({"spacers of the gang", "of the arbor's hole, measured with a caliper", spacers,
                     "the cutting page says where each goes"});
  }
  return items;
}

template <When = When::called>
std::vector<OrderItem> rest_items(const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Fabrication& made = plan.fabrication;
  std::vector<OrderItem> items;
  if (made.rolls && made.rolls->rolls > 1) {
    items.push_back(
        {material_item, plan.job.material.value_or(""), count_text(made.rolls->rolls - 1, "more roll", "more rolls"),
         material_text(made.rolls->roll_length, unit) + " each" + (made.rolls->proven() ? ", fewer will not do" : "")});
  }
  const std::string thick = mark_text(plan.job.board_thickness, unit) + " " + symbol(unit) + " thick";
  const std::string board = plan.job.board_kind ? *plan.job.board_kind + ", " + thick : thick;
  if (made.sheets) {
    items.push_back({board_item, board, count_text(made.sheets->sheets, "sheet", "sheets"),
                     size_text(made.sheets->sheet, unit) + " each"});
  } else {
    items.push_back(
        {board_item, board, size_text(plan.marks.board, unit), "no common sheet holds it: ask for this size"});
  }
  if (made.frame) {
    items.push_back({timber_item,
                     "planed and dry, " + size_text({made.frame->timber_width, made.frame->timber_thickness}, unit),
                     count_text(made.frame->cuts.stock_count, "length", "lengths"),
                     mark_text(made.frame->stock_length, unit) + " " + symbol(unit) + " each" +
                         (made.frame->cuts.proven() ? ", fewer will not do" : "")});
  }
  add_consumables(plan, false, items);
  return items;
}

/// Whether something on the back or under the lowest course must not touch the bench.
inline bool stands_on_battens(const Plan& plan) {
  return plan.fabrication.hanging.way != HangingWay::rail || (plan.strips && plan.strips->overlap > Length{});
}

/// What lies at hand and is not used up, in one sentence.
template <When = When::called>
std::string tools_at_hand(const Plan& plan) {
  std::string tools =
      "Steel tape and straightedge, square, pencil, knife with fresh blades and a cutting mat, cut-resistant gloves, "
      "safety glasses, brushes or spreaders for glue and sealer, a kitchen and a bathroom scale";
  if (plan.strips)
    tools +=
        ", a rule as long as a strip, baking paper, pots with lids, scissors, weights and a flat board to "
        "press with";
  if (plan.fabrication.gang) tools += ", a caliper";
  if (plan.fabrication.frame) {
    tools += (plan.job.frame.corners == Corners::mitred ? std::string(", mitre box") : std::string{}) +
             ", saw, respirator and ear protection, drill with fine bits and a countersink, screwdriver, four clamps "
             "or more, "
             "filler knife, sandpaper";
  }
  if (plan.fabrication.hanging.way == HangingWay::wire) tools += ", pliers";
  if (plan.fabrication.keeper_screw > Length{}) tools += ", a long slim screwdriver or a right-angle attachment";
  if (!plan.strips) tools += ", an awl, masking tape, carbon paper, scissors, tweezers, a box for each colour";
  return tools + (plan.fabrication.frame || plan.strips ? "" : ", a filler knife") +
         (stands_on_battens(plan) ? ", two straight battens to lie the panel on" : "") +
         ", gloves with grip, an envelope, a spirit level, a cable finder, "
         "bit "
         "and plugs for the wall, a ladder, a soft dry brush, stiff card and clean paper for the journey. And people: "
         "a "
         "second one to carry the sheet and to hang the panel" +
         (takes_two(plan) ? ", which is heavy or too wide to hold close: a third one looks when it is hung." : ".");
}

}  // namespace detail

}  // namespace handlaid
