// Bench book: the chart, to look at on a screen and in parts that fit a page of A4 or Letter, numbered from the datum,
// with a map.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/book_viewer.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/chart_drawing.hpp"
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

/// The panel on a map: its longer side is 100.
struct MapScale {
  explicit MapScale(const Chart<>& of) : chart(of) {}

  Length across_to(int columns) const { return scaled(chart.lattice.pitch_x().times(columns)); }
  std::string view() const {
    return " viewBox=\"0 0 " + drawing_mm(width + rim.times(2)) + " " + drawing_mm(height + rim.times(2)) + "\"";
  }
  Length up_to(int courses) const { return scaled(chart.lattice.pitch_y().times(courses)); }

  const Chart<>& chart;
  Length longer = std::max(chart.lattice.extent().width, chart.lattice.extent().height);
  Length width = across_to(chart.columns());
  Length height = up_to(chart.courses());
  Length rim = 5 * mm;

 private:
  Length scaled(Length length) const { return Length::from_um(length.um() * 100'000 / longer.um()); }
};

/// The parts as lines on the outline of the panel, the longer side 100 long; `marked` is filled, 0 for none; numbers
/// where `numbered`. Its rim is 5 wide.
template <When = When::called>
void draw_map(Markup& svg, const ChartPages& pages, const Chart<>& chart, std::size_t marked, bool numbered) {
  const MapScale scale(chart);
  const Length rim = scale.rim;
  const auto left_of = [&](int column) { return rim + scale.across_to(column - 1); };
  const auto foot_of = [&](int course) { return rim + scale.height - scale.up_to(course - 1); };
  if (marked > 0) {
    const ChartPart& part = pages.parts[marked - 1];
    const Length left = left_of(part.first_column);
    const Length top = foot_of(part.last_course + 1);
    svg.leaf("rect", "x=\"" + drawing_mm(left) + "\" y=\"" + drawing_mm(top) + "\" width=\"" +
                         drawing_mm(left_of(part.last_column + 1) - left) + "\" height=\"" +
                         drawing_mm(foot_of(part.first_course) - top) + "\" fill=\"" + to_hex(look::ink) + "\"");
  }
  std::string lines = across(rim, rim + scale.width, rim) + upright(rim, rim, rim + scale.height);
  for (const ChartPart& part : pages.parts) {
    if (part.first_course == 1) lines += upright(left_of(part.last_column + 1), rim, rim + scale.height);
    if (part.first_column == 1) lines += across(rim, rim + scale.width, foot_of(part.first_course));
  }
  svg.leaf("path", stroke(look::ink, numbered ? 0.5 * mm : 1.2 * mm) + " d=\"" + lines + "\"");
  draw_datum(svg, rim, rim + scale.height, 3.5 * mm);
  if (!numbered) return;
  Numerals names(std::min({12 * mm, scale.width.divided(2 * pages.across), scale.height.divided(2 * pages.up)}));
  int name = 0;
  for (const ChartPart& part : pages.parts) {
    names.add(++name, (left_of(part.first_column) + left_of(part.last_column + 1)).divided(2),
              (foot_of(part.first_course) + foot_of(part.last_course + 1)).divided(2));
  }
  names.write(svg, "fill=\"" + to_hex(look::ink) + "\" text-anchor=\"middle\"");
}

inline std::string from_to(const char* one, const char* several, int first, int last) {
  return first == last ? std::string(one) + " " + std::to_string(first)
                       : std::string(several) + " " + std::to_string(first) + " to " + std::to_string(last);
}

/// A part: the cells, and above their right end the map that shows where it belongs.
template <When = When::called>
void add_part(Markup& page, const Plan& plan, const ChartPages& pages, std::size_t index) {
  const ChartPart& part = pages.parts[index];
  constexpr Length margin = 6.5 * mm;
  constexpr Length head = 15 * mm;
  const CellFrame frame{part, margin, head + margin, pages.cell_width, pages.cell_height};
  const std::string number = std::to_string(index + 1);
  const std::string where = from_to("column", "columns", part.first_column, part.last_column) + ", " +
                            from_to("course", "courses", part.first_course, part.last_course);
  page.open("article", R"(class="part" id="part)" + number + "\"");
  page.open("h3").text("Part " + number + " of " + std::to_string(pages.parts.size()));
  page.element("small", where).close();
  const Length width = std::max(frame.right() + margin, 100 * mm);
  page.open("svg", "viewBox=\"0 0 " + drawing_mm(width) + " " + drawing_mm(frame.bottom() + margin) +
                       "\" style=\"--printed:" + drawing_mm(width) + "mm\" role=\"img\" aria-label=\"Chart, " + where +
                       "\" font-family=\"sans-serif\" text-anchor=\"middle\"");
  const MapScale scale(plan.chart);
  const Length map_width = (scale.width + scale.rim.times(2)).times(head.um()).divided(110'000);
  page.open("svg", "x=\"" + drawing_mm(width - margin - map_width) + "\" width=\"" + drawing_mm(map_width) +
                       "\" height=\"" + drawing_mm(head) + "\"" + scale.view());
  draw_map(page, pages, plan.chart, index + 1, false);
  page.close();
  draw_runs_as_lines(page, plan.chart, frame);
  draw_lines(page, frame);
  draw_numerals(page, plan.chart, frame);
  draw_counts(page, frame, margin);
  if (part.first_column == 1 && part.first_course == 1) draw_datum(page, frame.left, frame.bottom(), 2.5 * mm);
  page.close().close().line();
}

/// A length to measure on paper: a printer that scales the page is found out before anything is cut by it.
template <When = When::called>
void add_check_bar(Markup& page, LengthUnit unit) {
  const Length bar = check_bar(120 * mm, unit);
  const std::string length = drawing_mm(bar);
  page.open("svg", "class=\"paper\" style=\"width:" + length +
                       "mm;height:6mm;max-width:none;overflow:visible\" viewBox=\"0 0 " + length +
                       " 6\" role=\"img\" aria-label=\"Check bar\" font-family=\"sans-serif\"");
  page.leaf("path", stroke(look::ink, 0.2 * mm) + " d=\"" + upright({}, {}, 3 * mm) + across({}, bar, 1.5 * mm) +
                        upright(bar, {}, 3 * mm) + "\"");
  page.element("text", to_text(bar, unit) + " if printed true",
               "x=\"" + drawing_mm(bar.divided(2)) + "\" y=\"5.6\" font-size=\"3.4\" text-anchor=\"middle\"");
  page.close().line();
}

}  // namespace detail

template <When = When::called>
void add_chart(Markup& page, const Plan& plan) {
  const ChartPages pages = chart_pages(plan.chart);
  begin_section(page, chart_section);
  add_paragraph(page,
                "Columns count from the left, courses from the bottom; the square marks the datum corner. A heavy line "
                "each ten cells.");
  add_viewer(page, plan, pages.cell_width, pages.cell_height);
  // Where scripts run, the parts are made only when they are printed or asked for: until then they are text.
  page.open("div", R"(id="parts")").open("noscript").line();
  add_paragraph(page,
                "The left side of every part is its datum end, the right side its far end. Neighbouring parts do not "
                "overlap.");
  if (pages.parts.size() > 1) {
    const detail::MapScale scale(plan.chart);
    page.open("svg", R"(class="map" role="img" aria-label="Map of the parts" font-family="sans-serif")" + scale.view());
    detail::draw_map(page, pages, plan.chart, 0, true);
    page.close().line();
  }
  detail::add_check_bar(page, plan.job.units.value_or(LengthUnit::millimetres));
  for (std::size_t i = 0; i < pages.parts.size(); ++i) detail::add_part(page, plan, pages, i);
  page.close().close().close().line();
}

}  // namespace handlaid
