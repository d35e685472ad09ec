// How far two pictures of the same cells are apart, in whole steps: as they are, or as seen from a distance (eye.hpp).
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/quality/eye.hpp"
#include "handlaid/quality/whole_difference.hpp"

namespace handlaid {

/// CIEDE2000 over the laid cells, in steps of 1/65,536: the same in every build, so that a choice may hang on it.
struct WholeError {
  std::int64_t mean_steps = 0;
  /// 95 of 100 cells have this or less.
  std::int64_t high_steps = 0;

  double mean() const { return static_cast<double>(mean_steps) / static_cast<double>(difference_steps); }
  double high() const { return static_cast<double>(high_steps) / static_cast<double>(difference_steps); }
  friend bool operator==(const WholeError&, const WholeError&) = default;
};

/// Differences of all cells in steps, top row first; -1 where nothing is laid. Throws Error unless sizes agree.
template <When = When::called>
Raster<std::int32_t> cell_differences(const Raster<LabD65>& one, const Raster<LabD65>& other,
                                      const Raster<std::uint8_t>& laid) {
  if (one.width() != laid.width() || one.height() != laid.height() || other.width() != laid.width() ||
      other.height() != laid.height()) {
    throw Error::bad_input("difference", "the two differ in size", "compare a chart with its own cells");
  }
  Raster<std::int32_t> steps(laid.width(), laid.height());
  for (std::size_t i = 0; i < steps.size(); ++i) {
    steps.pixels()[i] =
        laid.pixels()[i] == 0 ? -1 : static_cast<std::int32_t>(whole_ciede2000(one.pixels()[i], other.pixels()[i]));
  }
  return steps;
}

/// Mean and 95th percentile of `cell_differences`; zero where nothing is laid.
inline WholeError error_of(const Raster<std::int32_t>& differences) {
  std::vector<std::int32_t> laid;
  laid.reserve(differences.size());
  std::int64_t sum = 0;
  for (const std::int32_t steps : differences.pixels()) {
    if (steps < 0) continue;
    laid.push_back(steps);
    sum += steps;
  }
  if (laid.empty()) return {};
  const auto count = static_cast<std::int64_t>(laid.size());
  const auto high = laid.begin() + static_cast<std::ptrdiff_t>((count * 95 + 99) / 100 - 1);
  std::nth_element(laid.begin(), high, laid.end());
  return {.mean_steps = (sum + count / 2) / count, .high_steps = *high};
}

/// The error of a chart as seen from `distance`: what the eye makes of it against what it makes of the cells.
/// Throws Error unless both have the same size.
template <AnyCells T, AnyChart C>
WholeError seen_error(const T& cells, const C& chart, Length distance) {
  const Eye eye = eye_for(cells.lattice, cells.laid, distance);
  return error_of(cell_differences(eye.see(cells), eye.see(chart), cells.laid));
}

}  // namespace handlaid
