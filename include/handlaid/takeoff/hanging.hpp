// Hanging: what each point on the wall carries, and at which height. Only figures: local codes, the data of who makes
// the fixing and, in doubt, a licensed trade decide. `Hanging{.way = HangingWay::wire}(panel, mass_g)`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/binomial.hpp"
#include "handlaid/solve/square_root.hpp"

namespace handlaid {

/// How the panel hangs.
enum class HangingWay {
  rail,   ///< one rail on the wall along the top, or two bevelled battens: many screws share the load
  hooks,  ///< hooks straight above each other's load, no wire between
  wire    ///< a wire between two points of the panel, over one hook in the middle
};

/// The figures.
struct HangingTakeoff {
  HangingWay way = HangingWay::rail;
  std::int64_t mass_g = 0;
  /// On the wall, and what each carries.
  std::int64_t points = 0;
  std::int64_t load_per_point_g = 0;
  /// What each must be rated for at least.
  std::int64_t rated_g = 0;
  /// Pull in the wire, as the weight that would pull as much; 0 without one. W / (2 sin of the angle to the level).
  std::int64_t wire_pull_g = 0;
  /// Of the wire between its two points.
  Length wire_length = {};
  /// Between those points, and how far they stand below the top edge, so that the hook stays hidden.
  Length wire_span = {};
  Length eye_drop = {};
  /// And how far below it the hook of a wire carries the wire.
  Length hook_drop = {};
  /// From the floor to the hook of a wire.
  Length hook_height = {};
  /// From the floor to the middle of the panel and to its top edge.
  Length centre_height = {};
  Length top_height = {};
  friend bool operator==(const HangingTakeoff&, const HangingTakeoff&) = default;
};

/// Where hooks take hold of the panel, from its left edge: each at the middle of an equal part of the width, so that
/// all carry the same.
template <When = When::called>
std::vector<Length> hook_places(Length width, std::int64_t hooks) {
  std::vector<Length> places;
  for (std::int64_t i = 0; i < hooks; ++i) places.push_back(width.times(2 * i + 1).divided(2 * hooks));
  return places;
}

/// Options of hanging.
struct Hanging {
  HangingWay way = HangingWay::rail;
  /// Screws of a rail, or hooks; 1…100. A wire has one hook on the wall.
  int points = 2;
  /// Between the two points of a wire, and how far its middle stands above them when it is tight.
  /// Zero: half the width of the panel, and a rise that makes 30 degrees, or less so that the points stand in the upper
  /// third of the panel, where it does not tip forward (common practice, no source), but never below 15 degrees.
  Length wire_span = {};
  Length wire_rise = {};
  /// Where the hook carries the wire, below the top edge, so that it stays hidden: common practice, no source.
  Length hook_drop = 30 * mm;
  /// Handbooks ask for fixings rated at 2 to 4 times the load: common practice, no source.
  double rating = 4;
  /// Where eyes are: museums hang at 1.45 to 1.55 m; common practice, no source.
  Length centre_height = 1'500 * mm;
  friend bool operator==(const Hanging&, const Hanging&) = default;

