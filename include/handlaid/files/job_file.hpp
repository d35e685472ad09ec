// The job file: `word = value` lines, `#` before a comment line, UTF-8. `read_job(write_job(job), …)` is the same job.
// A line like `[board]` heads the words of a section; headings may be left out, as each word has one meaning anywhere.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_conflict.hpp"
#include "handlaid/files/job_fields.hpp"

namespace handlaid {

/// The job as its file would give it back: shares to a billionth. Throws Error for a value out of its range.
template <When = When::called>
Job checked(const Job& job) {
  Job result;
  const LengthUnit unit = job.units.value_or(LengthUnit::millimetres);
  for (const JobField& field : job_fields()) {
    for (const std::string& text : field.write(job, unit)) {
      const ValueFault fault = field.read(text, unit, field.range, result);
      if (fault.any()) throw Error::bad_option(field.word, fault.problem, fault.remedy);
    }
  }
  return result;
}

/// Reads a job file from its text; `file` is its name for messages.
/// Throws Error naming file and line for a word that is unknown or repeated, a value that is wrong, a line of another
/// form, bytes that are no text, and an option without effect.
template <When = When::called>
Job read_job(std::string_view text, const std::string& file);

/// How a job is written.
struct JobWriting {
  /// With every word that has an effect, also where it has its default: a file to go through and change.
  bool defaults = false;
};

/// The text of a job file: the options that are given, under the headings of their sections, lengths in the job's
/// units, a newline at the end.
/// Throws Error for a text that such a file cannot hold: line breaks, blanks at either end.
template <When = When::called>
std::string write_job(const Job& job, const JobWriting& writing = {});

namespace detail {

/// The known word that is nearest to a misspelt one.
template <When = When::called>
std::string nearest_job_word(std::string_view word) {
  std::vector<std::string> words;
  for (const JobField& field : job_fields()) words.push_back(field.word);
  return nearest_word(word, words);
}

/// The known section that a line like "[board]" names.
template <When = When::called>
const char* job_section(std::string_view line, const std::string& file, int number) {
  const std::string_view name = without_blanks(line.substr(1, line.ends_with(']') ? line.size() - 2 : line.npos));
  std::vector<std::string> names;
  for (const JobSection& section : job_sections<When::called>) {
    if (line.ends_with(']') && name == section.name) return section.name;
    names.push_back(section.name);
  }
  throw Error::bad_line(file, number, 0, "there is no section " + quoted_in_message(line),
                        "did you mean \"[" + nearest_word(std::string(name), names) + "]\"?");
}

}  // namespace detail

template <When>
Job read_job(std::string_view text, const std::string& file) {
  struct Line {
    const JobField* field;
    std::string_view value;
    int number;
    int column;
  };
  std::vector<Line> lines;
  std::string_view section;
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  int number = 0;
  while (!text.empty()) {
    ++number;
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + (text.substr(end).starts_with("\r\n") ? 2U : 1U), text.size()));
    const auto column_at = [&](std::size_t byte) {
      TextPlace place;
      place.pass(line.substr(0, byte));
      return place.column;
    };
    if (const std::size_t bad = first_not_text(line); bad < line.size()) {
      throw Error::bad_line(file, number, column_at(bad), "there are bytes that are no text",
                            "give a job file: lines of text like \"columns = 72\"");
    }
    const std::string_view whole = without_blanks(line);
    if (whole.empty() || whole.front() == '#') continue;
    if (whole.front() == '[') {
      section = detail::job_section(whole, file, number);
      continue;
    }
    const std::size_t sign = line.find('=');
    if (sign == line.npos) {
      throw Error::bad_line(file, number, 0, "there is no \"=\"", "write a word, \"=\" and a value, like columns = 72");
    }
    const std::string_view word = without_blanks(line.substr(0, sign));
    const JobField* field = find_job_field(word);
    if (field == nullptr) {
      throw Error::bad_line(file, number, 0, "there is no word " + quoted_in_message(word),
                            "did you mean \"" + detail::nearest_job_word(word) + "\"?");
    }
    if (!section.empty() && section != field->section) {
      throw Error::bad_line(file, number, 0,
                            "\"" + std::string(word) + "\" stands under [" + std::string(section) +
                                "], its place is under [" + field->section + "]",
                            "move it there, or leave the headings out");
    }
    for (const Line& other : lines) {
      if (other.field == field && !field->repeats) {
        throw Error::bad_line(
            file, number, 0,
            "\"" + std::string(word) + "\" stands in line " + std::to_string(other.number) + " already",
            "keep one of the two");
      }
    }
    const std::string_view value = without_blanks(line.substr(sign + 1));
    const std::size_t column = value.empty() ? sign + 1 : static_cast<std::size_t>(value.data() - line.data());
    lines.push_back({field, value, number, column_at(column)});
  }

  Job job;
  const auto set = [&](const Line& line) {
    const ValueFault fault =
        line.field->read(line.value, job.units.value_or(LengthUnit::millimetres), line.field->range, job);
    if (fault.any()) {
      throw Error::bad_line(file, line.number, line.column, std::string(line.field->word) + ": " + fault.problem,
                            fault.remedy);
    }
  };
  // The unit of plain numbers first, wherever it stands.
  const JobField* const units = find_job_field("units");
  for (const Line& line : lines) {
    if (line.field == units) set(line);
  }
  for (const Line& line : lines) {
    if (line.field != units) set(line);
  }
  if (const auto conflict = find_conflict(job)) {
    int at = 0;
    for (const Line& line : lines) {
      if (line.field->word == conflict->word) at = line.number;
    }
    throw Error::bad_line(file, at, 0, conflict->word + ": " + conflict->problem, conflict->remedy);
  }
  return job;
}

template <When>
std::string write_job(const Job& job, const JobWriting& writing) {
  std::string text = "# A job: every option of the plan. Give it again to get the same plan.\n";
  const LengthUnit unit = job.units.value_or(LengthUnit::millimetres);
  const Job fresh = {.method = job.method};
  std::string_view section;
  for (const JobField& field : job_fields()) {
    const std::vector<std::string> values = field.write(job, unit);
    const bool is_default = values == field.write(fresh, unit) && std::string_view(field.word) != "method";
    if (is_default && !(writing.defaults && detail::has_effect(field, job))) continue;
    for (const std::string& value : values) {
      if (without_blanks(value) != value || first_not_text(value) != value.size() ||
          value.find_first_of("\r\n") != value.npos) {
        throw Error::bad_output(
            "job file", std::string(field.word) + " has blanks at an end, or characters that are no text", "rename it");
      }
      if (section != field.section) {
        section = field.section;
        text += "\n[" + std::string(section) + "]\n";
      }
      text += std::string(field.word) + " = " + value + "\n";
    }
  }
  return text;
}

}  // namespace handlaid
