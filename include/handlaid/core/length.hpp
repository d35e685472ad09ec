// Lengths, kept in whole micrometres so that marks never drift: `12 * mm`, `3.5 * inch`.
#pragma once

#include <compare>
#include <cstdint>
#include <string>

#include "handlaid/core/error.hpp"

namespace handlaid {

/// A length in whole micrometres. Arithmetic is exact; only a product with a fraction rounds, half away from zero.
class Length {
 public:
  constexpr Length() = default;

  static constexpr Length from_um(std::int64_t micrometres) {
    Length length;
    length.um_ = micrometres;
    return length;
  }

  constexpr std::int64_t um() const { return um_; }
  /// For drawing and reports; decisions use `um()`.
  constexpr double in_mm() const { return static_cast<double>(um_) / 1000.0; }
  constexpr double in_inch() const { return static_cast<double>(um_) / 25400.0; }

  friend constexpr auto operator<=>(Length, Length) = default;
  friend constexpr Length operator+(Length a, Length b) { return from_um(a.um_ + b.um_); }
  friend constexpr Length operator-(Length a, Length b) { return from_um(a.um_ - b.um_); }
  constexpr Length& operator+=(Length other) { return *this = *this + other; }
  constexpr Length& operator-=(Length other) { return *this = *this - other; }

  /// A whole number of lengths, exactly.
  constexpr Length times(std::int64_t count) const { return from_um(um_ * count); }
  /// How many whole `part`s fit; `part` must be positive.
  constexpr std::int64_t count_of(Length part) const { return um_ / part.um_; }
  /// This length divided into `parts`, rounded to the nearest micrometre.
  constexpr Length divided(std::int64_t parts) const {
    const std::int64_t half = (um_ < 0 ? -parts : parts) / 2;
    return from_um((um_ + half) / parts);
  }

 private:
  std::int64_t um_ = 0;
};

inline constexpr Length mm = Length::from_um(1'000);
/// Exactly 25.4 mm (international inch of 1959).
inline constexpr Length inch = Length::from_um(25'400);

/// `factor` lengths, rounded to the nearest micrometre.
/// Throws Error for NaN, infinity, or a result of more than 1,000 km.
constexpr Length operator*(double factor, Length unit) {
  constexpr double longest_um = 1e15;
  const double magnitude = factor < 0 ? -factor : factor;
  const double size_um = static_cast<double>(unit.um() < 0 ? -unit.um() : unit.um());
  if (!(magnitude * size_um <= longest_um)) {
    throw Error::bad_option("length", "not a number or too long", "give a finite length below 1,000 km");
  }
  // The fraction is taken to 48 bits and multiplied as an integer: a floating-point product could be fused with the
  // rounding by one compiler and not by another.
  const auto whole = static_cast<std::int64_t>(magnitude);
  const double fraction = magnitude - static_cast<double>(whole);
  const auto bits = static_cast<std::int64_t>(fraction * 281474976710656.0);
  const std::int64_t unit_um = unit.um() < 0 ? -unit.um() : unit.um();
  if (unit_um > 30'000) {  // such a unit leaves no room for 48 bits; a metre-sized unit is happy with 24
    const std::int64_t part = ((bits >> 24) * unit_um + (std::int64_t{1} << 23)) >> 24;
    const std::int64_t total = whole * unit_um + part;
    return Length::from_um((factor < 0) != (unit.um() < 0) ? -total : total);
  }
  const std::int64_t part = (bits * unit_um + (std::int64_t{1} << 47)) >> 48;
  const std::int64_t total = whole * unit_um + part;
  return Length::from_um((factor < 0) != (unit.um() < 0) ? -total : total);
}
constexpr Length operator*(Length unit, double factor) { return factor * unit; }

/// A width and a height.
struct Size {
  Length width = {};
  Length height = {};
  friend constexpr bool operator==(const Size&, const Size&) = default;
};

}  // namespace handlaid
