// Bench book: the order of the work, each step with a box to tick and its cautions. A caution is printed in full where
// its hazard is met first; later steps name it again and where it stands, for nobody reads the same words nine times.
#pragma once

#include <array>
#include <cstddef>
#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/work_steps.hpp"

namespace handlaid {

inline constexpr BookSection steps_section{"steps", "The order of the work"};

template <When = When::called>
void add_steps(Markup& page, const Plan& plan) {
  begin_section(page, steps_section);
  page.open("ol", R"(class="steps")").line();
  int number = 0;
  std::array<int, static_cast<std::size_t>(Hazard::ladder) + 1> told = {};  // in which step, 0 for none yet
  for (const WorkStep& step : work_steps(plan)) {
    const std::string place = std::to_string(++number);
    page.open("li");
    add_tick(page, "step " + place, "Step " + place + " is done");
    page.open("div").element("h3", place + ". " + step.title);
    if (step.hold) add_paragraph(page, "Hold point: go on only when this has passed.", R"(class="hold")");
    add_paragraph(page, step.text);
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
