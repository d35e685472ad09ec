// Comma-separated values, read and written (RFC 4180): quotes, commas and line breaks inside quotes, any line end, a
// byte-order mark; semicolons or tabs in place of commas, as spreadsheets of many countries write them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/plain_text.hpp"

namespace handlaid {

/// A field as its author meant it, and where it begins.
struct CsvField {
  std::string text = {};
  TextPlace place = {};
};

/// Reads a text line by line; only one line is in memory beside the text. The text must outlive the reader.
class CsvReader {
 public:
  /// The most fields in a line.
  static constexpr std::size_t most_fields = 100'001;

  /// `file` is the name for messages. The separator is whichever of comma, semicolon and tab the first line has most
  /// of. Throws Error where the text is not UTF-8.
  template <When = When::called>
  CsvReader(std::string_view text, std::string file) : rest_(text), file_(std::move(file)) {
    if (rest_.starts_with("\xef\xbb\xbf")) rest_.remove_prefix(3);
    if (const std::size_t bad = first_not_text(rest_); bad < rest_.size()) {
      TextPlace place;
      place.pass(rest_.substr(0, bad));
      throw Error::bad_line(file_, place.line, place.column, "there are bytes that are not UTF-8 text",
                            "save the file as CSV with UTF-8 encoding");
    }
    separator_ = find_separator(rest_);
  }

  /// Reads the next line into `fields`, reusing their memory; false at the end. An empty line has one empty field.
  /// Throws Error for a quote in the wrong place or without an end, and for more than `most_fields`.
  template <When = When::called>
  bool next(std::vector<CsvField>& fields) {
    if (rest_.empty()) {
      fields.clear();
      return false;
    }
    std::size_t count = 0;
    for (bool more = true; more; ++count) {
      if (count == most_fields) fail(place_, "the line has over 100000 fields", "give a table with fewer columns");
      if (count == fields.size()) fields.emplace_back();
      more = read_field(fields[count]);
    }
    fields.resize(count);
    return true;
  }

  /// Where the next line begins.
  TextPlace place() const { return place_; }
  const std::string& file() const { return file_; }
  char separator() const { return separator_; }

  [[noreturn]] void fail(const TextPlace& place, const std::string& problem, const std::string& remedy) const {
    throw Error::bad_line(file_, place.line, place.column, problem, remedy);
  }

 private:
  template <When = When::called>
  static char find_separator(std::string_view text) {
    std::size_t commas = 0;
    std::size_t semicolons = 0;
    std::size_t tabs = 0;
    bool quoted = false;
    for (const char c : text) {
      if (c == '"') quoted = !quoted;
      if (quoted) continue;
      if (c == '\n' || c == '\r') break;
      commas += c == ',' ? 1 : 0;
      semicolons += c == ';' ? 1 : 0;
      tabs += c == '\t' ? 1 : 0;
    }
    if (semicolons > commas && semicolons >= tabs) return ';';
    return tabs > commas ? '\t' : ',';
  }

  /// Takes `count` bytes off the rest.
  template <When = When::called>
  std::string_view take(std::size_t count) {
    const std::string_view taken = rest_.substr(0, count);
    place_.pass(taken);
    rest_.remove_prefix(count);
    return taken;
  }

  /// Reads a field and what ends it; true when another one follows in the line.
  template <When = When::called>
  bool read_field(CsvField& field) {
    field.place = place_;
    field.text.clear();
    if (rest_.starts_with('"')) {
      read_quoted(field);
    } else {
      std::size_t end = 0;
      while (end < rest_.size() && rest_[end] != separator_ && rest_[end] != '\n' && rest_[end] != '\r' &&
             rest_[end] != '"') {
        ++end;
      }
      field.text.assign(take(end));
      if (rest_.starts_with('"')) {
        fail(place_, "there is a quote inside a field",
             "put the whole field in quotes, and write \"\" for each one in it");
      }
    }
    if (rest_.empty()) return false;
    if (rest_.front() == separator_) {
      take(1);
      return true;
    }
    if (rest_.front() != '\n' && rest_.front() != '\r') {
      fail(place_, "something follows the closing quote of a field", "write \"\" for a quote inside a field");
    }
    take(rest_.starts_with("\r\n") ? 2 : 1);
    return false;
  }

  template <When = When::called>
  void read_quoted(CsvField& field) {
    take(1);
    for (;;) {
      const std::size_t quote = rest_.find('"');
      if (quote == rest_.npos) {
        fail(field.place, "the quote that opens here is never closed",
             "close it, or write \"\" for a quote in a field");
      }
      field.text.append(take(quote));
      take(1);
      if (!rest_.starts_with('"')) return;
      field.text += '"';
      take(1);
    }
  }

  std::string_view rest_;
  std::string file_;
  char separator_ = ',';
  TextPlace place_ = {};
};

/// A number of tenths, hundredths and so on as a decimal number with all its decimals: 1250 with 2 decimals is "12.50".
template <When = When::called>
std::string decimal_text(std::int64_t value, int decimals) {
  std::string digits = std::to_string(value < 0 ? -value : value);
  while (digits.size() <= static_cast<std::size_t>(decimals)) digits.insert(digits.begin(), '0');
  if (decimals > 0) digits.insert(digits.size() - static_cast<std::size_t>(decimals), ".");
  return (value < 0 ? "-" : "") + digits;
}

/// Writes lines of comma-separated fields, each line ending with a line feed. Fields are quoted only where they must
/// be.
class CsvWriter {
 public:
  CsvWriter& field(std::string_view text) {
    if (begun_) text_ += ',';
    begun_ = true;
    // Blanks at an end are kept by quotes: some programs would drop them.
    const bool quotes = text.find_first_of(",;\t\"\r\n") != text.npos || without_blanks(text) != text;
    if (!quotes) {
      text_ += text;
      return *this;
    }
    text_ += '"';
    for (const char c : text) {
      if (c == '"') text_ += '"';
      text_ += c;
    }
    text_ += '"';
    return *this;
  }
  CsvWriter& field(long long value) { return field(std::to_string(value)); }
  CsvWriter& field(long value) { return field(std::to_string(value)); }
  CsvWriter& field(int value) { return field(std::to_string(value)); }
  CsvWriter& end_line() {
    text_ += '\n';
    begun_ = false;
    return *this;
  }
  std::string text() && { return std::move(text_); }
  const std::string& text() const& { return text_; }

 private:
  std::string text_;
  bool begun_ = false;
};

}  // namespace handlaid
