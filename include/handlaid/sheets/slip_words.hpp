// Slips in words, for a maker at the bench.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/course_checks.hpp"
#include "handlaid/quality/laid_cells.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

/// "5 (rose)", "5" where the colour has no name, "nothing" for an empty cell.
template <When = When::called>
std::string number_words(int number, const Palette& palette) {
  if (number == 0) return "nothing";
  const std::string name = number <= palette.size() ? palette[number].name : "";
  return std::to_string(number) + (name.empty() ? "" : " (" + name + ")");
}

/// "column 17: 5 (rose) stands there, 3 (wine) should be", without the course.
template <When = When::called>
std::string slip_text(const CourseSlip& slip, const Palette& palette) {
  const bool one = slip.length() == 1;
  const std::string found = number_words(slip.found, palette);
  const std::string wanted = number_words(slip.wanted, palette);
  const std::string place = (one ? "column " : "columns ") + std::to_string(slip.first) +
                            (one ? "" : (slip.length() == 2 ? " and " : " to ") + std::to_string(slip.last));
  switch (slip.kind) {
    case EditKind::changed:
      return place + ": " + found + (found == "nothing" || one ? " stands there, " : " stand there, ") + wanted +
             " should be";
    case EditKind::swapped:
      return place + ": " + found + " and " + wanted + " have changed places, " + wanted + " comes first";
    case EditKind::missing:
      return place + ": " + wanted +
             (one ? " is missing, and what follows stands too near the datum"
                  : " are missing, and what follows stands too near the datum");
    case EditKind::extra:
      break;
  }
  return "before column " + std::to_string(slip.first) + ": " + count_text(slip.length(), "cell", "cells") + " of " +
         found + " too many";
}

/// "course 4, column 17: looks like 5 (rose), should be 3 (wine) (97 % sure)".
template <When = When::called>
std::string doubt_text(const DoubtfulCell& cell, const Palette& palette) {
  std::string seen = "looks like " + number_words(cell.looks_like, palette);
  if (cell.finding == CellFinding::bare) seen = "looks bare";
  if (cell.finding == CellFinding::unlike) seen = "looks like no colour of the plan";
  return "course " + std::to_string(cell.course) + ", column " + std::to_string(cell.column) + ": " + seen +
         ", should be " + number_words(cell.wanted, palette) + " (" + std::to_string(cell.sure_percent) + " % sure)";
}

}  // namespace handlaid
