// The order of the work, from the plan to the wall, with the hazards of each step. Common practice, no source, unless
// a figure says otherwise.
#pragma once

#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/cautions.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

/// One step: what to do, and what to mind.
struct WorkStep {
  std::string title = {};
  std::string text = {};
  std::vector<Hazard> hazards = {};
  /// Nothing after it is begun before it has passed.
  bool hold = false;
};

namespace detail {

template <When = When::called>
WorkStep look_step() {
  return {"Look before you buy",
          "Open the preview at the distance the panel will hang at. Hold a sample of each colour against the place, in "
          "the light of the place: a screen or a home print is no colour sample.",
          {},
          true};
}

/// Where the pilot patch is, in words.
template <When = When::called>
std::string patch_words(const Plan& plan) {
  const Patch& patch = plan.fabrication.pilot;
  return "Columns " + std::to_string(patch.first_column) + " to " + std::to_string(patch.last_column) + " of courses " +
         std::to_string(patch.first_course) + " to " + std::to_string(patch.last_course) + ", the richest part.";
}

/// How strips come off a wider roll, where they do.
template <When = When::called>
std::string slit_words(const Plan& plan, LengthUnit unit) {
  if (!plan.fabrication.rolls || plan.fabrication.rolls->roll_width == plan.strips->flat_width) return {};
  const RollTakeoff& rolls = *plan.fabrication.rolls;
  return ", slit from " + mark_text(rolls.roll_width, unit) + " " + symbol(unit) + " of width, " +
         std::to_string(rolls.side_by_side) + " side by side";
}

/// How a strip sits on its course.
template <When = When::called>
std::string mounting_words(const Plan& plan, LengthUnit unit) {
  const StripTakeoff& strips = *plan.strips;
  const auto text = [&](Length length) { return mark_text(length, unit) + " " + symbol(unit); };
  std::string words = "The upper edge of a strip stands on the upper line of its course";
  words +=
      strips.fastened_edge > Length{} ? ", glued by " + text(strips.fastened_edge) + " along that edge only." : ".";
  if (strips.overlap > Length{}) {
    words += " It hangs " + text(strips.overlap) +
             " over the course below; strip 1 hangs as far below the board, and is " + "trimmed or left.";
  }
  return words;
}

template <When = When::called>
WorkStep frame_step(const Plan& plan) {
  return {
      "Build the frame",
      "Saw the timbers by the list on the board page, lay them out dry, measure both diagonals, then glue and screw "
      "them and the board on top. " +
          count_text(plan.fabrication.frame->screws, "screw", "screws") +
          ", bored first and sunk, away from the edges; fill over their heads. Glue holds on bare wood only: seal "
          "face, "
          "back and edges alike when the frame is on, so that all stays flat.",
      {Hazard::turning_blade, Hazard::dust, Hazard::glue_and_paint}};
}

template <When = When::called>
WorkStep board_step(const Plan& plan, LengthUnit unit) {
  return {"Make the board ready",
          "Saw it to " + size_text(plan.marks.board, unit) +
              " or have it sawn. Lay a straightedge over it both ways: no more than " +
              (unit == LengthUnit::millimetres ? "6 mm in 3 m" : "1/4 inch in 10 feet") +
              " out of flat, as for tiles." +
              (plan.fabrication.frame ? "" : " Seal the face, the back and the edges alike, so that it stays flat."),
          {Hazard::turning_blade, Hazard::dust, Hazard::glue_and_paint}};
}

template <When = When::called>
WorkStep setting_out_step() {
  return {
      "Set out from the datum",
      "Mark the bottom left corner: this is the datum. Take every mark from there, tape held still, never from the "
      "last mark. Check both diagonals before the first piece. On paper it is setting_out.pdf; story_poles.pdf has the "
      "marks to put on a rod, at true scale.",
      {}};
}

template <When = When::called>
std::vector<WorkStep> last_steps(const Plan& plan) {
  return {
      {"Stand back, then finish",
       "Look from where it will be seen, in daylight and in the evening. Change what looks wrong now. " +
           std::string(plan.strips
                           ? "Keep what is left in the cans, closed tight, and an envelope of pieces on the back."
                           : "Keep the pieces that are left, with their lot number, in an envelope on the back."),
       {}},
      {"Lift and carry",
       "Weigh it, measure the doors, and clear the way before the board leaves the bench.",
       {Hazard::lifting}},
      {"Fix it to the wall",
       "Mark the height, level it, and fix what the panel hangs by, as the board page says; then two people hang it "
       "while "
       "a third looks. Write on the back: title, top, weight, date.",
       {Hazard::wall, Hazard::ladder}},
  };
}

}  // namespace detail

