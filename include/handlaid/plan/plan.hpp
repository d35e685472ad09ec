// A plan: all that was decided and counted, and why. Made by plan/make, drawn by sheets/.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/files/colour_change.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/plan/fabrication.hpp"
#include "handlaid/plan/quality.hpp"
#include "handlaid/takeoff/board_marks.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// Why a proposed option has its value: one sentence for the maker.
struct Reason {
  std::string word = {};
  std::string value = {};
  std::string sentence = {};
};

/// Everything the sheets show. Each quantity is counted once, here.
struct Plan {
  /// Complete: given again, it makes the same plan.
  Job job = {};
  /// For each option that the maker did not give.
  std::vector<Reason> reasons = {};
  /// What the maker should know: fewer colours than asked for, colours alike, and the like; one sentence each.
  std::vector<std::string> notes = {};
  Chart<> chart = {};
  /// Made in the chart by hand after it was planned.
  ColourChanges changes = {};
  Tally tally = {};
  PieceTakeoff pieces = {};
  /// Only where a stock was given and the method buys pieces in their colours.
  std::optional<Order> order = {};
  /// Only for the method of strips.
  std::optional<StripTakeoff> strips = {};
  BoardMarks marks = {};
  Fabrication fabrication = {};
  /// Mean and 95th percentile CIEDE2000 between cells and their colours; reported, never decided on.
  double mean_difference = 0;
  double high_difference = 0;
  /// The same and more as it is seen from where the panel hangs.
  PlanQuality quality = {};
  /// Single cells without a neighbour of their colour, above, below, left, right or across a corner.
  std::int64_t lone_cells = 0;
  /// Of the picture as it was read, upright.
  int picture_width = 0;
  int picture_height = 0;
  /// The part of it that became the chart.
  CropBox crop = {};
  /// The whole picture, at most 1000 pixels along, for choosing the crop.
  Raster<Srgb8> thumbnail = {};
};

}  // namespace handlaid
