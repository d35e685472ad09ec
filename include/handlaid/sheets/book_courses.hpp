// Bench book: every course in words, from the bottom, and for painted strips their colours and marks.
#pragma once

#include <string>

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

// A run must not be broken over two lines: its spaces are such that hold together.
inline constexpr const char* tie = "\u00a0";
inline constexpr const char* between_runs = "\u2002 ";

/// "→ 132", with a mark of whole inches and sixteenths kept together.
template <When = When::called>
std::string up_to_mark(Length mark, LengthUnit unit) {
  std::string text = mark_text(mark, unit);
  const std::size_t space = text.find(' ');
  if (space != text.npos) text.replace(space, 1, tie);
  return std::string(tie) + "→" + tie + text;
}

/// "12×3 → 132" for each run: cells, colour, and where the run ends.
template <When = When::called>
std::string course_text(const Plan& plan, int course, LengthUnit unit) {
  std::string text;
  for_each_run(plan.chart, course, [&](const Run& run) {
    if (!text.empty()) text += between_runs;
    const auto last = static_cast<std::size_t>(run.last);
    const Length end =
        last < plan.marks.across.size() ? plan.marks.across[last] : plan.chart.lattice.box(run.last - 1, 0).right;
    text += std::to_string(run.length()) + "×" + (run.number == 0 ? "empty" : std::to_string(run.number)) +
            up_to_mark(end, unit);
  });
  return text;
}

/// "3 → 132" for each section: its colour, and where it ends.
template <When = When::called>
std::string strip_text(const Strip& strip, LengthUnit unit) {
  std::string text;
  for (const StripSection& section : strip.sections) {
    if (!text.empty()) text += between_runs;
    text += (section.number == 0 ? "bare" : std::to_string(section.number)) + up_to_mark(section.end, unit);
  }
  return text;
}

constexpr const char* marks_words(LengthUnit unit) {
  return unit == LengthUnit::millimetres ? "millimetres" : "inches to a sixteenth";
}

template <When = When::called>
void begin_course_table(Markup& page, const char* label, const char* first, const char* runs,
                        const char* check = nullptr) {
  page.open("table", R"(class="courses ends")" + attribute("aria-label", label)).open("thead").open("tr");
  add_heading(page, first);
  add_heading(page, runs);
  if (check != nullptr) add_heading(page, check, true);
  page.close().close().line().open("tbody").line();
}

/// A cell of the table in three short lines, so that it leaves the width to the runs: "23 runs", "532-871", and how
/// many cells are laid where some stay empty.
template <When = When::called>
void add_check(Markup& page, const CourseCheck& check) {
  page.open("td", R"(class="n")").text(std::to_string(check.runs) + tie + (check.runs == 1 ? "run" : "runs"));
  page.line().text(check_text(check.figure));
  if (check.laid < check.figure.length) page.line().text(count_text(check.laid) + tie + "laid");
  page.close();
}

/// What is ticked in a row.
enum class Ticked { laid_course, strip };

/// A row: the box with the number of the course beside it, its text, and what to check it by where there is a check.
template <When = When::called>
void add_course_row(Markup& page, Ticked ticked, int course, const std::string& text,
                    const CourseCheck* check = nullptr) {
  const std::string number = std::to_string(course);
  page.open("tr", course % 5 == 0 ? R"(class="five")" : "").open("th", R"(scope="row")");
  if (ticked == Ticked::laid_course) {
    page.leaf("input", "type=\"checkbox\" class=\"tick\" autocomplete=\"off\" data-course=\"" + number +
                           "\" aria-label=\"Course " + number + " is laid\"");
  } else {
    add_tick(page, "strip " + number, "Strip " + number + " is done");
  }
  page.text(number).close();
  page.element("td", text, R"(class="runs")");
  if (check != nullptr) add_check(page, *check);
  page.close().line();
}

}  // namespace detail

template <When = When::called>
void add_courses(Markup& page, const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  begin_section(page, courses_section);
  const std::string how =
      "Course 1 is at the bottom; read from the datum end, which ■ marks, to the far end, □. 12×3 → 132 means: "
      "twelve cells of colour 3, the last one "
      "ends at the mark 132. Marks are ";
  add_paragraph(page, how + detail::marks_words(unit) + " from the left edge of the board.");
  add_paragraph(page, std::string(checks_sentence) + " All " + count_text(plan.chart.columns(), "cell", "cells") +
                          " of a course are laid where its check names no other number.");
  add_storage_warning(page);
  detail::begin_course_table(page, "Courses", "Course", "Runs, from the datum end to the far end", "Check");
  for (int course = 1; course <= plan.chart.courses(); ++course) {
    const CourseCheck check = check_course(plan.chart, course);
    detail::add_course_row(page, detail::Ticked::laid_course, course, detail::course_text(plan, course, unit), &check);
  }
  page.close().close().line();
  add_progress(page, plan.chart.courses());
  page.close().line();
}

/// Nothing where the method knows no strips.
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
  how +=
      ". 3 → 132 means: colour 3 up to the mark 132; the first colour begins at 0, the datum end, which ■ marks. Marks "
      "are ";
  add_paragraph(page, how + detail::marks_words(unit) + " from the datum end of the strip." +
                          (strips.length > plan.chart.lattice.extent().width
                               ? " What is left beyond the last mark is cut off after mounting."
                               : ""));
  detail::begin_course_table(page, "Strips", "Strip", "Colours and where they end, from the datum end");
  for (const Strip& strip : strips.strips)
    detail::add_course_row(page, detail::Ticked::strip, strip.course, detail::strip_text(strip, unit));
  page.close().close().close().line();
}

}  // namespace handlaid
