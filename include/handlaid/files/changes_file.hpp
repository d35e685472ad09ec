// changes.txt: changes of the colours of a chart by hand, a line for each, made in their order. Kept beside a job, they
// are made again whenever the plan is. Words, blanks between them, names in double quotes ("" for a quote in one):
//
//     merge 7 into 3                        all cells of 7 become 3
//     swap 2 and 5                          the cells of 2 become 5, those of 5 become 2
//     number 2 as 5                         2 is called 5, and 5 is called 2; the picture stays
//     split 4 at courses 1-20 columns 5-30 as 17 #a0b0c0 "moss"      the cells of 4 there get a new number
//     replace 6 by "slate"                  a colour of the stock takes its place
//     replace 6 by #445566 "slate"          a colour, where there is no stock; the name may be left out
//     lay 4 at course 12 columns 3 8-11     these cells get the colour 4; lay nothing empties them
//     // from here to the end of the line it is a remark; # would begin a colour
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/change_line.hpp"
#include "handlaid/files/colour_change.hpp"
#include "handlaid/files/plain_text.hpp"

namespace handlaid {

/// Reads changes.txt. Throws Error with line and column for whatever is not as above, and where no change is there.
template <When = When::called>
ColourChanges read_colour_changes(std::string_view text, const std::string& file);

/// The text of a line, without its remark and end. Names are without line breaks.
template <When = When::called>
std::string change_text(const ColourChange& change);

/// The text of changes.txt, remarks included. Read again, it is the same but for the numbers of lines.
template <When = When::called>
std::string write_colour_changes(const ColourChanges& changes) {
  std::string text;
  const auto add_remarks = [&](const std::vector<std::string>& remarks) {
    for (const std::string& remark : remarks) text += "// " + remark + '\n';
  };
  for (const ColourChange& change : changes.list) {
    add_remarks(change.remarks_before);
    text += change_text(change) + (change.remark.empty() ? "" : "  // " + change.remark) + '\n';
  }
  add_remarks(changes.remarks_after);
  return text;
}

namespace detail {

/// A line of every kind, as messages show it; in the order of `ChangeKind`.
inline constexpr const char* change_forms[] = {
    "merge 7 into 3",
    "swap 2 and 5",
    "number 2 as 5",
    "split 4 at courses 1-20 columns 5-30 as 17 #a0b0c0",
    "replace 6 by \"slate\" or replace 6 by #445566",
    "lay 4 at course 12 columns 3 8-11",
};

/// "at", then courses, columns or both.
template <When = When::called>
void read_where(ChangeLine& line, ColourChange& change, const char* form) {
  line.expect("at", form);
  for (int i = 0; i < 2; ++i) {
    if (change.courses.empty() && (line.next_is("course") || line.next_is("courses"))) {
      line.take();
      change.courses = line.spans(form);
    } else if (change.columns.empty() && (line.next_is("column") || line.next_is("columns"))) {
      line.take();
      change.columns = line.spans(form);
    }
  }
  if (change.courses.empty() && change.columns.empty()) {
    line.fail_next("\"courses\" or \"columns\"", std::string("write it like ") + form);
  }
}

/// A colour with or without a name, or a name.
template <When = When::called>
void read_new_colour(ChangeLine& line, ColourChange& change, const char* form) {
  if (!line.at_end() && !line.next_is_quoted()) {
    ChangeLine ahead = line;
    Srgb8 colour;
    if (!parse_hex(ahead.take().text, colour)) {
      line.fail_next("a colour like #a0b0c0 or a name in quotes", std::string("write it like ") + form);
    }
    change.colour = colour;
    line.take();
  }
  if (line.next_is_quoted()) {
    ChangeLine ahead = line;
    change.name = ahead.take().text;
    if (without_blanks(change.name).empty()) line.fail_next("a name", "give one, or leave the quotes out");
    line.take();
  }
  if (!change.colour && change.name.empty()) {
    line.fail_next("a colour like #a0b0c0 or a name in quotes", std::string("write it like ") + form);
  }
}

template <When = When::called>
ColourChange read_change(ChangeLine& line) {
  ColourChange change;
  const auto known = [&] {
    for (const std::string& word : change_words) {
      if (line.next_is(word)) return true;
    }
    return false;
  };
  if (!known()) {
    ChangeLine ahead = line;
    const ChangeWord& first = ahead.take();
    line.fail(first.column,
              quoted_in_message(first.text) + " is not known, the nearest is \"" +
                  nearest_word(first.text, change_words) + "\"",
              "begin a line with merge, swap, number, split, replace or lay, or a remark with //");
  }
  const std::string word = line.take().text;
  const auto kind = std::find(change_words.begin(), change_words.end(), word) - change_words.begin();
  change.kind = static_cast<ChangeKind>(kind);
  const char* const form = change_forms[kind];
  if (change.kind == ChangeKind::lay && line.next_is("nothing")) {
    line.take();
    change.number = 0;
  } else {
    change.number = line.number("a colour number", form);
  }
  if (change.kind == ChangeKind::split || change.kind == ChangeKind::lay) read_where(line, change, form);
  constexpr const char* joints[] = {"into", "and", "as", "as", "by", ""};
  if (change.kind != ChangeKind::lay) line.expect(joints[kind], form);
  if (change.kind != ChangeKind::lay && change.kind != ChangeKind::replace) {
    change.other = line.number("a colour number", form);
  }
  if (change.kind == ChangeKind::split || change.kind == ChangeKind::replace) read_new_colour(line, change, form);
  if (!line.at_end()) line.fail_next("the end of the line", std::string("write it like ") + form);
  return change;
}

template <When = When::called>
void put_spans(std::string& text, const char* one, const char* many, const std::vector<CellSpan>& spans) {
  if (spans.empty()) return;
  text += spans.size() == 1 && spans[0].first == spans[0].last ? one : many;
  for (const CellSpan& span : spans) {
    text += ' ' + std::to_string(span.first);
    if (span.last > span.first) text += '-' + std::to_string(span.last);
  }
}

}  // namespace detail

template <When>
ColourChanges read_colour_changes(std::string_view text, const std::string& file) {
  ColourChanges changes{.file = file};
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  if (const std::size_t bad = first_not_text(text); bad < text.size()) {
    TextPlace place;
    place.pass(text.substr(0, bad));
    throw Error::bad_line(file, place.line, place.column, "there are bytes that are not UTF-8 text",
                          "save the file as plain text with UTF-8 encoding");
  }
  for (int number = 1; !text.empty(); ++number) {
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
    detail::ChangeLine line(text.substr(0, end), file, number);
    text.remove_prefix(end);
    text.remove_prefix(text.starts_with("\r\n") ? 2 : text.empty() ? 0 : 1);
    if (line.at_end()) {
      if (!line.remark().empty()) changes.remarks_after.push_back(line.remark());
      continue;
    }
    changes.list.push_back(detail::read_change(line));
    ColourChange& change = changes.list.back();
    change.line = number;
    change.remark = line.remark();
    change.remarks_before = std::exchange(changes.remarks_after, {});
  }
  if (changes.empty()) {
    throw Error::bad_input(file, "there is no change in it",
                           std::string("write lines like ") + detail::change_forms[0]);
  }
  return changes;
}

template <When>
std::string change_text(const ColourChange& change) {
  std::string text = change_words.at(static_cast<std::size_t>(change.kind)) + ' ';
  text += change.number == 0 ? "nothing" : std::to_string(change.number);
  if (change.kind == ChangeKind::split || change.kind == ChangeKind::lay) {
    text += " at";
    detail::put_spans(text, " course", " courses", change.courses);
    detail::put_spans(text, " column", " columns", change.columns);
  }
  constexpr const char* joints[] = {" into ", " and ", " as ", " as ", " by", ""};
  text += joints[static_cast<std::size_t>(change.kind)];
  if (change.kind != ChangeKind::lay && change.kind != ChangeKind::replace) text += std::to_string(change.other);
  if (change.colour) text += ' ' + to_hex(*change.colour);
  if (!change.name.empty()) {
    text += " \"";
    for (const char c : change.name) text += c == '"' ? std::string("\"\"") : std::string(1, c);
    text += '"';
  }
  return text;
}

}  // namespace handlaid
