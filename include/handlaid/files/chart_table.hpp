// chart.csv: the colour numbers alone, a line for each course, the top course first, nothing for an empty cell.
// With palette.csv and the lattice of the job it is the chart again.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/files/palette_table.hpp"
#include "handlaid/grid/chart.hpp"

namespace handlaid {

/// The text of chart.csv.
template <AnyChart C>
std::string write_chart(const C& chart) {
  // Written by itself, not field by field: a chart may have millions of cells.
  std::vector<std::string> words{""};
  for (int number = 1; number <= most_colours; ++number) words.push_back(std::to_string(number));
  std::string text;
  text.reserve(chart.numbers.size() * 3);
  for (int row = 0; row < chart.numbers.height(); ++row) {
    bool first = true;
    for (const ColourNumber number : chart.numbers.row(row)) {
      if (!first) text += ',';
      first = false;
      text += words.at(number);
    }
    text += '\n';
  }
  return text;
}

/// The numbers of a chart.csv, as many columns and rows as it has; `file` is its name for messages.
/// Throws Error with the place for a field that is no number from 1 to 999, lines of different lengths, or too many.
template <When = When::called>
Raster<ColourNumber> read_chart_numbers(std::string_view text, const std::string& file);

/// The chart of a lattice, from chart.csv and palette.csv. A note in the palette is not part of either file.
/// Throws Error also where the lattice has another size, or a number is not in the palette.
template <LatticeLike L>
Chart<L> read_chart(std::string_view chart_text, std::string_view palette_text, L lattice,
                    const std::string& chart_file = "chart.csv", const std::string& palette_file = "palette.csv") {
  Chart<L> chart{.lattice = std::move(lattice),
                 .numbers = read_chart_numbers(chart_text, chart_file),
                 .palette = read_palette(palette_text, palette_file)};
  chart.check(chart_file);
  return chart;
}

namespace detail {

/// A number of one to three digits, 0 for nothing, -1 for anything else.
template <When = When::called>
int chart_number(std::string_view text) {
  text = without_blanks(text);
  if (text.size() > 3) return -1;
  int number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return -1;
    number = number * 10 + (c - '0');
  }
  return !text.empty() && number == 0 ? -1 : number;
}

}  // namespace detail

template <When>
Raster<ColourNumber> read_chart_numbers(std::string_view text, const std::string& file) {
  CsvReader reader(text, file);
  std::vector<CsvField> fields;
  std::vector<ColourNumber> numbers;
  std::size_t columns = 0;
  std::size_t rows = 0;
  std::size_t blank_lines = 0;  // editors leave some at the end; in a chart of one column they are cells
  TextPlace first_blank;
  while (reader.next(fields)) {
    if (rows == 0) columns = fields.size();
    if (columns > 1 && fields.size() == 1 && without_blanks(fields[0].text).empty()) {
      if (blank_lines++ == 0) first_blank = fields[0].place;
      continue;
    }
    if (blank_lines > 0) reader.fail(first_blank, "there is an empty line between courses", "take it out");
    if (fields.size() != columns) {
      reader.fail(
          fields.back().place,
          "the line has " + std::to_string(fields.size()) + " cells, the first one has " + std::to_string(columns),
          "give each course the same number of cells");
    }
    if (columns > static_cast<std::size_t>(most_cells_along) || rows == static_cast<std::size_t>(most_cells_along) ||
        numbers.size() + columns > static_cast<std::size_t>(most_cells)) {
      reader.fail(fields[0].place, "there are too many cells",
                  "give at most 100000 columns and courses, 100 million cells in all");
    }
    for (const CsvField& field : fields) {
      const int number = detail::chart_number(field.text);
      if (number < 0) {
        reader.fail(field.place, quoted_in_message(field.text) + " is not a colour number",
                    "write 1 to 999, or nothing for an empty cell");
      }
      numbers.push_back(static_cast<ColourNumber>(number));
    }
    ++rows;
  }
  if (rows == 0) throw Error::bad_input(file, "it is empty", "give a line of colour numbers for each course");
  Raster<ColourNumber> raster(static_cast<int>(columns), static_cast<int>(rows));
  std::copy(numbers.begin(), numbers.end(), raster.pixels().begin());
  return raster;
}

}  // namespace handlaid
