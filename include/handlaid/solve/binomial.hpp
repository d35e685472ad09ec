// How many to start with so that enough are left: quantiles of the binomial distribution and of its counterpart, the
// number lost before enough have been kept (negative binomial).
// Terms are built from the most likely one outwards by products and quotients alone, which every compiler rounds alike,
// then scaled to whole numbers; sums and decisions are whole numbers.
#pragma once

#include <cstdint>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// The most trials or kept pieces that these functions take.
inline constexpr std::int64_t most_trials = 1'000'000'000;
/// The most that can be asked to remain.
inline constexpr std::int64_t most_needed = 10'000'000;

/// The least x with P(X <= x) >= confidence, X the number of losses among `trials`, each lost with probability `loss`.
/// `loss` is from 0 to 1 and `confidence` above 0 and at most 0.99999999; both are taken to nine decimals. A confidence
/// missed by less than one part in 10^9 counts as met, so that exact ties are met in every build.
/// Throws Error for trials outside 0…`most_trials`, and for NaN.
template <When = When::called>
std::int64_t binomial_quantile(std::int64_t trials, double loss, double confidence);

/// The fewest to start with so that at least `needed` remain with that confidence when each is lost with probability
/// `loss`, each by itself. `needed` is 0…`most_needed`, `loss` 0…0.9, `confidence` above 0 and at most 0.99999999; nine
/// decimals and ties as above. Throws Error for anything else.
template <When = When::called>
std::int64_t fewest_to_start(std::int64_t needed, double loss, double confidence);

/// The chance that at most `most_lost` of `trials` are lost, in billionths, to the nearest but for the sum's rounding
/// (below one part in 10^9). Ranges as for `binomial_quantile`; 0 for a negative `most_lost`.
template <When = When::called>
std::int64_t chance_of_at_most(std::int64_t most_lost, std::int64_t trials, double loss);

