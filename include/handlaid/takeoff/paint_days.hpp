// How many days the painting takes: few waits against few opened pots, played through with the bench, the drying time
// and the hours of a day. `PaintDays{.drying_minutes = 60}(batches, paint)`
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/binomial.hpp"
#include "handlaid/takeoff/batches.hpp"
#include "handlaid/takeoff/painting.hpp"

namespace handlaid {

/// One way to paint, and what it costs, primer, coats and faces included.
struct PaintWay {
  /// Sittings of a batch for one coat of one face, at most; 0: one colour at a time.
  int sittings = 0;
  /// Of all batches. Each ends in a wait for drying.
  std::int64_t waits = 0;
  /// Pots opened, stirred, closed, brushes cleaned.
  std::int64_t openings = 0;
  /// With these batches and so many sittings no plan opens fewer.
  std::int64_t least_openings = 0;
  /// Masking edges.
  std::int64_t edges = 0;
  /// At the bench.
  std::int64_t work_s = 0;
  /// From the first stroke to the last.
  std::int64_t days = 0;
  friend constexpr bool operator==(const PaintWay&, const PaintWay&) = default;
};

/// All ways that are worth a look: fewest sittings first, one colour at a time last.
struct PaintSchedule {
  std::vector<PaintWay> ways = {};
  /// The way with the fewest days, the fewest openings of equals, then the fewest waits.
  std::size_t recommended = 0;
  friend bool operator==(const PaintSchedule&, const PaintSchedule&) = default;
};

/// How the painting goes. Minutes are common practice, no source: time your own pilot.
struct PaintDays {
  /// Strips that the bench and the racks hold, painted or drying.
  int bench_strips = 24;
  /// Until a section can be touched and masked: the tin decides.
  double drying_minutes = 60;
  /// 0.1…24.
  double hours_a_day = 3;
  double minutes_per_section = 0.5;
  /// To open, stir and close a pot and clean the brush.
  double minutes_per_opening = 5;
  double minutes_per_edge = 0.25;
  /// Sittings for a batch, at most; 0: what is recommended.
  int sittings = 0;
  friend constexpr bool operator==(const PaintDays&, const PaintDays&) = default;

