// The painting of a batch as a list to work from: sitting by sitting, colour by colour, from the lowest course up.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <tuple>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/takeoff/batches.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// One stretch to paint.
struct PaintStretch {
  /// From 1 in its batch; the same for each coat of each face.
  int sitting = 0;
  int number = 0;
  int course = 0;
  /// From 1 along the strip, gaps counted too.
  int section = 0;
  /// From the datum end.
  Length start = {};
  Length end = {};
  friend constexpr bool operator==(const PaintStretch&, const PaintStretch&) = default;
};

/// The stretches of a batch in the order of work, for at most `sittings` sittings; 0: one colour at a time.
/// Throws Error for a negative number of sittings, and for a batch of other strips.
template <When = When::called>
std::vector<PaintStretch> paint_order(const StripTakeoff& strips, const Batch& batch, int sittings) {
  if (sittings < 0) throw Error::out_of_range("sittings", std::to_string(sittings), "0 or more");
  for (const std::size_t strip : batch.strips) {
    if (strip >= strips.strips.size()) {
      throw Error::bad_input("batch", "it is of other strips", "make the batches of the same strips");
    }
  }
  std::vector<PaintStretch> order;
  if (batch.frontier.plans.empty()) return order;
  const RoundPlan& plan = batch.plan_within(sittings);
  for_each_link(strips, batch, [&](std::size_t strip, std::size_t at, std::size_t chain, std::size_t link) {
    const StripSection& section = strips.strips[strip].sections[at];
    if (chain >= plan.round_of.size() || link >= plan.round_of[chain].size()) {
      throw Error::bad_input("batch", "it is of other strips", "make the batches of the same strips");
    }
    order.push_back({.sitting = sittings == 0 ? 0 : plan.round_of[chain][link] + 1,
                     .number = section.number,
                     .course = strips.strips[strip].course,
                     .section = static_cast<int>(at) + 1,
                     .start = section.start,
                     .end = section.end});
  });
  const auto place = [](const PaintStretch& s) { return std::tuple(s.sitting, s.number, s.course, s.section); };
  std::sort(order.begin(), order.end(),
            [&](const PaintStretch& a, const PaintStretch& b) { return place(a) < place(b); });
  if (sittings == 0) {
    int sitting = 0;
    int number = 0;
    for (PaintStretch& stretch : order) {
      if (stretch.number != number) ++sitting;
      number = stretch.number;
      stretch.sitting = sitting;
    }
  }
  return order;
}

/// The courses of a batch: "1-12", or "1 4-6" where they are no neighbours.
template <When = When::called>
std::string courses_text(const StripTakeoff& strips, const Batch& batch) {
  std::vector<int> courses;
  for (const std::size_t strip : batch.strips) courses.push_back(strips.strips.at(strip).course);
  std::sort(courses.begin(), courses.end());
  std::string text;
  for (std::size_t i = 0; i < courses.size(); ++i) {
    std::size_t last = i;
    while (last + 1 < courses.size() && courses[last + 1] == courses[last] + 1) ++last;
    if (!text.empty()) text += ' ';
    text += std::to_string(courses[i]);
    if (last > i) text += '-' + std::to_string(courses[last]);
    i = last;
  }
  return text;
}

}  // namespace handlaid
