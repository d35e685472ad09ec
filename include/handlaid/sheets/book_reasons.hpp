// Bench book: why the values are as they are.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection reasons_section{"reasons", "Why these values"};

template <When = When::called>
void add_reasons(Markup& page, const Plan& plan) {
  begin_section(page, reasons_section, true);
  if (!plan.reasons.empty()) {
    begin_wide(page, "Reasons");
    page.open("table").open("thead").open("tr");
    add_heading(page, "Option");
    add_heading(page, "Value");
    add_heading(page, "Reason");
    page.close().close().line().open("tbody").line();
    for (const Reason& reason : plan.reasons) {
      page.open("tr").element("th", reason.word, R"(scope="row")").element("td", reason.value);
      page.element("td", reason.sentence).close().line();
    }
    page.close().close().close().line();
    add_paragraph(page, "Each of these can be given on the command line or in the job file instead.",
                  R"(class="quiet")");
  } else {
    add_paragraph(page, "All values were given.");
  }
  page.close().line();
}

}  // namespace handlaid
