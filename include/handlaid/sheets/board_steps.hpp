// The steps that every method has: looking before anything is bought, the board, its frame and marks, and at the end
// standing back, carrying and hanging. Common practice, no source, unless a figure says otherwise.
#pragma once

#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/label_sheet.hpp"
#include "handlaid/sheets/order_items.hpp"
#include "handlaid/sheets/page_parts.hpp"
#include "handlaid/sheets/work_step.hpp"

namespace handlaid::detail {

template <When = When::called>
WorkStep look_step() {
  return {
      "Look before you buy",
      "Look at the preview from as far as the panel will hang. Hold samples of the colours, the shop's own or its "
      "colour card, against the place and in its light: a screen or a home print is no colour sample; "
      "swatch_cards.pdf has a card for each to put the sample on. Choose a dry "
      "wall, out of the sun and away from heaters and steam, and not over a bed, a cot or a seat: colours fade, boards "
      "bend, and what hangs can fall.",
      {},
      true};
}

/// "63.5 × 38.1 mm, 21 to a sheet".
template <When = When::called>
std::string label_words(const Plan& plan) {
  const LabelSheet& sheet = label_sheet_of(paper_of(plan.job));
  return size_text(sheet.label, unit_of(plan)) + ", " + std::to_string(sheet.places()) + " to a sheet";
}

/// Which pages are printed where, and the bars that are measured before anything is taken from them.
template <When = When::called>
WorkStep print_step(const Plan& plan) {
  const std::string paper = name_of(paper_of(plan.job));
  return {
      "Print the pages and measure their bars",
      "At home, on " + paper + " at 100 %, never fitted to the page: this book, setting_out.pdf, story_poles.pdf, " +
          std::string(plan.strips ? "marking_tiles.pdf" : "templates.pdf") +
          ", swatch_cards.pdf, corner_marks.pdf, and labels.pdf on bought sheets of labels, " + label_words(plan) +
          ". A print shop has paper for " +
          std::string(plan.strips ? "marking_sheets.pdf, which spares you the tiles, and for large_pages.pdf, the "
                                    "whole chart and the poles in one piece."
                                  : "large_pages.pdf, the whole chart and the poles in one piece.") +
          " Measure the bars that pages have with the rule you will work with: they must be what they say; "
          "if both are off alike, print all at 100 percent times what they should be, divided by what they measure, or "
          "else type "
          "both into the job (bar-across, bar-up) and plan again, but not both. You need none "
          "of these but the book; each spares you work that its step can do by hand.",
      {},
      true};
}

/// What is fixed to the back before the face is laid: a line more for the step.
template <When = When::called>
std::string hanger_words(const Plan& plan) {
  const HangingTakeoff& hanging = plan.fabrication.hanging;
  if (hanging.way == HangingWay::rail) {
    const Length screw = plan.fabrication.keeper_screw;
    if (screw == Length{}) return "\nTry the wall rail in its place under the top rail.";
    const LengthUnit unit = unit_of(plan);
    return "\nBore the wall rail for its own screws, as the board page says, and sink those holes. Put it in its place "
           "under the top rail, with as much play at either end, clamp it, and mark on it which end is left and which "
           "side is the back. For the two screws that keep the panel on it bore down through the top rail, " +
           with_unit(keeper_place(*plan.fabrication.frame, hanging.points), unit) +
           " from each side and in the middle of its thickness, " + slip_hole(screw, unit) +
           " wide, so that they slip through. Mark the wall rail through these holes, unclamp it, and bore it there " +
           with_unit(screw - plan.job.frame.timber_width, unit) + " deep with " + core_hole(screw, unit) +
           ": at the wall no drill reaches it.";
  }
  return std::string("\nNow, before anything is laid, fix ") +
         (hanging.way == HangingWay::wire
              ? "the eyes of the wire to the back, as the board page says, and tie the wire between them, each end "
                "twice through its eye and wound round itself."
              : "the eyes for the hooks to the back, as the board page says.") +
         " From then on the panel lies on two battens, so that nothing on its back touches the "
         "bench.";
}

template <When = When::called>
WorkStep board_step(const Plan& plan) {
  const LengthUnit unit = unit_of(plan);
  const bool framed = plan.fabrication.frame.has_value();
  return {
      "Make the board ready",
      "Saw it to " + size_text(plan.marks.board, unit) +
          " or have it sawn. Lay a straightedge over it both ways and across: no more than " +
          with_unit(plan.marks.diagonal.divided(unit == LengthUnit::millimetres ? 500 : 480), unit) +
          " out of flat, as for tiles (" + (unit == LengthUnit::millimetres ? "6 mm in 3 m" : "1/4 inch in 10 feet") +
          "). Measure both diagonals: they must be the same to a millimetre, or it is sawn again now." +
          (framed ? ""
                  : " Seal the face, the back and the edges alike, so that it stays flat, and let it dry as its label "
                    "says; what is laid is glued on the sealed face." +
                        hanger_words(plan)),
      framed ? std::vector{Hazard::whole_sheet, Hazard::turning_blade, Hazard::dust}
             : std::vector{Hazard::whole_sheet, Hazard::turning_blade, Hazard::dust, Hazard::glue_and_paint,
                           Hazard::drill}};
}

template <When = When::called>
WorkStep frame_step(const Plan& plan) {
  const std::int64_t screws = plan.fabrication.frame->screws;
  return {"Build the frame",
          "Saw the timbers by the list on the board page, lay them out dry under the board, clamp it and measure "
          "both diagonals. Write on each timber where it belongs and which of its sides is the back. Draw the middle "
          "of every timber on the face; bore and sink the holes there for " +
              count_text(screws, "screw", "screws") + ", as many to a timber as the list says, the outer ones " +
              with_unit(50 * mm, unit_of(plan)) +
              " from its ends.\nThen spread wood glue on the joints and under the board, clamp it again and drive the "
              "screws at once, one at each end of a timber first. Lay the straightedge over it while the glue is wet: "
              "it must be as flat as the board was, or is clamped so now. Let the glue harden as its label says. Fill "
              "over the heads, and sand that flush when it is dry.\nWood glue holds on bare wood only, so seal face, "
              "back and edges alike now that the frame is on; what is laid is glued on the sealed face, as on the "
              "pilot's offcut, when the sealer is dry by its label." +
              hanger_words(plan),
          {Hazard::turning_blade, Hazard::drill, Hazard::dust, Hazard::glue_and_paint}};
}

template <When = When::called>
WorkStep setting_out_step() {
  return {
      "Set out from the datum",
      "Mark the bottom left corner: this is the datum. Take every mark from there, tape held still, never from the "
      "last mark. Check both diagonals before anything is laid. Mark opposite edges alike and draw every course and "
      "every fifth column right across, or hold a rod to each course as it is laid: a straight slip as long as the "
      "field, from what is left of the sheet. On paper the marks are setting_out.pdf, and at true scale, for the rod, "
      "story_poles.pdf.",
      {Hazard::hand_blade}};
}

/// What hangs below the board and must not be stood on.
template <When = When::called>
std::string fringe_words(const Plan& plan) {
  if (!plan.strips || plan.strips->overlap == Length{}) return {};
  return " The lowest course hangs " + with_unit(plan.strips->overlap, unit_of(plan)) +
         " below the board, if you left it: stand the panel on two battens, never on its fringe.";
}

/// How the panel is kept on its rail.
template <When = When::called>
std::string keeping_words(const Plan& plan) {
  if (plan.fabrication.keeper_screw == Length{}) return {};
  return " Move it until the play at both ends is alike and the holes meet, and drive the two screws down through the "
         "top rail into the wall rail: one steadies the panel and lets go only when both are in, " +
         std::string(takes_two(plan) ? "one drives, one holds the ladder." : "the other drives.");
}

template <When = When::called>
std::vector<WorkStep> last_steps(const Plan& plan) {
  return {
      {"Stand back, then finish",
       "Look from where it will be seen, in daylight and in the evening. " +
           std::string(plan.strips ? "Touch up with a fine brush what looks wrong. "
                                   : "Change what looks wrong now: work a filler knife flat under the piece from one "
                                     "side, away from the other hand, scrape off the old glue, and lay a spare. ") +
           std::string(plan.strips ? "Keep what is left in the pots, closed tight, and a piece of a spare strip in an "
                                     "envelope on the back, with the lot numbers."
                                   : "Keep the pieces that are left, with their lot numbers, in an envelope on the "
                                     "back.") +
           " Write on the back: title, which edge is the top, date.",
       plan.strips ? std::vector{Hazard::glue_and_paint} : std::vector{Hazard::glue_and_paint, Hazard::hand_blade}},
      {"Lift and carry",
       "Weigh it and write that on the back, measure the doors, and clear the way before the panel leaves the bench. "
       "Carry it upright, "
       "the face away from you, " +
           std::string(plan.fabrication.frame ? "by the frame" : "by the board") + " and not by what is laid." +
           fringe_words(plan) +
           " For a journey lay clean paper and stiff card over the face, held by the edges only, so that nothing "
           "presses on what is laid.",
       {Hazard::lifting}},
      {"Fix it to the wall",
       "Mark the height, level it, and fix what the panel hangs by, as the board page says; then " +
           std::string(takes_two(plan) ? "two people hang it while a third looks."
                                       : "hang it while a second person looks.") +
           keeping_words(plan) +
           " From then on a soft dry brush is all the cleaning it takes: no water, no spray, no nozzle on the face.",
       {Hazard::wall, Hazard::drill, Hazard::ladder}},
  };
}

}  // namespace handlaid::detail
