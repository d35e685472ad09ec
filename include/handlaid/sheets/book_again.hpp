// Bench book: what to do when something changes, for a maker who has only used the pages so far: other values, another
// colour somewhere, a slip, less material than planned. Each way with a computer, and the one on paper.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"

namespace handlaid {

inline constexpr BookSection again_section{"again", "When something changes"};

namespace detail {

/// A way: what has happened, what to do, the line to type, and what stands in for it on paper.
template <When = When::called>
void add_way(Markup& page, const char* title, const std::string& words, const char* command,
             const std::string& on_paper) {
  page.open("div", R"(class="way")").element("h3", title);
  add_paragraph(page, words);
  page.element("pre", command).line();
  if (!on_paper.empty()) add_paragraph(page, "On paper: " + on_paper, R"(class="quiet")");
  page.close().line();
}

}  // namespace detail

template <When = When::called>
void add_again(Markup& page, const Plan& plan) {
  begin_section(page, again_section, true);
  add_paragraph(page,
                "This page is one file of a folder, and the other files do more than it can. A plan costs nothing and "
                "takes seconds: make it again whenever something is known better. The lines below are typed in a "
                "terminal beside the folder, here called plan; the programs stand together where they were built, in "
                "build/release/bin, and that folder goes before their names.");
  detail::add_way(
      page, "Other sizes, rates, prices or lots",
      "plan.job is the job: a text file with a line for every word that this plan was made with, such as " +
          std::string(plan.strips ? "seconds-per-strip = 75 or minutes-per-section = 0.4" : "seconds-per-piece = 8") +
          ", each under the heading of its section. Copy it, change lines or add some with any text "
          "editor, and plan again into a new folder. plan_panel --help explains every word.",
      "plan_panel --job mine.job --out new-plan",
      plan.strips ? "hours change as your seconds do: twice the seconds for a step, twice its time."
                  : "the hours of a step are its count times your seconds, divided by 3600.");
  detail::add_way(page, "Another colour somewhere",
                  "Change numbers in chart.xlsx, or pixels in chart_pixels.png, in place; or write a line into a text "
                  "file, like \"merge 7 into 3\". All pages and the order follow.",
                  "revise plan plan/chart.xlsx new-plan",
                  "write the new number into the chart, the course list and the order, in all three.");
  detail::add_way(
      page, "Is a course right?",
      "Each course of the list ends with its count of runs and its check figure, two numbers that no single "
      "wrong cell and no swap of two leave as they are. Type what was laid, from the datum end, as cells x "
      "colour; the place of a slip is named. A photo of the whole board does for all courses at once, with "
      "the marks of corner_marks.pdf at its corners.",
      "proof_read plan --course 12 \"3x5 4 7x2\"",
      "count the runs of the course and compare the end of each with its mark. The check figure is for the "
      "computer; without one it is not needed.");
  if (!plan.strips) {
    detail::add_way(page, "Less material than planned, or half done",
                    "Save progress.csv under the course list, or write it down in the form that the first line makes, "
                    "with what is left in the boxes in in_hand.csv. The second finds the least costly way on: what to "
                    "buy, or which cells take a near colour, with laid courses untouched.",
                    "replan --forms plan forms\nreplan plan progress.csv in_hand.csv new-plan",
                    "the palette page has the pieces of each colour; take off what is laid, and order the rest.");
  }
  page.close().line();
}

}  // namespace handlaid
