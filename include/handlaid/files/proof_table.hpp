// proof.csv: the cells of a board that do not look like their numbers.
#pragma once

#include <string>
#include <utility>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/quality/laid_cells.hpp"

namespace handlaid {

/// How a finding is written, in the order of `CellFinding`.
inline constexpr const char* finding_words[] = {"wrong", "bare", "no colour of the plan"};

/// The text of proof.csv, a line for each doubtful cell from course 1 up and from the datum on: course, column,
/// finding, what should be there (number and name, nothing for an empty cell), what it looks like (likewise), how sure
/// it is in percent, and its colour in even light.
template <When = When::called>
std::string write_proof(const BoardProof& proof, const Palette& palette) {
  CsvWriter csv;
  for (const char* heading :
       {"course", "column", "finding", "should be", "name", "looks like", "its name", "sure %", "colour"}) {
    csv.field(heading);
  }
  csv.end_line();
  const auto number = [&](int n) { csv.field(n == 0 ? "" : std::to_string(n)).field(n == 0 ? "" : palette[n].name); };
  for (const DoubtfulCell& cell : proof.doubtful) {
    csv.field(cell.course).field(cell.column).field(finding_words[static_cast<int>(cell.finding)]);
    number(cell.wanted);
    number(cell.finding == CellFinding::unlike ? 0 : cell.looks_like);
    csv.field(cell.sure_percent).field(to_hex(cell.colour)).end_line();
  }
  return std::move(csv).text();
}

}  // namespace handlaid
