// Pieces of each colour: counted from the chart, and with spares.
// `chart | Pieces{.per_cell = 2} | Spares{.loss = 0.03, .confidence = 0.99}`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/solve/binomial.hpp"

namespace handlaid {

/// The pieces of one colour.
struct PieceLine {
  /// Colour number, from 1.
  int number = 0;
  std::int64_t cells = 0;
  /// Pieces laid: cells times pieces a cell.
  std::int64_t pieces = 0;
  /// Pieces beyond those laid, for loss and misfits; 0 until `Spares` has set it.
  std::int64_t spares = 0;
  /// Pieces that are laid to try them and stay off the panel; 0 until `TrialPieces` (takeoff/pilot) has set it.
  std::int64_t trials = 0;

  constexpr std::int64_t needed() const { return pieces + spares + trials; }
  friend constexpr bool operator==(const PieceLine&, const PieceLine&) = default;
};

/// The pieces of a chart, a line for each colour of the palette, in the order of the numbers.
struct PieceTakeoff {
  Palette palette = {};
  std::vector<PieceLine> lines = {};
  int per_cell = 1;
  /// As given to `Spares`; 0 before. The confidence is of all colours together.
  double loss = 0;
  double confidence = 0;
  /// What it asks of each colour, in billionths; 0 before.
  std::int64_t colour_confidence_ppb = 0;

  std::int64_t pieces() const {
    return sum([](const PieceLine& line) { return line.pieces; });
  }
  std::int64_t spares() const {
    return sum([](const PieceLine& line) { return line.spares; });
  }
  std::int64_t trials() const {
    return sum([](const PieceLine& line) { return line.trials; });
  }
  std::int64_t needed() const { return pieces() + spares() + trials(); }
  friend bool operator==(const PieceTakeoff&, const PieceTakeoff&) = default;

 private:
  template <class F>
  std::int64_t sum(F value) const {
    std::int64_t total = 0;
    for (const PieceLine& line : lines) total += value(line);
    return total;
  }
};

/// Counts the pieces of a chart. `per_cell` is 1…1000; throws Error outside.
struct Pieces {
  using is_stage = void;
  int per_cell = 1;

  template <AnyChart C>
  PieceTakeoff operator()(const C& chart) const {
    return from_tally(tally(chart), chart.palette);
  }
  /// The same from a count made before: of a chart that was counted in parts, or counted for other ends too.
  /// Throws Error when the count has a colour that the palette has not.
  template <When = When::called>
  PieceTakeoff from_tally(const Tally& count, Palette palette) const {
    if (per_cell < 1 || per_cell > 1000) {
      throw Error::out_of_range("pieces-per-cell", std::to_string(per_cell), "1 to 1000 pieces a cell");
    }
    if (count.colours() > palette.size()) {
      throw Error::bad_input(
          "count of cells",
          "it has " + std::to_string(count.colours()) + " colours, the palette has " + std::to_string(palette.size()),
          "count a chart with its own palette");
    }
    PieceTakeoff takeoff{.palette = std::move(palette), .per_cell = per_cell};
    for (int number = 1; number <= takeoff.palette.size(); ++number) {
      const std::int64_t cells = number <= count.colours() ? count.cells[static_cast<std::size_t>(number)] : 0;
      takeoff.lines.push_back({.number = number, .cells = cells, .pieces = cells * per_cell});
    }
    return takeoff;
  }
};

/// Sets the spares of each colour: the fewest beyond the pieces laid so that enough remain when each piece is lost or
/// misfits with probability `loss` (see `fewest_to_start` for the ranges). `confidence` is that no colour at all runs
/// out: what may go wrong is shared out evenly over the colours that are laid, so that together they are at least as
/// sure as asked (Bonferroni's inequality). Colours without a cell need none.
/// Throws Error for values out of range, over 10 million pieces of a colour, or an `at_least` outside 0…1,000,000.
struct Spares {
  using is_stage = void;
  double loss = 0.03;
  /// Above 0 and at most 0.9999.
  double confidence = 0.99;
  /// Fewer are never set beside a colour that is laid: one trodden piece of a rare colour stops the work.
  std::int64_t at_least = 0;

  template <When = When::called>
  PieceTakeoff operator()(PieceTakeoff takeoff) const {
    constexpr std::int64_t billion = 1'000'000'000;
    fewest_to_start(0, loss, confidence);  // refuses them even where nothing is laid
    const std::int64_t sure = detail::confidence_billionths(confidence);
    if (sure > 999'900'000) throw Error::out_of_range("confidence", "the value given", "above 0 and at most 0.9999");
    if (at_least < 0 || at_least > 1'000'000) {
      throw Error::out_of_range("least spares", std::to_string(at_least), "0 to 1000000");
    }
    std::int64_t laid = 0;
    for (const PieceLine& line : takeoff.lines) laid += line.pieces > 0 ? 1 : 0;
    takeoff.loss = loss;
    takeoff.confidence = confidence;
    takeoff.colour_confidence_ppb = laid == 0 ? sure : billion - (billion - sure) / laid;
    const double each = static_cast<double>(takeoff.colour_confidence_ppb) / 1e9;
    for (PieceLine& line : takeoff.lines) {
      if (line.pieces == 0) continue;
      line.spares = std::max(fewest_to_start(line.pieces, loss, each) - line.pieces, at_least);
    }
    return takeoff;
  }
};

}  // namespace handlaid
