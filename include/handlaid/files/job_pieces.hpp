// What a job asks for of a chart before anything is bought: the patch that is made first, and the pieces of each
// colour.
#pragma once

#include <algorithm>
#include <utility>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/pilot.hpp"

namespace handlaid {

/// The patch that is made first. Of a small chart a quarter is enough, or the trial would be as large as the panel.
template <When = When::called>
Patch pilot_of(const Job& job, const Chart<>& chart) {
  PilotPatch pilot = job.pilot;
  pilot.columns = std::min(pilot.columns, (chart.columns() + 1) / 2);
  pilot.courses = std::min(pilot.courses, (chart.courses() + 1) / 2);
  return pilot(chart);
}

/// The pieces of a chart: counted, and where they are bought in their colours with spares and those of the pilot.
template <When = When::called>
PieceTakeoff pieces_of(const Job& job, const Chart<>& chart, const Tally& count, const Patch& pilot) {
  PieceTakeoff pieces = Pieces{.per_cell = job.pieces_per_cell.value_or(1)}.from_tally(count, chart.palette);
  if (job.method == Method::strips) return pieces;
  if (job.spares.value_or(0) > 0) {
    const Spares spares{
        .loss = *job.spares, .confidence = job.spares_confidence.value_or(0.99), .at_least = job.least_spares};
    pieces = spares(std::move(pieces));
  }
  return TrialPieces{pilot}(std::move(pieces));
}

}  // namespace handlaid
