// Lengths as text, read and written exactly in integers: "11 mm", "0.5 in", "7/16 in", "1 3/8 in".
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "handlaid/core/length.hpp"

namespace handlaid {

/// The unit that a maker thinks in.
enum class LengthUnit { millimetres, inches };

/// The unit as printed after a number: "mm" or "in".
constexpr const char* symbol(LengthUnit unit) { return unit == LengthUnit::millimetres ? "mm" : "in"; }

namespace detail {

/// Digits from `at` on, at most nine of them; false where there is none or one too many.
constexpr bool read_digits(std::string_view text, std::size_t& at, std::int64_t& value, std::int64_t& scale) {
  const std::size_t first = at;
  value = 0;
  scale = 1;
  while (at < text.size() && text[at] >= '0' && text[at] <= '9') {
    value = value * 10 + (text[at++] - '0');
    scale *= 10;
    if (at - first > 9) return false;
  }
  return at > first;
}

constexpr void skip_spaces(std::string_view text, std::size_t& at) {
  while (at < text.size() && text[at] == ' ') ++at;
}

/// Micrometres of a unit as written; 0 for an unknown one.
constexpr std::int64_t micrometres_of(std::string_view unit) {
  if (unit == "mm") return 1'000;
  if (unit == "cm") return 10'000;
  if (unit == "m") return 1'000'000;
  if (unit == "in" || unit == "inch" || unit == "\"") return 25'400;
  if (unit == "ft" || unit == "'") return 304'800;
  return 0;
}

}  // namespace detail

/// Reads a number (12, 12.5, 7/16, 1 3/8) and a unit (mm, cm, m, in, ft), rounded once to the nearest micrometre.
/// A number without unit is in `bare`. False for anything else: signs, exponents, NaN, nothing at all.
constexpr bool parse_length(std::string_view text, LengthUnit bare, Length& length) {
  std::size_t at = 0;
  detail::skip_spaces(text, at);
  std::int64_t whole = 0;
  std::int64_t scale = 1;
  std::int64_t part = 0;
  std::int64_t parts = 1;
  if (!detail::read_digits(text, at, whole, scale)) return false;
  if (at < text.size() && text[at] == '.') {
    if (!detail::read_digits(text, ++at, part, parts)) return false;
  } else if (at < text.size() && text[at] == '/') {
    part = whole;
    whole = 0;
    if (!detail::read_digits(text, ++at, parts, scale) || parts == 0) return false;
  } else {
    std::size_t ahead = at;
    detail::skip_spaces(text, ahead);
    if (ahead > at && ahead < text.size() && text[ahead] >= '0' && text[ahead] <= '9') {
      at = ahead;
      if (!detail::read_digits(text, at, part, scale) || at == text.size() || text[at] != '/') return false;
      if (!detail::read_digits(text, ++at, parts, scale) || parts == 0) return false;
    }
  }
  detail::skip_spaces(text, at);
  std::string_view unit = text.substr(at);
  while (!unit.empty() && unit.back() == ' ') unit.remove_suffix(1);
  const std::int64_t um = unit.empty() ? detail::micrometres_of(symbol(bare)) : detail::micrometres_of(unit);
  if (um == 0) return false;
  length = Length::from_um(whole * um + (part * um + parts / 2) / parts);
  return true;
}

/// The number alone, such that reading it again in `unit` gives the same length: "12.5"; "1 3/8" where 64ths of an
/// inch say it, else decimal inches.
inline std::string number_text(Length length, LengthUnit unit) {
  const std::int64_t um = length.um() < 0 ? -length.um() : length.um();
  const std::string sign = length.um() < 0 ? "-" : "";
  const auto decimal = [&](std::int64_t value, std::int64_t scale) {
    std::string digits = std::to_string(value / scale);
    std::int64_t rest = value % scale;
    if (rest > 0) digits += '.';
    while (rest > 0) {
      scale /= 10;
      digits += static_cast<char>('0' + rest / scale);
      rest %= scale;
    }
    return sign + digits;
  };
  if (unit == LengthUnit::millimetres) return decimal(um, 1'000);
  const std::int64_t whole = um / 25'400;
  std::int64_t part = ((um % 25'400) * 64 + 12'700) / 25'400;
  if (part == 0 && um % 25'400 == 0) return sign + std::to_string(whole);
  if (part > 0 && part < 64 && whole * 25'400 + (part * 25'400 + 32) / 64 == um) {
    std::int64_t parts = 64;
    for (; part % 2 == 0; part /= 2) parts /= 2;
    return sign + (whole > 0 ? std::to_string(whole) + " " : "") + std::to_string(part) + "/" + std::to_string(parts);
  }
  // Steps of 1/100,000 in are finer than a micrometre; the coarsest decimal that reads back is taken.
  for (std::int64_t scale = 10; scale < 100'000; scale *= 10) {
    const std::int64_t value = (um * scale + 12'700) / 25'400;
    if (value / scale * 25'400 + (value % scale * 25'400 + scale / 2) / scale == um) return decimal(value, scale);
  }
  return decimal((um * 100'000 + 12'700) / 25'400, 100'000);
}

/// Number and unit: "12.5 mm", "7/16 in".
inline std::string to_text(Length length, LengthUnit unit) { return number_text(length, unit) + " " + symbol(unit); }

/// Number and unit for reading, not for reading back: inches to the nearest 64th.
inline std::string shown(Length length, LengthUnit unit) {
  if (unit == LengthUnit::millimetres) return to_text(length, unit);
  const std::int64_t um = length.um() < 0 ? -length.um() : length.um();
  const std::int64_t part = (um * 64 + 12'700) / 25'400;
  const Length rounded = Length::from_um(part / 64 * 25'400 + (part % 64 * 25'400 + 32) / 64);
  return to_text(length.um() < 0 ? Length{} - rounded : rounded, unit);
}

/// "792 x 1056 mm".
inline std::string to_text(const Size& size, LengthUnit unit) {
  return number_text(size.width, unit) + " x " + to_text(size.height, unit);
}

}  // namespace handlaid
