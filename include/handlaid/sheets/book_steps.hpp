// Bench book: the order of the work, each step with a box to tick and its cautions. A caution is printed in full where
// its hazard is met first; later steps name it again and where it stands, for nobody reads the same words nine times.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/work_steps.hpp"

namespace handlaid {

inline constexpr BookSection steps_section{"steps", "The order of the work"};

namespace detail {

/// The words of the trade that the steps use.
template <When = When::called>
std::vector<std::string> trade_words(const Plan& plan) {
  std::vector<std::string> words{
      "Datum: the bottom left corner of the board; every measure begins there.",
      "Cell: one place of the chart. Course: a row of cells, course 1 the lowest. Column: a file of cells, from the "
      "left.",
      "Run: neighbouring cells of one colour in a course. Mark: a distance from the datum, where a line is set.",
      "Rod: a straight slip of wood that carries the marks. Pitch: from one cell to the next.",
      "Pilot: a small part that is made first, to the end. Job: the text file with the choices that the plan was made "
      "from.",
      "Hold point: a test that must pass before the work goes on. Lot: what was made together, by the number on the "
      "pack.",
      "CIEDE2000: a published measure of how far two colours look apart; below 1 is hardly seen. Oklab: a published "
      "way "
      "to place colours so that distances are much as the eye sees them. Dither: cells of two colours mixed for one "
      "between."};
  if (plan.strips) {
    words.push_back(
        "Batch: strips that are painted together. Sitting: painting that ends in one wait for drying. Stretch: a run "
        "on its strip, from mark to mark.");
    words.push_back("Fastened edge: the upper edge of a strip, which is glued. Free edge: the lower one.");
  }
  if (plan.fabrication.gang) {
    words.push_back("Gang: round blades on one rod, the arbor, with spacers between them, that cut side by side.");
  }
  if (plan.fabrication.frame) {
    words.push_back(
        "Rail: a timber along the edge of the frame. Batten: one between them. Butted: an end against a "
        "side. Mitred: both ends cut at 45 degrees. Kerf: what the saw takes away.");
  }
  return words;
}

/// A paragraph for each line.
template <When = When::called>
void add_text(Markup& page, const std::string& text) {
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    add_paragraph(page, text.substr(from, end - from));
    from = end + 1;
  }
}

}  // namespace detail

template <When = When::called>
void add_steps(Markup& page, const Plan& plan) {
  begin_section(page, steps_section);
  page.element("h3", "Words").line();
  add_lines(page, detail::trade_words(plan));
  page.open("ol", R"(class="steps")").line();
  int number = 0;
  std::array<int, static_cast<std::size_t>(Hazard::ladder) + 1> told = {};  // in which step, 0 for none yet
  for (const WorkStep& step : work_steps(plan)) {
    const std::string place = std::to_string(++number);
    page.open("li");
    add_tick(page, "step " + place, "Step " + place + " is done");
    page.open("div").element("h3", place + ". " + step.title);
    if (step.hold) add_paragraph(page, "Hold point: go on only when this has passed.", R"(class="hold")");
    detail::add_text(page, step.text);
    std::string again;
    for (const Hazard hazard : step.hazards) {
      int& before = told[static_cast<std::size_t>(hazard)];
      if (before == 0) {
        before = number;
        add_caution(page, hazard);
      } else {
        again += (again.empty() ? "" : "; ") + caution_name(hazard) + " (step " + std::to_string(before) + ")";
      }
    }
    if (!again.empty()) {
      page.open("p", R"(class="care")").element("b", "Mind again:").text(" " + again + ".").close().line();
    }
    page.close().close().line();
  }
  page.close();
  add_paragraph(page,
                "Local codes, the data sheets of the products and licensed trades come before anything said here.",
                R"(class="quiet")");
  page.close().line();
}

}  // namespace handlaid