  /// Throws Error for numbers out of range, NaN, or a bench smaller than a batch.
  template <When = When::called>
  PaintSchedule operator()(const BatchTakeoff& batches, const PaintTakeoff& paint) const;
};

namespace detail {

/// The rates in whole seconds, for a hundred of the small ones.
struct PaintPace {
  std::int64_t drying_s = 0;
  std::int64_t day_s = 0;
  std::int64_t section_cs = 0;
  std::int64_t opening_cs = 0;
  std::int64_t edge_cs = 0;
  std::size_t at_once = 1;
};

template <When = When::called>
PaintPace paint_pace(const PaintDays& options, int strips_per_batch) {
  const auto milli = [](double value, double low, double high, const char* name, const char* range) {
    return paint_rate(value, low, high, name, range);
  };
  PaintPace pace;
  pace.drying_s = milli(options.drying_minutes, 0, 100'000, "drying-minutes", "0 to 100000 minutes") * 60 / 1'000;
  pace.day_s = milli(options.hours_a_day, 0.1, 24, "hours-a-day", "0.1 to 24 hours") * 3'600 / 1'000;
  constexpr auto minutes = "0 to 1000 minutes";
  pace.section_cs = milli(options.minutes_per_section, 0, 1'000, "minutes-per-section", minutes) * 6;
  pace.opening_cs = milli(options.minutes_per_opening, 0, 1'000, "minutes-per-opening", minutes) * 6;
  pace.edge_cs = milli(options.minutes_per_edge, 0, 1'000, "minutes-per-edge", minutes) * 6;
  if (options.bench_strips < strips_per_batch) {
    throw Error::bad_option(
        "bench-strips",
        "the bench holds " + std::to_string(options.bench_strips) + " strips, a batch has " +
            std::to_string(strips_per_batch),
        "make batches of " + std::to_string(std::max(options.bench_strips, 1)) + " or fewer, or room for more");
  }
  if (options.sittings < 0 || options.sittings > most_kinds) {
    throw Error::out_of_range("sittings", std::to_string(options.sittings), "0 to 1000");
  }
  pace.at_once = static_cast<std::size_t>(options.bench_strips / strips_per_batch);
  return pace;
}

/// The sittings of each batch, one after the other, as seconds of work.
using BatchWork = std::vector<std::int64_t>;

/// Plays the work through: always the batch that is dry first, a new one as soon as there is room. A sitting that the
/// evening breaks off goes on the next day.
template <When = When::called>
std::int64_t days_of(const std::vector<BatchWork>& work, const PaintPace& pace) {
  constexpr std::int64_t day = 86'400;
  struct OnBench {
    std::size_t batch = 0;
    std::size_t next = 0;
    std::int64_t dry_at = 0;
  };
  std::vector<OnBench> bench;
  std::size_t waiting = 0;
  std::int64_t now = 0;  // from the start of the first day, nights included
  std::int64_t last_end = 0;
  const auto put_on = [&] {
    while (waiting < work.size() && bench.size() < pace.at_once) {
      if (!work[waiting].empty()) bench.push_back({waiting, 0, now});
      ++waiting;
    }
  };
  put_on();
  while (!bench.empty()) {
    const auto first = std::min_element(bench.begin(), bench.end(),
                                        [](const OnBench& a, const OnBench& b) { return a.dry_at < b.dry_at; });
    now = std::max(now, first->dry_at);
    const std::vector<std::int64_t>& sittings = work[first->batch];
    if (first->next == sittings.size()) {  // dry for good: room for another
      bench.erase(first);
      put_on();
      continue;
    }
    std::int64_t left = sittings[first->next++];
    if (now % day >= pace.day_s) now = (now / day + 1) * day;
    while (left > pace.day_s - now % day) {
      left -= pace.day_s - now % day;
      now = (now / day + 1) * day;
    }
    now += left;
    last_end = now;
    first->dry_at = now + pace.drying_s;
  }
  return last_end == 0 ? 0 : (last_end - 1) / day + 1;
}

/// One way for all batches.
template <When = When::called>
PaintWay paint_way(const BatchTakeoff& takeoff, const PaintTakeoff& paint, const PaintPace& pace, int sittings) {
  PaintWay way{.sittings = sittings};
  std::vector<BatchWork> work;
  std::int64_t work_cs = 0;
  for (const Batch& batch : takeoff.batches) {
    work.emplace_back();
    if (batch.frontier.plans.empty()) continue;
    const RoundPlan& plan = batch.plan_within(sittings);
    const std::int64_t rounds = sittings == 0 ? batch.frontier.kinds : plan.rounds;
    const std::int64_t openings = sittings == 0 ? batch.frontier.kinds : plan.take_ups;
    const auto sit = [&](std::int64_t sections, std::int64_t opened, std::int64_t edges, std::int64_t parts) {
      const std::int64_t all = sections * pace.section_cs + opened * pace.opening_cs + edges * pace.edge_cs;
      work_cs += all;
      way.waits += parts;
      way.openings += opened;
      way.edges += edges;
      // Parts of about the same work: a plan deals its sections out evenly enough for days.
      for (std::int64_t part = 0; part < parts; ++part) {
        work.back().push_back(all * (part + 1) / parts / 100 - all * part / parts / 100);
      }
    };
    for (int face = 0; face < paint.faces; ++face) {
      for (int coat = 0; coat < paint.primer_coats; ++coat) {
        sit(static_cast<std::int64_t>(batch.strips.size()), 1, 0, 1);  // whole strips at a stroke
      }
      for (int coat = 0; coat < paint.coats; ++coat) sit(batch.sections, openings, batch.edges, rounds);
    }
    const std::int64_t least = sittings == 0 ? batch.frontier.kinds : plan.least_take_ups;
    way.least_openings += paint.faces * (paint.coats * least + paint.primer_coats);
  }
  way.work_s = work_cs / 100;
  way.days = days_of(work, pace);
  return way;
}

}  // namespace detail

template <When>
PaintSchedule PaintDays::operator()(const BatchTakeoff& batches, const PaintTakeoff& paint) const {
  const detail::PaintPace pace = detail::paint_pace(*this, std::max(batches.strips_per_batch, 1));
  PaintSchedule schedule;
  for (int most = std::min(2, batches.most_sittings()); most <= batches.most_sittings() && most > 0; ++most) {
    PaintWay way = detail::paint_way(batches, paint, pace, most);
    // As many sittings as before open fewer pots, or the way is no new one.
    if (!schedule.ways.empty() && schedule.ways.back().openings == way.openings) continue;
    schedule.ways.push_back(way);
  }
  schedule.ways.push_back(detail::paint_way(batches, paint, pace, 0));
  const auto better = [](const PaintWay& a, const PaintWay& b) {
    if (a.days != b.days) return a.days < b.days;
    if (a.openings != b.openings) return a.openings < b.openings;
    return a.waits < b.waits;
  };
  const auto best = std::min_element(schedule.ways.begin(), schedule.ways.end(), better);
  schedule.recommended = static_cast<std::size_t>(best - schedule.ways.begin());
  const int fewest = schedule.ways.front().sittings;
  if (sittings > 0 && sittings < fewest) {
    throw Error::bad_option(
        "sittings",
        std::to_string(sittings) + " for each coat, and sections that touch take at least " + std::to_string(fewest),
        "give " + std::to_string(fewest) + " or more, or 0 for the recommended number");
  }
  if (sittings > 0) {  // the maker has chosen: the last way with no more
    for (std::size_t i = 0; i < schedule.ways.size(); ++i) {
      if (schedule.ways[i].sittings > 0 && schedule.ways[i].sittings <= sittings) schedule.recommended = i;
    }
  }
  return schedule;
}

}  // namespace handlaid
