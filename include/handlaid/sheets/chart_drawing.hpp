// chart.svg: the whole chart at its true size, in millimetres, for a plotter, a print shop or a screen.
#pragma once

#include <algorithm>
#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/markup.hpp"

namespace handlaid {

namespace detail {

/// A bar of round length to measure on paper: 100 mm or 4 in, or a tenth of it where the panel is small.
template <When = When::called>
Length check_bar(Length room, LengthUnit unit) {
  const Length full = unit == LengthUnit::millimetres ? 100 * mm : 4 * inch;
  return full <= room ? full : full.divided(10);
}

template <When = When::called>
void draw_check_bar(Markup& svg, Length right, Length y, Length em, Length bar, LengthUnit unit) {
  const Length tick = em.divided(2);
  const Length left = right - bar;
  svg.leaf("path", stroke(look::ink, em.divided(12)) + " d=\"" + upright(left, y - tick, y) + across(left, right, y) +
                       upright(right, y, y - tick) + "\"");
  svg.element("text", to_text(bar, unit) + " if printed true",
              "x=\"" + drawing_mm(left - em.divided(2)) + "\" y=\"" + drawing_mm(y) + "\" font-size=\"" +
                  drawing_mm(em) + "\" text-anchor=\"end\" fill=\"" + to_hex(look::quiet) + "\"");
}

}  // namespace detail

/// The chart at true size: width, height and all coordinates in millimetres, a numeral in each cell, courses and
/// columns numbered at both ends, heavy lines each ten cells from the datum at the bottom left.
template <When = When::called>
std::string chart_svg(const Plan& plan) {
  const Chart<>& chart = plan.chart;
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Rectangular& lattice = chart.lattice;
  const Size extent = lattice.extent();
  // Letters grow with the panel, so that a drawing of any size looks the same on a screen.
  const Length em = std::max(std::max(extent.width, extent.height).divided(90), 2 * mm);
  const CellFrame sizes{whole(chart), {}, {}, lattice.pitch_x(), lattice.pitch_y()};
  const Length margin = std::max(sizes.share(1600), em.times(2));
  CellFrame frame = sizes;
  frame.left = margin + em.times(2);
  frame.top = margin + em.times(3);
  const Length width = frame.right() + frame.left;
  const Length height = frame.bottom() + margin + em.times(3);

  Markup svg;
  svg.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  svg.open("svg", "xmlns=\"http://www.w3.org/2000/svg\" width=\"" + drawing_mm(width) + "mm\" height=\"" +
                      drawing_mm(height) + "mm\" viewBox=\"0 0 " + drawing_mm(width) + " " + drawing_mm(height) +
                      "\" font-family=\"sans-serif\" text-anchor=\"middle\"");
  const std::string title = plan.job.title.value_or("Chart");
  const std::string facts = count_text(chart.columns()) + " × " + count_text(chart.courses()) + " cells at " +
                            pitch_text(lattice, unit) + ", " + size_text(extent, unit);
  svg.element("title", title + ": " + facts).line();
  svg.leaf("rect", "width=\"" + drawing_mm(width) + "\" height=\"" + drawing_mm(height) + "\" fill=\"" +
                       to_hex(look::paper) + "\"");
  const auto label = [&](const std::string& content, Length x, Length y, const char* anchor, const Srgb8& colour,
                         const std::string& more = {}) {
    svg.element("text", content,
                "x=\"" + drawing_mm(x) + "\" y=\"" + drawing_mm(y) + "\" font-size=\"" + drawing_mm(em) +
                    "\" text-anchor=\"" + anchor + "\" fill=\"" + to_hex(colour) + "\"" + more);
  };
  label(title, frame.left, em.times(2), "start", look::ink, " font-weight=\"bold\" unicode-bidi=\"isolate\"");
  label(facts, frame.right(), em.times(2), "end", look::quiet);
  const Length middle = frame.top + extent.height.divided(2);
  const auto turned = [&](Length x) {
    return " transform=\"rotate(-90 " + drawing_mm(x) + " " + drawing_mm(middle) + ")\"";
  };
  label("datum end", em.times(2), middle, "middle", look::quiet, turned(em.times(2)));
  label("far end", width - em, middle, "middle", look::quiet, turned(width - em));
  svg.line();

  draw_runs(svg, chart, frame);
  draw_lines(svg, frame);
  svg.leaf("rect", "x=\"" + drawing_mm(frame.left) + "\" y=\"" + drawing_mm(frame.top) + "\" width=\"" +
                       drawing_mm(extent.width) + "\" height=\"" + drawing_mm(extent.height) + "\" " +
                       detail::stroke(look::ink, frame.share(look::ten_line)));
  draw_numerals(svg, chart, frame);
  draw_counts(svg, frame, margin);
  draw_datum(svg, frame.left, frame.bottom(), em);
  const Length foot = frame.bottom() + margin + em.times(2);
  label("datum corner", frame.left, foot, "start", look::accent, " font-weight=\"bold\"");
  detail::draw_check_bar(svg, frame.right(), foot, em, detail::check_bar(extent.width.divided(3), unit), unit);
  svg.close().line();
  return std::move(svg).finish();
}

}  // namespace handlaid
