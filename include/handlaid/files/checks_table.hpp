// checks.csv: what each course is checked by when it is laid.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/grid/course_checks.hpp"

namespace handlaid {

/// How a maker uses the figures; one home for the sentence, in book and program.
inline constexpr const char* checks_sentence =
    "Check: at the end of a course count its runs; count and last mark must be those of the course. For more, type "
    "what "
    "is laid as proof_read reads it, 3x5 4 7x2: it gives the check figure, which shows any one wrong cell, any two, "
    "and "
    "any two that changed places.";

/// The text of checks.csv, a line for each course from the bottom: course, columns, cells laid, runs (gaps count), and
/// the check figure as its two sums (see solve/check_figure).
template <When = When::called>
std::string write_checks(const std::vector<CourseCheck>& checks) {
  CsvWriter csv;
  for (const char* heading : {"course", "columns", "cells", "runs", "check sum", "check weighted"}) csv.field(heading);
  csv.end_line();
  for (const CourseCheck& check : checks) {
    csv.field(check.course).field(check.figure.length).field(check.laid).field(check.runs);
    csv.field(check.figure.sum).field(check.figure.weighted).end_line();
  }
  return std::move(csv).text();
}

}  // namespace handlaid
