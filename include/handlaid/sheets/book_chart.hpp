// Bench book: the chart in parts that fit a page of A4 or Letter, numbered from the datum, with a map.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection chart_section{"chart", "Chart"};

/// How a chart is cut into pages: without overlap, part 1 at the datum, then to the right, then up.
struct ChartPages {
  /// Size of a cell on paper.
  Length cell_width = {};
  Length cell_height = {};
  int across = 0;
  int up = 0;
  std::vector<ChartPart> parts = {};
};

/// At most 24 x 32 cells a part, fewer where cells are long, so that numerals stay at least 2.2 mm high. The parts are
/// about equal, and their cells are equally large on all pages.
template <When = When::called>
ChartPages chart_pages(const Chart<>& chart) {
  constexpr Length page_width = 170 * mm;  // for cells: A4 and Letter, less margins, counts and heading
  constexpr Length page_height = 226 * mm;
  constexpr std::int64_t smallest_um = 7'000;
  constexpr std::int64_t largest_um = 12'000;
  constexpr std::int64_t longest = 4;  // times the shorter side; longer cells are drawn shorter than they are

  const std::int64_t x = chart.lattice.pitch_x().um();
  const std::int64_t y = chart.lattice.pitch_y().um();
  const auto side = [&](std::int64_t own, std::int64_t other, std::int64_t shorter) {
    return Length::from_um(std::min(shorter * own / std::min(own, other), shorter * longest));
  };
  const Length width = side(x, y, smallest_um);
  const Length height = side(y, x, smallest_um);
  const auto cut = [](int cells, int most) {
    const int count = (cells + most - 1) / most;
    return (cells + count - 1) / count;
  };
  const int columns = cut(chart.columns(), std::clamp(static_cast<int>(page_width.count_of(width)), 1, 24));
  const int courses = cut(chart.courses(), std::clamp(static_cast<int>(page_height.count_of(height)), 1, 32));

  ChartPages pages;
  // as large as the fullest part allows
  const std::int64_t room = std::min(page_width.um() * smallest_um / width.times(columns).um(),
                                     page_height.um() * smallest_um / height.times(courses).um());
  const std::int64_t shorter = std::clamp(room / 100 * 100, smallest_um, largest_um);
  pages.cell_width = side(x, y, shorter);
  pages.cell_height = side(y, x, shorter);
  for (int course = 1; course <= chart.courses(); course += courses) {
    ++pages.up;
    for (int column = 1; column <= chart.columns(); column += columns) {
      if (course == 1) ++pages.across;
      pages.parts.push_back({column, std::min(column + columns - 1, chart.columns()), course,
                             std::min(course + courses - 1, chart.courses())});
    }
  }
  return pages;
}

