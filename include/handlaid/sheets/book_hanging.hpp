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
    "Hook and eyes may hold the top a little off the wall: when it hangs, measure how far, and stick pads as thick "
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

/// How the panel hangs, with the places of all that is screwed: a paragraph for each thing that is done.
template <When = When::called>
std::vector<std::string> hanging_words(const Plan& plan, LengthUnit unit) {
  const Fabrication& made = plan.fabrication;
  const HangingTakeoff& hanging = made.hanging;
  const auto text = [&](Length length) { return with_unit(length, unit); };
  if (hanging.way == HangingWay::wire) {
    return {"By a wire on two eyes " +
                std::string(made.frame ? "in the backs of the side rails" : "on the back of the board") +
                ", bored first, clear of the screws of the board" +
                (made.frame ? ", no deeper than " + text(made.frame->timber_thickness) : "") + ", " +
                text(hanging.wire_span) + " apart and " + text(hanging.eye_drop) + " below the top edge.",
            "The wire is " + text(hanging.wire_length) +
                " between them, and some more for the knots. It is not taut: drawn up in the middle by a finger it "
                "stands " +
                text(hanging.eye_drop - hanging.hook_drop) + " above the eyes, " + text(hanging.hook_drop) +
                " below the top edge. Measure that, and tie it again if it is off by more than " +
                (unit == LengthUnit::millimetres ? "5 mm" : "1/4 in") +
                ", for a flatter wire pulls much harder. It pulls with " + mass_text(hanging.wire_pull_g) +
                " at each end, not with half the weight.",
            "One hook, " + text(hanging.hook_height) + " above the floor where the wire lies on it, carries " +
                mass_text(hanging.load_per_point_g) +
                (made.frame ? "; it reaches less than " + text(made.frame->timber_thickness) +
                                  " out of the wall and stands in the free middle of the frame."
                            : "."),
            pad_words};
  }
  if (hanging.way == HangingWay::hooks) {
    return {"By " + count_text(hanging.points, "hook", "hooks") + ", each straight above the eye it takes hold of " +
                std::string(made.frame ? "on the back of the top rail, " : "on the back of the board, ") +
                places_text(hook_places(plan.marks.board.width, hanging.points), unit) + " from the left edge; each " +
                "carries " + mass_text(hanging.load_per_point_g) + ".",
            pad_words};
  }
  const std::string load =
      count_text(hanging.points, "screw", "screws") + ", each carrying " + mass_text(hanging.load_per_point_g);
  if (!made.frame) {
    return {
        "By two battens with a bevelled edge that hook into each other, one glued and screwed along the top of the "
        "back, one on the wall with " +
        load + "; have the bevel sawn where they are bought."};
  }
  const Length keeper = made.keeper_screw > Length{} ? keeper_place(*made.frame, hanging.points) : Length{};
  std::vector<std::string> lines = {
      "By the wall rail, " + text(made.frame->wall_rail) + " long, with " + load + ": its holes are " +
          places_text(screws_along(made.frame->wall_rail, hanging.points), unit) +
          " from its left end, as wide as the screws, which are sunk, or the panel stands off. Where the wall holds "
          "elsewhere, bore there" +
          (keeper > Length{}
               ? ", but no nearer than " + text(20 * mm) + " to the two holes from above, " +
                     text(keeper - (plan.marks.board.width - made.frame->wall_rail).divided(2)) + " from either end"
               : std::string{}) +
          ".",
      "It stands level, its upper edge " + text(hanging.top_height - made.frame->timber_width) +
          " above the floor and its holes " + text(hanging.top_height - made.frame->timber_width.times(3).divided(2)) +
          ", and the top rail of the frame rests on it with " + text(wall_rail_play) + " of play at each side."};
  if (keeper > Length{}) {
    lines.push_back("When it hangs straight, two screws, " + text(keeper) +
                    " from each side of the panel, keep it from being lifted off: down through the holes of the top "
                    "rail into those of the wall rail, bored at the bench. They stand only " +
                    text(made.frame->timber_thickness.divided(2)) +
                    " from the wall: take a long slim screwdriver or a right-angle attachment.");
  }
  return lines;
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
  for (const std::string& line : hanging_words(plan, unit)) add_paragraph(page, line);
  add_paragraph(page, "Take fixings for the wall at hand that are rated for at least " + mass_text(hanging.rated_g) +
                          " each; the fixing's data sheet and local codes decide. Middle of the panel " +
                          with_unit(hanging.centre_height, unit) + " above the floor, its top edge " +
                          with_unit(hanging.top_height, unit) + ".");
  add_caution(page, Hazard::wall);
  add_caution(page, Hazard::ladder);
}

}  // namespace handlaid::detail
