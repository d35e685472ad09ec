// A line of changes.txt taken apart into words: blanks between them, names in double quotes, remarks after //.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/plain_text.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// From one course or column to another, both included, from 1.
struct CellSpan {
  int first = 1;
  int last = 1;
  friend constexpr bool operator==(const CellSpan&, const CellSpan&) = default;
};

namespace detail {

struct ChangeWord {
  std::string text = {};
  int column = 1;
  bool quoted = false;
};

/// Takes a line apart, word by word.
class ChangeLine {
 public:
  template <When = When::called>
  ChangeLine(std::string_view line, const std::string& file, int number) : file_(file), number_(number) {
    std::size_t at = 0;
    const auto column = [&] {
      TextPlace place;
      place.pass(line.substr(0, at));
      return place.column;
    };
    while (at < line.size()) {
      if (line[at] == ' ' || line[at] == '\t') {
        ++at;
        continue;
      }
      if (line.substr(at).starts_with("//")) {
        remark_ = without_blanks(line.substr(at + 2));
        break;
      }
      ChangeWord word{.column = column()};
      if (line[at] == '"') {
        word.quoted = true;
        for (++at;; ++at) {
          if (at >= line.size()) fail(word.column, "the quote that opens here is never closed", "close it");
          if (line[at] == '"' && !line.substr(at + 1).starts_with('"')) break;
          if (line[at] == '"') ++at;
          word.text += line[at];
        }
        ++at;
        if (at < line.size() && line[at] != ' ' && line[at] != '\t') {
          fail(column(), "something follows the closing quote", "leave a blank, or write \"\" for a quote in a name");
        }
      } else {
        while (at < line.size() && line[at] != ' ' && line[at] != '\t') word.text += line[at++];
      }
      words_.push_back(std::move(word));
    }
    end_column_ = column();
  }

  /// What stands after //, without blanks round it.
  const std::string& remark() const { return remark_; }
  bool at_end() const { return next_ == words_.size(); }
  bool next_is(std::string_view text) const { return !at_end() && !words_[next_].quoted && words_[next_].text == text; }
  bool next_is_quoted() const { return !at_end() && words_[next_].quoted; }
  const ChangeWord& take() { return words_[next_++]; }

  [[noreturn]] void fail(int column, const std::string& problem, const std::string& remedy) const {
    throw Error::bad_line(file_, number_, column, problem, remedy);
  }
  /// What stands where something else should.
  template <When = When::called>
  [[noreturn]] void fail_next(const std::string& wanted, const std::string& remedy) const {
    if (at_end()) fail(end_column_, "the line ends where " + wanted + " should stand", remedy);
    fail(words_[next_].column, quoted_in_message(words_[next_].text) + " stands where " + wanted + " should", remedy);
  }
  template <When = When::called>
  void expect(const char* word, const char* form) {
    if (!next_is(word)) fail_next("\"" + std::string(word) + "\"", std::string("write it like ") + form);
    ++next_;
  }
  template <When = When::called>
  int number(const std::string& what, const char* form) {
    const int value = at_end() || words_[next_].quoted ? -1 : whole(words_[next_].text);
    if (value < 1 || value > most_colours) {
      fail_next(what + " from 1 to 999", std::string("write it like ") + form);
    }
    ++next_;
    return value;
  }
  /// "12" or "5-30", as many as there are.
  template <When = When::called>
  std::vector<CellSpan> spans(const char* form) {
    std::vector<CellSpan> found;
    while (!at_end() && !words_[next_].quoted && is_digit_of(words_[next_].text.front())) {
      const std::string_view text = words_[next_].text;
      const std::size_t stroke = std::min(text.find('-'), text.size());
      const int first = whole(text.substr(0, stroke));
      const int last = stroke == text.size() ? first : whole(text.substr(stroke + 1));
      if (first < 1 || last < first || last > most_cells_along) {
        fail_next("a count like 12 or a stretch like 5-30", std::string("write it like ") + form);
      }
      found.push_back({first, last});
      ++next_;
    }
    if (found.empty()) fail_next("a count like 12 or a stretch like 5-30", std::string("write it like ") + form);
    return found;
  }

 private:
  static bool is_digit_of(char c) { return c >= '0' && c <= '9'; }
  template <When = When::called>
  static int whole(std::string_view text) {
    if (text.empty() || text.size() > 6) return -1;
    int value = 0;
    for (const char c : text) {
      if (!is_digit_of(c)) return -1;
      value = value * 10 + (c - '0');
    }
    return value;
  }

  std::string file_;
  int number_ = 1;
  std::string remark_ = {};
  std::vector<ChangeWord> words_ = {};
  std::size_t next_ = 0;
  int end_column_ = 1;
};

}  // namespace detail
}  // namespace handlaid
