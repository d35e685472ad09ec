// How fast the work goes, from measured minutes alone: a learning curve is fitted where there is something to fit, and
// never assumed. T. Wright, "Factors affecting the cost of airplanes", Journal of the Aeronautical Sciences 3(4), 1936:
// each time the number of units doubles, a unit takes the same share of the time before.
// `fit_learning(seconds_of_courses)`
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// One unit of work that was timed, such as a course: which one it was, how much it was, how long it took.
struct TimedWork {
  /// Its place in the order of the work, from 1.
  std::int64_t unit = 1;
  /// Pieces, or sections: what the time is in proportion to; 1 or more.
  std::int64_t amount = 1;
  std::int64_t seconds = 0;
  friend constexpr bool operator==(const TimedWork&, const TimedWork&) = default;
};

/// What the times say.
struct LearningCurve {
  /// Of a unit's time when the units have doubled, in percent, 50…100. 100: no learning, or too little to fit.
  int percent = 100;
  /// For one of the amount in the first unit, in thousandths of a second.
  std::int64_t first_ms = 0;
  /// How far the units stray from the curve, as their root mean square, in thousandths of it.
  int scatter_permille = 0;
  /// Units that were timed.
  std::int64_t units = 0;
  friend constexpr bool operator==(const LearningCurve&, const LearningCurve&) = default;
};

/// How long what remains will take.
struct LabourForecast {
  std::int64_t low_s = 0;
  std::int64_t likely_s = 0;
  std::int64_t high_s = 0;
  friend constexpr bool operator==(const LabourForecast&, const LabourForecast&) = default;
};

/// The share of the first unit's time that unit `unit` takes on a curve of so many percent, in parts of 2^20:
/// percent^(log2 unit). Works by squaring and roots in whole numbers, the same in every build.
template <When = When::called>
std::int64_t learning_factor(std::int64_t unit, int percent);

/// Fits a curve by least squares of relative errors, over whole percents; with fewer than `fewest_to_fit` units it
/// stays at 100. Throws Error for times below 1 s or above a year, units or amounts below 1.
template <When = When::called>
LearningCurve fit_learning(std::span<const TimedWork> timed);

/// Two points always lie on a curve; three begin to say something.
inline constexpr std::size_t fewest_to_fit = 3;

/// What the units from `first` on take, whose amounts are given, with a range of twice the scatter of what was timed
/// for the sum of n strays (divided by the root of n), and twice that for the curve, which is drawn on beyond what was
/// timed (by the root of the units timed).
template <When = When::called>
LabourForecast forecast(const LearningCurve& curve, std::int64_t first, std::span<const std::int64_t> amounts);

