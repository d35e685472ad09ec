// Other numbers for the same colours: colours that look alike and often lie side by side get numbers that are not
// easily taken for each other (see palette/clear_numbers).
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/palette/clear_numbers.hpp"
#include "handlaid/solve/quadratic_assignment.hpp"

namespace handlaid {

/// How much there is to mix up between the colours of a chart, number n at n - 1: likeness (up to 1,000) times one more
/// than how often the two are neighbours, along courses or across them.
template <AnyChart C>
PairTable mix_up_traffic(const C& chart) {
  const auto colours = static_cast<std::size_t>(chart.palette.size());
  std::vector<std::int64_t> beside(colours * colours, 1);
  const auto meet = [&](int a, int b) {
    if (a == 0 || b == 0 || a == b) return;
    const auto i = static_cast<std::size_t>(a - 1);
    const auto j = static_cast<std::size_t>(b - 1);
    ++beside[i * colours + j];
    ++beside[j * colours + i];
  };
  for (int y = 0; y < chart.numbers.height(); ++y) {
    for (int x = 0; x < chart.numbers.width(); ++x) {
      if (x > 0) meet(chart.numbers(x - 1, y), chart.numbers(x, y));
      if (y > 0) meet(chart.numbers(x, y - 1), chart.numbers(x, y));
    }
  }
  std::vector<FixedPoint> points;
  for (const PaletteEntry& entry : chart.palette.entries) points.push_back(convert_colour<Oklab>(entry.colour).fixed());
  PairTable traffic(colours);
  for (std::size_t a = 0; a < colours; ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      traffic.set(a, b, colour_likeness(points[a], points[b]) * beside[a * colours + b]);
    }
  }
  return traffic;
}

/// How easily numbers 1 to `colours` are taken for each other, number n at n - 1.
template <When = When::called>
PairTable numeral_costs(int colours) {
  PairTable costs(static_cast<std::size_t>(colours));
  for (int a = 1; a <= colours; ++a) {
    for (int b = 1; b < a; ++b) {
      costs.set(static_cast<std::size_t>(a - 1), static_cast<std::size_t>(b - 1), numeral_confusion(a, b));
    }
  }
  return costs;
}

/// The chart with number n become `numbers[n - 1]`, and its palette in the new order. Throws Error where `numbers` is
/// not each of 1 to the colours of the palette once.
template <AnyChart C>
C renumbered(C chart, const std::vector<ColourNumber>& numbers) {
  std::vector<bool> given(numbers.size() + 1, false);
  bool fits = numbers.size() == chart.palette.entries.size();
  for (const ColourNumber number : numbers) {
    fits = fits && number >= 1 && number < given.size() && !given[number];
    if (fits) given[number] = true;
  }
  if (!fits) throw Error::bad_option("numbers", "they are not those of the palette", "give each number once");
  const std::vector<PaletteEntry> entries = chart.palette.entries;
  for (std::size_t i = 0; i < numbers.size(); ++i) chart.palette.entries[numbers[i] - 1U] = entries[i];
  for (ColourNumber& number : chart.numbers.pixels()) number = number == 0 ? ColourNumber{0} : numbers[number - 1U];
  return chart;
}

/// Gives clear numbers; as a stage, `chart | ClearNumbers{}`. Colours that the maker locked keep theirs. Never worse
/// than it was, by the sum of likeness, neighbours and confusion; the best there is for up to nine colours.
struct ClearNumbers {
  using is_stage = void;
  PlacesEffort effort = {};

  template <AnyChart C>
  C operator()(const C& chart) const {
    chart.check();
    if (chart.palette.size() == 0) return chart;
    std::vector<bool> fixed;
    for (const PaletteEntry& entry : chart.palette.entries) fixed.push_back(entry.lock != Lock::none);
    const PlacesFound found =
        cheapest_places(mix_up_traffic(chart), numeral_costs(chart.palette.size()), fixed, effort);
    std::vector<ColourNumber> numbers;
    for (const std::size_t place : found.places) numbers.push_back(static_cast<ColourNumber>(place + 1));
    return renumbered(chart, numbers);
  }
};

}  // namespace handlaid
