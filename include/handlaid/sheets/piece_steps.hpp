// The steps of laying pieces that are bought in their colours. Common practice, no source.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/work_step.hpp"

namespace handlaid::detail {

/// "9 toffee": the colour of which ten are torn off.
template <When = When::called>
std::string commonest_colour(const Plan& plan) {
  const auto& lines = plan.pieces.lines;
  const auto most = std::max_element(lines.begin(), lines.end(),
                                     [](const PieceLine& a, const PieceLine& b) { return a.cells < b.cells; });
  if (most == lines.end()) return {};
  const std::string& name = plan.chart.palette[most->number].name;
  return std::to_string(most->number) + (name.empty() ? "" : " " + name);
}

/// By how much a course laid dry may be off: half a millimetre in the length of the pilot's, rounded down to a half.
template <When = When::called>
Length dry_course_slack(const Plan& plan) {
  const Patch& patch = plan.fabrication.pilot;
  const std::int64_t tried = std::max(1, patch.last_column - patch.first_column + 1);
  return Length::from_um(std::max<std::int64_t>(1, plan.chart.lattice.columns / tried) * 500);
}

/// What comes before the board.
template <When = When::called>
std::vector<WorkStep> steps_to_pieces(const Plan& plan) {
  const Patch& patch = plan.fabrication.pilot;
  const bool ordered = plan.fabrication.orders.has_value();
  const std::string amount = ordered ? count_text(plan.fabrication.orders->rest.pack_count(), "pack", "packs") +
                                           ", the second table of the order"
                                     : count_text(plan.pieces.needed(), "piece", "pieces");
  return {
      {"Try ten pieces on an offcut",
       "Buy what the order lists for the pilot, no more. Seal an offcut of the board as you will seal the board, and "
       "lay ten pieces of colour " +
           commonest_colour(plan) +
           " on it with the glue you will use. Look again the next day: pull one off, which should tear before the "
           "glue lets go, bend the offcut, rub it, hold it "
           "in the light and at the window. Pieces that are painted and rigid get the cross-cut tape test first: ASTM "
           "D3359 and ISO 2409 say how. If they come off, change the glue or the sealer and begin again.",
       {Hazard::glue_and_paint, Hazard::hand_blade},
       true},
      {"Lay the pilot patch and time it",
       "Lay " + patch_words(plan.fabrication.pilot) +
           ", the richest part, on the same offcut. It stays there: its pieces are counted beside the panel. Measure "
           "it: it must be " +
           size_text({plan.chart.lattice.pitch_x().times(patch.last_column - patch.first_column + 1),
                      plan.chart.lattice.pitch_y().times(patch.last_course - patch.first_course + 1)},
                     unit_of(plan)) +
           " to half a millimetre, or the pieces are not of the size that is planned: have the shop change them, trim "
           "them, or put their size into the job (pitch) and plan again. Weigh a "
           "hundred pieces too (grams-per-piece in the job): what it hangs by is rated by weight." +
           timing_words,
       {Hazard::glue_and_paint, Hazard::hand_blade},
       true},
      {"Order the rest in one go",
       amount + ", of the lot of the pilot" + (plan.pieces.spares() > 0 ? ", spares included" : "") +
           "; of another lot, mix both before sorting. Write the lot numbers on the " +
           (ordered ? "order" : "palette") +
           " page. When they come, count one pack of each colour; if it is short, count them all and order what is "
           "missing of the same lot.",
       {}},
      {"Sort the pieces",
       "One box a colour, its number on the box: labels.pdf has a label for each. Mix the packs of a colour before you "
       "fill the box.",
       {}},
      {"Lay one course dry",
       "Course 1 of the list, nothing stuck down, along a straightedge on the bench. It must be " +
           with_unit(plan.chart.lattice.extent().width, unit_of(plan)) + " long to " +
           with_unit(dry_course_slack(plan), unit_of(plan)) +
           ", as near for its length as the pilot was: so little is shared out between the lines as it is laid. If it "
           "is further off, the pieces are not those of the pilot: have them changed, or plan again with their size "
           "(pitch), which needs no other number of them, and the board is not made yet.",
       {}},
  };
}

/// How a cell is filled.
template <When = When::called>
std::string cell_words(const Plan& plan) {
  const LengthUnit unit = unit_of(plan);
  const int each = std::max(plan.pieces.per_cell, 1);
  const Rectangular& lattice = plan.chart.lattice;
  const std::string size = size_text({lattice.pitch_x().divided(each), lattice.pitch_y()}, unit);
  if (each == 1) return "One piece goes to each cell that the list counts; it covers " + size + ".";
  return count_text(each) + " pieces go to each cell that the list counts, side by side, each covering " + size +
         ", as \"At its real size\" shows near the end of the book.";
}

/// What comes after it.
template <When = When::called>
std::vector<WorkStep> steps_of_laying(const Plan& plan) {
  return {
      {"Lay course by course from the bottom",
       cell_words(plan) +
           " Read the course list, check with the chart. Spread the glue on the board, thinly and only as high as the "
           "course, so that the lines of the next stay in sight, and no more than you can cover before "
           "it skins, that is, dries on top. At every fifth column begin on its line again, and each course on its "
           "own: leave a hair between pieces that fall short, trim one that is too wide or too high rather than push "
           "its neighbours. templates.pdf has the "
           "cells at true scale, to lay out by; its first page says how.",
       {Hazard::glue_and_paint, Hazard::hand_blade, Hazard::point}},
      {"Check each course before the next",
       "Count its runs and compare the end of each with its mark; tick the course off. That needs no more than this "
       "paper. With a computer at hand \"When something changes\" says how a slip is found faster.",
       {}},
  };
}

}  // namespace handlaid::detail
