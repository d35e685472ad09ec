// Batches of strips, and the sittings in which each is painted: sections that touch are never wet together.
// `strips | Batches{.strips_per_batch = 12}`
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/chain_rounds.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// Which strips lie on the bench together.
enum class BatchOrder {
  contiguous,  ///< neighbouring courses, from the bottom: mounting can follow
  by_colours   ///< strips that share colours: fewer pots are opened
};

/// Strips that are painted together.
struct Batch {
  /// Places in `StripTakeoff::strips`.
  std::vector<std::size_t> strips = {};
  /// Sections that get paint, and marks where two of them touch.
  std::int64_t sections = 0;
  std::int64_t edges = 0;
  /// From two sittings, or one where nothing touches, to as many as it takes to open each pot once.
  /// Chains are the stretches of its strips without a gap, in order, kinds are colour numbers.
  RoundFrontier frontier = {};
  friend bool operator==(const Batch&, const Batch&) = default;

  /// The plan with at most so many sittings that opens the fewest pots.
  const RoundPlan& plan_within(int sittings) const {
    const RoundPlan* best = &frontier.plans.front();
    for (const RoundPlan& plan : frontier.plans) {
      if (plan.rounds <= sittings) best = &plan;
    }
    return *best;
  }
};

/// All batches.
struct BatchTakeoff {
  std::vector<Batch> batches = {};
  int strips_per_batch = 0;
  BatchOrder order = BatchOrder::contiguous;

  /// The most sittings that any batch takes to open each pot once.
  int most_sittings() const {
    int most = 0;
    for (const Batch& batch : batches) most = std::max(most, batch.frontier.rounds_for_once);
    return most;
  }
  friend bool operator==(const BatchTakeoff&, const BatchTakeoff&) = default;
};

/// Makes batches of strips.
struct Batches {
  using is_stage = void;
  /// 1…10,000. What lies side by side on a bench: common practice, no source.
  int strips_per_batch = 12;
  BatchOrder order = BatchOrder::contiguous;
  friend constexpr bool operator==(const Batches&, const Batches&) = default;

  /// Throws Error for a batch of nothing, or too large a one.
  template <When = When::called>
  BatchTakeoff operator()(const StripTakeoff& strips) const;
};

/// Calls `visit(strip, section, chain, link)` for every section of a batch that gets paint: places in the takeoff's
/// strips and in that strip's sections, then in the plans of the frontier.
template <class Visit>
void for_each_link(const StripTakeoff& strips, const Batch& batch, Visit&& visit) {
  std::size_t chain = 0;
  for (const std::size_t strip : batch.strips) {
    const auto& sections = strips.strips[strip].sections;
    std::size_t link = 0;
    for (std::size_t i = 0; i < sections.size(); ++i) {
      if (sections[i].number == 0) {
        if (link > 0) ++chain;
        link = 0;
      } else {
        visit(strip, i, chain, link++);
      }
    }
    if (link > 0) ++chain;
  }
}

namespace detail {

/// Strips with few new colours beside those that lie there, the lowest first of equals.
template <When = When::called>
std::vector<std::size_t> by_shared_colours(const StripTakeoff& strips, int per_batch) {
  std::vector<std::vector<bool>> has;
  std::size_t numbers = 0;
  for (const Strip& strip : strips.strips) {
    for (const StripSection& section : strip.sections) numbers = std::max(numbers, std::size_t{section.number} + 1);
  }
  for (const Strip& strip : strips.strips) {
    has.emplace_back(numbers, false);
    for (const StripSection& section : strip.sections) has.back()[section.number] = section.number != 0;
  }
  std::vector<std::size_t> order;
  std::vector<bool> taken(has.size(), false);
  std::vector<bool> open(numbers, false);
  while (order.size() < has.size()) {
    if (order.size() % static_cast<std::size_t>(per_batch) == 0) open.assign(numbers, false);
    std::size_t best = has.size();
    int fewest = 0;
    for (std::size_t strip = 0; strip < has.size(); ++strip) {
      if (taken[strip]) continue;
      int fresh = 0;
      for (std::size_t n = 0; n < numbers; ++n) fresh += has[strip][n] && !open[n] ? 1 : 0;
      if (best == has.size() || fresh < fewest) {
        best = strip;
        fewest = fresh;
      }
    }
    taken[best] = true;
    order.push_back(best);
    for (std::size_t n = 0; n < numbers; ++n) open[n] = open[n] || has[best][n];
  }
  return order;
}

}  // namespace detail

template <When>
BatchTakeoff Batches::operator()(const StripTakeoff& strips) const {
  if (strips_per_batch < 1 || strips_per_batch > 10'000) {
    throw Error::out_of_range("strips-per-batch", std::to_string(strips_per_batch), "1 to 10000 strips");
  }
  BatchTakeoff takeoff{.strips_per_batch = strips_per_batch, .order = order};
  std::vector<std::size_t> places;
  if (order == BatchOrder::by_colours) {
    places = detail::by_shared_colours(strips, strips_per_batch);
  } else {
    for (std::size_t i = 0; i < strips.strips.size(); ++i) places.push_back(i);
  }
  const auto size = static_cast<std::size_t>(strips_per_batch);
  for (std::size_t first = 0; first < places.size(); first += size) {
    Batch batch;
    const auto begin = places.begin() + static_cast<std::ptrdiff_t>(first);
    batch.strips.assign(begin, begin + static_cast<std::ptrdiff_t>(std::min(size, places.size() - first)));
    std::vector<Chain> chains;
    for_each_link(strips, batch, [&](std::size_t strip, std::size_t section, std::size_t chain, std::size_t link) {
      if (chain == chains.size()) chains.emplace_back();
      chains.back().push_back(int{strips.strips[strip].sections[section].number});
      ++batch.sections;
      batch.edges += link > 0 ? 1 : 0;
    });
    // Long strips get fewer steps, so that a wide panel takes no longer than a narrow one.
    batch.frontier =
        round_frontier(chains, {.steps = std::clamp<std::int64_t>(2'000'000 / (batch.sections + 1), 50, 5'000)});
    takeoff.batches.push_back(std::move(batch));
  }
  return takeoff;
}

}  // namespace handlaid
