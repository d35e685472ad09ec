// Plans for the tests of the sheets, counted by the takeoff as a real one is.
#pragma once

#include <string>
#include <vector>

#include "handlaid/plan/plan.hpp"
#include "handlaid/takeoff/strip_spares.hpp"

namespace handlaid_test {

struct PlanOptions {
  int columns = 26;
  int rows = 35;
  int colours = 12;
  handlaid::Length pitch = 11 * handlaid::mm;
  handlaid::Method method = handlaid::Method::pieces;
  handlaid::LengthUnit units = handlaid::LengthUnit::millimetres;
  /// Added to the field on each axis.
  handlaid::Length margin = {};
  /// Rings with some grain instead of bands: runs about as many and as long as in a photograph.
  bool grainy_rings = false;
};

/// A made chart: diagonal bands in all colours of a palette that spans dark to light, and one empty cell in the top
/// right corner.
inline handlaid::Plan small_plan(const PlanOptions& options = {}) {
  using namespace handlaid;
  Plan plan;
  plan.chart.lattice = {.columns = options.columns, .rows = options.rows, .pitch = options.pitch};
  plan.chart.numbers = Raster<ColourNumber>(options.columns, options.rows);
  std::uint32_t grain = 1;
  for (int y = 0; y < options.rows; ++y) {
    for (int x = 0; x < options.columns; ++x) {
      grain = grain * 1'664'525U + 1'013'904'223U;
      const int ring = (x * x + y * y + static_cast<int>(grain >> 28) * 75) / 1'200;
      const int band = x / 3 + y / 2 + x * y / 17;
      plan.chart.numbers(x, y) = static_cast<ColourNumber>((options.grainy_rings ? ring : band) % options.colours + 1);
    }
  }
  plan.chart.numbers(options.columns - 1, 0) = 0;
  Stock stock{.currency = "EUR"};
  for (int n = 0; n < options.colours; ++n) {
    const auto code = static_cast<std::uint8_t>(n * 255 / std::max(1, options.colours - 1));
    const Srgb8 colour{code, static_cast<std::uint8_t>(255 - code), static_cast<std::uint8_t>(code / 2 + 60)};
    const std::string name = "colour " + std::to_string(n + 1);
    plan.chart.palette.entries.push_back({.colour = colour, .name = name});
    stock.colours.push_back({.name = name, .colour = colour, .packs = {{250, 1190}, {40, 250}}, .in_hand = n});
  }
  plan.tally = plan.chart | tally;
  plan.pieces = plan.chart | Pieces{.per_cell = 2};
  plan.marks = plan.chart | BoardMarking{.board = {plan.chart.lattice.extent().width + options.margin,
                                                   plan.chart.lattice.extent().height + options.margin}};
  const Patch pilot = plan.chart | PilotPatch{.columns = 2, .courses = 1};
  if (options.method == Method::strips) {
    plan.strips = plan.chart | Strips{.fold = Fold::lengthwise} | TrialStrips{pilot} | StripSpares{.loss = 0.02};
  } else {
    plan.pieces = std::move(plan.pieces) | Spares{.loss = 0.02, .confidence = 0.99} | TrialPieces{pilot};
    plan.order = plan.pieces | choose_packs(stock);
  }
  plan.job.title = "Heron";
  plan.job.units = options.units;
  plan.job.method = options.method;
  plan.job.pieces_per_cell = 2;
  plan.fabrication =
      fabricate(plan.job, {plan.chart, plan.tally, plan.pieces, plan.order, plan.strips, plan.marks, pilot});
  plan.reasons = {{"colours", std::to_string(options.colours), "As many as the stock has."}};
  plan.notes = {"Colours 1 and 2 are close to each other."};
  plan.mean_difference = 4.31279;
  plan.high_difference = 9.5;
  plan.lone_cells = 7;
  plan.job.dither = DitherChoice::none;
  plan.quality = {.distance = 2'500 * mm,
                  .squared = {.oklab = 0.0006, .srgb = 310},
                  .seen = {.mean_steps = 163'840, .high_steps = 600'000},
                  .similarity = 0.9,
                  .worst = {{options.rows, std::min(2, options.columns), 2'064'384}},
                  .worst_seen = {{1, 1, 1'000'000}},
                  .dithers = {{DitherChoice::none, 100, {163'840, 600'000}},
                              {DitherChoice::diffuse_floyd_steinberg, 190, {200'000, 700'000}}},
                  .stability = Stability{.one_colour_fewer = 0.5, .halved = 0.7}};
  plan.picture_width = 400;
  plan.picture_height = 300;
  plan.crop = {10, 20, 310, 280};
  plan.thumbnail = Raster<Srgb8>(200, 150);
  return plan;
}

}  // namespace handlaid_test