namespace detail {

/// A share as parts of 10^9, rounded: the decimal fraction that was meant, whatever its nearest double is.
template <When = When::called>
std::int64_t billionths(double share, double most, const char* name, const char* range) {
  if (!(share >= 0.0 && share <= most)) {
    throw Error::out_of_range(name, share != share ? "not a number" : "the value given", range);
  }
  // Sixteen steps a part and whole-number rounding: adding a half to a product could be fused with it.
  return (static_cast<std::int64_t>(share * 16e9) + 8) / 16;
}

template <When = When::called>
std::int64_t confidence_billionths(double confidence) {
  constexpr auto range = "a confidence above 0 and at most 0.99999999";
  const std::int64_t parts = billionths(confidence, 0.99999999, "confidence", range);
  if (parts == 0) throw Error::out_of_range("confidence", "0", range);
  return parts;
}

template <When = When::called>
void check_count(const char* name, std::int64_t count, std::int64_t most) {
  if (count < 0 || count > most) {
    throw Error::out_of_range(name, std::to_string(count), "0 to " + std::to_string(most));
  }
}

/// The largest of the terms, 2^45: thirty thousand standard deviations still add up below 2^63.
inline constexpr double largest_term = 35184372088832.0;

/// Visits the terms beyond `mode`, where the largest stands or is next to, upwards or downwards until they vanish or
/// `visit(k, term)` says no. `up(k)` is the term of k + 1 divided by the term of k.
template <class Ratio, class Visit>
void walk_terms(std::int64_t mode, bool rising, const Ratio& up, Visit&& visit) {
  double term = largest_term;
  for (std::int64_t k = mode;;) {
    if (rising) {
      term = term * up(k);
      ++k;
    } else {
      if (k == 0) return;
      --k;
      term = term / up(k);
    }
    const auto whole = static_cast<std::int64_t>(term);
    if (whole == 0 || !visit(k, whole)) return;
  }
}

/// The ratio of neighbouring terms of the binomial distribution, both shares in billionths.
struct BinomialRatio {
  std::int64_t trials = 0;
  std::int64_t lost_ppb = 0;
  double operator()(std::int64_t k) const {
    return static_cast<double>(trials - k) * static_cast<double>(lost_ppb) /
           (static_cast<double>(k + 1) * static_cast<double>(1'000'000'000 - lost_ppb));
  }
  std::int64_t mode() const {
    // (trials + 1) * loss, without overflow: 10^9 * 10^9 fits.
    const std::int64_t place = (trials + 1) * lost_ppb / 1'000'000'000;
    return place > trials ? trials : place;
  }
};

/// The least k, from 0 on, at which the running sum of the terms reaches the confidence.
template <class Ratio>
std::int64_t quantile_of_terms(std::int64_t mode, std::int64_t confidence_ppb, const Ratio& up) {
  constexpr double scale = largest_term;
  const auto walk = [&](bool rising, auto&& visit) { walk_terms(mode, rising, up, visit); };
  std::int64_t below = 0;
  std::int64_t total = static_cast<std::int64_t>(scale);
  const auto add = [](std::int64_t& sum) {
    return [&sum](std::int64_t, std::int64_t term) {
      sum += term;
      return true;
    };
  };
  walk(false, add(below));
  walk(true, add(total));
  total += below;

  constexpr std::int64_t billion = 1'000'000'000;
  const std::int64_t slack = total >> 33;  // more than rounding can have added up to
  const std::int64_t target = total / billion * confidence_ppb + total % billion * confidence_ppb / billion - slack;
  std::int64_t found = mode;
  std::int64_t reached = below + static_cast<std::int64_t>(scale);
  if (reached >= target) {
    // Down as long as the sum without the present term is enough.
    std::int64_t without = below;
    walk(false, [&](std::int64_t k, std::int64_t term) {
      if (without < target) return false;
      found = k;
      without -= term;
      return true;
    });
  } else {
    walk(true, [&](std::int64_t k, std::int64_t term) {
      found = k;
      reached += term;
      return reached < target;
    });
  }
  return found;
}

}  // namespace detail

template <When>
std::int64_t binomial_quantile(std::int64_t trials, double loss, double confidence) {
  detail::check_count("trials", trials, most_trials);
  const std::int64_t lost = detail::billionths(loss, 1.0, "loss", "a loss from 0 to 1");
  const std::int64_t enough = detail::confidence_billionths(confidence);
  const std::int64_t kept = 1'000'000'000 - lost;
  if (trials == 0 || lost == 0) return 0;
  if (kept == 0) return trials;
  const detail::BinomialRatio up = {trials, lost};
  return detail::quantile_of_terms(up.mode(), enough, up);
}

template <When>
std::int64_t chance_of_at_most(std::int64_t most_lost, std::int64_t trials, double loss) {
  constexpr std::int64_t billion = 1'000'000'000;
  detail::check_count("trials", trials, most_trials);
  const std::int64_t lost = detail::billionths(loss, 1.0, "loss", "a loss from 0 to 1");
  if (most_lost < 0) return 0;
  if (most_lost >= trials || lost == 0) return billion;
  if (lost == billion) return 0;
  const detail::BinomialRatio up = {trials, lost};
  const std::int64_t mode = up.mode();
  std::int64_t within = 0;
  std::int64_t beyond = 0;
  const auto add = [&](std::int64_t k, std::int64_t term) {
    (k <= most_lost ? within : beyond) += term;
    return true;
  };
  add(mode, static_cast<std::int64_t>(detail::largest_term));
  detail::walk_terms(mode, false, up, add);
  detail::walk_terms(mode, true, up, add);
  // Both are shortened together so that a billion of them still fits.
  while (within + beyond >= std::int64_t{1} << 33) {
    within >>= 1;
    beyond >>= 1;
  }
  return (within * billion + (within + beyond) / 2) / (within + beyond);
}

template <When>
std::int64_t fewest_to_start(std::int64_t needed, double loss, double confidence) {
  detail::check_count("needed", needed, most_needed);
  const std::int64_t lost = detail::billionths(loss, 0.9, "loss", "a loss from 0 to 0.9");
  const std::int64_t enough = detail::confidence_billionths(confidence);
  if (needed == 0 || lost == 0) return needed;
  // k lost before `needed` are kept: C(k + needed - 1, k) kept^needed lost^k (negative binomial distribution).
  const std::int64_t mode = (needed - 1) * lost / (1'000'000'000 - lost);
  const auto up = [&](std::int64_t k) {
    return static_cast<double>(k + needed) * static_cast<double>(lost) / (static_cast<double>(k + 1) * 1e9);
  };
  return needed + detail::quantile_of_terms(mode, enough, up);
}

}  // namespace handlaid
