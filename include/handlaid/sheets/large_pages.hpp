// Pages as large as the work, for a plotter or a print shop: the whole chart at true size on one page, and a story pole
// for each direction as one long page.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/page_cells.hpp"
#include "handlaid/sheets/page_parts.hpp"
#include "handlaid/sheets/page_words.hpp"

namespace handlaid {

/// The whole chart. The page is the field with a margin for numbers and words around it.
template <When = When::called>
PrintedPage whole_chart_page(const Plan& plan) {
  const BoardMarks& marks = plan.marks;
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Size field{marks.across.back() - marks.across.front(), marks.up.back() - marks.up.front()};
  // Letters grow with the panel, since it is looked at from further away.
  const Length em = std::clamp(std::max(field.width, field.height).divided(90), 3.5 * mm, 20 * mm);
  const Length beside = em.times(4);
  const Length head = std::max(em.times(2), page_margin + em);
  const bool mirrored = plan.job.print.face_down;
  PrintedPage page{.name = "Whole chart", .size = {field.width + beside.times(2), {}}};
  const PageCells cells{whole(plan.chart), {beside, head + em.times(2) + field.height}, mirrored, plan.job.print.tint};
  add_page_cells(page, plan, cells, std::min({em, plan.chart.lattice.pitch_y().times(5).divided(10), 8 * mm}));
  const auto text = [&](const std::string& content, Length x, Length y, TextAnchor anchor, const Srgb8& colour,
                        bool bold, bool name = false) {
    page.texts.push_back({.at = {x, y},
                          .text = content,
                          .em = em,
                          .anchor = anchor,
                          .bold = bold,
                          .colour = colour,
                          .room = field.width.divided(2),
                          .may_be_cut = name});
  };
  const Length right = beside + field.width;
  text(plan.job.title.value_or("Panel"), beside, head, TextAnchor::left, look::ink, true, true);
  text(count_text(plan.chart.columns()) + " × " + count_text(plan.chart.courses()) + " cells at " +
           pitch_text(plan.chart.lattice, unit) + ", " + size_text(field, unit) + (mirrored ? ", from the back" : ""),
       right, head, TextAnchor::right, look::quiet, false);
  const Length datum = cells.x_of(marks, 0);
  const Length foot = cells.corner.y;
  page.boxes.push_back({{mirrored ? datum : datum - em, foot}, {em, em}, true, look::accent});
  text("datum corner", mirrored ? right : beside, foot + em.times(3), mirrored ? TextAnchor::right : TextAnchor::left,
       look::accent, true);
  const Length round = unit == LengthUnit::millimetres ? 100 * mm : 4 * inch;
  if (const std::int64_t count = field.width.divided(2).count_of(round); count > 0) {
    const Length bar = round.times(std::min<std::int64_t>(count, 10));
    add_bar_across(page, {mirrored ? beside : right - bar, foot + em.times(3)}, bar, unit,
                   std::max(em.times(7).divided(10), smallest_type));
  }
  const WordStyle style{.em = std::max(em.times(6).divided(10), smallest_type)};
  const Length y = add_words(
      page, std::string(large_page_sentence) + " Then measure it: the field must be " + size_text(field, unit) + ".",
      {beside, foot + em.times(5)}, field.width, style);
  page.size.height = add_page_cautions(page, {Hazard::point, Hazard::hand_blade}, {beside, y + style.em.divided(2)},
                                       field.width, style.em) +
                     em.times(2);
  return page;
}

}  // namespace handlaid
