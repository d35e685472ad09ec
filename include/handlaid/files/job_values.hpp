// The values of a job's words as text: whole numbers, shares, lengths, sizes, colours, crops, choices.
// `read_value` gives an empty fault where the text is right; `value_text` writes what `read_value` reads as the same.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/files/job_choices.hpp"
#include "handlaid/files/plain_text.hpp"

namespace handlaid {

namespace detail {

/// An optional sign and at most nine digits, and nothing else.
template <When = When::called>
bool read_whole(std::string_view text, std::int64_t& value) {
  const bool negative = !text.empty() && text.front() == '-';
  std::size_t at = negative ? 1 : 0;
  std::int64_t scale = 1;
  if (!read_digits(text, at, value, scale) || at != text.size()) return false;
  if (negative) value = -value;
  return true;
}

/// `text` up to `mark`; `rest` becomes what follows it, or is left alone where there is no mark.
template <When = When::called>
std::string_view up_to(std::string_view text, std::string_view mark, std::string_view& rest) {
  const std::size_t at = text.find(mark);
  if (at == text.npos) return text;
  rest = text.substr(at + mark.size());
  return text.substr(0, at);
}

/// Whole numbers with commas between them, as many as there are places in `values`.
template <std::size_t N>
bool read_list(std::string_view text, std::array<int, N>& values) {
  for (std::size_t i = 0; i < N; ++i) {
    std::string_view rest = {};
    const std::string_view part = i + 1 < N ? up_to(text, ",", rest) : text;
    std::int64_t value = 0;
    if (!read_whole(without_blanks(part), value) || value < 0) return false;
    values[i] = static_cast<int>(value);
    text = rest;
  }
  return true;
}

}  // namespace detail

template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit, const ValueRange& range, int& value) {
  if (!text.empty() && text.back() == '%') text = without_blanks(text.substr(0, text.size() - 1));
  std::int64_t whole = 0;
  if (!detail::read_whole(text, whole))
    return detail::not_a(text, "a whole number", std::string("give ") + range.words);
  if (whole < range.low || whole > range.high) {
    return {std::string(text) + " is out of range", std::string("give ") + range.words};
  }
  value = static_cast<int>(whole);
  return {};
}
inline std::string value_text(int value, LengthUnit) { return std::to_string(value); }

/// A share: "0.03" or "3 %".
template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit, const ValueRange& range, double& value) {
  std::string_view number = text;
  const bool percent = !number.empty() && number.back() == '%';
  if (percent) number = without_blanks(number.substr(0, number.size() - 1));
  std::size_t at = 0;
  std::int64_t whole = 0;
  std::int64_t part = 0;
  std::int64_t scale = 1;
  bool right = detail::read_digits(number, at, whole, scale);
  scale = 1;
  if (right && at < number.size() && number[at] == '.') right = detail::read_digits(number, ++at, part, scale);
  if (!right || at != number.size()) return detail::not_a(text, "a share", std::string("give ") + range.words);
  // Both are exact in a double, so their quotient is the double nearest to the text, whatever the compiler.
  const double share = static_cast<double>(whole * scale + part) / static_cast<double>(percent ? scale * 100 : scale);
  if (share * 1e6 < static_cast<double>(range.low) || share * 1e6 > static_cast<double>(range.high)) {
    return {std::string(text) + " is out of range", std::string("give ") + range.words};
  }
  value = share;
  return {};
}
/// "3 %"; shares are held to a billionth.
template <When = When::called>
std::string value_text(double value, LengthUnit) {
  if (!(value >= 0 && value < 1e6)) return "not a number";
  auto billionths = static_cast<std::int64_t>(value * 1e9 + 0.5);
  std::string text = std::to_string(billionths / 10'000'000);
  billionths %= 10'000'000;
  if (billionths > 0) text += '.';
  for (std::int64_t place = 1'000'000; billionths > 0; place /= 10) {
    text += static_cast<char>('0' + billionths / place);
    billionths %= place;
  }
  return text + " %";
}