namespace detail {

inline constexpr std::int64_t learning_unit = std::int64_t{1} << 20;

/// The logarithm to base 2 of a number of 1 or more, in parts of 2^16: bit by bit, by squaring.
constexpr std::int64_t log2_parts(std::int64_t value) {
  std::int64_t whole = 0;
  while (value >> (whole + 1) > 0) ++whole;
  // The mantissa from 1 to 2 in parts of 2^30.
  std::int64_t mantissa = whole <= 30 ? value << (30 - whole) : value >> (whole - 30);
  std::int64_t parts = whole << 16;
  for (int bit = 15; bit >= 0; --bit) {
    mantissa = (mantissa * mantissa) >> 30;
    if (mantissa >= std::int64_t{1} << 31) {
      mantissa >>= 1;
      parts += std::int64_t{1} << bit;
    }
  }
  return parts;
}

/// The square root of a share in parts of 2^30.
constexpr std::int64_t root_of_share(std::int64_t share) {
  std::int64_t root = 0;
  for (std::int64_t step = std::int64_t{1} << 30; step > 0; step /= 2) {
    if ((root + step) * (root + step) <= share << 30) root += step;
  }
  return root;
}

template <When = When::called>
std::int64_t root_of(std::int64_t value) {
  std::int64_t root = 0;
  for (std::int64_t step = std::int64_t{1} << 31; step > 0; step /= 2) {
    if ((root + step) <= 3'000'000'000 && (root + step) * (root + step) <= value) root += step;
  }
  return root;
}

template <When = When::called>
void check_timed(std::span<const TimedWork> timed) {
  for (const TimedWork& work : timed) {
    if (work.unit < 1 || work.unit > 1'000'000) {
      throw Error::out_of_range("timed work", "unit " + std::to_string(work.unit), "units from 1 to 1000000");
    }
    if (work.amount < 1 || work.amount > 1'000'000'000) {
      throw Error::out_of_range("timed work", "an amount of " + std::to_string(work.amount), "1 to 1000000000");
    }
    if (work.seconds < 1 || work.seconds > 31'536'000) {
      throw Error::out_of_range("timed work", std::to_string(work.seconds) + " s", "1 s to a year");
    }
  }
}

}  // namespace detail

template <When>
std::int64_t learning_factor(std::int64_t unit, int percent) {
  if (percent >= 100 || unit <= 1) return detail::learning_unit;
  const std::int64_t exponent = detail::log2_parts(unit);
  constexpr std::int64_t one = std::int64_t{1} << 30;
  const std::int64_t base = one * percent / 100;
  std::int64_t factor = one;
  for (std::int64_t i = 0; i < exponent >> 16; ++i) factor = factor * base >> 30;
  std::int64_t root = base;  // base^(1/2), base^(1/4)…
  for (int bit = 15; bit >= 0; --bit) {
    root = detail::root_of_share(root);
    if ((exponent >> bit & 1) != 0) factor = factor * root >> 30;
  }
  return std::max<std::int64_t>(factor >> 10, 1);
}

template <When>
LearningCurve fit_learning(std::span<const TimedWork> timed) {
  detail::check_timed(timed);
  LearningCurve best{.units = static_cast<std::int64_t>(timed.size())};
  if (timed.empty()) return best;
  std::int64_t least = -1;
  const int lowest = timed.size() < fewest_to_fit ? 100 : 50;
  for (int percent = 100; percent >= lowest; --percent) {
    // Time of the first unit that each unit stands for, in thousandths of a second; their mean is the fit.
    std::vector<std::int64_t> firsts;
    std::int64_t sum = 0;
    for (const TimedWork& work : timed) {
      const std::int64_t each_us = std::min<std::int64_t>(work.seconds * 1'000'000 / work.amount, 1'000'000'000'000);
      const std::int64_t factor = learning_factor(work.unit, percent);
      const std::int64_t first_us =
          each_us / factor * detail::learning_unit + each_us % factor * detail::learning_unit / factor;
      firsts.push_back(std::max<std::int64_t>((first_us + 500) / 1'000, 1));
      sum += firsts.back();
    }
    const std::int64_t mean = std::max<std::int64_t>(sum / static_cast<std::int64_t>(firsts.size()), 1);
    std::int64_t squares = 0;  // of relative errors in thousandths
    for (const std::int64_t first : firsts) {
      const std::int64_t off = std::clamp<std::int64_t>((first - mean) * 10'000 / mean, -1'000'000, 1'000'000);
      squares += off * off;
    }
    // The slower curve stays unless another is clearly nearer, by one part in a hundred: noise is no learning.
    if (least >= 0 && squares >= least - least / 100) continue;
    least = squares;
    best.percent = percent;
    best.first_ms = mean;
    best.scatter_permille = static_cast<int>(detail::root_of(squares / static_cast<std::int64_t>(firsts.size())) / 10);
  }
  return best;
}

template <When>
LabourForecast forecast(const LearningCurve& curve, std::int64_t first, std::span<const std::int64_t> amounts) {
  std::int64_t likely_ms = 0;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    const std::int64_t factor = learning_factor(first + static_cast<std::int64_t>(i), curve.percent);
    likely_ms += amounts[i] * (curve.first_ms * factor / detail::learning_unit);
  }
  LabourForecast result{.likely_s = (likely_ms + 500) / 1'000};
  const auto count = static_cast<std::int64_t>(amounts.size());
  if (count == 0) return result;
  // Twice the scatter; with one or two units timed there is no scatter to see, and a third is taken: common practice,
  // no source.
  const std::int64_t scatter =
      curve.units < static_cast<std::int64_t>(fewest_to_fit) ? 330 : 2 * curve.scatter_permille;
  const std::int64_t units = std::max<std::int64_t>(curve.units, 1);
  const auto over_root = [&](std::int64_t n) { return scatter * 1'000 / detail::root_of(n * 1'000'000); };
  const std::int64_t share = over_root(count) + 2 * over_root(units);
  const std::int64_t spread = result.likely_s / 1'000 * std::min<std::int64_t>(share, 900) +
                              result.likely_s % 1'000 * std::min<std::int64_t>(share, 900) / 1'000;
  result.low_s = result.likely_s - spread;
  result.high_s = result.likely_s + spread;
  return result;
}

}  // namespace handlaid
