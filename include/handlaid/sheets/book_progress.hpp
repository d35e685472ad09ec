// Bench book: what is laid so far. The printed boxes are the master; ticks on the screen are kept by the browser where
// it can, and go to and come from progress.csv.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/book_frame.hpp"

namespace handlaid {

/// What is said above the list where the browser keeps nothing.
template <When = When::called>
void add_storage_warning(Markup& page) {
  page.element(
      "p",
      "This browser does not keep ticks for this page. Save progress.csv before you close it; the printed boxes "
      "are the master.",
      R"(id="forgets" class="note screen" hidden="")");
}

/// The panel below the list of courses; book_ticks_script fills it and shows it.
template <When = When::called>
void add_progress(Markup& page, int courses) {
  const std::string last = std::to_string(courses);
  page.open("div", R"(class="progress screen" id="progress" role="group" aria-label="Progress" hidden="")").line();
  page.element("p", "", R"(id="done" role="status")").line();
  page.open("div", R"(class="tools")");
  page.open("label").text("Course ");
  page.leaf("input", "id=\"timed\" type=\"number\" min=\"1\" max=\"" + last + R"(" autocomplete="off")").close();
  page.open("label").text("took ");
  page.leaf("input", R"(id="minutes" inputmode="decimal" autocomplete="off" size="5")").text(" minutes").close();
  page.element("button", "Save progress.csv", R"(type="button" id="save")");
  page.element("button", "Read progress.csv", R"(type="button" id="read")");
  page.leaf("input", R"(type="file" id="file" accept=".csv,text/csv" aria-label="progress.csv to read" hidden="")");
  page.close().line();
  page.element("p", "", R"(id="said" role="status")").line();
  page.close().line();
}

}  // namespace handlaid