/// A number with at most three decimals, like "8.5"; the range is in thousandths.
template <When = When::called>
ValueFault read_decimal_value(std::string_view text, const ValueRange& range, double& value) {
  std::size_t at = 0;
  std::int64_t whole = 0;
  std::int64_t part = 0;
  std::int64_t scale = 1;
  bool right = detail::read_digits(text, at, whole, scale);
  scale = 1;
  if (right && at < text.size() && text[at] == '.') right = detail::read_digits(text, ++at, part, scale);
  if (!right || at != text.size() || scale > 1'000) {
    return detail::not_a(text, "a number with at most three decimals", std::string("give ") + range.words);
  }
  const std::int64_t thousandths = whole * 1'000 + part * (1'000 / scale);
  if (thousandths < range.low || thousandths > range.high) {
    return {std::string(text) + " is out of range", std::string("give ") + range.words};
  }
  value = static_cast<double>(thousandths) / 1'000.0;
  return {};
}
/// As `read_decimal_value` reads it; more decimals are rounded away.
template <When = When::called>
std::string decimal_value_text(double value) {
  if (!(value >= 0 && value < 1e9)) return "not a number";
  // Sixteen steps a part and whole-number rounding: adding a half to a product could be fused with it.
  const std::int64_t thousandths = (static_cast<std::int64_t>(value * 16'000.0) + 8) / 16;
  std::string text = std::to_string(thousandths / 1'000);
  std::int64_t part = thousandths % 1'000;
  if (part > 0) text += '.';
  for (std::int64_t place = 100; part > 0; place /= 10) {
    text += static_cast<char>('0' + part / place);
    part %= place;
  }
  return text;
}

template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit bare, const ValueRange& range, Length& value) {
  Length length;
  if (!parse_length(text, bare, length)) {
    return detail::not_a(text, "a length", "write it like 11 mm, 0.5 in or 7/16 in");
  }
  if (length.um() < range.low || length.um() > range.high) {
    return {to_text(length, bare) + " is out of range", std::string("give ") + range.words};
  }
  value = length;
  return {};
}
inline std::string value_text(Length value, LengthUnit unit) { return to_text(value, unit); }

/// "792 x 1056 mm"; a width without unit takes the unit of the height.
template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit bare, const ValueRange& range, Size& value) {
  const ValueFault fault = detail::not_a(text, "a width and a height", "write it like 792x1056 mm or 31 1/2 x 42 in");
  std::string_view height = {};
  std::string_view width = detail::up_to(text, "\u00d7", height);
  if (height.empty()) width = detail::up_to(text, text.find('x') != text.npos ? "x" : "X", height);
  width = without_blanks(width);
  height = without_blanks(height);
  if (width.empty() || height.empty()) return fault;
  std::string with_unit(width);
  if (width.find_first_not_of("0123456789./ ") == width.npos) {
    const std::size_t unit = height.find_first_not_of("0123456789./ ");
    if (unit != height.npos) with_unit += height.substr(unit);
  }
  Size size;
  if (!parse_length(with_unit, bare, size.width) || !parse_length(height, bare, size.height)) return fault;
  for (const Length side : {size.width, size.height}) {
    if (side.um() < range.low || side.um() > range.high) {
      return {to_text(side, bare) + " is out of range", std::string("give ") + range.words};
    }
  }
  value = size;
  return {};
}
inline std::string value_text(const Size& value, LengthUnit unit) { return to_text(value, unit); }

inline ValueFault read_value(std::string_view text, LengthUnit, const ValueRange&, Srgb8& value) {
  if (parse_hex(text, value)) return {};
  return detail::not_a(text, "a colour", "write it as #rrggbb, like #c04020");
}
inline std::string value_text(const Srgb8& value, LengthUnit) { return to_hex(value); }

template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit, const ValueRange&, ColourLock& value) {
  if (text.empty()) return {"nothing is given", "give a name of the stock, or a colour as #rrggbb"};
  if (text.front() != '#') {
    value = {.name = std::string(text)};
  } else if (!parse_hex(text, value.colour)) {
    return detail::not_a(text, "a colour", "write it as #rrggbb, like #c04020, or give a name of the stock");
  }
  return {};
}
inline std::string value_text(const ColourLock& value, LengthUnit) {
  return value.name.empty() ? to_hex(value.colour) : value.name;
}

template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit, const ValueRange&, std::string& value) {
  if (text.empty()) return {"nothing is given", "give a text"};
  value = text;
  return {};
}
inline std::string value_text(const std::string& value, LengthUnit) { return value; }

/// "left,top,right,bottom", "3:4", or "3:4@x,y" with a place to keep near the middle; pixels as on the ruler.
template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit, const ValueRange&, CropChoice& value) {
  const ValueFault fault =
      detail::not_a(text, "a crop", "write left,top,right,bottom in pixels, or an aspect like 3:4, or 3:4@x,y");
  if (text.find(':') == text.npos) {
    std::array<int, 4> box{};
    if (!detail::read_list(text, box)) return fault;
    const CropBox crop{box[0], box[1], box[2], box[3]};
    if (crop.width() < 1 || crop.height() < 1) {
      return {"\"" + std::string(text) + "\" is an empty part of the picture",
              "give a right beyond left and a bottom beyond top"};
    }
    value = crop;
    return {};
  }
  std::string_view focus = {};
  std::string_view down = {};
  const std::string_view across = without_blanks(detail::up_to(detail::up_to(text, "@", focus), ":", down));
  std::int64_t width = 0;
  std::int64_t height = 0;
  if (!detail::read_whole(across, width) || !detail::read_whole(down, height)) return fault;
  if (width < 1 || width > 10'000 || height < 1 || height > 10'000) {
    return {"\"" + std::string(text) + "\" is out of range", "give whole numbers from 1 to 10000, like 3:4"};
  }
  CropAspect crop{static_cast<int>(width), static_cast<int>(height), {}};
  if (text.find('@') != text.npos) {
    std::array<int, 2> place{};
    if (!detail::read_list(focus, place)) return fault;
    crop.focus = CropFocus{place[0], place[1]};
  }
  value = crop;
  return {};
}
template <When = When::called>
std::string value_text(const CropChoice& value, LengthUnit) {
  if (const auto* box = value.box()) {
    return std::to_string(box->left) + "," + std::to_string(box->top) + "," + std::to_string(box->right) + "," +
           std::to_string(box->bottom);
  }
  const CropAspect& aspect = *value.aspect();
  std::string text = std::to_string(aspect.across) + ":" + std::to_string(aspect.down);
  if (aspect.focus) text += "@" + std::to_string(aspect.focus->x) + "," + std::to_string(aspect.focus->y);
  return text;
}

}  // namespace handlaid
