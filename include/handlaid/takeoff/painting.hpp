// Paint: the area of each colour on the strips, and what it takes of paint and primer.
// `strips | Painting{.coats = 2}`, then `paint_needs(takeoff, palette) | choose_packs(paint_stock)`
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/solve/binomial.hpp"
#include "handlaid/takeoff/amounts.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// The paint of one colour.
struct PaintLine {
  int number = 0;
  std::int64_t sections = 0;
  /// One coat on all faces, what is painted beyond the marks included.
  std::int64_t area_mm2 = 0;
  /// All coats, and what stays in pot and brush.
  std::int64_t ml = 0;
  /// The same for spare strips, whichever courses they are for: those that take most of the colour.
  std::int64_t spare_ml = 0;
  /// And for what is painted to try.
  std::int64_t trial_ml = 0;
  constexpr std::int64_t needed_ml() const { return ml + spare_ml + trial_ml; }
  friend constexpr bool operator==(const PaintLine&, const PaintLine&) = default;
};

/// The paint of all strips, a line for each colour that occurs, in the order of the numbers.
struct PaintTakeoff {
  std::vector<PaintLine> lines = {};
  int faces = 1;
  int coats = 1;
  int primer_coats = 0;
  std::int64_t primed_mm2 = 0;
  std::int64_t primer_ml = 0;
  /// With spare strips and those that are tried.
  std::int64_t needed_primer_ml = 0;

  /// What is on the panel in the end, primer apart.
  std::int64_t ml() const {
    std::int64_t total = 0;
    for (const PaintLine& line : lines) total += line.ml;
    return total;
  }
  friend bool operator==(const PaintTakeoff&, const PaintTakeoff&) = default;
};

/// Options of painting.
struct Painting {
  using is_stage = void;
  /// Of the flat material that get paint: 1 or 2. A folded strip shows one.
  int faces = 1;
  /// 1…20 each; primer 0…20.
  int coats = 2;
  int primer_coats = 1;
  /// How far a litre goes in one coat, 0.5…50. Makers' data sheets of wall paints say 7 to 10 m² in practice; the tin
  /// decides.
  double spreading_m2_per_l = 8;
  double primer_m2_per_l = 8;
  /// Share that stays in pot and brush, 0…5: common practice, no source.
  double pot_loss = 0.15;
  /// How far a section is painted beyond its marks, where the next one will cover it.
  Length beyond_mark = 2 * mm;
  friend constexpr bool operator==(const Painting&, const Painting&) = default;

  /// Throws Error for numbers out of range, NaN, or areas above 10,000 m².
  template <When = When::called>
  PaintTakeoff operator()(const StripTakeoff& strips) const;
};

/// The need of each colour in millilitres, to choose tins for. A palette of free colours has no names to look up.
template <When = When::called>
AmountTakeoff paint_needs(const PaintTakeoff& paint, const Palette& palette) {
  AmountTakeoff needs{.palette = palette, .unit = StockUnit::millilitres};
  for (const PaintLine& line : paint.lines) {
    needs.lines.push_back({.number = line.number, .needed = line.needed_ml()});
  }
  return needs;
}

