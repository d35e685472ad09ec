// Figures as a maker reads them: counts with thousands, money, marks on a tape.
#pragma once

#include <charconv>
#include <cstdint>
#include <string>

#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/palette/stock.hpp"

namespace handlaid {

/// 13824 as "13,824".
template <When = When::called>
std::string count_text(std::int64_t count) {
  std::string digits = std::to_string(count < 0 ? -count : count);
  for (std::size_t at = digits.size(); at > 3;) {
    at -= 3;
    digits.insert(at, 1, ',');
  }
  if (count < 0) digits.insert(0, 1, '-');
  return digits;
}

/// "1 piece", "2 pieces".
inline std::string count_text(std::int64_t count, const std::string& one, const std::string& several) {
  return count_text(count) + " " + (count == 1 ? one : several);
}

/// Hundredths of a currency: "1,234.50 EUR".
template <When = When::called>
std::string money_text(std::int64_t hundredths, const std::string& currency) {
  const std::int64_t size = hundredths < 0 ? -hundredths : hundredths;
  std::string text = (hundredths < 0 ? "-" : "") + count_text(size / 100) + ".";
  text += static_cast<char>('0' + size % 100 / 10);
  text += static_cast<char>('0' + size % 10);
  return currency.empty() ? text : text + " " + currency;
}

/// A reported figure, rounded to so many decimals; "n/a" where it is no number or below 0. Nothing is decided on it.
template <When = When::called>
std::string reported_text(double value, int decimals = 2) {
  if (!(value >= 0 && value < 1e12)) return "n/a";
  char text[32];
  return {text, std::to_chars(text, text + sizeof text, value, std::chars_format::fixed, decimals).ptr};
}

/// A share in hundreds, to a tenth: 0.03 as "3 %", 0.995 as "99.5 %".
template <When = When::called>
std::string percent_text(double share) {
  std::string text = reported_text(share * 100, 1);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text + " %";
}

/// A length as read off a tape, without its unit: millimetres to a tenth, inches to a sixteenth. Rounded once, half up,
/// so it must be given marks from the datum, never distances that are added up afterwards.
template <When = When::called>
std::string mark_text(Length mark, LengthUnit unit) {
  const std::int64_t um = mark.um();
  if (unit == LengthUnit::millimetres) {
    const std::int64_t tenths = (um + 50) / 100;
    return tenths % 10 == 0 ? std::to_string(tenths / 10)
                            : std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
  }
  const std::int64_t sixteenths = (um * 16 + 12'700) / 25'400;
  const std::int64_t whole = sixteenths / 16;
  std::int64_t part = sixteenths % 16;
  if (part == 0) return std::to_string(whole);
  std::int64_t parts = 16;
  for (; part % 2 == 0; part /= 2) parts /= 2;
  return (whole > 0 ? std::to_string(whole) + " " : "") + std::to_string(part) + "/" + std::to_string(parts);
}

/// A mark in running text, where whole inches and sixteenths must not be parted by the end of a line.
template <When = When::called>
std::string unbroken_mark_text(Length mark, LengthUnit unit) {
  std::string text = mark_text(mark, unit);
  const std::size_t space = text.find(' ');
  if (space != text.npos) text.replace(space, 1, "\u202f");
  return text;
}

/// Decimal inches to a hundredth, for setting a scale or a caliper: 132 mm as "5.20".
template <When = When::called>
std::string decimal_inch_text(Length mark) {
  const std::int64_t hundredths = (mark.um() * 100 + 12'700) / 25'400;
  std::string text = std::to_string(hundredths / 100) + ".";
  text += static_cast<char>('0' + hundredths % 100 / 10);
  text += static_cast<char>('0' + hundredths % 10);
  return text;
}

/// A long length of material, rounded up: "72.3 m" or "237.2 ft" from 10 m on, else as on a tape with its unit.
template <When = When::called>
std::string material_text(Length length, LengthUnit unit) {
  if (length < 10'000 * mm) return mark_text(length, unit) + " " + symbol(unit);
  const std::int64_t tenth = unit == LengthUnit::millimetres ? 100'000 : 30'480;
  const std::int64_t tenths = (length.um() + tenth - 1) / tenth;
  return count_text(tenths / 10) + "." + std::to_string(tenths % 10) + (unit == LengthUnit::millimetres ? " m" : " ft");
}

/// A stretch of time as a maker says it: "3 h 20 min", "45 min", "under a minute".
template <When = When::called>
std::string time_text(std::int64_t seconds) {
  if (seconds < 60) return seconds <= 0 ? "no time" : "under a minute";
  const std::int64_t minutes = (seconds + 30) / 60;
  if (minutes < 60) return std::to_string(minutes) + "\u00a0min";
  if (minutes >= 6'000) return count_text((minutes + 30) / 60) + "\u00a0h";
  return count_text(minutes / 60) + "\u00a0h" +
         (minutes % 60 == 0 ? "" : " " + std::to_string(minutes % 60) + "\u00a0min");
}

/// A weight: "850 g", "8.9 kg".
template <When = When::called>
std::string mass_text(std::int64_t grams) {
  if (grams < 1'000) return std::to_string(grams) + " g";
  const std::int64_t tenths = (grams + 50) / 100;
  return count_text(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10)) + " kg";
}

/// An amount in the unit of a stock: "1,200" pieces are the number alone, others get their unit.
template <When = When::called>
std::string amount_text(std::int64_t amount, StockUnit unit) {
  return unit == StockUnit::pieces ? count_text(amount) : count_text(amount) + " " + symbol(unit);
}

/// "792 × 1056 mm", to what a tape shows.
inline std::string size_text(const Size& size, LengthUnit unit) {
  return mark_text(size.width, unit) + " × " + mark_text(size.height, unit) + " " + symbol(unit);
}

/// The distance of neighbouring cells: "11 mm", or "11 × 12 mm" where courses have their own.
template <When = When::called>
std::string pitch_text(const Rectangular& lattice, LengthUnit unit) {
  const std::string down = to_text(lattice.pitch_y(), unit);
  return lattice.pitch_x() == lattice.pitch_y() ? down : number_text(lattice.pitch_x(), unit) + " × " + down;
}

/// Millimetres without loss and without needless digits, as coordinates in a drawing: 9525 µm as "9.525".
inline std::string drawing_mm(Length length) { return number_text(length, LengthUnit::millimetres); }

}  // namespace handlaid
