// Spare strips: how many more than the courses need, so that enough are left when some tear, crack or are painted
// wrong. `chart | Strips{…} | StripSpares{.loss = 0.03, .confidence = 0.99}`
#pragma once

#include <cstdint>

#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/binomial.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// Sets the spare strips: the fewest beyond those of the courses so that enough remain when each is lost with
/// probability `loss` (see `fewest_to_start` for the ranges and errors).
struct StripSpares {
  using is_stage = void;
  double loss = 0.03;
  double confidence = 0.99;

  template <When = When::called>
  StripTakeoff operator()(StripTakeoff takeoff) const {
    const auto needed = static_cast<std::int64_t>(takeoff.strips.size());
    takeoff.spares = fewest_to_start(needed, loss, confidence) - needed;
    return takeoff;
  }
};

}  // namespace handlaid
