// A CSV table whose first line names its columns; its values are checked as they are read, and each error has its
// place.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"

namespace handlaid {

/// Reads row after row. Columns are found by name: case, blanks at the ends, and "_" or "-" for a space do not matter.
class CsvTable {
 public:
  /// `what` says what the file should be, for messages. Throws Error when there is no text, or no UTF-8.
  template <When = When::called>
  CsvTable(std::string_view text, const std::string& file, const std::string& what) : reader_(text, file) {
    bool blank = true;
    while (blank && reader_.next(header_)) blank = is_blank(header_);
    if (blank) throw Error::bad_input(file, "it is empty", "give " + what);
    for (const CsvField& field : header_) names_.push_back(plain_name(field.text));
  }

  int columns() const { return static_cast<int>(header_.size()); }
  /// The header of a column as written.
  std::string_view heading(int column) const { return without_blanks(header_[static_cast<std::size_t>(column)].text); }
  /// The header in lower case, with single spaces.
  const std::string& name(int column) const { return names_[static_cast<std::size_t>(column)]; }

  /// The column of that name, if there is one. Throws Error where there are two.
  template <When = When::called>
  std::optional<int> find(const std::string& wanted) const {
    std::optional<int> found;
    for (int column = 0; column < columns(); ++column) {
      if (name(column) != wanted) continue;
      if (found) fail_heading(column, "there are two columns \"" + wanted + "\"", "keep one of them");
      found = column;
    }
    return found;
  }
  /// The column of that name. Throws Error where there is none, and says which is nearest to it.
  int need(const std::string& wanted) const {
    if (const auto found = find(wanted)) return *found;
    throw_missing(wanted);
  }
  template <When = When::called>
  [[noreturn]] void throw_missing(const std::string& wanted) const {
    reader_.fail(
        header_.front().place,
        "there is no column \"" + wanted + "\", the nearest is " + quoted_in_message(nearest_word(wanted, names_)),
        "name the columns in the first line");
  }
  [[noreturn]] void fail_heading(int column, const std::string& problem, const std::string& remedy) const {
    reader_.fail(header_[static_cast<std::size_t>(column)].place, problem, remedy);
  }

  /// Goes to the next row that is not blank; false at the end. Throws Error where it has more fields than columns.
  template <When = When::called>
  bool next() {
    do {
      if (!reader_.next(row_)) return false;
    } while (is_blank(row_));
    for (std::size_t i = header_.size(); i < row_.size(); ++i) {
      if (!without_blanks(row_[i].text).empty()) {
        reader_.fail(row_[i].place, "there are more fields than the " + std::to_string(header_.size()) + " columns",
                     "put a field with a separator in it in quotes");
      }
    }
    return true;
  }
  int line() const { return row_.front().place.line; }

  /// The field without blanks at its ends; empty where the row is short.
  std::string_view text(int column) const {
    const auto i = static_cast<std::size_t>(column);
    return i < row_.size() ? without_blanks(row_[i].text) : std::string_view{};
  }
  [[noreturn]] void fail(int column, const std::string& problem, const std::string& remedy) const {
    const auto i = static_cast<std::size_t>(column);
    reader_.fail(i < row_.size() ? row_[i].place : row_.back().place, name(column) + ": " + problem, remedy);
  }

  /// A whole number; `words` says which, such as "1 to 999 pieces".
  template <When = When::called>
  std::int64_t whole(int column, std::int64_t low, std::int64_t high, const std::string& words) const {
    std::int64_t value = 0;
    if (!read_digits(text(column), value)) not_a(column, "a whole number", "give " + words);
    if (value < low || value > high)
      fail(column, quoted_in_message(text(column)) + " is out of range", "give " + words);
    return value;
  }

  /// A number with at most two decimals, in hundredths.
  template <When = When::called>
  std::int64_t hundredths(int column, std::int64_t high, const std::string& words) const {
    const std::string_view field = text(column);
    const std::size_t point = std::min(field.find('.'), field.size());
    std::string_view decimals = field.substr(std::min(point + 1, field.size()));
    std::int64_t value = 0;
    std::int64_t part = 0;
    const bool right = read_digits(field.substr(0, point), value) &&
                       (point == field.size() || (decimals.size() <= 2 && read_digits(decimals, part)));
    if (!right) not_a(column, "an amount", "give " + words + " with a decimal point, like 12.50");
    value = value * 100 + (decimals.size() == 1 ? part * 10 : part);
    if (value > high) fail(column, quoted_in_message(field) + " is out of range", "give " + words);
    return value;
  }

  template <When = When::called>
  Srgb8 colour(int column) const {
    Srgb8 value;
    if (!parse_hex(text(column), value)) not_a(column, "a colour", "write it as #rrggbb, like #c04020");
    return value;
  }

 private:
  template <When = When::called>
  static bool is_blank(const std::vector<CsvField>& fields) {
    for (const CsvField& field : fields) {
      if (!without_blanks(field.text).empty()) return false;
    }
    return true;
  }
  template <When = When::called>
  static std::string plain_name(std::string_view text) {
    std::string name;
    for (char c : without_blanks(text)) {
      if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
      if (c == '_' || c == '-' || c == '\n' || c == '\r' || c == '\t') c = ' ';
      if (c != ' ' || !name.ends_with(' ')) name += c;
    }
    return name;
  }
  /// One to twelve digits.
  template <When = When::called>
  static bool read_digits(std::string_view text, std::int64_t& value) {
    value = 0;
    for (const char c : text) {
      if (c < '0' || c > '9') return false;
      value = value * 10 + (c - '0');
    }
    return !text.empty() && text.size() <= 12;
  }
  [[noreturn]] void not_a(int column, const std::string& kind, const std::string& remedy) const {
    if (text(column).empty()) fail(column, "nothing is given", remedy);
    fail(column, quoted_in_message(text(column)) + " is not " + kind, remedy);
  }

  CsvReader reader_;
  std::vector<CsvField> header_ = {};
  std::vector<std::string> names_ = {};
  std::vector<CsvField> row_ = {};
};

}  // namespace handlaid
