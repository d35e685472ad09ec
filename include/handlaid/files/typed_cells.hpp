// What somebody typed into a table, cell by cell as text, whatever program saved it: of a CSV file here, of spreadsheet
// files in optional/read_spreadsheet. Blank cells are left out.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"

namespace handlaid {

/// A cell that is not blank. Rows and columns count from 1.
struct TypedCell {
  int row = 1;
  int column = 1;
  /// Without blanks at its ends.
  std::string text = {};
  /// The line of a text file; 0 in a spreadsheet, whose places have letters.
  int line = 0;
  /// The program that saved it took it for a date.
  bool is_date = false;
  friend bool operator==(const TypedCell&, const TypedCell&) = default;
};

/// A table as it was saved.
struct TypedCells {
  /// The name of the file, for messages.
  std::string file = {};
  /// By row, then by column.
  std::vector<TypedCell> cells = {};
  /// Cells in each line of a text file, blank ones too, and its number; empty for a spreadsheet, which does not store
  /// them.
  std::vector<int> line_cells = {};
  std::vector<int> lines = {};
  friend bool operator==(const TypedCells&, const TypedCells&) = default;
};

/// "A" for 1, "Z" for 26, "AA" for 27.
template <When = When::called>
std::string column_letters(int column) {
  std::string letters;
  for (; column > 0; column = (column - 1) / 26) {
    letters.insert(letters.begin(), static_cast<char>('A' + (column - 1) % 26));
  }
  return letters;
}

/// The error of a cell: names its line, or its letters and row.
template <When = When::called>
Error bad_cell(const TypedCells& table, const TypedCell& cell, const std::string& problem, const std::string& remedy) {
  if (cell.line > 0) return Error::bad_line(table.file, cell.line, 0, problem, remedy);
  return Error::bad_input(table.file + ", cell " + column_letters(cell.column) + std::to_string(cell.row), problem,
                          remedy);
}

/// The most cells that are not blank, and the most lines.
inline constexpr std::size_t most_typed_cells = 4'000'000;

/// The cells of a CSV file, with commas, semicolons or tabs. Throws Error with the place where it is no CSV.
template <When = When::called>
TypedCells read_typed_csv(std::string_view text, const std::string& file) {
  TypedCells table{.file = file};
  CsvReader reader(text, file);
  std::vector<CsvField> fields;
  while (reader.next(fields)) {
    table.line_cells.push_back(static_cast<int>(fields.size()));
    table.lines.push_back(fields[0].place.line);
    for (std::size_t i = 0; i < fields.size(); ++i) {
      const std::string_view trimmed = without_blanks(fields[i].text);
      if (trimmed.empty()) continue;
      table.cells.push_back({.row = static_cast<int>(table.lines.size()),
                             .column = static_cast<int>(i) + 1,
                             .text = std::string(trimmed),
                             .line = fields[i].place.line});
    }
    if (table.cells.size() > most_typed_cells || table.lines.size() > most_typed_cells) {
      reader.fail(fields[0].place, "there are over 4 million cells", "give a smaller table");
    }
  }
  return table;
}

}  // namespace handlaid
