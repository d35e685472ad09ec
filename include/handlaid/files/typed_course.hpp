// A course as a maker types it, read off the board from the datum end: "3x5 4 7x2" is three cells of colour 5, one of
// colour 4 and seven of colour 2.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/plain_text.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// Reads cells and runs, parted by spaces, tabs, commas or semicolons. A run is COUNTxNUMBER (x, X, * or the sign of
/// multiplication, spaces around it as they come); a cell is its number; "empty", "-" and 0 are an empty cell, and so
/// is nothing between two commas, as in a line of chart.csv. Numbers 1 to 999. Throws Error that names the word in
/// fault.
template <When = When::called>
std::vector<ColourNumber> read_typed_course(std::string_view text, const std::string& where = "course");

namespace detail {

/// A whole number, -1 for anything else or more than six digits.
template <When = When::called>
int typed_number(std::string_view word) {
  if (word == "empty" || word == "-") return 0;
  if (word.empty() || word.size() > 6) return -1;
  int number = 0;
  for (const char c : word) {
    if (c < '0' || c > '9') return -1;
    number = number * 10 + (c - '0');
  }
  return number;
}

/// Every sign of multiplication as " x ", every comma or semicolon as " , ".
template <When = When::called>
std::string typed_words(std::string_view text) {
  std::string words;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (text.substr(i).starts_with("\u00d7")) {
      words += " x ";
      ++i;
    } else if (text.substr(i).starts_with("\u00a0")) {  // a space that the book holds a run together by
      words += ' ';
      ++i;
    } else if (c == 'x' || c == 'X' || c == '*') {
      words += " x ";
    } else if (c == ',' || c == ';') {
      words += " , ";
    } else {
      words += c == '\t' || c == '\n' || c == '\r' ? ' ' : c;
    }
  }
  return words;
}

}  // namespace detail

template <When>
std::vector<ColourNumber> read_typed_course(std::string_view text, const std::string& where) {
  const std::string spread = detail::typed_words(text);
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < spread.size();) {
    const std::size_t end = std::min(spread.find(' ', at), spread.size());
    if (end > at) words.push_back(std::string_view(spread).substr(at, end - at));
    at = end + 1;
  }
  const auto fail = [&](const std::string& problem) {
    throw Error::bad_input(where, problem,
                           "type cells and runs like 3x5 4 7x2: three of colour 5, one of 4, seven of 2");
  };
  std::vector<ColourNumber> cells;
  bool commas = false;
  bool nothing_yet = true;  // since the last comma
  const auto add = [&](int count, std::string_view number_word) {
    const int number = detail::typed_number(number_word);
    if (number < 0 || number > most_colours) fail(quoted_in_message(number_word) + " is no colour number, 1 to 999");
    if (static_cast<int>(cells.size()) + count > most_cells_along) fail("there are more than 100000 cells");
    cells.insert(cells.end(), static_cast<std::size_t>(count), static_cast<ColourNumber>(number));
    nothing_yet = false;
  };
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == ",") {
      if (nothing_yet) cells.push_back(0);
      nothing_yet = commas = true;
    } else if (i + 1 < words.size() && words[i + 1] == "x") {
      const int count = detail::typed_number(words[i]);
      if (count < 1 || count > most_cells_along) fail(quoted_in_message(words[i]) + " is no count of cells");
      if (i + 2 == words.size()) fail("a run has no colour at its end");
      add(count, words[i + 2]);
      i += 2;
    } else if (words[i] == "x") {
      fail("a run has no count of cells");
    } else {
      add(1, words[i]);
    }
  }
  if (commas && nothing_yet) cells.push_back(0);
  if (cells.empty()) fail("nothing is typed");
  return cells;
}

}  // namespace handlaid