namespace detail {

/// Thousandths of a rate in its range.
template <When = When::called>
std::int64_t paint_rate(double value, double low, double high, const char* name, const char* range) {
  if (!(value >= low)) throw Error::out_of_range(name, value != value ? "not a number" : "the value given", range);
  return billionths(value / 1e6, high / 1e6, name, range);
}

/// Millilitres for an area, rounded up once.
inline std::int64_t paint_ml(std::int64_t area_mm2, int coats, std::int64_t rate_thousandths, std::int64_t loss) {
  // Square metres are mm² / 10^6, a litre is 1000 ml, rate and loss are in thousandths.
  const std::int64_t parts = area_mm2 * coats * (1'000 + loss);
  return (parts + 1'000 * rate_thousandths - 1) / (1'000 * rate_thousandths);
}

/// What is painted of each colour along strips, what lies beyond the marks included; index n is colour n.
struct PaintedLengths {
  std::vector<Length> lengths = {};
  std::vector<std::int64_t> sections = {};
  /// With the lengths of one strip each: of the strips that take most of a colour, so many as were asked for.
  std::vector<Length> largest = {};
};

template <When = When::called>
PaintedLengths painted_lengths(const std::vector<Strip>& strips, Length beyond_mark, std::int64_t largest_of) {
  PaintedLengths painted;
  std::vector<std::vector<Length>> largest;  // of each colour, as a heap with the least at the front
  std::vector<Length> here;
  const auto keep_largest = [&](std::size_t number) {
    std::vector<Length>& kept = largest[number];
    const auto more = [](Length a, Length b) { return a > b; };
    if (static_cast<std::int64_t>(kept.size()) < largest_of) {
      kept.push_back(here[number]);
      std::push_heap(kept.begin(), kept.end(), more);
    } else if (!kept.empty() && kept.front() < here[number]) {
      std::pop_heap(kept.begin(), kept.end(), more);
      kept.back() = here[number];
      std::push_heap(kept.begin(), kept.end(), more);
    }
    here[number] = Length{};
  };
  for (const Strip& strip : strips) {
    for (std::size_t i = 0; i < strip.sections.size(); ++i) {
      const StripSection& section = strip.sections[i];
      if (section.number == 0) continue;
      const auto number = static_cast<std::size_t>(section.number);
      if (number >= painted.lengths.size()) {
        for (auto* list : {&painted.lengths, &painted.largest, &here}) list->resize(number + 1);
        painted.sections.resize(number + 1);
        largest.resize(number + 1);
      }
      const auto is_painted = [&](std::size_t at) {
        return at < strip.sections.size() && strip.sections[at].number != 0;
      };
      // Only one of two that touch is painted over the mark: half of what lies beyond it for each, on both sides.
      Length length = section.end - section.start;
      if (is_painted(i + 1)) length += beyond_mark.divided(2);
      if (i > 0 && is_painted(i - 1)) length += beyond_mark.divided(2);
      painted.lengths[number] += length;
      here[number] += length;
      ++painted.sections[number];
    }
    if (largest_of == 0) continue;
    for (const StripSection& section : strip.sections) {
      const std::size_t number = section.number;
      if (number != 0 && here[number] > Length{}) keep_largest(number);
    }
  }
  for (std::size_t number = 0; number < largest.size(); ++number) {
    for (const Length length : largest[number]) painted.largest[number] += length;
  }
  return painted;
}

}  // namespace detail

template <When>
PaintTakeoff Painting::operator()(const StripTakeoff& strips) const {
  if (faces < 1 || faces > 2) throw Error::out_of_range("faces", std::to_string(faces), "1 or 2");
  if (coats < 1 || coats > 20) throw Error::out_of_range("coats", std::to_string(coats), "1 to 20");
  if (primer_coats < 0 || primer_coats > 20) {
    throw Error::out_of_range("primer-coats", std::to_string(primer_coats), "0 to 20");
  }
  if (beyond_mark < Length{} || beyond_mark > 100 * mm) {
    throw Error::out_of_range("beyond-mark", to_text(beyond_mark, LengthUnit::millimetres), "0 to 100 mm");
  }
  constexpr auto rates = "0.5 to 50 m2 a litre, as the tin says";
  const std::int64_t rate = detail::paint_rate(spreading_m2_per_l, 0.5, 50, "spreading-rate", rates);
  const std::int64_t primer_rate = detail::paint_rate(primer_m2_per_l, 0.5, 50, "primer-rate", rates);
  const std::int64_t loss = detail::paint_rate(pot_loss, 0, 5, "pot-loss", "a share from 0 to 5");

  PaintTakeoff takeoff{.faces = faces, .coats = coats, .primer_coats = primer_coats};
  // More spares than strips are every strip again, and so on.
  const auto count = static_cast<std::int64_t>(strips.strips.size());
  const std::int64_t all_again = count == 0 ? 0 : strips.spares / count;
  const std::int64_t spare_strips = count == 0 ? 0 : strips.spares % count;
  const detail::PaintedLengths laid = detail::painted_lengths(strips.strips, beyond_mark, spare_strips);
  const detail::PaintedLengths tried = detail::painted_lengths(strips.trials, beyond_mark, 0);
  const auto tenths = [](Length length) { return (length.um() + 50) / 100; };
  const std::int64_t across = tenths(strips.finished_width) * strips.layers() * faces;
  const auto area_of = [&](Length length) {
    if (length.um() / 1'000'000 * across / 10'000 > 10'000) {
      throw Error::out_of_range("painted area", "more than 10000 m2", "a panel that can be painted");
    }
    return tenths(length) * across / 100;
  };
  const auto ml = [&](Length length) { return detail::paint_ml(area_of(length), coats, rate, loss); };
  for (std::size_t number = 1; number < laid.lengths.size(); ++number) {
    if (laid.sections[number] == 0) continue;
    PaintLine line{.number = static_cast<int>(number), .sections = laid.sections[number]};
    line.area_mm2 = area_of(laid.lengths[number]);
    line.ml = ml(laid.lengths[number]);
    line.spare_ml = ml(laid.lengths[number].times(all_again) + laid.largest[number]);
    if (number < tried.lengths.size()) line.trial_ml = ml(tried.lengths[number]);
    takeoff.lines.push_back(line);
  }
  if (primer_coats > 0) {
    const auto primer = [&](std::int64_t area) { return detail::paint_ml(area, primer_coats, primer_rate, loss); };
    Length all;
    for (const Strip& strip : strips.strips) all += strip.length() + strips.trim;
    takeoff.primed_mm2 = area_of(all);
    takeoff.primer_ml = primer(takeoff.primed_mm2);
    all += strips.length.times(strips.spares);
    for (const Strip& strip : strips.trials) all += strip.length() + strips.trim;
    takeoff.needed_primer_ml = primer(area_of(all));
  }
  return takeoff;
}

}  // namespace handlaid
