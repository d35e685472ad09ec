// The first page of a set to work by: print it, measure its bars, then what to do, step by step, and what to beware of.
#pragma once

#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/page_parts.hpp"
#include "handlaid/sheets/page_words.hpp"

namespace handlaid {

/// What a guide says besides what all of them say.
struct PageGuide {
  std::string name = {};
  /// Of the head, none where it is added later; below the panel's title stands `right`.
  std::string subject = {};
  std::string right = {};
  /// After the first, which is to print it and to measure the bars.
  std::vector<std::string> steps = {};
  std::vector<Hazard> hazards = {};
};

/// A guide as a page, and how far down its words reach.
struct GuidePage {
  PrintedPage page = {};
  Length foot = {};
};

template <When = When::called>
GuidePage guide_page(const Plan& plan, const PageGuide& guide) {
  const Paper paper = paper_of(plan.job);
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Size bars = check_bars(paper, unit);
  PrintedPage page{.name = guide.name, .size = size_of(paper)};
  if (!guide.subject.empty()) {
    add_page_head(page, plan.job.title.value_or("Panel"), guide.subject, guide.right);
  }
  std::vector<std::string> steps = {
      "Print this page first, at 100 %, never fitted to the page, and measure both bars with the rule you will work "
      "with. If they are not " +
      to_text(bars.width, unit) + " and " + to_text(bars.height, unit) +
      ", put what they measure into the job file and plan again: bar-across = … and bar-up = … under [print]. All "
      "pages are then corrected."};
  steps.insert(steps.end(), guide.steps.begin(), guide.steps.end());
  constexpr WordStyle style{.em = Length::from_um(3'300)};
  constexpr Length indent = 6 * mm;
  const Length room = page.size.width - page_margin.times(2) - 9 * mm;  // beside the bar
  Length y = page_margin + head_height + 5 * mm;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    page.texts.push_back({.at = {page_margin, y}, .text = std::to_string(i + 1), .em = style.em, .bold = true});
    y = add_words(page, steps[i], {page_margin + indent, y}, room - indent, style) + 1 * mm;
  }
  if (plan.job.print.bar_across || plan.job.print.bar_up) {
    y = add_words(page, "These pages are corrected by the bars of an earlier print; the bars must now be true.",
                  {page_margin, y}, room, style);
  }
  y += 2 * mm;
  y = add_page_cautions(page, guide.hazards, {page_margin, y}, room);
  const Length foot = page.size.height - page_margin;
  add_bar_across(page, {page_margin, foot - 2 * mm}, bars.width, unit);
  add_bar_up(page, {page.size.width - page_margin - 2 * mm, foot - 21 * mm}, bars.height, unit);
  return {std::move(page), y};
}

}  // namespace handlaid
