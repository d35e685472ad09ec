// Bench book: the board from its sheets, and the frame behind it.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/book_hanging.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/frame_drawing.hpp"
#include "handlaid/sheets/work_step.hpp"

namespace handlaid {

inline constexpr BookSection board_section{"board", "Board, frame and wall"};

namespace detail {

/// One sheet with its parts.
template <When = When::called>
void add_sheet_drawing(Markup& page, const SheetTakeoff& sheets, LengthUnit unit) {
  const Length longer = std::max(sheets.sheet.width, sheets.sheet.height);
  const auto scaled = [&](Length length) { return Length::from_um(length.um() * 100'000 / longer.um()); };
  const Length height = scaled(sheets.sheet.height);
  page.open("svg", "class=\"field\" viewBox=\"-1 -1 102 " + drawing_mm(height + 2 * mm) +
                       "\" role=\"img\" aria-label=\"Where the parts lie on a sheet\" font-size=\"3.4\" "
                       "font-family=\"sans-serif\" fill=\"" +
                       to_hex(look::quiet) + "\"");
  const auto box = [&](Length x, Length y, const Size& size, const Srgb8& fill) {
    page.leaf("rect", "x=\"" + drawing_mm(x) + "\" y=\"" + drawing_mm(y) + "\" width=\"" +
                          drawing_mm(scaled(size.width)) + "\" height=\"" + drawing_mm(scaled(size.height)) +
                          "\" fill=\"" + to_hex(fill) + "\" stroke=\"" + to_hex(look::ink) + "\" stroke-width=\".4\"");
  };
  box({}, {}, sheets.sheet, look::shade);
  for (const SheetPlace& place : sheets.layout) {
    const Length x = scaled(place.left);
    const Length y = height - scaled(place.bottom) - scaled(place.size.height);
    box(x, y, place.size, look::board);
    page.element("text", size_text(place.size, unit),
                 "x=\"" + drawing_mm(x + scaled(place.size.width).divided(2)) + "\" y=\"" +
                     drawing_mm(y + scaled(place.size.height).divided(2) + 1 * mm) +
                     "\" text-anchor=\"middle\" fill=\"" + to_hex(look::ink) + "\"");
  }
  page.close().line();
}

/// Each different stock length with its cuts, to scale.
template <When = When::called>
void add_timber_drawing(Markup& page, const FrameTakeoff& frame, LengthUnit unit) {
  const auto scaled = [&](std::int64_t um) { return Length::from_um(um * 100'000 / frame.stock_length.um()); };
  const auto rows = static_cast<std::int64_t>(frame.cuts.patterns.size());
  page.open("svg", "class=\"field\" viewBox=\"-1 0 108 " + std::to_string(rows * 11 + 1) +
                       "\" role=\"img\" aria-label=\"Cuts of each length of timber, to scale\" font-size=\"3.4\" "
                       "font-family=\"sans-serif\" fill=\"" +
                       to_hex(look::ink) + "\"");
  for (std::int64_t row = 0; row < rows; ++row) {
    const CutPattern& pattern = frame.cuts.patterns[static_cast<std::size_t>(row)];
    const Length top = 1 * mm + (11 * mm).times(row);
    const auto box = [&](std::int64_t at, std::int64_t length, const Srgb8& fill, const std::string& label) {
      page.leaf("rect", "x=\"" + drawing_mm(scaled(at)) + "\" y=\"" + drawing_mm(top) + "\" width=\"" +
                            drawing_mm(scaled(length)) + "\" height=\"7\" fill=\"" + to_hex(fill) + "\" stroke=\"" +
                            to_hex(look::ink) + "\" stroke-width=\".3\"");
      if (scaled(length) < 9 * mm) return;
      page.element("text", label,
                   "x=\"" + drawing_mm(scaled(at) + scaled(length).divided(2)) + "\" y=\"" +
                       drawing_mm(top + 4.7 * mm) + "\" text-anchor=\"middle\"");
    };
    std::int64_t at = 0;
    for (std::size_t i = 0; i < frame.parts.size(); ++i) {
      for (std::int64_t n = 0; n < pattern.counts[i]; ++n) {
        box(at, frame.parts[i].length.um(), look::board, mark_text(frame.parts[i].length, unit));
        at += frame.parts[i].length.um() + frame.kerf.um();
      }
    }
    if (pattern.left_over > 0) {
      box(frame.stock_length.um() - pattern.left_over, pattern.left_over, look::paper, "left");
    }
    page.element("text", "×" + std::to_string(pattern.times), "x=\"101\" y=\"" + drawing_mm(top + 4.7 * mm) + "\"");
  }
  page.close().line();
}

/// Where the battens stand upright.
template <When = When::called>
std::string batten_words(const FrameTakeoff& frame, LengthUnit unit) {
  if (frame.batten_gap == Length{}) return {};
  return (frame.battens.size() == 1 ? " It stands on the bottom rail and ends "
                                    : " They stand on the bottom rail and end ") +
         with_unit(frame.batten_gap, unit) + " below the top one: that is the place of the wall rail.";
}

/// What is red in the drawing of the frame.
template <When = When::called>
const char* red_words(const Plan& plan) {
  switch (plan.fabrication.hanging.way) {
    case HangingWay::rail:
      return "; red is the wall rail, with its own screws";
    case HangingWay::wire:
      return "; red are the eyes, the wire over the backs of the battens, and the hook in the wall";
    case HangingWay::hooks:
      return "; red is where the hooks of the wall take hold";
  }
  return "";
}

/// "7, each 115.3 mm from the next".
template <When = When::called>
std::string part_screws(const FramePart& part, LengthUnit unit) {
  if (part.screws == 0) return "into the wall";
  const std::vector<Length> places = screws_along(part.length, part.screws);
  return count_text(part.screws) + ", " + with_unit(places[1] - places[0], unit) + " apart";
}

template <When = When::called>
void add_frame_list(Markup& page, const Plan& plan, LengthUnit unit) {
  const FrameTakeoff& frame = *plan.fabrication.frame;
  page.element("h3", "Frame").line();
  begin_wide(page, "Timbers of the frame");
  page.open("table").open("thead").open("tr");
  add_heading(page, "Cut");
  add_heading(page, "Part");
  add_heading(page, "Length", true);
  add_heading(page, "How many", true);
  add_heading(page, "Screws in each");
  page.close().close().line().open("tbody").line();
  for (const FramePart& part : frame.parts) {
    page.open("tr").open("td");
    add_tick(page, "frame, " + part.name, part.name + " is cut");
    page.close();
    page.element("th", part.name + (part.mitred ? ", mitred at 45°, between the long points" : ""), R"(scope="row")");
    add_number(page, with_unit(part.length, unit));
    add_number(page, count_text(part.count));
    page.element("td", part_screws(part, unit)).close().line();
  }
  page.close().close().close().line();
  std::string battens;
  for (const Length batten : frame.battens) battens += (battens.empty() ? "" : ", ") + mark_text(batten, unit);
  add_paragraph(page,
                "From " + count_text(frame.cuts.stock_count, "length", "lengths") + " of " +
                    with_unit(frame.stock_length, unit) + ", " + with_unit(frame.timber_width, unit) + " wide and " +
                    with_unit(frame.timber_thickness, unit) + " thick, with " + with_unit(frame.kerf, unit) +
                    " lost at each cut. " + count_text(frame.screws, "screw", "screws") + " through the board." +
                    (battens.empty()
                         ? ""
                         : std::string(frame.battens.size() == 1 ? " Middle of the batten" : " Middle of the battens") +
                               " from either side edge: " + battens + "." + batten_words(frame, unit)));
  add_timber_drawing(page, frame, unit);
  add_paragraph(page,
                "Put together it looks like this from the back. Dots are the screws, driven from the front through "
                "the board" +
                    std::string(red_words(plan)) + ". Below, the top edge at the wall from the side.");
  add_frame_drawing(page, plan);
  add_wall_section(page, plan);
}

}  // namespace detail

template <When = When::called>
void add_board(Markup& page, const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Fabrication& made = plan.fabrication;
  begin_section(page, board_section);
  add_paragraph(page, "The board is " + size_text(plan.marks.board, unit) + ", " +
                          detail::with_unit(plan.job.board_thickness, unit) +
                          " thick. From the driest to the dampest air of the year it grows by about " +
                          reported_text(made.growth.width.in_mm(), 1) + " mm" + " in width and " +
                          reported_text(made.growth.height.in_mm(), 1) + " mm" +
                          " in height: leave it that room where an outer frame or walls stand close round it.");
  for (const Hazard hazard : {Hazard::whole_sheet, Hazard::turning_blade, Hazard::drill, Hazard::dust}) {
    add_caution(page, hazard);
  }
  if (made.sheets) {
    const SheetTakeoff& sheets = *made.sheets;
    add_paragraph(page, sheets.parts() == 1
                            ? "It comes whole from one sheet of " + size_text(sheets.sheet, unit) + "."
                            : "No sheet of " + size_text(sheets.sheet, unit) +
                                  " holds it: " + count_text(sheets.parts()) + " equal parts of " +
                                  size_text(sheets.part, unit) + ", " + std::to_string(sheets.parts_across) +
                                  " side by side and " + std::to_string(sheets.parts_up) + " high, from " +
                                  count_text(sheets.sheets, "sheet", "sheets") +
                                  ". Put a batten behind every join, and no join where courses end.");
    detail::add_sheet_drawing(page, sheets, unit);
  }
  if (made.frame) detail::add_frame_list(page, plan, unit);
  detail::add_hanging(page, plan, unit);
  page.close().line();
}

}  // namespace handlaid
