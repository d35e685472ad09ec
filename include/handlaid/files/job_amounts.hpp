// Values of a job that are two things at once: an amount with its unit, spacers with their number.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_values.hpp"
#include "handlaid/takeoff/amounts.hpp"
#include "handlaid/takeoff/blade_gang.hpp"

namespace handlaid {

/// "35.5 mm", "0.4 g", "1 pieces".
template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit, const ValueRange& range, AmountEach& value) {
  const ValueFault fault =
      detail::not_a(text, "an amount", "write it like 35.5 mm, 240 mm2, 0.4 ml, 0.02 g or 1 pieces");
  std::string_view symbol_text = {};
  const std::string_view number = detail::up_to(text, " ", symbol_text);
  AmountEach amount;
  bool known = false;
  for (const StockUnit unit : {StockUnit::pieces, StockUnit::millimetres, StockUnit::square_millimetres,
                               StockUnit::millilitres, StockUnit::grams}) {
    if (without_blanks(symbol_text) != symbol(unit)) continue;
    amount.unit = unit;
    known = true;
  }
  if (!known) return fault;
  if (ValueFault wrong = read_decimal_value(number, range, amount.each); wrong.any()) return wrong;
  value = amount;
  return {};
}
template <When = When::called>
std::string value_text(const AmountEach& value, LengthUnit) {
  return decimal_value_text(value.each) + " " + symbol(value.unit);
}

/// "1.62 mm x 20": a measured thickness, and how many there are.
template <When = When::called>
ValueFault read_value(std::string_view text, LengthUnit bare, const ValueRange& range, Spacer& value) {
  const ValueFault fault = detail::not_a(text, "a thickness and a count", "write it like 1.62 mm x 20");
  std::string_view count_part = {};
  const std::string_view thickness = without_blanks(detail::up_to(text, "x", count_part));
  std::int64_t count = 0;
  Spacer spacer;
  if (!parse_length(thickness, bare, spacer.thickness) || !detail::read_whole(without_blanks(count_part), count)) {
    return fault;
  }
  if (spacer.thickness.um() < range.low || spacer.thickness.um() > range.high || count < 1 || count > 1'000) {
    return {std::string(text) + " is out of range", std::string("give ") + range.words};
  }
  spacer.count = static_cast<int>(count);
  value = spacer;
  return {};
}
template <When = When::called>
std::string value_text(const Spacer& value, LengthUnit unit) {
  return to_text(value.thickness, unit) + " x " + std::to_string(value.count);
}

}  // namespace handlaid
