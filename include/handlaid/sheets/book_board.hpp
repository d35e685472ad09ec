// Bench book: the board from its sheets, the frame, the weight, and how the panel hangs.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection board_section{"board", "Board, frame and wall"};

namespace detail {

inline std::string in_unit(Length length, LengthUnit unit) { return mark_text(length, unit) + " " + symbol(unit); }

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
  page.open("svg", "class=\"field\" viewBox=\"-1 0 106 " + std::to_string(rows * 11 + 1) +
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

template <When = When::called>
void add_frame_list(Markup& page, const FrameTakeoff& frame, LengthUnit unit) {
  page.element("h3", "Frame").line();
  begin_wide(page, "Timbers of the frame");
  page.open("table").open("thead").open("tr");
  add_heading(page, "Cut");
  add_heading(page, "Part");
  add_heading(page, "Length", true);
  add_heading(page, "How many", true);
  page.close().close().line().open("tbody").line();
  for (const FramePart& part : frame.parts) {
    page.open("tr").open("td");
    add_tick(page, "frame, " + part.name, part.name + " is cut");
    page.close();
    page.element("th", part.name + (part.mitred ? ", mitred, between the long points" : ""), R"(scope="row")");
    add_number(page, in_unit(part.length, unit));
    add_number(page, count_text(part.count));
    page.close().line();
  }
  page.close().close().close().line();
  std::string battens;
  for (const Length batten : frame.battens) battens += (battens.empty() ? "" : ", ") + mark_text(batten, unit);
  add_paragraph(page, "From " + count_text(frame.cuts.stock_count, "length", "lengths") + " of " +
                          in_unit(frame.stock_length, unit) + ", " + in_unit(frame.timber_width, unit) + " wide and " +
                          in_unit(frame.timber_thickness, unit) + " thick, with " + in_unit(frame.kerf, unit) +
                          " lost at each cut. " + count_text(frame.screws, "screw", "screws") + " through the board." +
                          (battens.empty() ? "" : " Middle of the battens from the left edge: " + battens + "."));
  add_timber_drawing(page, frame, unit);
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
  add_paragraph(page,
                "Weigh the finished panel; this is reckoned from densities. By this weight " +
                    count_text(made.weight.persons, "person lifts it", "persons lift it") +
                    "; one that is wider than your arms wants two." +
                    (plan.strips || plan.job.weight.grams_per_piece > 0
                         ? std::string{}
                         : " The pieces are not in it: weigh a hundred and type grams-per-piece into the job file."));
  add_caution(page, Hazard::lifting);
  std::string text;
  if (hanging.way == HangingWay::wire) {
    text = "By a wire on two eyes, " + in_unit(hanging.wire_span, unit) + " apart and " +
           in_unit(hanging.eye_drop, unit) + " below the top edge; the wire is " + in_unit(hanging.wire_length, unit) +
           " between them, and some more for the knots. It pulls with " + mass_text(hanging.wire_pull_g) +
           " at each end, not with half the weight. One hook, " + in_unit(hanging.hook_height, unit) +
           " above the floor, carries " + mass_text(hanging.load_per_point_g) + ".";
  } else {
    text = std::string(hanging.way == HangingWay::rail ? "By a rail with " : "By ") +
           count_text(hanging.points, hanging.way == HangingWay::rail ? "screw" : "hook",
                      hanging.way == HangingWay::rail ? "screws" : "hooks") +
           ": each carries " + mass_text(hanging.load_per_point_g) + ".";
    if (hanging.way == HangingWay::rail && made.frame) {
      text +=
          " The rail is a timber that fits inside the frame under its top rail, screwed to the wall with its upper "
          "edge " +
          in_unit(hanging.top_height - made.frame->timber_width, unit) + " above the floor; the top rail rests on it.";
    }
  }
  add_paragraph(page, text + " Take fixings for the wall at hand that are rated for at least " +
                          mass_text(hanging.rated_g) + " each; the fixing's data sheet and local codes decide.");
  add_paragraph(page, "Middle of the panel " + in_unit(hanging.centre_height, unit) +
                          " above the floor, its top edge " + in_unit(hanging.top_height, unit) + ".");
  add_caution(page, Hazard::wall);
  add_caution(page, Hazard::ladder);
}

}  // namespace detail

template <When = When::called>
void add_board(Markup& page, const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Fabrication& made = plan.fabrication;
  begin_section(page, board_section);
  add_paragraph(page, "The board is " + size_text(plan.marks.board, unit) + ", " +
                          detail::in_unit(plan.job.board_thickness, unit) +
                          " thick. From the driest to the dampest air of the year it grows by about " +
                          reported_text(made.growth.width.in_mm(), 1) + " mm" + " in width and " +
                          reported_text(made.growth.height.in_mm(), 1) + " mm" +
                          " in height: leave it that room in a frame round it or between walls.");
  add_caution(page, Hazard::turning_blade);
  add_caution(page, Hazard::dust);
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
  if (made.frame) detail::add_frame_list(page, *made.frame, unit);
  detail::add_hanging(page, plan, unit);
  page.close().line();
}

}  // namespace handlaid
