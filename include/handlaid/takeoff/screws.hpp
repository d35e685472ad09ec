// Screws: how long they are, from what they go through, and where they stand. Lengths are those that wood screws are
// commonly sold in, from memory; the shop's shelf decides.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

namespace detail {

inline constexpr std::array<std::int64_t, 14> screw_millimetres = {12, 16, 20, 25, 30, 35, 40,
                                                                   45, 50, 60, 70, 80, 90, 100};
/// In eighths of an inch.
inline constexpr std::array<std::int64_t, 13> screw_eighths = {4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 24, 28, 32};

/// The longest common length up to `most`; zero where the shortest is longer.
template <When = When::called>
Length longest_screw(Length most, LengthUnit unit) {
  Length best;
  const auto try_length = [&](Length length) {
    if (length <= most) best = length;
  };
  if (unit == LengthUnit::millimetres) {
    for (const std::int64_t length : screw_millimetres) try_length(Length::from_um(length * 1'000));
  } else {
    for (const std::int64_t eighths : screw_eighths) try_length(Length::from_um(eighths * 3'175));
  }
  return best;
}

}  // namespace detail

/// The longest common screw that goes through `through` into `into`, ends 2 mm inside it and holds by at most 30 mm,
/// which is enough. Zero where it would hold by less than 8 mm. All three are common practice, no source.
template <When = When::called>
Length screw_into(Length through, Length into, LengthUnit unit) {
  const Length screw = detail::longest_screw(through + std::min(into - 2 * mm, 30 * mm), unit);
  return screw < through + 8 * mm ? Length{} : screw;
}

/// How far the outer screws stay from the ends of a timber, where it is easily split: 50 mm, or a quarter of a short
/// one (common practice, no source).
constexpr Length screw_margin(Length timber) { return timber < 200 * mm ? timber.divided(4) : 50 * mm; }

/// How many screws a timber has, two at least, where no two neighbours stand further apart than `spacing`.
constexpr std::int64_t screws_on(Length timber, Length spacing) {
  const Length between = timber - screw_margin(timber).times(2);
  return std::max<std::int64_t>(2, (between.um() + spacing.um() - 1) / spacing.um() + 1);
}

/// `count` screws along a timber: the outer ones by their margin from its ends, the others evenly between; one alone
/// stands in the middle.
template <When = When::called>
std::vector<Length> screws_along(Length timber, std::int64_t count) {
  std::vector<Length> places;
  const Length margin = screw_margin(timber);
  if (count == 1) places.push_back(timber.divided(2));
  for (std::int64_t i = 0; count > 1 && i < count; ++i) {
    places.push_back(margin + (timber - margin.times(2)).times(i).divided(count - 1));
  }
  return places;
}

}  // namespace handlaid
