// Bench book: setting out. The datum, the marks from it both ways, and two ways to check that the field is square.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection marks_section{"marks", "Setting out"};

namespace detail {

/// Ten marks a line, in two cells of five; the mark of line 37 is the third of the second cell in row 30. Tabs part
/// them: a cell for each would make a large plan heavy. Below inches stand their decimals.
template <When = When::called>
void add_marks_table(Markup& page, const std::vector<Length>& marks, const char* caption, LengthUnit unit) {
  page.element("h3", caption).line();
  begin_wide(page, caption);
  std::size_t longest = 4;
  for (const Length mark : marks) longest = std::max(longest, mark_text(mark, unit).size());
  // a fraction is narrower than its figures by the width of one
  const std::string tab = std::to_string(unit == LengthUnit::inches ? longest : longest + 1);
  page.open("table", "class=\"marks\" style=\"tab-size:" + tab + "ch\"").open("thead").open("tr");
  add_heading(page, "Line");
  for (const char* heading : {"+0\t+1\t+2\t+3\t+4", "+5\t+6\t+7\t+8\t+9"}) {
    page.open("th", R"(scope="col")").raw(heading).close();
  }
  page.close().close().line().open("tbody").line();
  for (std::size_t first = 0; first < marks.size(); first += 5) {
    std::string tape;
    std::string decimals;
    for (std::size_t i = first; i < std::min(first + 5, marks.size()); ++i) {
      tape += (i > first ? "\t" : "") + mark_text(marks[i], unit);
      decimals += (i > first ? '\t' : '\n') + decimal_inch_text(marks[i]);
    }
    if (first % 10 == 0) page.open("tr").element("th", std::to_string(first), R"(scope="row")");
    page.open("td").raw(tape + (unit == LengthUnit::inches ? decimals : "")).close();
    if (first % 10 == 5 || first + 5 >= marks.size()) page.close().line();
  }
  page.close().close().close().line();
}

/// The board with its datum, the field, a line each ten cells, the diagonal.
template <When = When::called>
void add_marks_drawing(Markup& page, const Plan& plan, LengthUnit unit) {
  const BoardMarks& marks = plan.marks;
  const Length longer = std::max(marks.board.width, marks.board.height);
  const auto scaled = [&](Length length) { return Length::from_um(length.um() * 100'000 / longer.um()); };
  const Length left = 14 * mm;
  const Length top = 9 * mm;
  const Length width = scaled(marks.board.width);
  const Length height = scaled(marks.board.height);
  const Length foot = top + height;
  const auto x_of = [&](Length mark) { return left + scaled(mark); };
  const auto y_of = [&](Length mark) { return foot - scaled(mark); };
  page.open("svg", "class=\"field\" viewBox=\"0 0 " + drawing_mm(left + width + 6 * mm) + " " +
                       drawing_mm(foot + 12 * mm) +
                       "\" role=\"img\" aria-label=\"The board with its datum, marks and diagonal\" "
                       "font-size=\"3.4\" font-family=\"sans-serif\" fill=\"" +
                       to_hex(look::quiet) + "\"");
  page.leaf("rect", "x=\"" + drawing_mm(left) + "\" y=\"" + drawing_mm(top) + "\" width=\"" + drawing_mm(width) +
                        "\" height=\"" + drawing_mm(height) + "\" fill=\"#ffffff\" stroke=\"" + to_hex(look::ink) +
                        "\" stroke-width=\".5\"");
  std::string tens;
  std::string ends;
  const auto text = [&](const std::string& content, Length x, Length y, const char* anchor, const char* more = "") {
    page.element("text", content,
                 "x=\"" + drawing_mm(x) + "\" y=\"" + drawing_mm(y) + "\" text-anchor=\"" + anchor + "\"" + more);
  };
  // labels keep a distance, so that a large panel is not all figures
  const auto each_labelled = [&](const std::vector<Length>& list, auto draw) {
    const int count = static_cast<int>(list.size());
    int step = 10;
    while (count / step > 14) step *= 2;
    for (int i = 0; i < count; i += 10)
      draw(list[static_cast<std::size_t>(i)], i, i % step == 0 && (i > 0 || scaled(list.front()) > 4 * mm));
  };
  each_labelled(marks.across, [&](Length mark, int line, bool labelled) {
    tens += upright(x_of(mark), y_of(marks.up.front()), y_of(marks.up.back()));
    if (labelled) text(std::to_string(line), x_of(mark), foot + 4.5 * mm, "middle");
  });
  each_labelled(marks.up, [&](Length mark, int line, bool labelled) {
    tens += across(x_of(marks.across.front()), x_of(marks.across.back()), y_of(mark));
    if (labelled) text(std::to_string(line), left - 1.5 * mm, y_of(mark) + 1 * mm, "end");
  });
  page.leaf("path", stroke(look::rule, 0.3 * mm) + " d=\"" + tens + "\"");
  const Length x0 = x_of(marks.across.front());
  const Length x1 = x_of(marks.across.back());
  const Length y0 = y_of(marks.up.front());
  const Length y1 = y_of(marks.up.back());
  page.leaf("path", stroke(look::quiet, 0.3 * mm) + " stroke-dasharray=\"2 1.2\" d=\"M" + drawing_mm(x0) + " " +
                        drawing_mm(y0) + "L" + drawing_mm(x1) + " " + drawing_mm(y1) + "M" + drawing_mm(x0) + " " +
                        drawing_mm(y1) + "L" + drawing_mm(x1) + " " + drawing_mm(y0) + "\"");
  page.leaf("path", stroke(look::ink, 0.4 * mm) + " d=\"" + across(x0, x1, y0) + across(x0, x1, y1) +
                        upright(x0, y0, y1) + upright(x1, y0, y1) + "\"");
  draw_datum(page, left, foot, 3 * mm);
  page.element("text", "datum",
               "x=\"" + drawing_mm(left) + "\" y=\"" + drawing_mm(foot + 9.5 * mm) + "\" font-weight=\"bold\" fill=\"" +
                   to_hex(look::accent) + "\"");
  text(mark_text(marks.board.width, unit) + " " + symbol(unit), left + width.divided(2), top - 2.5 * mm, "middle");
  const Length middle = top + height.divided(2);
  const std::string turn = " transform=\"rotate(-90 4 " + drawing_mm(middle) + ")\"";
  text(mark_text(marks.board.height, unit) + " " + symbol(unit), 4 * mm, middle, "middle", turn.c_str());
  page.close().line();
}

}  // namespace detail

template <When = When::called>
void add_marks(Markup& page, const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const BoardMarks& marks = plan.marks;
  const std::string in_unit = std::string(" ") + symbol(unit);
  begin_section(page, marks_section);
  add_paragraph(page,
                "The datum is the bottom left corner of the board. Every mark is measured from its edges, tape held "
                "still; never add one cell to the last. Mark the board, then a rod for each direction with the same "
                "marks, its datum end coloured.");
  if (marks.across.size() > 1 && marks.up.size() > 1) {
    detail::add_marks_drawing(page, plan, unit);
    const SettingOutChecks& checks = plan.fabrication.checks;
    const double lean =
        1'000.0 / static_cast<double>(std::max<std::int64_t>(checks.diagonals_for_1_mm_sideways.um(), 1));
    page.open("ul").line();
    page.element(
            "li",
            "Both diagonals of the laid field are " + mark_text(marks.diagonal, unit) + in_unit +
                ". If they differ, move the top marks sideways, towards the upper end of the shorter one, by " +
                reported_text(lean) +
                " times the difference, and measure again. A millimetre may stay. Where the field fills "
                "the board and more is left, the board is out of square: keep to the marks from the datum, and let "
                "the far edges take the difference.")
        .line();
    const Length side = checks.triangle;
    if (side > Length{}) {
      page.element("li", "Corner check: " + mark_text(side.times(3), unit) + in_unit + " to the right, " +
                             mark_text(side.times(4), unit) + in_unit + " up; between the two ends it must be " +
                             mark_text(side.times(5), unit) + in_unit + ".")
          .line();
    }
    if (std::max(marks.margin_x, marks.margin_y) >= 0.1 * mm) {  // less is a rounding of the pitch
      page.element("li", "The field stands " + mark_text(marks.margin_x, unit) + in_unit +
                             " from the left and right edges and " + mark_text(marks.margin_y, unit) + in_unit +
                             " from the top and bottom edges.")
          .line();
    }
    page.element("li", "Rods: one of at least " + mark_text(checks.pole_across, unit) + in_unit +
                           " for the columns, one of at least " + mark_text(checks.pole_up, unit) + in_unit +
                           " for the courses, every mark on them from the datum end, both sides numbered.")
        .line();
    page.element(
            "li",
            "Marks are rounded once, to " +
                std::string(unit == LengthUnit::millimetres ? "a tenth of a millimetre" : "a sixteenth of an inch") +
                (checks.largest_error == Length{}
                     ? ": here all stand on it exactly."
                     : ": none is further from its place than " +
                           to_text(checks.largest_error, LengthUnit::millimetres) + ", and errors do not add up."))
        .line();
    page.close().line();
    const std::string how = unit == LengthUnit::inches ? ", inches to a sixteenth, decimal below" : ", mm";
    detail::add_marks_table(page, marks.across, ("Lines between columns, from the left edge" + how).c_str(), unit);
    detail::add_marks_table(page, marks.up, ("Lines between courses, from the bottom edge" + how).c_str(), unit);
    add_paragraph(page, "Line 0 is where column 1 or course 1 begins; line 10 is the end of column 10.",
                  R"(class="quiet")");
  }
  page.close().line();
}

}  // namespace handlaid
