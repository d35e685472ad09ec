// What of a job cannot be used beside the rest, as far as the job alone shows it: options that contradict each other,
// or that would have no effect.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_fields.hpp"

namespace handlaid {

/// An option of a job that cannot be used beside the others, and why.
struct JobConflict {
  /// The option that should go or change.
  std::string word = {};
  std::string problem = {};
  std::string remedy = {};
};

namespace detail {

/// Whether the method of the job has a use for the word.
inline bool has_effect(const JobField& field, const Job& job) {
  return job.method == Method::strips ? field.with_strips : field.with_pieces;
}

/// The same for what belongs to a tool, a way of hanging or a lot.
template <When = When::called>
std::optional<JobConflict> find_tool_conflict(const Job& job) {
  BladeGang without_spacers = job.gang;
  without_spacers.spacers.clear();
  if (job.gang.spacers.empty() && without_spacers != BladeGang{}) {
    for (const JobField& field : job_fields()) {
      const std::string_view word = field.word;
      const bool of_gang = word == "blade-thickness" || word == "arbor-length" || word == "most-blades" ||
                           word == "newtons-a-blade" || word == "newtons-of-hand";
      if (!of_gang || field.write(job, {}) == field.write(Job{}, {})) continue;
      return JobConflict{field.word, "it has no effect without a spacer: the cuts are made with knife and guide",
                         "give the spacers of the gang too, or leave it out"};
    }
  }
  const bool wire = job.hanging.way == HangingWay::wire;
  if (!wire && job.hanging.wire_span != Length{}) {
    return JobConflict{"wire-span", "it has no effect without a wire", "give hanging = wire, or leave it out"};
  }
  if (!wire && job.hanging.wire_rise != Length{}) {
    return JobConflict{"wire-rise", "it has no effect without a wire", "give hanging = wire, or leave it out"};
  }
  if (wire && job.hanging.points != Hanging{}.points) {
    return JobConflict{"hanging-points", "it has no effect with a wire, which has one hook",
                       "leave it out, or hang the panel by hooks or a rail"};
  }
  for (const std::string& lot : job.lots) {
    std::string_view number = {};
    const std::string_view name = without_blanks(up_to(lot, ":", number));
    if (!name.empty() && !without_blanks(number).empty()) continue;
    return JobConflict{"lot", quoted_in_message(lot) + " is not a colour and its lot", "write it like rust: A 17/3"};
  }
  return std::nullopt;
}

}  // namespace detail

/// The first option that would have no effect, or that another one contradicts, as far as the job alone shows.
/// Options that are not given count with what stands for them (see `JobField::without`).
template <When = When::called>
std::optional<JobConflict> find_conflict(const Job& job) {
  const bool strips = job.method == Method::strips;
  const auto needed = [](const char* word, std::string problem, std::string remedy) {
    return JobConflict{word, std::move(problem), std::move(remedy)};
  };
  if (job.dither_strength && job.dither.value_or(DitherChoice::none) == DitherChoice::none) {
    return needed("dither-strength", "it has no effect without a dither", "give a dither too, or leave it out");
  }
  if (job.clear_tolerance && !job.clear_colour) {
    return needed("clear-tolerance", "it has no effect without a clear-colour", "give a clear-colour, or leave it out");
  }
  if (job.spares_confidence && job.spares == 0.0) {
    return needed("spares-confidence", "it has no effect without spares", "give a share of spares, or leave it out");
  }
  for (const JobField& field : job_fields()) {
    if (detail::has_effect(field, job) || field.write(job, {}) == field.write(Job{}, {})) continue;
    return needed(field.word, std::string("it has no effect with the method ") + (strips ? "strips" : "pieces"),
                  std::string("leave it out, or use the method ") + (strips ? "pieces" : "strips"));
  }
  if (auto conflict = detail::find_tool_conflict(job)) return conflict;
  if (job.course_pitch && job.pitch == job.course_pitch) {
    return needed("course-pitch", "it has no effect, being the same as the pitch", "leave it out");
  }
  if (job.fitter && job.stock) {
    return needed("fitter", "it has no effect with a stock, whose colours are chosen, not found", "leave it out");
  }
  if (job.shop && !job.stock) {
    return needed("shop", "it has no effect without a stock, as nothing is ordered",
                  "give its stock too, or leave it out");
  }
  const auto locked = static_cast<int>(job.locks.size() + job.exact_locks.size());
  if (job.colours && locked > *job.colours) {
    return needed(
        "lock",
        std::to_string(locked) + " colours are locked and only " + std::to_string(*job.colours) + " are asked for",
        "lock fewer, or ask for " + std::to_string(locked) + " colours");
  }
  std::vector<ColourLock> named;
  for (const auto* list : {&job.locks, &job.exact_locks, &job.forbidden}) {
    for (const ColourLock& lock : *list) {
      if (std::find(named.begin(), named.end(), lock) != named.end()) {
        return list == &job.forbidden
                   ? needed("forbid", value_text(lock, {}) + " is locked or forbidden already", "give a colour once")
                   : needed("lock", value_text(lock, {}) + " is locked twice", "lock a colour once");
      }
      named.push_back(lock);
    }
  }
  if (job.numbering == Numbering::clear && job.colours && locked + 1 >= *job.colours) {
    return needed("numbering", "it has no effect where all colours but one are locked, which keep their numbers",
                  "leave it out, or lock fewer");
  }
  if (job.fitter && job.colours == locked) {
    return needed("fitter", "it has no effect where every colour is locked", "leave it out, or ask for more colours");
  }
  return std::nullopt;
}

}  // namespace handlaid