namespace detail {

/// The parts as lines on the outline of the panel; `marked` is filled, 0 for none; numbers where `numbered`.
template <When = When::called>
void add_map(Markup& page, const ChartPages& pages, const Chart<>& chart, std::size_t marked, bool numbered) {
  const Size extent = chart.lattice.extent();
  const Length longer = std::max(extent.width, extent.height);
  const auto across_to = [&](int columns) {
    return Length::from_um(chart.lattice.pitch_x().times(columns).um() * 100'000 / longer.um());
  };
  const auto up_to = [&](int courses) {
    return Length::from_um(chart.lattice.pitch_y().times(courses).um() * 100'000 / longer.um());
  };
  const Length width = across_to(chart.columns());
  const Length height = up_to(chart.courses());
  const Length rim = 5 * mm;
  std::string attributes = "viewBox=\"0 0 " + drawing_mm(width + rim.times(2)) + " " +
                           drawing_mm(height + rim.times(2)) + "\" font-family=\"sans-serif\"";
  if (numbered) {
    attributes += " class=\"map\" role=\"group\" aria-label=\"Map of the parts\"";
  } else {
    attributes += " width=\"" + drawing_mm((width + rim.times(2)).times(60).divided(120)) + "\" height=\"" +
                  drawing_mm((height + rim.times(2)).times(60).divided(120)) + "\" aria-hidden=\"true\"";
  }
  page.open("svg", attributes);
  const auto box = [&](const ChartPart& part) {
    const Length left = rim + across_to(part.first_column - 1);
    const Length top = rim + height - up_to(part.last_course);
    return "x=\"" + drawing_mm(left) + "\" y=\"" + drawing_mm(top) + "\" width=\"" +
           drawing_mm(rim + across_to(part.last_column) - left) + "\" height=\"" +
           drawing_mm(rim + height - up_to(part.first_course - 1) - top) + "\"";
  };
  if (marked > 0) page.leaf("rect", box(pages.parts[marked - 1]) + " fill=\"" + to_hex(look::ink) + "\"");
  std::string lines = across(rim, rim + width, rim) + upright(rim, rim, rim + height);
  for (const ChartPart& part : pages.parts) {
    if (part.first_course == 1) {
      lines += upright(rim + across_to(part.last_column), rim, rim + height);
    }
    if (part.first_column == 1) {
      lines += across(rim, rim + width, rim + height - up_to(part.first_course - 1));
    }
  }
  page.leaf("path", stroke(look::ink, numbered ? 0.5 * mm : 1.5 * mm) + " d=\"" + lines + "\"");
  draw_datum(page, rim, rim + height, 3.5 * mm);
  if (numbered) {
    const Length em = std::min({12 * mm, width.divided(2 * pages.across), height.divided(2 * pages.up)});
    for (std::size_t i = 0; i < pages.parts.size(); ++i) {
      const ChartPart& part = pages.parts[i];
      const Length x = rim + (across_to(part.first_column - 1) + across_to(part.last_column)).divided(2);
      const Length y = rim + height - (up_to(part.first_course - 1) + up_to(part.last_course)).divided(2);
      const std::string name = std::to_string(i + 1);
      page.open("a", "href=\"#part" + name + "\"" + attribute("aria-label", "Part " + name));
      page.element("text", name,
                   "x=\"" + drawing_mm(x) + "\" y=\"" + drawing_mm(y + em.times(36).divided(100)) + "\" font-size=\"" +
                       drawing_mm(em) + "\" text-anchor=\"middle\" fill=\"" + to_hex(look::ink) + "\"");
      page.close();
    }
  }
  page.close().line();
}

template <When = When::called>
void add_part(Markup& page, const Plan& plan, const ChartPages& pages, std::size_t index) {
  const ChartPart& part = pages.parts[index];
  const Length margin = 6.5 * mm;
  CellFrame frame{part, margin, margin, pages.cell_width, pages.cell_height};
  const std::string number = std::to_string(index + 1);
  const auto from_to = [](const char* one, const char* several, int first, int last) {
    return first == last ? std::string(one) + " " + std::to_string(first)
                         : std::string(several) + " " + std::to_string(first) + " to " + std::to_string(last);
  };
  const std::string where = from_to("column", "columns", part.first_column, part.last_column) + ", " +
                            from_to("course", "courses", part.first_course, part.last_course);
  page.open("article", R"(class="part" id="part)" + number + "\"").open("div", R"(class="parthead")").open("div");
  page.element("h3", "Part " + number + " of " + std::to_string(pages.parts.size()));
  add_paragraph(page, where, R"(class="quiet")");
  page.close();
  add_map(page, pages, plan.chart, index + 1, false);
  page.close().line();
  const Length width = frame.right() + margin;
  begin_wide(page, "Part " + number + ": " + where);
  page.open("svg", "viewBox=\"0 0 " + drawing_mm(width) + " " + drawing_mm(frame.bottom() + margin) +
                       "\" style=\"--printed:" + drawing_mm(width) + "mm\" role=\"img\" aria-label=\"Chart, " + where +
                       "\" font-family=\"sans-serif\" text-anchor=\"middle\"");
  page.line();
  draw_runs(page, plan.chart, frame);
  draw_lines(page, frame);
  draw_numerals(page, plan.chart, frame);
  draw_counts(page, frame, margin);
  if (part.first_column == 1 && part.first_course == 1) draw_datum(page, frame.left, frame.bottom(), 2.5 * mm);
  page.close().close().close().line();
}

}  // namespace detail

template <When = When::called>
void add_chart(Markup& page, const Plan& plan) {
  const ChartPages pages = chart_pages(plan.chart);
  begin_section(page, chart_section);
  add_paragraph(page,
                "Columns count from the left, courses from the bottom; the square marks the datum corner. A heavy line "
                "each ten cells. The left side of every part is its datum end, the right side its far end. "
                "Neighbouring parts do not overlap.");
  if (pages.parts.size() > 1) detail::add_map(page, pages, plan.chart, 0, true);
  for (std::size_t i = 0; i < pages.parts.size(); ++i) detail::add_part(page, plan, pages, i);
  page.close().line();
}

}  // namespace handlaid
