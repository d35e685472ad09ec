// index.html: the bench book. One page, nothing fetched, for a phone and for paper; a section is a room of its own, and
// this is the order they stand in. Scripts only add to it: the chart to come closer to, and ticks that are kept.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/base64.hpp"
#include "handlaid/sheets/book_again.hpp"
#include "handlaid/sheets/book_board.hpp"
#include "handlaid/sheets/book_chart.hpp"
#include "handlaid/sheets/book_chart_script.hpp"
#include "handlaid/sheets/book_controls_script.hpp"
#include "handlaid/sheets/book_courses.hpp"
#include "handlaid/sheets/book_cutting.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/book_hours.hpp"
#include "handlaid/sheets/book_marks.hpp"
#include "handlaid/sheets/book_order.hpp"
#include "handlaid/sheets/book_overview.hpp"
#include "handlaid/sheets/book_painting.hpp"
#include "handlaid/sheets/book_palette.hpp"
#include "handlaid/sheets/book_quality.hpp"
#include "handlaid/sheets/book_reasons.hpp"
#include "handlaid/sheets/book_steps.hpp"
#include "handlaid/sheets/book_ticks_script.hpp"

namespace handlaid {

namespace detail {

/// The section on painting, of what the plan has.
template <When = When::called>
void add_planned_painting(Markup& page, const Plan& plan) {
  const Fabrication& made = plan.fabrication;
  if (!plan.strips || !made.paint || !made.batches || !made.schedule) return;
  add_painting(page,
               {*plan.strips, *made.paint, *made.batches, *made.schedule, plan.order.value_or(Order{}),
                plan.job.paint_days.hours_a_day, plan.job.painting.beyond_mark},
               plan.chart.palette, plan.job.units.value_or(LengthUnit::millimetres));
}

}  // namespace detail

/// The page as HTML. `preview_png` is shown on the first page; empty for none.
/// What belongs to another method than the plan's is left out.
template <When = When::called>
std::string bench_book(const Plan& plan, const std::string& preview_png) {
  struct Section {
    BookSection name;
    void (*add)(Markup&, const Plan&);
    bool wanted;
  };
  const std::vector<Section> sections{
      {steps_section, add_steps, true},
      {palette_section, add_palette, true},
      {order_section, add_order, true},
      {board_section, add_board, true},
      {marks_section, add_marks, true},
      {strips_section, add_strips, plan.strips.has_value()},
      {painting_section, detail::add_planned_painting, plan.fabrication.schedule.has_value()},
      {cutting_section, add_cutting, plan.fabrication.cutting.has_value()},
      {chart_section, add_chart, true},
      {courses_section, add_courses, true},
      {hours_section, add_hours, true},
      {again_section, add_again, true},
      {reasons_section, add_reasons, true},
      {quality_section, add_quality, true},
  };
  std::vector<BookSection> contents;
  for (const Section& section : sections) {
    if (section.wanted) contents.push_back(section.name);
  }
  const std::string title = plan.job.title.value_or("Panel");
  Markup page;
  begin_book(page, title + ": bench book");
  add_overview(page, plan, title, preview_png.empty() ? "" : "data:image/png;base64," + base64(preview_png), contents);
  for (const Section& section : sections) {
    if (section.wanted) section.add(page, plan);
  }
  end_book(page, std::string(book_chart_script) + book_controls_script + book_ticks_script);
  return std::move(page).finish();
}

}  // namespace handlaid
