// The cells of a chart, or of a part of it, as SVG: each run one rectangle, a numeral in each cell, lines to count by.
// Shared by the true-size chart and the pages of the bench book.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/sheets/numerals.hpp"

namespace handlaid {

/// Part of a chart: columns and courses from 1, the last ones included.
struct ChartPart {
  int first_column = 1;
  int last_column = 1;
  int first_course = 1;
  int last_course = 1;
  constexpr int columns() const { return last_column - first_column + 1; }
  constexpr int courses() const { return last_course - first_course + 1; }
  friend constexpr bool operator==(const ChartPart&, const ChartPart&) = default;
};

/// The whole chart as one part.
inline ChartPart whole(const Chart<>& chart) { return {1, chart.columns(), 1, chart.courses()}; }

/// Where a part stands in a drawing: its top left corner, and the size of its cells there.
struct CellFrame {
  ChartPart part = {};
  Length left = {};
  Length top = {};
  Length cell_width = {};
  Length cell_height = {};

  /// The line left of a column, the line below a course; `last + 1` and `first - 1` give the far edges.
  constexpr Length line_left_of(int column) const { return left + cell_width.times(column - part.first_column); }
  constexpr Length line_below(int course) const { return top + cell_height.times(part.last_course - course + 1); }
  constexpr Length right() const { return line_left_of(part.last_column + 1); }
  constexpr Length bottom() const { return line_below(part.first_course); }
  constexpr Length shorter_side() const { return std::min(cell_width, cell_height); }
  /// A share of the shorter side of a cell.
  constexpr Length share(int thousandths) const { return shorter_side().times(thousandths).divided(1000); }
  /// The em at which a number of that many digits fits a cell with a little air.
  constexpr Length em(int digits) const {
    const Length wide = cell_width.times(850).divided(static_cast<std::int64_t>(look::digit_advance) * digits);
    return std::min(share(look::numeral), wide);
  }
};

namespace detail {

constexpr int digits_of(int number) {
  return number >= 1000 ? 1 + digits_of(number / 10) : number >= 100 ? 3 : number >= 10 ? 2 : 1;
}

/// A line from one place to another, as path data.
inline std::string across(Length x1, Length x2, Length y) {
  return "M" + drawing_mm(x1) + " " + drawing_mm(y) + "H" + drawing_mm(x2);
}
inline std::string upright(Length x, Length y1, Length y2) {
  return "M" + drawing_mm(x) + " " + drawing_mm(y1) + "V" + drawing_mm(y2);
}

inline std::string stroke(const Srgb8& colour, Length width) {
  return "fill=\"none\" stroke=\"" + to_hex(colour) + "\" stroke-width=\"" + drawing_mm(width) + "\"";
}

}  // namespace detail

/// The rectangles of the runs, a group of each colour, each with its number, name and cells of this part as title.
template <When = When::called>
void draw_runs(Markup& svg, const Chart<>& chart, const CellFrame& frame) {
  const ChartPart& part = frame.part;
  std::vector<std::string> paths(static_cast<std::size_t>(chart.palette.size()) + 1);
  const std::string height = drawing_mm(frame.cell_height);
  for (int course = part.last_course; course >= part.first_course; --course) {
    for_each_run(chart, course, [&](const Run& run) {
      const int first = std::max(run.first, part.first_column);
      const int last = std::min(run.last, part.last_column);
      if (run.number == 0 || first > last) return;
      const std::string width = drawing_mm(frame.cell_width.times(last - first + 1));
      paths[run.number] += "M" + drawing_mm(frame.line_left_of(first)) + " " +
                           drawing_mm(frame.line_below(course + 1)) + "h" + width + "v" + height + "h-" + width + "z";
    });
  }
  for (int number = 1; number <= chart.palette.size(); ++number) {
    const std::string& path = paths[static_cast<std::size_t>(number)];
    if (path.empty()) continue;
    const std::string& name = chart.palette[number].name;
    svg.open("path", "fill=\"" + to_hex(chart.palette[number].colour) + "\" d=\"" + path + "\"");
    svg.element("title", std::to_string(number) + (name.empty() ? "" : " " + name)).close().line();
  }
}

/// The same to look at in half the bytes: each run one line as broad as a course is high, without titles.
template <When = When::called>
void draw_runs_as_lines(Markup& svg, const Chart<>& chart, const CellFrame& frame) {
  const ChartPart& part = frame.part;
  std::vector<std::string> paths(static_cast<std::size_t>(chart.palette.size()) + 1);
  for (int course = part.last_course; course >= part.first_course; --course) {
    const std::string y = drawing_mm(frame.line_below(course) - frame.cell_height.divided(2));
    for_each_run(chart, course, [&](const Run& run) {
      const int first = std::max(run.first, part.first_column);
      const int last = std::min(run.last, part.last_column);
      if (run.number == 0 || first > last) return;
      paths[run.number] += "M" + drawing_mm(frame.line_left_of(first)) + " " + y + "h" +
                           drawing_mm(frame.cell_width.times(last - first + 1));
    });
  }
  for (int number = 1; number <= chart.palette.size(); ++number) {
    const std::string& path = paths[static_cast<std::size_t>(number)];
    if (path.empty()) continue;
    svg.leaf("path", detail::stroke(chart.palette[number].colour, frame.cell_height) + " d=\"" + path + "\"");
  }
}

/// The numeral of each cell, black or white, whichever reads better.
template <When = When::called>
void draw_numerals(Markup& svg, const Chart<>& chart, const CellFrame& frame) {
  const Length em = frame.em(detail::digits_of(chart.palette.size()));
  Numerals dark(em);
  Numerals light(em);
  for (int course = frame.part.last_course; course >= frame.part.first_course; --course) {
    const auto cells = chart.course(course);
    const Length y = frame.line_below(course) - frame.cell_height.divided(2);
    for (int column = frame.part.first_column; column <= frame.part.last_column; ++column) {
      const int number = cells[static_cast<std::size_t>(column) - 1];
      if (number == 0) continue;
      const bool on_dark = numeral_colour(chart.palette[number].colour) != Srgb8{};
      (on_dark ? light : dark).add(number, frame.line_left_of(column) + frame.cell_width.divided(2), y);
    }
  }
  dark.write(svg, "fill=\"#000000\"");
  light.write(svg, "fill=\"#ffffff\"");
  svg.line();
}

/// Hairlines between cells, heavy lines each ten cells from the datum.
template <When = When::called>
void draw_lines(Markup& svg, const CellFrame& frame) {
  const ChartPart& part = frame.part;
  std::string thin;
  std::string heavy;
  for (int column = part.first_column; column <= part.last_column + 1; ++column) {
    ((column - 1) % 10 == 0 ? heavy : thin) += detail::upright(frame.line_left_of(column), frame.top, frame.bottom());
  }
  for (int course = part.first_course - 1; course <= part.last_course; ++course) {
    (course % 10 == 0 ? heavy : thin) += detail::across(frame.left, frame.right(), frame.line_below(course + 1));
  }
  const auto draw = [&](const std::string& path, const std::string& style) {
    if (!path.empty()) svg.leaf("path", style + " d=\"" + path + "\"");
  };
  draw(thin, detail::stroke(look::ink, frame.share(look::hairline)) + " stroke-opacity=\".55\"");
  draw(heavy, detail::stroke(look::paper, frame.share(look::ten_line_rim)) + " stroke-linecap=\"square\"");
  draw(heavy, detail::stroke(look::ink, frame.share(look::ten_line)) + " stroke-linecap=\"square\"");
  svg.line();
}

/// Numbers of the courses at both ends and of the columns above and below, each fifth and tenth heavier.
/// They need `margin` around the cells.
template <When = When::called>
void draw_counts(Markup& svg, const CellFrame& frame, Length margin) {
  const ChartPart& part = frame.part;
  const Length gap = margin.divided(6);
  const int digits = detail::digits_of(std::max(part.last_column, part.last_course));
  const Length em = std::min(frame.em(std::max(digits, 2)), margin.times(10).divided(6 * digits));
  Numerals plain(em);
  Numerals bold(em);
  for (int course = part.first_course; course <= part.last_course; ++course) {
    Numerals& numerals = course % 5 == 0 ? bold : plain;
    const Length y = frame.line_below(course) - frame.cell_height.divided(2);
    numerals.add(course, frame.left - gap, y, Anchor::right);
    numerals.add(course, frame.right() + gap, y, Anchor::left);
  }
  const Length half = em.times(look::digit_height).divided(2000);
  for (int column = part.first_column; column <= part.last_column; ++column) {
    Numerals& numerals = column % 5 == 0 ? bold : plain;
    const Length x = frame.line_left_of(column) + frame.cell_width.divided(2);
    numerals.add(column, x, frame.top - gap - half);
    numerals.add(column, x, frame.bottom() + gap + half);
  }
  plain.write(svg, "fill=\"" + to_hex(look::quiet) + "\"");
  bold.write(svg, "fill=\"" + to_hex(look::ink) + "\" font-weight=\"bold\"");
  svg.line();
}

/// The datum: a solid square outside the bottom left corner of the panel, touching it at that corner alone.
template <When = When::called>
void draw_datum(Markup& svg, Length x, Length y, Length side) {
  svg.leaf("rect", "x=\"" + drawing_mm(x - side) + "\" y=\"" + drawing_mm(y) + "\" width=\"" + drawing_mm(side) +
                       "\" height=\"" + drawing_mm(side) + "\" fill=\"" + to_hex(look::accent) + "\"");
}

}  // namespace handlaid
