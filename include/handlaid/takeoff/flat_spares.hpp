// What a flat percentage of spares would buy, and what it risks: shown beside the spares that are computed.
// `takeoff | FlatSpares{.share = 0.1}`
#pragma once

#include <cstdint>
#include <vector>

#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/takeoff/pieces.hpp"

namespace handlaid {

/// One colour under a flat percentage.
struct FlatSpareLine {
  int number = 0;
  std::int64_t spares = 0;
  /// The chance that the colour runs out, in millionths.
  std::int64_t runs_out_ppm = 0;
  friend constexpr bool operator==(const FlatSpareLine&, const FlatSpareLine&) = default;
};

/// A flat percentage for every colour that is laid.
struct FlatSpareRisk {
  double share = 0;
  std::vector<FlatSpareLine> lines = {};
  std::int64_t spares = 0;
  /// The chance that at least one colour runs out, in millionths.
  std::int64_t any_runs_out_ppm = 0;
  friend bool operator==(const FlatSpareRisk&, const FlatSpareRisk&) = default;
};

/// Reckons the risk with the loss that the takeoff's own spares were set with.
struct FlatSpares {
  using is_stage = void;
  /// 0…1; parts of a piece are rounded up.
  double share = 0.1;

  /// Throws Error for a share out of range, or NaN.
  template <When = When::called>
  FlatSpareRisk operator()(const PieceTakeoff& takeoff) const {
    constexpr std::int64_t billion = 1'000'000'000;
    const std::int64_t parts = detail::billionths(share, 1.0, "flat share of spares", "a share from 0 to 1");
    FlatSpareRisk risk{.share = share};
    std::int64_t all_last = billion;
    for (const PieceLine& line : takeoff.lines) {
      if (line.pieces == 0) continue;
      // The whole part and the rest apart: a product of both could overflow.
      const std::int64_t spares =
          line.pieces / billion * parts + (line.pieces % billion * parts + billion - 1) / billion;
      const std::int64_t lasts = chance_of_at_most(spares, line.pieces + spares, takeoff.loss);
      risk.lines.push_back({.number = line.number, .spares = spares, .runs_out_ppm = (billion - lasts + 500) / 1'000});
      risk.spares += spares;
      all_last = (all_last * lasts + billion / 2) / billion;
    }
    risk.any_runs_out_ppm = (billion - all_last + 500) / 1'000;
    return risk;
  }
};

}  // namespace handlaid
