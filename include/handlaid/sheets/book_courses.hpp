// Bench book: every course in words, from the bottom, with its colours and marks; of painted strips it is the strip
// list as well.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/checks_table.hpp"
#include "handlaid/grid/course_checks.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/book_progress.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection courses_section{"courses", "Courses"};
inline constexpr BookSection strips_section{"strips", "Strips"};

namespace detail {

/// "12×3→132" for each run: cells, colour, and where the run ends, from the edge of the board, or of the strip.
template <When = When::called>
std::string course_text(const Plan& plan, int course, LengthUnit unit) {
  std::string text;
  for_each_run(plan.chart, course, [&](const Run& run) {
    if (!text.empty()) text += ' ';
    const auto last = static_cast<std::size_t>(run.last);
    const bool of_board = !plan.strips && last < plan.marks.across.size();
    const Length end = of_board ? plan.marks.across[last] : plan.chart.lattice.box(run.last - 1, 0).right;
    text += std::to_string(run.length()) + "×" + (run.number == 0 ? "empty" : std::to_string(run.number)) + "→" +
            unbroken_mark_text(end, unit);
  });
  return text;
}

/// Short lines below the number of a course: "23 runs", "532-871", and how many cells are laid where some stay empty.
template <When = When::called>
std::string check_lines(const CourseCheck& check) {
  std::string text = count_text(check.runs, "run", "runs") + "\n" + check_text(check.figure);
  if (check.laid < check.figure.length) text += "\n" + count_text(check.laid) + " laid";
  return text;
}

constexpr const char* marks_words(LengthUnit unit) {
  return unit == LengthUnit::millimetres ? "millimetres" : "inches to a sixteenth";
}

/// A row: the boxes with the number of the course beside them and what it is checked by below, then its runs. A large
/// plan has hundreds of rows, so what stands in a cell is plain lines of text.
template <When = When::called>
void add_course_row(Markup& page, const Plan& plan, int course, bool strip, LengthUnit unit) {
  const std::string number = std::to_string(course);
  page.open("tr").open("th", R"(scope="row")");
  if (strip) add_tick(page, "strip " + number, "Strip " + number + " is done");
  page.leaf("input", "type=\"checkbox\" class=\"tick\" autocomplete=\"off\" data-course=\"" + number +
                         "\" aria-label=\"Course " + number + " is laid\"");
  page.text(number).raw("\n" + check_lines(check_course(plan.chart, course))).close();
  page.element("td", course_text(plan, course, unit), R"(class="runs")").close().line();
}

/// Whether a course has a strip: of one without a piece there is none.
inline bool has_strip(const Plan& plan, int course) {
  if (!plan.strips) return false;
  return std::any_of(plan.strips->strips.begin(), plan.strips->strips.end(),
                     [&](const Strip& strip) { return strip.course == course; });
}

}  // namespace detail

template <When = When::called>
void add_courses(Markup& page, const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  begin_section(page, courses_section);
  const std::string twelve = unbroken_mark_text(plan.chart.lattice.pitch_x().times(12), unit);
  add_paragraph(page, "Course 1 is at the bottom; read from the datum end, which ■ marks, to the far end, □. 12×3→" +
                          twelve + " means: twelve cells of colour 3, the last one ends at the mark " + twelve +
                          ". Marks are " + detail::marks_words(unit) + " from the " +
                          (plan.strips ? "datum end of the strip." : "left edge of the board."));
  if (plan.strips) {
    add_paragraph(page,
                  "A course has two boxes: the left one for its strip when that is done, the right one for the "
                  "course when it is laid.");
  }
  add_paragraph(page, std::string(checks_sentence) + " All " + count_text(plan.chart.columns(), "cell", "cells") +
                          " of a course are laid where its check names no other number.");
  add_storage_warning(page);
  page.open("table", R"(class="courses" aria-label="Courses")").open("thead").open("tr");
  add_heading(page, "Course, check");
  add_heading(page, "Runs, from the datum end to the far end");
  page.close().close().line().open("tbody").line();
  for (int course = 1; course <= plan.chart.courses(); ++course) {
    detail::add_course_row(page, plan, course, detail::has_strip(plan, course), unit);
  }
  page.close().close().line();
  add_progress(page, plan.chart.courses());
  page.close().line();
}

namespace detail {

/// The strips that are made to try, a line each, with marks from their own datum ends.
template <When = When::called>
std::vector<std::string> trial_lines(const Plan& plan, LengthUnit unit) {
  std::vector<std::string> lines;
  for (const Strip& strip : plan.strips->trials) {
    std::string line = (lines.empty() ? "The first, of course " : "Of course ") + std::to_string(strip.course) + ":";
    for (const StripSection& section : strip.sections) {
      line += " " + std::to_string(section.last_column - section.first_column + 1) + "×" +
              (section.number == 0 ? "empty" : std::to_string(section.number)) + "→" +
              unbroken_mark_text(section.end, unit);
    }
    lines.push_back(line);
  }
  return lines;
}

}  // namespace detail

/// What strips are made of; their marks stand in the list of courses. Nothing where the method knows no strips.
template <When = When::called>
void add_strips(Markup& page, const Plan& plan) {
  if (!plan.strips) return;
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const StripTakeoff& strips = *plan.strips;
  begin_section(page, strips_section);
  std::string how = count_text(static_cast<std::int64_t>(strips.strips.size()), "strip", "strips") + " of " +
                    size_text({strips.length, strips.flat_width}, unit);
  if (strips.flat_width != strips.finished_width) {
    how += ", folded to a width of " + mark_text(strips.finished_width, unit) + " " + symbol(unit);
  }
  if (strips.fold == Fold::end_to_end) {
    how += ", each of twice that length, folded end to end: its two halves have the same marks, each from its own end";
  }
  add_paragraph(page, how + "." +
                          (strips.length > plan.chart.lattice.extent().width
                               ? " What is left beyond the last mark is cut off after mounting."
                               : ""));
  page.open("p")
      .text("Strip 1 makes course 1, the lowest, and so on: ")
      .element("a", "the list of courses", R"(href="#courses")");
  page.text(" is the strip list as well, with every colour and the mark where it ends, and a box for each strip.");
  page.close().line();
  if (!strips.trials.empty()) {
    page.element("h3", "Strips of the pilot").line();
    add_paragraph(
        page,
        count_text(static_cast<std::int64_t>(strips.trials.size()), "strip", "strips") +
            " made before the others, each as long as its last mark" +
            (strips.trim > Length{} ? " and " + mark_text(strips.trim, unit) + " " + symbol(unit) : std::string{}) +
            (strips.fold == Fold::end_to_end ? ", twice that for the fold" : "") +
            ", its marks measured from its own datum end. They are a part of the courses that they are "
            "named after, as wide and folded like the others, and written as in that list. Paint what does not "
            "touch first, the rest when that is dry.");
    add_lines(page, detail::trial_lines(plan, unit));
  }
  page.close().line();
}

}  // namespace handlaid
