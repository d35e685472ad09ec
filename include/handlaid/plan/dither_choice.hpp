// Which way of placing the palette looks best from where the panel hangs, and what is said about it.
#pragma once

#include <algorithm>
#include <string>

#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/plan/propose.hpp"

namespace handlaid {

/// "2.5 m" or "8 ft", to a centimetre or a tenth of a foot.
template <When = When::called>
std::string distance_text(Length distance, LengthUnit unit) {
  const bool metres = unit == LengthUnit::millimetres;
  const std::int64_t hundredths = metres ? (distance.um() + 5'000) / 10'000 : (distance.um() + 15'240) / 30'480 * 10;
  std::string text = std::to_string(hundredths / 100);
  const std::int64_t rest = hundredths % 100;
  if (rest > 0) text += "." + std::to_string(rest / 10) + (rest % 10 > 0 ? std::to_string(rest % 10) : "");
  return text + (metres ? " m" : " ft");
}

/// How many pitches away that is, rounded down.
inline std::int64_t pitches_away(const Plan& plan) {
  return plan.quality.distance.um() / std::max<std::int64_t>(plan.chart.lattice.pitch.um(), 1);
}

namespace detail {

/// Rounded to hundredths of CIEDE2000, for people; whole numbers, so the same everywhere.
inline std::int64_t hundredths_of(std::int64_t steps) {
  return (steps * 100 + difference_steps / 2) / difference_steps;
}

template <When = When::called>
std::string hundredths_text(std::int64_t steps) {
  const std::int64_t hundredths = hundredths_of(steps);
  const std::int64_t rest = hundredths % 100;
  return std::to_string(hundredths / 100) + "." + (rest < 10 ? "0" : "") + std::to_string(rest);
}

template <When = When::called>
std::string dither_name(DitherChoice dither) {
  return dither == DitherChoice::none ? "no dither" : value_text(dither, {});
}

/// "1.7 times the runs"
template <When = When::called>
std::string times_the_runs(const DitherLook& look, const DitherLook& than) {
  const std::int64_t tenths = (look.runs * 10 + than.runs / 2) / std::max<std::int64_t>(than.runs, 1);
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " times the runs";
}

template <When = When::called>
std::string seen_from(const Plan& plan) {
  return distance_text(plan.quality.distance, *plan.job.units) + ", " + grouped(pitches_away(plan)) +
         " times the pitch";
}

/// Takes the recommended dither where the maker gave none, and says why.
template <When = When::called>
void choose_dither(Plan& plan) {
  if (plan.job.dither) return;
  const std::vector<DitherLook>& looks = plan.quality.dithers;
  const DitherLook& best = recommended(looks);
  std::string sentence = "Seen from " + seen_from(plan) + ", the error is ";
  const DitherLook* least = &looks.front();
  for (std::size_t i = 0; i < looks.size(); ++i) {
    sentence += (i == 0                  ? ""
                 : i + 1 == looks.size() ? " and "
                                         : ", ") +
                hundredths_text(looks[i].seen.mean_steps) + " with " + dither_name(looks[i].dither);
    if (looks[i].seen.mean_steps < least->seen.mean_steps) least = &looks[i];
  }
  sentence += " (CIEDE2000, on average)";
  if (best.dither != DitherChoice::none) {
    sentence += ". It looks best, for " + times_the_runs(best, looks.front()) + " of no dither.";
  } else if (hundredths_of(least->seen.mean_steps) < hundredths_of(best.seen.mean_steps)) {
    sentence += ". What " + dither_name(least->dither) + " gains is not worth " + times_the_runs(*least, best) + ".";
  } else {
    const bool fewest =
        std::none_of(looks.begin(), looks.end(), [&](const DitherLook& l) { return l.runs < best.runs; });
    sentence += fewest ? ". Plain areas look best, and have the fewest runs to lay." : ". Plain areas look best.";
  }
  plan.job.dither = best.dither;
  plan.reasons.push_back({"dither", value_text(best.dither, {}), sentence});
  if (best.dither != DitherChoice::none && !plan.job.dither_strength) {
    plan.job.dither_strength = 1.0;
    plan.reasons.push_back({"dither-strength", value_text(1.0, {}), "The dither as published."});
  }
}

/// What is said of a dither that was asked for and looks worse than what is recommended; empty where it does not.
template <When = When::called>
std::string dither_warning(const Plan& plan) {
  if (plan.quality.dithers.empty()) return {};
  const DitherLook& chosen = plan.quality.dithers[static_cast<std::size_t>(*plan.job.dither)];
  const DitherLook& best = recommended(plan.quality.dithers);
  if (hundredths_of(chosen.seen.mean_steps) <= hundredths_of(best.seen.mean_steps)) return {};
  return "Asked for is " + dither_name(chosen.dither) + ", but seen from " + seen_from(plan) +
         ", it looks worse than " + dither_name(best.dither) + ": an error of " +
         hundredths_text(chosen.seen.mean_steps) + " against " + hundredths_text(best.seen.mean_steps) +
         " (CIEDE2000, on average), with " + times_the_runs(chosen, best) + ".";
}

}  // namespace detail

}  // namespace handlaid
