// progress.csv: the courses laid and the minutes each took. Its first line holds the fingerprint of the chart, so that
// the progress of another chart is refused.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/fingerprint.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/chart_table.hpp"
#include "handlaid/files/csv_table.hpp"
#include "handlaid/takeoff/progress.hpp"

namespace handlaid {

/// The fingerprint of a chart as sixteen digits and letters a to f: of the text of its chart.csv as this library writes
/// it, so that line ends and separators of an editor do not matter.
template <AnyChart C>
std::string chart_fingerprint(const C& chart) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::uint64_t value = fingerprint(write_chart(chart));
  std::string text(16, '0');
  for (std::size_t i = text.size(); i > 0; value >>= 4) text[--i] = digits[static_cast<std::size_t>(value & 15)];
  return text;
}

/// The text of progress.csv: "chart,…", then "course,minutes" and a line for each course in the order of laying;
/// minutes to a hundredth, empty where the course was not timed.
template <When = When::called>
std::string write_progress(const Progress& progress, std::string_view chart_mark) {
  CsvWriter csv;
  csv.field("chart").field(chart_mark).end_line();
  csv.field("course").field("minutes").end_line();
  for (const DoneCourse& done : progress.done) {
    csv.field(done.course);
    csv.field(done.time_s == 0 ? "" : decimal_text((done.time_s * 100 + 30) / 60, 2)).end_line();
  }
  return std::move(csv).text();
}

/// Reads progress.csv for the chart of `courses` courses and of that fingerprint; `file` is its name for messages.
/// Throws Error with the place where it is of another chart, damaged, names a course twice or beyond the chart, or has
/// minutes that are no number.
template <When = When::called>
Progress read_progress(std::string_view text, std::string_view chart_mark, int courses, const std::string& file);

namespace detail {

/// Reads the line "chart,…" of a file and checks it; gives the text behind it with a line of empty fields in its
/// place, so that lines keep their numbers.
template <When = When::called>
std::string behind_chart_mark(std::string_view text, std::string_view chart_mark, const std::string& file) {
  CsvReader reader(text, file);
  std::vector<CsvField> fields;
  if (!reader.next(fields)) {
    throw Error::bad_input(file, "it is empty", "its first line is chart," + std::string(chart_mark));
  }
  if (fields.size() < 2 || without_blanks(fields[0].text) != "chart") {
    reader.fail(fields[0].place, "the fingerprint of the chart is missing",
                "the first line is chart," + std::string(chart_mark));
  }
  for (std::size_t i = 2; i < fields.size(); ++i) {  // spreadsheets fill lines up with empty fields
    if (!without_blanks(fields[i].text).empty()) {
      reader.fail(fields[i].place, "something follows the fingerprint", "take it out");
    }
  }
  if (without_blanks(fields[1].text) != chart_mark) {
    reader.fail(fields[1].place, "it belongs to another chart, " + quoted_in_message(fields[1].text),
                "give the file of the chart " + std::string(chart_mark));
  }
  // The place tells how many lines were read, whatever ends them; the empty ones show the separator.
  std::string rest;
  for (int line = 1; line < reader.place().line; ++line) (rest += reader.separator()) += '\n';
  TextPlace place;
  std::size_t at = text.starts_with("\xef\xbb\xbf") ? 3 : 0;
  while (at < text.size() && place.line < reader.place().line) {
    const std::size_t step = text.substr(at, 2) == "\r\n" ? 2 : 1;
    place.pass(text.substr(at, step));
    at += step;
  }
  return rest.append(text.substr(at));
}

}  // namespace detail

template <When>
Progress read_progress(std::string_view text, std::string_view chart_mark, int courses, const std::string& file) {
  const std::string table_text = detail::behind_chart_mark(text, chart_mark, file);
  CsvTable table(table_text, file, "a line for each course that is laid");
  const int course_column = table.need("course");
  const int minutes_column = table.need("minutes");
  Progress progress;
  std::vector<int> line_of(static_cast<std::size_t>(courses) + 1, 0);
  while (table.next()) {
    DoneCourse done;
    done.course = static_cast<int>(
        table.whole(course_column, 1, courses, "a course of the chart, 1 to " + std::to_string(courses)));
    int& line = line_of[static_cast<std::size_t>(done.course)];
    if (line != 0) {
      table.fail(course_column, std::to_string(done.course) + " stands in line " + std::to_string(line) + " too",
                 "keep one of them");
    }
    line = table.line();
    if (!table.text(minutes_column).empty()) {
      const std::int64_t hundredths = table.hundredths(minutes_column, 6'000'000, "0.02 to 60000 minutes");
      done.time_s = (hundredths * 60 + 50) / 100;
      if (done.time_s == 0) table.fail(minutes_column, "no time at all", "leave it empty where it was not timed");
    }
    progress.done.push_back(done);
  }
  return progress;
}

}  // namespace handlaid
