// The rolls or sheets that strips are cut from: how many, which strips from which, and what is left.
// `chart | Strips{…} | Rolls{.length = 50'000 * mm, .width = 36 * mm}`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/binomial.hpp"
#include "handlaid/solve/cut_lengths.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// Strips of one length.
struct StripLength {
  /// Of the material, before folding.
  Length length = {};
  std::int64_t count = 0;
  friend constexpr bool operator==(const StripLength&, const StripLength&) = default;
};

/// What the strips are cut from.
struct RollTakeoff {
  Length roll_length = {};
  Length roll_width = {};
  /// Strips that lie side by side across a roll or sheet.
  std::int64_t side_by_side = 1;
  /// The different lengths, longest first, spare strips and those that are tried among them.
  std::vector<StripLength> lengths = {};
  /// Lengths of lane, `side_by_side` to a roll; one need for each of `lengths`. Empty where strips are joined.
  CutPlan lanes = {};
  std::int64_t rolls = 0;
  /// No way of cutting takes fewer rolls.
  std::int64_t fewest_rolls = 0;
  /// Of one face of the strips that are mounted, flat.
  std::int64_t face_mm2 = 0;
  /// Of what is bought.
  std::int64_t bought_mm2 = 0;
  /// Of the strips that are mounted; 0 where the weight of the material is not given.
  std::int64_t mass_g = 0;

  bool proven() const { return rolls == fewest_rolls; }
  friend bool operator==(const RollTakeoff&, const RollTakeoff&) = default;
};

/// Reckons the rolls.
struct Rolls {
  using is_stage = void;
  /// 50 m is what tape is sold in: common practice, no source.
  Length length = 50'000 * mm;
  /// Zero means as wide as a flat strip.
  Length width = {};
  /// Lost between two strips side by side or one after the other: nothing for a knife.
  Length kerf = {};
  /// Whether a strip may be made up of two.
  bool joins = false;
  /// Weight of the material in one layer, 0…100,000 g a square metre.
  double grams_per_m2 = 0;
  friend constexpr bool operator==(const Rolls&, const Rolls&) = default;

  /// Throws Error for a roll narrower than a strip, or shorter where strips must not be joined, and for numbers out of
  /// range.
  template <When = When::called>
  RollTakeoff operator()(const StripTakeoff& strips) const;
};

template <When>
RollTakeoff Rolls::operator()(const StripTakeoff& strips) const {
  const auto text = [](Length part) { return to_text(part, LengthUnit::millimetres); };
  if (length <= Length{} || length > 10'000'000 * mm) {
    throw Error::out_of_range("roll-length", text(length), "above 0 and at most 10 km");
  }
  if (width < Length{} || width > 100'000 * mm) throw Error::out_of_range("roll-width", text(width), "0 to 100 m");
  if (kerf < Length{} || kerf > 100 * mm) throw Error::out_of_range("kerf", text(kerf), "0 to 100 mm");
  const std::int64_t mg_per_m2 =
      detail::billionths(grams_per_m2 / 1e6, 0.1, "grams-per-m2", "0 to 100000 g a square metre");
  RollTakeoff takeoff{.roll_length = length, .roll_width = width == Length{} ? strips.flat_width : width};
  if (strips.strips.empty()) return takeoff;
  if (takeoff.roll_width < strips.flat_width) {
    throw Error::bad_option("roll-width",
                            text(width) + " is less than the " + text(strips.flat_width) + " of a strip before folding",
                            "take a roll of " + text(strips.flat_width) + " or wider, or a narrower strip");
  }
  takeoff.side_by_side = (takeoff.roll_width + kerf).count_of(strips.flat_width + kerf);
  std::vector<Length> each;
  for (const Strip& strip : strips.strips) each.push_back(strips.flat_length(strip));
  for (const Strip& strip : strips.trials) each.push_back(strips.flat_length(strip));
  each.insert(each.end(), static_cast<std::size_t>(strips.spares), strips.flat_length_of_spare());
  std::sort(each.begin(), each.end(), [](Length a, Length b) { return a > b; });
  for (const Length one : each) {
    if (takeoff.lengths.empty() || takeoff.lengths.back().length != one) takeoff.lengths.push_back({one, 0});
    ++takeoff.lengths.back().count;
  }
  std::int64_t lanes = 0;
  std::int64_t fewest_lanes = 0;
  if (joins) {
    const std::int64_t joined = strips.needed_length().um();
    lanes = fewest_lanes = (joined + length.um() - 1) / length.um();
  } else {
    const Length longest = takeoff.lengths.front().length;
    if (longest > length) {
      throw Error::bad_option("roll-length",
                              text(length) + " is less than the " + text(longest) + " of the longest strip",
                              "take a roll of " + text(longest) + " or longer, or allow joins");
    }
    std::vector<LengthNeed> needs;
    for (const StripLength& one : takeoff.lengths) needs.push_back({one.length.um(), one.count});
    takeoff.lanes = cut_lengths(needs, length.um(), kerf.um());
    lanes = takeoff.lanes.stock_count;
    fewest_lanes = takeoff.lanes.lower_bound;
  }
  const auto to_rolls = [&](std::int64_t count) { return (count + takeoff.side_by_side - 1) / takeoff.side_by_side; };
  takeoff.rolls = to_rolls(lanes);
  takeoff.fewest_rolls = to_rolls(fewest_lanes);
  // Tenths of a millimetre are fine enough for areas, and squares of them do not overflow.
  const auto area_mm2 = [](Length a, Length b) { return (a.um() + 50) / 100 * ((b.um() + 50) / 100) / 100; };
  takeoff.face_mm2 = area_mm2(strips.total_length, strips.flat_width);
  takeoff.bought_mm2 = area_mm2(length, takeoff.roll_width) * takeoff.rolls;
  takeoff.mass_g = (takeoff.face_mm2 / 1'000 * mg_per_m2 + 500'000) / 1'000'000;
  return takeoff;
}

}  // namespace handlaid