/// The steps for the method of the plan.
template <When = When::called>
std::vector<WorkStep> work_steps(const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  std::vector<WorkStep> steps{detail::look_step()};
  if (plan.strips) {
    const StripTakeoff& strips = *plan.strips;
    const bool folded = strips.flat_width != strips.finished_width;
    steps.push_back(
        {"Try one strip to the end",
         "Buy for the pilot only. Coat a piece, let it dry as long as its data sheet says" +
             std::string(folded ? ", fold it sharply" : ", bend it") +
             ", pull tape off it, rub it with a dry and a damp cloth, mount it, cut it with the blade you "
             "will use. Look again the next day. On rigid material do the cross-cut tape test instead of the "
             "fold: ASTM D3359 and ISO 2409 say how. If paint comes off, change primer or material and begin "
             "again.",
         {Hazard::glue_and_paint, Hazard::hand_blade},
         true});
    steps.push_back({"Hold dried paint against the picture",
                     "Paint a chip of each colour, two coats, and let it dry: wet paint is another colour. Hold it "
                     "against the picture in the light of the place.",
                     {Hazard::glue_and_paint},
                     true});
    steps.push_back({"Make the pilot patch and time it",
                     detail::patch_words(plan) +
                         " Paint, mount and cut it as you will the rest, with a clock. Type your "
                         "seconds into plan.job under [rates], plan again with it, and look whether you still want the "
                         "hours it says.",
                     {Hazard::glue_and_paint, Hazard::hand_blade},
                     true});
    steps.push_back(
        {"Order the rest in one go",
         "All of one lot, with what stays in the pots. Write the lot numbers on the order page and into the "
         "job file.",
         {}});
    steps.push_back(
        {"Cut the strips",
         count_text(static_cast<std::int64_t>(strips.strips.size()), "strip", "strips") + ", each " +
             mark_text(strips.length, unit) + " " + symbol(unit) + " long and " + mark_text(strips.flat_width, unit) +
             " " + symbol(unit) + " wide" +
             (folded ? ", to be folded to " + mark_text(strips.finished_width, unit) + " " + symbol(unit) : "") + "; " +
             material_text(strips.total_length, unit) + " of material in all" + detail::slit_words(plan, unit) +
             ". Write the course number and an arrow to the datum end " +
             (strips.trim > Length{} ? "on what stands over beyond the last mark" : "on the back, at the far end") +
             " of each.",
         {Hazard::hand_blade}});
    const bool primed = plan.fabrication.paint && plan.fabrication.paint->primer_coats > 0;
    steps.push_back(
        {primed ? "Prime and mark the strips" : "Mark the strips",
         std::string(primed ? "Prime whole strips and let them dry: marks under primer are lost. " : "") +
             "Hook the tape on the datum end of the strip and set all its marks in one go, from the strip "
             "list, to the edge of the strip or beyond, where paint leaves them to be seen. Or lay a whole batch on "
             "its "
             "marking sheet and mark all of it with one straightedge: marking_sheets.pdf from a print shop, or "
             "marking_tiles.pdf on your own paper.",
         primed ? std::vector<Hazard>{Hazard::glue_and_paint} : std::vector<Hazard>{}});
    steps.push_back(
        {"Paint batch by batch",
         "Pour all cans of one colour together first, then work down the painting pages, sitting by sitting: "
         "what touches is never wet together. Let each sitting dry as long as the data sheet says.",
         {Hazard::glue_and_paint}});
    if (folded) {
      steps.push_back(
          {"Fold the strips",
           "When the last coat is hard, fold them " +
               std::string(strips.fold == Fold::lengthwise ? "along their length" : "end to end") +
               ", coloured side out, the fold pressed sharp with a straightedge. The fold is the free edge.",
           {}});
    }
  } else {
    steps.push_back(
        {"Try ten pieces on an offcut",
         "Buy for the pilot only. Lay ten pieces with the board, the glue and the pieces you will use. Look "
         "again the next day: pull one off, bend the offcut, rub it, hold it in the light and at the window. "
         "Pieces that are painted and rigid get the cross-cut tape test first: ASTM D3359 and ISO 2409 say "
         "how.",
         {Hazard::glue_and_paint, Hazard::hand_blade},
         true});
    steps.push_back({"Lay the pilot patch and time it",
                     detail::patch_words(plan) +
                         " Lay it on an offcut with a clock. Type your seconds into plan.job under "
                         "[rates], plan again with it, and look whether you still want the hours it says.",
                     {Hazard::glue_and_paint},
                     true});
    const std::string amount = plan.fabrication.orders
                                   ? count_text(plan.fabrication.orders->rest.pack_count(), "pack", "packs")
                                   : count_text(plan.pieces.needed(), "piece", "pieces");
    steps.push_back({"Order the rest in one go",
                     amount + (plan.fabrication.orders ? ", the second table of the order" : "") +
                         ", of the lot of the pilot" + (plan.pieces.spares() > 0 ? ", spares included" : "") +
                         "; of another lot, mix both before sorting. Write the lot number on the " +
                         (plan.order ? "order" : "palette") + " page. When they come, count one pack of each colour.",
                     {}});
    steps.push_back({"Sort the pieces",
                     "One box a colour, its number on the box: labels.pdf has a label for each. Mix the packs of a "
                     "colour before you fill the box.",
                     {}});
  }
  steps.push_back(detail::board_step(plan, unit));
  if (plan.fabrication.frame) steps.push_back(detail::frame_step(plan));
  steps.push_back(detail::setting_out_step());
  if (plan.strips) {
    steps.push_back(
        {"Mount course by course from the bottom",
         detail::mounting_words(plan, unit) +
             " Lay the first strip dry and read its runs off the course list. Then glue strip 1 on course 1, "
             "datum end at the datum, and so on up; check each course while it can still be moved, and tick "
             "it off. Spread no more glue than you can cover before it skins.",
         {Hazard::glue_and_paint}});
    steps.push_back(
        {"Cut the mounted strips into pieces",
         std::string("Along a rule with its 0 at the datum end, as the cutting page says, with a knife, a ") +
             "hand-rolled blade or a gang of a few blades whose handles stand well outside them." +
             (plan.strips->overlap > Length{} || plan.strips->fastened_edge > Length{}
                  ? " Slide a thin metal plate under the strip first, or the blade goes into the course below."
                  : " Only as deep as the strip."),
         {Hazard::hand_blade}});
  } else {
    steps.push_back(
        {"Lay one course dry",
         "Course 1, nothing stuck down, from the datum to the far end. It must end on its last mark; if it does "
         "not, the pieces are not of the size you planned for.",
         {}});
    steps.push_back({"Lay course by course from the bottom",
                     count_text(plan.pieces.per_cell, "piece goes", "pieces go") +
                         " to each cell that the list counts. Read the course list, check with the chart. Spread no "
                         "more glue than you can cover before it "
                         "skins. Trim a piece that is too wide rather than push its neighbours. templates.pdf has the "
                         "cells at true "
                         "scale, to lay out by; its first page says how.",
                     {Hazard::glue_and_paint, Hazard::hand_blade}});
    steps.push_back({"Check each course before the next",
                     "Count its runs and compare the end of each with its mark; tick the course off. From a photo of "
                     "the board, with "
                     "the marks of corner_marks.pdf at its corners, proof_read finds slips.",
                     {}});
  }
  for (WorkStep& step : detail::last_steps(plan)) steps.push_back(std::move(step));
  return steps;
}

}  // namespace handlaid
