// Values of a job that are one of a few words, and how a wrong value is reported.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "handlaid/core/length_text.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/files/plain_text.hpp"

namespace handlaid {

/// What is wrong with a value and what to write instead; empty where nothing is.
struct ValueFault {
  std::string problem = {};
  std::string remedy = {};
  bool any() const { return !problem.empty(); }
};

/// The least and the greatest value of a word: whole numbers as they are, shares in millionths, lengths in micrometres.
struct ValueRange {
  std::int64_t low = 0;
  std::int64_t high = 0;
  /// The range in words, after "give ".
  const char* words = "";
};

/// The spelling of each choice, in the order of its enumeration.
template <class Choice>
inline constexpr std::array<const char*, 0> choice_words = {};
template <>
inline constexpr std::array choice_words<Method> = {"pieces", "strips"};
template <>
inline constexpr std::array choice_words<BatchOrder> = {"contiguous", "by-colours"};
template <>
inline constexpr std::array choice_words<Corners> = {"butted", "mitred"};
template <>
inline constexpr std::array choice_words<HangingWay> = {"rail", "hooks", "wire"};
template <>
inline constexpr std::array choice_words<LengthUnit> = {"mm", "inch"};
template <>
inline constexpr std::array choice_words<Fold> = {"none", "end-to-end", "lengthwise"};
template <>
inline constexpr std::array choice_words<Paper> = {"a4", "letter"};
template <>
inline constexpr std::array choice_words<bool> = {"no", "yes"};
template <>
inline constexpr std::array choice_words<FitterChoice> = {"kmeans", "median-cut"};
template <>
inline constexpr std::array choice_words<Numbering> = {"as-found", "clear"};
template <>
inline constexpr std::array choice_words<DitherChoice> = {"none",     "floyd-steinberg", "jarvis-judice-ninke",
                                                          "atkinson", "bayer",           "blue-noise"};

namespace detail {

inline ValueFault not_a(std::string_view text, const std::string& kind, const std::string& remedy) {
  if (text.empty()) return {"nothing is given", remedy};
  return {quoted_in_message(text) + " is not " + kind, remedy};
}

}  // namespace detail

/// One of a few words.
template <class Choice>
  requires(choice_words<Choice>.size() > 0)
ValueFault read_value(std::string_view text, LengthUnit, const ValueRange&, Choice& value) {
  std::string known;
  for (std::size_t i = 0; i < choice_words<Choice>.size(); ++i) {
    if (text == choice_words<Choice>[i]) {
      value = static_cast<Choice>(i);
      return {};
    }
    known += std::string(i == 0 ? "" : i + 1 < choice_words<Choice>.size() ? ", " : " or ") + choice_words<Choice>[i];
  }
  return detail::not_a(text, "known here", "give " + known);
}
template <class Choice>
  requires(choice_words<Choice>.size() > 0)
std::string value_text(Choice value, LengthUnit) {
  return choice_words<Choice>[static_cast<std::size_t>(value)];
}

}  // namespace handlaid
