// Bench book: the frame as it is put together, seen from the back with every screw in its place and what the panel
// hangs by, and a section through its top edge at the wall. Both to scale.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid::detail {

/// A place on a drawing whose unit is a length divided by `per_unit`.
struct DrawingScale {
  Length per_unit = 1 * mm;
  Length operator()(Length length) const { return Length::from_um(length.um() * 1'000 / per_unit.um()); }
  std::string text(Length length) const { return drawing_mm((*this)(length)); }
};

/// Shapes of one look, drawn as one element.
class DrawingPath {
 public:
  explicit DrawingPath(const DrawingScale& scale) : scale_(scale) {}

  void box(Length x, Length y, Length width, Length height) {
    path_ += "M" + place(x, y) + "h" + scale_.text(width) + "v" + scale_.text(height) + "H" + scale_.text(x) + "z";
  }
  void line(Length x, Length y, Length to_x, Length to_y) { path_ += "M" + place(x, y) + "L" + place(to_x, to_y); }
  /// A dot is a line of no length with round ends.
  void dot(Length x, Length y) { path_ += "M" + place(x, y) + "h0"; }
  void add_to(Markup& page, const std::string& look) const {
    if (!path_.empty()) page.leaf("path", look + " d=\"" + path_ + "\"");
  }

 private:
  std::string place(Length x, Length y) const { return scale_.text(x) + " " + scale_.text(y); }
  DrawingScale scale_;
  std::string path_ = {};
};

inline std::string outline(const Srgb8& colour, const char* width, const char* more = "") {
  return "fill=\"none\" stroke=\"" + to_hex(colour) + "\" stroke-width=\"" + width + "\"" + more;
}
inline constexpr const char* dashed = " stroke-dasharray=\"1.6 1.2\"";
inline constexpr const char* round_ends = " stroke-linecap=\"round\"";

/// Timbers and the screws in them.
template <When = When::called>
void draw_timbers(const Plan& plan, DrawingPath& timbers, DrawingPath& screws) {
  const FrameTakeoff& frame = *plan.fabrication.frame;
  const Size& board = plan.marks.board;
  const Length width = frame.timber_width;
  const Length half = width.divided(2);
  const bool mitred = plan.job.frame.corners == Corners::mitred;
  const Length inside = board.height - width.times(2);
  const auto screw_places = [&](Length timber) {
    return screws_along(timber, screws_on(timber, plan.job.frame.screw_spacing));
  };
  for (const Length y : {Length{}, board.height - width}) {
    timbers.box({}, y, board.width, width);
    for (const Length place : screw_places(board.width)) screws.dot(place, y + half);
  }
  const Length from = mitred ? Length{} : width;
  for (const Length x : {Length{}, board.width - width}) {
    timbers.box(x, from, width, board.height - from.times(2));
    for (const Length place : screw_places(board.height - from.times(2))) screws.dot(x + half, from + place);
    if (!mitred) continue;
    const Length outer = x == Length{} ? x : x + width;
    const Length inner = x == Length{} ? x + width : x;
    timbers.line(outer, {}, inner, width);
    timbers.line(outer, board.height, inner, board.height - width);
  }
  for (const Length middle : frame.battens) {
    const Length top = width + frame.batten_gap;
    const Length batten = inside - frame.batten_gap;
    timbers.box(middle - half, top, width, batten);
    for (const Length place : screw_places(batten)) screws.dot(middle, top + place);
  }
}

/// What the panel hangs by, dashed where it stays on the wall.
template <When = When::called>
void draw_hanging(const Plan& plan, DrawingPath& on_wall, DrawingPath& on_panel, DrawingPath& points) {
  const FrameTakeoff& frame = *plan.fabrication.frame;
  const HangingTakeoff& hanging = plan.fabrication.hanging;
  const Size& board = plan.marks.board;
  if (hanging.way == HangingWay::rail) {
    const Length left = frame.timber_width + wall_rail_play;
    on_wall.box(left, frame.timber_width, frame.wall_rail, frame.timber_width);
    for (const Length place : screws_along(frame.wall_rail, hanging.points)) {
      points.dot(left + place, frame.timber_width.times(3).divided(2));
    }
  } else if (hanging.way == HangingWay::wire) {
    const Length left = (board.width - hanging.wire_span).divided(2);
    const Length middle = board.width.divided(2);
    on_panel.line(left, hanging.eye_drop, middle, hanging.hook_drop);
    on_panel.line(middle, hanging.hook_drop, left + hanging.wire_span, hanging.eye_drop);
    points.dot(left, hanging.eye_drop);
    points.dot(left + hanging.wire_span, hanging.eye_drop);
    points.dot(middle, hanging.hook_drop);
  } else {
    for (const Length place : hook_places(board.width, hanging.points)) {
      points.dot(place, frame.timber_width.divided(2));
    }
  }
}

/// The frame from the back.
template <When = When::called>
void add_frame_drawing(Markup& page, const Plan& plan) {
  const Size& board = plan.marks.board;
  const DrawingScale scale{Length::from_um(std::max(board.width, board.height).um() / 100)};
  page.open("svg", "class=\"field\" viewBox=\"-4 -1 108 " + drawing_mm(scale(board.height) + 7 * mm) +
                       "\" role=\"img\" aria-label=\"The frame from the back, to scale, with its screws\" "
                       "font-size=\"3.4\" font-family=\"sans-serif\" fill=\"" +
                       to_hex(look::ink) + "\"");
  DrawingPath timbers(scale);
  DrawingPath screws(scale);
  DrawingPath on_wall(scale);
  DrawingPath on_panel(scale);
  DrawingPath points(scale);
  draw_timbers(plan, timbers, screws);
  draw_hanging(plan, on_wall, on_panel, points);
  DrawingPath back(scale);
  back.box({}, {}, board.width, board.height);
  back.add_to(page, "fill=\"" + to_hex(look::shade) + "\"");
  timbers.add_to(page, "fill=\"" + to_hex(look::board) + "\" stroke=\"" + to_hex(look::ink) + "\" stroke-width=\".3\"");
  screws.add_to(page, outline(look::ink, "1", round_ends));
  on_wall.add_to(page, outline(look::accent, ".5", dashed));
  on_panel.add_to(page, outline(look::accent, ".5"));
  points.add_to(page, outline(look::accent, "1.8", round_ends));
  // from the back the datum is at the right
  page.element("text", "datum corner",
               "x=\"" + scale.text(board.width) + "\" y=\"" + drawing_mm(scale(board.height) + 4 * mm) +
                   "\" text-anchor=\"end\"");
  page.close().line();
}

/// A section through the top edge where it meets the wall: wall, timbers, board.
template <When = When::called>
void add_wall_section(Markup& page, const Plan& plan) {
  const FrameTakeoff& frame = *plan.fabrication.frame;
  const HangingTakeoff& hanging = plan.fabrication.hanging;
  const Length width = frame.timber_width;
  const Length deep = frame.timber_thickness;
  const Length thick = plan.job.board_thickness;
  const Length wall = deep;
  const Length shown = std::max(width.times(5).divided(2), hanging.hook_drop.times(2));
  const Length all = wall + deep + thick;
  const DrawingScale scale{Length::from_um(std::max(shown.um() / 46, all.um() / 50))};
  page.open("svg", "class=\"field\" viewBox=\"-1 -4 108 " + drawing_mm(scale(shown) + 6 * mm) +
                       "\" role=\"img\" aria-label=\"The top edge at the wall, from the side, to scale\" "
                       "font-size=\"3.4\" font-family=\"sans-serif\" fill=\"" +
                       to_hex(look::ink) + "\"");
  const Length label = scale(all) + 4 * mm;
  const auto name = [&](const char* text, Length x, Length y) {
    page.leaf("path", outline(look::quiet, ".2") + " d=\"M" + scale.text(x) + " " + scale.text(y) + "H" +
                          drawing_mm(label - 1 * mm) + "\"");
    page.element("text", text, "x=\"" + drawing_mm(label) + "\" y=\"" + drawing_mm(scale(y) + 1.2 * mm) + "\"");
  };
  DrawingPath grey(scale);
  grey.box({}, Length{} - deep.divided(8), wall, shown + deep.divided(8));
  grey.add_to(page, "fill=\"" + to_hex(look::rule) + "\"");
  DrawingPath wood(scale);
  wood.box(wall, {}, deep, width);
  if (hanging.way == HangingWay::rail) wood.box(wall, width, deep, width);
  wood.box(wall + deep, {}, thick, shown);
  wood.add_to(page, "fill=\"" + to_hex(look::board) + "\" stroke=\"" + to_hex(look::ink) + "\" stroke-width=\".3\"");
  DrawingPath iron(scale);
  const Length axis = width.times(3).divided(2);
  if (hanging.way == HangingWay::rail) {
    iron.line(wall.divided(4), axis, wall + deep, axis);
    if (plan.fabrication.keeper_screw > Length{}) {
      iron.line(wall + deep.divided(2), {}, wall + deep.divided(2), plan.fabrication.keeper_screw);
    }
  } else {
    const Length hook = hanging.way == HangingWay::wire ? hanging.hook_drop : width.divided(2);
    iron.line(wall.divided(4), hook, wall + deep.divided(3), hook);
    iron.line(wall + deep.divided(3), hook, wall + deep.divided(3), hook - hook.divided(6));
  }
  iron.add_to(page, outline(look::accent, ".8"));
  name("top rail of the frame", wall + deep.times(3).divided(4), width.divided(3));
  if (hanging.way == HangingWay::rail) {
    name("wall rail, screwed to the wall", wall + deep.times(3).divided(4), axis);
  } else {
    const Length hook = hanging.way == HangingWay::wire ? hanging.hook_drop : width.divided(2);
    name(hanging.way == HangingWay::wire ? "hook in the wall, under the wire" : "hook in the wall",
         wall + deep.divided(3), hook);
  }
  name("board, what is laid on its right face", wall + deep + thick.divided(2), shown - width.divided(4));
  page.element("text", "wall", "x=\"1\" y=\"" + drawing_mm(scale(shown) - 2 * mm) + "\"");
  page.close().line();
}

}  // namespace handlaid::detail
