// Pieces of each colour: counted from the chart, and with spares.
// `chart | Pieces{.per_cell = 2} | Spares{.loss = 0.03, .confidence = 0.99}`
#pragma once

#include <cstdint>
#include <vector>

#include "handlaid/grid/runs.hpp"
#include "handlaid/palette/palette.hpp"

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

  constexpr std::int64_t needed() const { return pieces + spares; }
  friend constexpr bool operator==(const PieceLine&, const PieceLine&) = default;
};

/// The pieces of a chart, a line for each colour of the palette, in the order of the numbers.
struct PieceTakeoff {
  Palette palette = {};
  std::vector<PieceLine> lines = {};
  int per_cell = 1;
  /// As given to `Spares`; 0 before.
  double loss = 0;
  double confidence = 0;

  std::int64_t pieces() const { return sum([](const PieceLine& line) { return line.pieces; }); }
  std::int64_t spares() const { return sum([](const PieceLine& line) { return line.spares; }); }
  std::int64_t needed() const { return pieces() + spares(); }
  friend bool operator==(const PieceTakeoff&, const PieceTakeoff&) = default;

 private:
  template <class F>
  std::int64_t sum(F value) const {
    std::int64_t total = 0;
    for (const PieceLine& line : lines) total += value(line);
    return total;
  }
};

}  // namespace handlaid
