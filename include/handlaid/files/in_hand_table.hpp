// in_hand.csv: the pieces of each colour that the maker has counted now. Its first line holds the fingerprint of the
// chart, so that the count for another chart is refused.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/progress_table.hpp"

namespace handlaid {

/// The text of in_hand.csv: "chart,…", then "number,pieces" and a line for each colour, from 1.
template <When = When::called>
std::string write_in_hand(const std::vector<std::int64_t>& pieces, std::string_view chart_mark) {
  CsvWriter csv;
  csv.field("chart").field(chart_mark).end_line();
  csv.field("number").field("pieces").end_line();
  for (std::size_t c = 0; c < pieces.size(); ++c) {
    csv.field(std::to_string(c + 1)).field(std::to_string(pieces[c])).end_line();
  }
  return std::move(csv).text();
}

/// The pieces of each of the `colours` colours, in the order of the palette; `file` is its name for messages. Throws
/// Error with the place where it is of another chart or damaged, and where a colour is missing or stands twice.
template <When = When::called>
std::vector<std::int64_t> read_in_hand(std::string_view text, std::string_view chart_mark, int colours,
                                       const std::string& file) {
  const std::string table_text = detail::behind_chart_mark(text, chart_mark, file);
  CsvTable table(table_text, file, "a line for each colour");
  const int number_column = table.need("number");
  const int pieces_column = table.need("pieces");
  std::vector<std::int64_t> pieces(static_cast<std::size_t>(colours), -1);
  while (table.next()) {
    const std::int64_t number =
        table.whole(number_column, 1, colours, "a colour of the palette, 1 to " + std::to_string(colours));
    std::int64_t& counted = pieces[static_cast<std::size_t>(number) - 1];
    if (counted >= 0) table.fail(number_column, std::to_string(number) + " stands there twice", "keep one of them");
    counted = table.whole(pieces_column, 0, 1'000'000'000, "0 to 1000000000 pieces");
  }
  for (std::size_t c = 0; c < pieces.size(); ++c) {
    if (pieces[c] < 0) {
      throw Error::bad_input(file, "colour " + std::to_string(c + 1) + " is missing",
                             "count every colour; write 0 where none is left");
    }
  }
  return pieces;
}

}  // namespace handlaid
