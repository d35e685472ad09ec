// Cells of a chart on a printed page, at true scale: lines, numerals, numbers of columns and courses at both ends.
// Shared by the template pages and the whole chart.
#pragma once

#include <algorithm>
#include <string>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/printed_page.hpp"

namespace handlaid {

/// Cells on a page. Places are differences of the marks on the board, so that a cell stands on the page where it stands
/// on the board, less the corner; nothing is added up.
struct PageCells {
  ChartPart part = {};
  /// The lower left corner of the cells on the page.
  PagePoint corner = {};
  /// Seen from the back.
  bool mirrored = false;
  /// Cells are filled with their colour.
  bool tinted = false;

  /// Of a line between columns, 0 the left edge of column 1.
  Length x_of(const BoardMarks& marks, int line) const {
    const auto at = [&](int i) { return marks.across[static_cast<std::size_t>(i)]; };
    return corner.x + (mirrored ? at(part.last_column) - at(line) : at(line) - at(part.first_column - 1));
  }
  /// Of a line between courses, 0 the lower edge of course 1.
  Length y_of(const BoardMarks& marks, int line) const {
    const auto at = [&](int i) { return marks.up[static_cast<std::size_t>(i)]; };
    return corner.y - (at(line) - at(part.first_course - 1));
  }
};

/// The em of numerals in cells: half the shorter side, but such that a digit is 2.2 mm high where the longest number
/// fits its cell so, and at most 8 mm.
template <When = When::called>
Length numeral_em(const Chart<>& chart) {
  const CellFrame frame{whole(chart), {}, {}, chart.lattice.pitch_x(), chart.lattice.pitch_y()};
  constexpr int wider = 640;  // thousandths of an em that a digit takes in the printed font
  const int digits = detail::digits_of(chart.palette.size());
  const Length fits = frame.cell_width.times(900).divided(std::int64_t{wider} * digits);
  constexpr Length legible = Length::from_um(3'100);
  return std::min({std::max(frame.share(500), legible), fits, frame.cell_height.times(950).divided(1000), 8 * mm});
}

namespace detail {

template <When = When::called>
void add_page_tints(PrintedPage& page, const Plan& plan, const PageCells& cells) {
  for (int course = cells.part.first_course; course <= cells.part.last_course; ++course) {
    for_each_run(plan.chart, course, [&](const Run& run) {
      const int first = std::max(run.first, cells.part.first_column);
      const int last = std::min(run.last, cells.part.last_column);
      if (run.number == 0 || first > last) return;
      const Length a = cells.x_of(plan.marks, first - 1);
      const Length b = cells.x_of(plan.marks, last);
      const Length top = cells.y_of(plan.marks, course);
      page.boxes.push_back({{std::min(a, b), top},
                            {std::max(a, b) - std::min(a, b), cells.y_of(plan.marks, course - 1) - top},
                            true,
                            plan.chart.palette[run.number].colour});
    });
  }
}

template <When = When::called>
void add_page_lines(PrintedPage& page, const Plan& plan, const PageCells& cells) {
  const ChartPart& part = cells.part;
  const Length left = std::min(cells.x_of(plan.marks, part.first_column - 1), cells.x_of(plan.marks, part.last_column));
  const Length right =
      std::max(cells.x_of(plan.marks, part.first_column - 1), cells.x_of(plan.marks, part.last_column));
  const Length top = cells.y_of(plan.marks, part.last_course);
  const Length bottom = cells.y_of(plan.marks, part.first_course - 1);
  const Length thin = Length::from_um(120);
  const Length heavy = Length::from_um(350);
  for (const bool tens : {false, true}) {  // the heavy lines over the others
    const Length width = tens ? heavy : thin;
    for (int line = part.first_column - 1; line <= part.last_column; ++line) {
      if ((line % 10 == 0) != tens) continue;
      const Length x = cells.x_of(plan.marks, line);
      page.lines.push_back({{x, top}, {x, bottom}, width});
    }
    for (int line = part.first_course - 1; line <= part.last_course; ++line) {
      if ((line % 10 == 0) != tens) continue;
      const Length y = cells.y_of(plan.marks, line);
      page.lines.push_back({{left, y}, {right, y}, width});
    }
  }
}

template <When = When::called>
void add_page_numerals(PrintedPage& page, const Plan& plan, const PageCells& cells) {
  const Length em = numeral_em(plan.chart);
  for (int course = cells.part.last_course; course >= cells.part.first_course; --course) {
    const auto numbers = plan.chart.course(course);
    const Length y = (cells.y_of(plan.marks, course) + cells.y_of(plan.marks, course - 1)).divided(2);
    for (int column = cells.part.first_column; column <= cells.part.last_column; ++column) {
      const int number = numbers[static_cast<std::size_t>(column) - 1];
      if (number == 0) continue;
      const Length x = (cells.x_of(plan.marks, column - 1) + cells.x_of(plan.marks, column)).divided(2);
      page.texts.push_back({.at = {x, y},
                            .text = std::to_string(number),
                            .em = em,
                            .anchor = TextAnchor::middle,
                            .centred = true,
                            .colour = cells.tinted ? numeral_colour(plan.chart.palette[number].colour) : look::ink});
    }
  }
}

/// Numbers of columns below and above, of courses at both sides: each where there is room, else each fifth or tenth.
template <When = When::called>
void add_page_counts(PrintedPage& page, const Plan& plan, const PageCells& cells, Length em) {
  const ChartPart& part = cells.part;
  const auto step_for = [&](Length pitch, Length needed) {
    return pitch >= needed ? 1 : pitch.times(5) >= needed ? 5 : 10;
  };
  const Length wide = em.times(640).divided(1000).times(digits_of(part.last_column)) + Length::from_um(600);
  const int column_step = step_for(plan.chart.lattice.pitch_x(), wide);
  const int course_step = step_for(plan.chart.lattice.pitch_y(), em);
  const auto add = [&](int number, Length x, Length y, TextAnchor anchor) {
    page.texts.push_back({.at = {x, y},
                          .text = std::to_string(number),
                          .em = em,
                          .anchor = anchor,
                          .centred = true,
                          .bold = number % 5 == 0,
                          .colour = number % 5 == 0 ? look::ink : look::quiet});
  };
  const Length gap = em.times(7).divided(10);
  const Length top = cells.y_of(plan.marks, part.last_course);
  const Length bottom = cells.y_of(plan.marks, part.first_course - 1);
  for (int column = part.first_column; column <= part.last_column; ++column) {
    if (column % column_step != 0) continue;
    const Length x = (cells.x_of(plan.marks, column - 1) + cells.x_of(plan.marks, column)).divided(2);
    add(column, x, bottom + gap, TextAnchor::middle);
    add(column, x, top - gap, TextAnchor::middle);
  }
  const Length a = cells.x_of(plan.marks, part.first_column - 1);
  const Length b = cells.x_of(plan.marks, part.last_column);
  for (int course = part.first_course; course <= part.last_course; ++course) {
    if (course % course_step != 0) continue;
    const Length y = (cells.y_of(plan.marks, course) + cells.y_of(plan.marks, course - 1)).divided(2);
    add(course, std::min(a, b) - em.divided(3), y, TextAnchor::right);
    add(course, std::max(a, b) + em.divided(3), y, TextAnchor::left);
  }
}

}  // namespace detail

/// Tints, lines, numerals and the numbers at both ends, these with an em of `count_em`.
template <When = When::called>
void add_page_cells(PrintedPage& page, const Plan& plan, const PageCells& cells, Length count_em) {
  if (cells.tinted) detail::add_page_tints(page, plan, cells);
  detail::add_page_lines(page, plan, cells);
  detail::add_page_numerals(page, plan, cells);
  detail::add_page_counts(page, plan, cells, count_em);
}

}  // namespace handlaid
