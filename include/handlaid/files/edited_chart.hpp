// A chart that was edited by hand in a spreadsheet or a text editor, read back. files/chart_table is strict with
// chart.csv as this library writes it; here what spreadsheets make of it is taken where its sense is certain, and named
// cell by cell where it is not: nothing is guessed.
// `read_edited_chart(text, plan.chart, "edited.csv")`
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/typed_cells.hpp"
#include "handlaid/grid/chart.hpp"

namespace handlaid {

/// The numbers of the edited chart; `was` is the chart before the edit. Taken are: any separator, blank lines and
/// columns beyond the chart, and column and course numbers around it, where the top left cell says "course" (as the
/// spreadsheet of this library has them: they must still be in their places).
/// Throws Error that names course, column and place in the file, what was found and what was expected: for text,
/// decimals, dates, numbers outside of the palette, cells beyond the chart, a course or column that is missing.
template <When = When::called>
Raster<ColourNumber> read_edited_chart(const TypedCells& table, const Chart<>& was);

/// The same from the text of a CSV file.
template <When = When::called>
Raster<ColourNumber> read_edited_chart(std::string_view csv, const Chart<>& was, const std::string& file) {
  return read_edited_chart(read_typed_csv(csv, file), was);
}

namespace detail {

inline bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A whole number of at most nine digits, or -1.
template <When = When::called>
int plain_number(std::string_view text) {
  if (text.empty() || text.size() > 9) return -1;
  int number = 0;
  for (const char c : text) {
    if (!is_digit(c)) return -1;
    number = number * 10 + (c - '0');
  }
  return number;
}

/// Why a text is no whole number, in words.
template <When = When::called>
std::string why_no_number(const TypedCell& cell) {
  const std::string_view text = cell.text;
  const std::string shown = quoted_in_message(text);
  std::size_t digits = 0;
  std::size_t letters = 0;
  std::size_t points = 0;
  std::size_t strokes = 0;
  for (const char c : text) {
    digits += is_digit(c) ? 1U : 0U;
    letters += (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ? 1U : 0U;
    points += c == '.' || c == ',' ? 1U : 0U;
    strokes += c == '/' || c == '-' ? 1U : 0U;
  }
  const bool between = digits > 0 && is_digit(text.front()) && is_digit(text.back());
  const bool dated =
      (between && letters == 0 && (strokes > 0 || points == 2) && digits + points + strokes == text.size()) ||
      (digits > 0 && letters >= 3 && (strokes > 0 || points > 0 || text.find(' ') != text.npos));
  if (cell.is_date || dated) return shown + " is a date, which the program made of what was typed";
  if (points == 1 && digits > 0 && digits + 1 == text.size()) return shown + " is a decimal number";
  if (text.starts_with('-') && digits + 1 == text.size()) return shown + " is below 1";
  if (text.starts_with('#')) return shown + " is a fault of a formula, or a colour";
  return shown + " is not a colour number";
}

/// Whether column and course numbers stand around the chart; then each must be where it was.
template <When = When::called>
bool check_edited_frame(const TypedCells& table, const Chart<>& was) {
  if (table.cells.empty() || table.cells[0].row != 1 || table.cells[0].column != 1 || table.cells[0].text != "course") {
    return false;
  }
  const int rows = was.courses();
  const int columns = was.columns();
  std::vector<const TypedCell*> top(static_cast<std::size_t>(columns), nullptr);
  std::vector<const TypedCell*> left(static_cast<std::size_t>(rows), nullptr);
  for (const TypedCell& cell : table.cells) {
    if (cell.row == 1 && cell.column > 1 && cell.column <= columns + 1) {
      top[static_cast<std::size_t>(cell.column) - 2] = &cell;
    } else if (cell.column == 1 && cell.row > 1 && cell.row <= rows + 1) {
      left[static_cast<std::size_t>(cell.row) - 2] = &cell;
    }
  }
  const auto check = [&](const TypedCell* cell, TypedCell place, const char* kind, int wanted) {
    if (cell != nullptr && plain_number(cell->text) == wanted) return;
    const std::string found = cell == nullptr ? std::string("nothing") : quoted_in_message(cell->text);
    throw bad_cell(table, cell == nullptr ? place : *cell,
                   found + " stands where " + kind + " " + std::to_string(wanted) +
                       " should: a line was taken out, put "
                       "in or moved",
                   "edit cells only, and leave the numbers around the chart as they are");
  };
  for (int i = 0; i < columns; ++i) {
    check(top[static_cast<std::size_t>(i)], {.row = 1, .column = i + 2}, "column", i + 1);
  }
  for (int i = 0; i < rows; ++i) {
    check(left[static_cast<std::size_t>(i)], {.row = i + 2, .column = 1}, "course", rows - i);
  }
  return true;
}

/// Throws Error where the table has fewer rows or columns than the chart, unless what lacks was empty before.
template <When = When::called>
void check_all_there(const TypedCells& table, const Chart<>& was, const Raster<ColourNumber>& is) {
  const int rows = was.courses();
  const int columns = was.columns();
  const bool lines_known = !table.lines.empty();
  int last_row = static_cast<int>(table.lines.size());
  int last_column = 0;
  for (const TypedCell& cell : table.cells) {
    if (!lines_known) last_row = std::max(last_row, cell.row);
    last_column = std::max(last_column, cell.column);
  }
  if (lines_known) last_column = *std::max_element(table.line_cells.begin(), table.line_cells.end());
  const auto had_cells = [&](int from_row, int from_column) {
    for (int row = from_row; row < rows; ++row) {
      for (int column = from_column; column < columns; ++column) {
        if (was.numbers(column, row) != 0) return true;
      }
    }
    return false;
  };
  if (last_row < rows && had_cells(last_row, 0)) {
    int row = 0;
    while (row < last_row && std::equal(is.row(row).begin(), is.row(row).end(), was.numbers.row(row).begin())) ++row;
    throw Error::bad_input(table.file,
                           "it has " + std::to_string(last_row) + " lines for " + std::to_string(rows) +
                               " courses: one is missing, perhaps course " + std::to_string(course_of_row(row, rows)) +
                               ", from where on it differs",
                           "give a line for each course, the top one first");
  }
  if (last_column < columns && had_cells(0, last_column)) {
    throw Error::bad_input(
        table.file, "it has " + std::to_string(last_column) + " columns of cells, the chart " + std::to_string(columns),
        "give each course all its cells");
  }
  for (std::size_t i = 0; i < table.lines.size() && static_cast<int>(i) < rows; ++i) {
    const int cells = table.line_cells[i];
    const int row = static_cast<int>(i);
    if (cells >= columns || (cells == last_column && !had_cells(0, last_column))) continue;
    // A line without anything is how some programs write a course of empty cells.
    const auto& before = was.numbers.row(row);
    if (std::all_of(before.begin() + (cells == 1 ? 0 : cells), before.end(), [](int n) { return n == 0; })) continue;
    throw Error::bad_line(table.file, table.lines[i], 0,
                          "course " + std::to_string(course_of_row(row, rows)) + " has " + std::to_string(cells) +
                              (cells == 1 ? " cell" : " cells") + ", the chart " + std::to_string(columns) + " columns",
                          "give each course all its cells");
  }
}

}  // namespace detail

template <When>
Raster<ColourNumber> read_edited_chart(const TypedCells& table, const Chart<>& was) {
  const int rows = was.courses();
  const int columns = was.columns();
  if (table.cells.empty()) throw Error::bad_input(table.file, "there is nothing in it", "give an edited chart");
  const bool framed = detail::check_edited_frame(table, was);
  const int shift = framed ? 1 : 0;
  Raster<ColourNumber> numbers(columns, rows);
  for (const TypedCell& cell : table.cells) {
    const int row = cell.row - 1 - shift;
    const int column = cell.column - 1 - shift;
    if (framed && (row < 0 || column < 0 || row == rows || column == columns)) continue;  // numbers on all four sides
    if (row >= rows) {
      throw bad_cell(
          table, cell,
          quoted_in_message(cell.text) + " stands below the " + std::to_string(rows) + " courses of the chart",
          "take the line out, or the one that is too many");
    }
    const std::string place =
        "course " + std::to_string(course_of_row(row, rows)) + ", column " + std::to_string(column + 1) + ": ";
    if (column >= columns) {
      throw bad_cell(
          table, cell,
          place + quoted_in_message(cell.text) + " stands beyond the " + std::to_string(columns) + " columns",
          "take it out, or the column that is too many");
    }
    const int number = detail::plain_number(cell.text);
    if (cell.is_date || number < 1 || number > was.palette.size()) {
      const int before = was.numbers(column, row);
      throw bad_cell(table, cell,
                     place + (number >= 0 && !cell.is_date
                                  ? cell.text + " is not in the palette of " + std::to_string(was.palette.size())
                                  : detail::why_no_number(cell)),
                     "write 1 to " + std::to_string(was.palette.size()) + ", or nothing for an empty cell (it was " +
                         (before == 0 ? std::string("empty") : std::to_string(before)) + ")");
    }
    numbers(column, row) = static_cast<ColourNumber>(number);
  }
  if (!framed) detail::check_all_there(table, was, numbers);
  return numbers;
}

}  // namespace handlaid
