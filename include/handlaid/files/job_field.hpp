// A word of a job: how it is called, read, written and explained. The tables of words stand in files/job_words_….
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "handlaid/files/job_amounts.hpp"
#include "handlaid/files/job_values.hpp"

namespace handlaid {

/// One option of a job.
struct JobField {
  /// As written before the value; `--word` on a command line.
  const char* word = "";
  /// Stands for the value in help.
  const char* value = "";
  /// What it is, with unit and range.
  const char* help = "";
  /// What happens without it.
  const char* without = "";
  ValueRange range = {};
  /// May be given more than once.
  bool repeats = false;
  /// The heading it stands under in a job file.
  const char* section = "";
  /// Whether it has an effect with each method, pieces and strips; refused where it has none.
  bool with_pieces = true;
  bool with_strips = true;
  /// Sets the option in a job; the job stays as it was where the text is wrong.
  ValueFault (*read)(std::string_view text, LengthUnit bare, const ValueRange& range, Job& job) = nullptr;
  /// The option as texts, one for each value; none where it is not given.
  std::vector<std::string> (*write)(const Job& job, LengthUnit unit) = nullptr;
  /// Makes a job as if the option had not been given.
  void (*clear)(Job& job) = nullptr;
};

namespace detail {

/// The option of a job that a path of members leads to: `&Job::colours`, or `&Job::paint, &Painting::coats`.
template <auto member, auto... deeper, class Owner>
constexpr auto& at_path(Owner& owner) {
  if constexpr (sizeof...(deeper) == 0) {
    return owner.*member;
  } else {
    return at_path<deeper...>(owner.*member);
  }
}

/// What kind of option it is: one that may be left open, one of many values, or one with a default.
template <class T>
struct OptionKind {
  using item = T;
  static constexpr bool open = false;
  static constexpr bool many = false;
};
template <class T>
struct OptionKind<std::optional<T>> {
  using item = T;
  static constexpr bool open = true;
  static constexpr bool many = false;
};
template <class T>
struct OptionKind<std::vector<T>> {
  using item = T;
  static constexpr bool open = false;
  static constexpr bool many = true;
};
template <auto... path>
using KindOf = OptionKind<std::remove_reference_t<decltype(at_path<path...>(std::declval<Job&>()))>>;

template <auto... path>
ValueFault read_member(std::string_view text, LengthUnit bare, const ValueRange& range, Job& job) {
  using Kind = KindOf<path...>;
  typename Kind::item value = {};
  const ValueFault fault = read_value(text, bare, range, value);
  if (fault.any()) return fault;
  if constexpr (Kind::many) {
    at_path<path...>(job).push_back(value);
  } else {
    at_path<path...>(job) = value;
  }
  return {};
}

template <auto... path>
std::vector<std::string> write_member(const Job& job, LengthUnit unit) {
  using Kind = KindOf<path...>;
  const auto& option = at_path<path...>(job);
  std::vector<std::string> texts;
  if constexpr (Kind::many) {
    for (const auto& value : option) texts.push_back(value_text(value, unit));
  } else if constexpr (Kind::open) {
    if (option) texts.push_back(value_text(*option, unit));
  } else {
    texts.push_back(value_text(option, unit));
  }
  return texts;
}

template <auto... path>
void clear_member(Job& job) {
  const Job fresh = {};
  at_path<path...>(job) = at_path<path...>(fresh);
}

/// The same for a number with decimals, where `read_value` would read a share. The range is in thousandths.
template <auto... path>
ValueFault read_decimal(std::string_view text, LengthUnit, const ValueRange& range, Job& job) {
  return read_decimal_value(text, range, at_path<path...>(job));
}
template <auto... path>
std::vector<std::string> write_decimal(const Job& job, LengthUnit) {
  return {decimal_value_text(at_path<path...>(job))};
}

/// A word of a table that is compiled where it is called: with it, what reads and writes the word.
template <When, auto... path>
constexpr JobField job_field(const char* word, const char* value, const char* help, const char* without,
                             ValueRange range = {}) {
  return {.word = word,
          .value = value,
          .help = help,
          .without = without,
          .range = range,
          .repeats = KindOf<path...>::many,
          .read = &read_member<path...>,
          .write = &write_member<path...>,
          .clear = &clear_member<path...>};
}

template <When, auto... path>
constexpr JobField job_decimal(const char* word, const char* value, const char* help, const char* without,
                               ValueRange range = {}) {
  return {.word = word,
          .value = value,
          .help = help,
          .without = without,
          .range = range,
          .read = &read_decimal<path...>,
          .write = &write_decimal<path...>,
          .clear = &clear_member<path...>};
}

}  // namespace detail

}  // namespace handlaid
