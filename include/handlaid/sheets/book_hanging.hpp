// Bench book: what the panel weighs, and how it hangs on the wall.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/work_step.hpp"

namespace handlaid::detail {

/// What hangs from a hook leans.
inline constexpr const char* pad_words =
    " Hook and eyes may hold the top a little off the wall: when it hangs, measure how far, and stick pads as thick "
    "behind the lower corners, so that it hangs upright.";

/// "50, 300 and 550 mm".
template <When = When::called>
std::string places_text(const std::vector<Length>& places, LengthUnit unit) {
  std::string text;
  for (const Length place : places) {
    if (!text.empty()) text += place == places.back() ? " and " : ", ";
    text += mark_text(place, unit);
  }
  return text + " " + symbol(unit);
}

/// How the panel hangs, with the places of all that is screwed.
template <When = When::called>
std::string hanging_words(const Plan& plan, LengthUnit unit) {
  const Fabrication& made = plan.fabrication;
  const HangingTakeoff& hanging = made.hanging;
  if (hanging.way == HangingWay::wire) {
    return "By a wire on two eyes " +
           std::string(made.frame ? "in the backs of the side rails" : "on the back of the board") + ", bored first" +
           (made.frame ? ", no deeper than " + with_unit(made.frame->timber_thickness, unit) : std::string{}) + ", " +
           with_unit(hanging.wire_span, unit) + " apart and " + with_unit(hanging.eye_drop, unit) +
           " below the top edge; the wire is " + with_unit(hanging.wire_length, unit) +
           " between them, and some more for the knots. It is not taut: drawn up in the middle by a finger it stands " +
           with_unit(hanging.eye_drop - hanging.hook_drop, unit) + " above the eyes, " +
           with_unit(hanging.hook_drop, unit) +
           " below the top edge; measure that, and tie it again if it is off by more "
           "than " +
           (unit == LengthUnit::millimetres ? "5 mm" : "1/4 in") +
           ", for a flatter wire pulls much harder. It pulls with " + mass_text(hanging.wire_pull_g) +
           " at each end, not with half the weight. One hook, " + with_unit(hanging.hook_height, unit) +
           " above the floor where the wire lies on it, carries " + mass_text(hanging.load_per_point_g) +
           (made.frame ? "; it reaches less than " + with_unit(made.frame->timber_thickness, unit) +
                             " out of the wall and stands in the free middle of the frame."
                       : std::string(".")) +
           pad_words;
  }
  if (hanging.way == HangingWay::hooks) {
    return "By " + count_text(hanging.points, "hook", "hooks") + ", each straight above the eye it takes hold of " +
           std::string(made.frame ? "on the back of the top rail, " : "on the back of the board, ") +
           places_text(hook_places(plan.marks.board.width, hanging.points), unit) +
           " from the left edge; each carries " + mass_text(hanging.load_per_point_g) + "." + pad_words;
  }
  const std::string load =
      count_text(hanging.points, "screw", "screws") + ", each carrying " + mass_text(hanging.load_per_point_g);
  if (!made.frame) {
    return "By two battens with a bevelled edge that hook into each other, one glued and screwed along the top of the "
           "back, one on the wall with " +
           load + "; have the bevel sawn where they are bought.";
  }
  return "By the wall rail, " + with_unit(made.frame->wall_rail, unit) + " long, with " + load + ": its holes are " +
         places_text(screws_along(made.frame->wall_rail, hanging.points), unit) +
         " from its left end, as wide as the screws, which are sunk, or the panel stands off. Where the wall holds "
         "elsewhere, bore there" +
         (made.keeper_screw > Length{}
              ? ", but no nearer than " + with_unit(20 * mm, unit) + " to the two holes from above, " +
                    with_unit(keeper_place(*made.frame, hanging.points) -
                                  (plan.marks.board.width - made.frame->wall_rail).divided(2),
                              unit) +
                    " from either end"
              : std::string{}) +
         ". It stands level, its upper edge " + with_unit(hanging.top_height - made.frame->timber_width, unit) +
         " above the floor and its holes " +
         with_unit(hanging.top_height - made.frame->timber_width.times(3).divided(2), unit) +
         ", and the top rail of the frame rests on it with " + with_unit(wall_rail_play, unit) +
         " of play at each side." +
         (made.keeper_screw > Length{}
              ? " When it hangs straight, two screws, " + with_unit(keeper_place(*made.frame, hanging.points), unit) +
                    " from each side of the panel, keep it from being lifted off: down through the holes of the top "
                    "rail into those of the wall rail, bored at the bench. They stand only " +
                    with_unit(made.frame->timber_thickness.divided(2), unit) +
                    " from the wall: take a long slim screwdriver or a right-angle attachment."
              : "");
}

template <When = When::called>
void add_hanging(Markup& page, const Plan& plan, LengthUnit unit) {
  const Fabrication& made = plan.fabrication;
  const HangingTakeoff& hanging = made.hanging;
  page.element("h3", "Weight and hanging").line();
  begin_wide(page, "Weight");
  page.open("table").open("tbody").line();
  for (const WeightLine& line : made.weight.lines) {
    page.open("tr").element("th", line.what, R"(scope="row")");
    add_number(page, mass_text(line.mass_g));
    page.close().line();
  }
  page.close().open("tfoot").open("tr").element("th", "All, reckoned", R"(scope="row")");
  add_number(page, mass_text(made.weight.total_g));
  page.close().close().close().close().line();
  add_paragraph(
      page,
      "Weigh the finished panel; this is reckoned from densities" +
          std::string(plan.strips ? ", paint and glue as wet as they are bought" : "") + ". " +
          std::string(made.weight.persons > 1 ? "By this weight " + count_text(made.weight.persons) + " people lift it."
                      : takes_two(plan) ? "One person could lift this weight, but two carry it: it is too wide to "
                                          "hold close."
                                        : "One person can lift and carry it.") +
          (plan.strips || plan.job.weight.grams_per_piece > 0
               ? std::string{}
               : " The pieces are not in it: weigh a hundred and put grams-per-piece into the job, or add " +
                     reported_text(static_cast<double>(plan.pieces.pieces()) / 100, 1) +
                     " times that weight by hand here, and " +
                     reported_text(static_cast<double>(plan.pieces.pieces()) / 100 *
                                       static_cast<double>(hanging.rated_g) /
                                       static_cast<double>(std::max<std::int64_t>(made.weight.total_g, 1)),
                                   1) +
                     " times that weight to what each fixing is rated for."));
  add_caution(page, Hazard::lifting);
  add_paragraph(page, hanging_words(plan, unit) + " Take fixings for the wall at hand that are rated for at least " +
                          mass_text(hanging.rated_g) + " each; the fixing's data sheet and local codes decide.");
  add_paragraph(page, "Middle of the panel " + with_unit(hanging.centre_height, unit) +
                          " above the floor, its top edge " + with_unit(hanging.top_height, unit) + ".");
  add_caution(page, Hazard::wall);
  add_caution(page, Hazard::ladder);
}

}  // namespace handlaid::detail