  /// Throws Error for numbers out of range, for a wire so flat that it would pull more than twice the weight (below
  /// about 15 degrees; common practice, no source), and where its points would stand below the middle of the panel.
  template <When = When::called>
  HangingTakeoff operator()(const Size& panel, std::int64_t mass_g) const;
};

template <When>
HangingTakeoff Hanging::operator()(const Size& panel, std::int64_t mass_g) const {
  const auto text = [](Length length) { return to_text(length, LengthUnit::millimetres); };
  if (points < 1 || points > 100) throw Error::out_of_range("hanging-points", std::to_string(points), "1 to 100");
  if (!(rating >= 1 && rating <= 20)) {
    throw Error::out_of_range("hanging-rating", rating != rating ? "not a number" : "the value given", "1 to 20");
  }
  if (mass_g < 0 || mass_g > 1'000'000'000) {
    throw Error::out_of_range("mass of the panel", std::to_string(mass_g) + " g", "0 to 1000 t");
  }
  if (centre_height <= Length{} || centre_height > 20'000 * mm) {
    throw Error::out_of_range("centre-height", text(centre_height), "above 0 and at most 20 m");
  }
  const std::int64_t factor = detail::billionths(rating / 1'000, 0.02, "hanging-rating", "1 to 20");  // millionths
  HangingTakeoff takeoff{.way = way, .mass_g = mass_g, .points = way == HangingWay::wire ? 1 : points};
  takeoff.load_per_point_g = (mass_g + takeoff.points - 1) / takeoff.points;
  takeoff.rated_g = (takeoff.load_per_point_g * factor + 999'999) / 1'000'000;
  takeoff.centre_height = centre_height;
  takeoff.top_height = centre_height + panel.height.divided(2);
  if (way != HangingWay::wire) return takeoff;

  if (hook_drop < Length{} || hook_drop > 1'000 * mm) {
    throw Error::out_of_range("hook of the wire", text(hook_drop), "0 to 1 m below the top edge");
  }
  const Length span = wire_span == Length{} ? panel.width.divided(2) : wire_span;
  if (span <= Length{} || span > panel.width) {
    throw Error::bad_option("wire-span", text(span) + " on a panel " + text(panel.width) + " wide",
                            "make it " + text(panel.width) + " or less; " + text(panel.width.divided(2)) + " is usual");
  }
  const auto half = static_cast<std::uint64_t>(span.divided(2).um());
  // tan 30 degrees is 0.57735. The side is four times the rise where the rise is half the span divided by the root of
  // 15, 3.873.
  const Length steep = Length::from_um(static_cast<std::int64_t>(half * 57'735 / 100'000));
  const Length flat = Length::from_um(static_cast<std::int64_t>(half * 258'199 / 1'000'000 + 1));
  const Length in_upper_third = panel.height.divided(3) - hook_drop;
  const Length rise = wire_rise == Length{} ? std::clamp(in_upper_third, flat, std::max(steep, flat)) : wire_rise;
  if (rise <= Length{} || rise > 10'000 * mm)
    throw Error::out_of_range("wire-rise", text(rise), "above 0 and at most 10 m");
  const auto up = static_cast<std::uint64_t>(rise.um());
  const std::uint64_t side = nearest_square_root(half * half + up * up);
  takeoff.wire_length = Length::from_um(static_cast<std::int64_t>(side)).times(2);
  takeoff.wire_span = span;
  takeoff.eye_drop = rise + hook_drop;
  takeoff.hook_drop = hook_drop;
  takeoff.hook_height = takeoff.top_height - hook_drop;
  // The sine of the angle is rise / side.
  const auto mass = static_cast<std::uint64_t>(mass_g);
  takeoff.wire_pull_g = static_cast<std::int64_t>((mass * side + 2 * up - 1) / (2 * up));
  if (side > 4 * up) {
    const auto whole_mm = [](Length length) { return Length::from_um((length.um() + 999) / 1'000 * 1'000); };
    throw Error::bad_option(
        "wire-rise", text(rise) + " over a span of " + text(span) + " pulls with over twice the weight of the panel",
        "let it rise at least " + text(whole_mm(flat)) + ", better " + text(whole_mm(steep)) +
            ", or take two hooks or a rail");
  }
  if (takeoff.eye_drop.times(2) > panel.height) {
    throw Error::bad_option(
        "hanging",
        "the points of the wire would stand " + text(takeoff.eye_drop) + " below the top of a panel " +
            text(panel.height) + " high, which would tip forward",
        "take two hooks or a rail" + std::string(wire_rise == Length{} ? "" : ", or let the wire rise less"));
  }
  return takeoff;
}

}  // namespace handlaid
