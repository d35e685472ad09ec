// What the whole panel weighs, and how many people lift it. `Weight{…}(parts)`
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/binomial.hpp"

namespace handlaid {

/// What is weighed, counted elsewhere; 0 where a job has none of it.
struct WeighedParts {
  Size board = {};
  Length board_thickness = {};
  /// Of frame timber.
  std::int64_t timber_mm3 = 0;
  /// Pieces as laid, without spares.
  std::int64_t pieces = 0;
  /// Of strips, where pieces are cut from them.
  std::int64_t strips_g = 0;
  /// Wet, of which a half to two thirds dries off: counted whole, to be on the safe side.
  std::int64_t paint_ml = 0;
  std::int64_t glue_g = 0;
};

/// One line of the list.
struct WeightLine {
  std::string what = {};
  std::int64_t mass_g = 0;
  friend bool operator==(const WeightLine&, const WeightLine&) = default;
};

/// The list, and what it means for hands.
struct WeightTakeoff {
  std::vector<WeightLine> lines = {};
  std::int64_t total_g = 0;
  /// Who carry it, none with more than `Weight::person_kg`.
  std::int64_t persons = 1;
  friend bool operator==(const WeightTakeoff&, const WeightTakeoff&) = default;
};

/// Densities and limits.
struct Weight {
  /// Plywood is about 600, MDF 750, softwood 500 kg a cubic metre: handbook figures, from memory; weigh an offcut.
  double board_kg_per_m3 = 600;
  double timber_kg_per_m3 = 500;
  /// Of one piece; 0: it is not weighed.
  double grams_per_piece = 0;
  /// Wet paint: common practice, no source.
  double paint_kg_per_litre = 1.3;
  /// The most for one person. 23 kg is the load constant for ideal conditions (NIOSH, Applications Manual for the
  /// Revised NIOSH Lifting Equation, 1994); 25 and 16 kg close to the waist are guideline figures of Britain's HSE for
  /// men and women. A wide panel is far from ideal, so 16.
  double person_kg = 16;
  friend bool operator==(const Weight&, const Weight&) = default;

  /// Throws Error for a density or limit out of range, or NaN.
  template <When = When::called>
  WeightTakeoff operator()(const WeighedParts& parts) const {
    const auto milli = [](double value, double low, double high, const char* name, const char* range) {
      if (!(value >= low && value <= high)) {
        throw Error::out_of_range(name, value != value ? "not a number" : "the value given", range);
      }
      return detail::billionths(value / 1e6, high / 1e6, name, range);  // thousandths
    };
    constexpr auto density = "1 to 30000 kg a cubic metre";
    const std::int64_t board = milli(board_kg_per_m3, 1, 30'000, "board-density", density);
    const std::int64_t timber = milli(timber_kg_per_m3, 1, 30'000, "timber-density", density);
    const std::int64_t piece = milli(grams_per_piece, 0, 100'000, "grams-per-piece", "0 to 100000 g");
    const std::int64_t paint = milli(paint_kg_per_litre, 0.1, 20, "paint-density", "0.1 to 20 kg a litre");
    const std::int64_t person = milli(person_kg, 1, 100, "person-limit", "1 to 100 kg");
    WeightTakeoff takeoff;
    const auto add = [&](const char* what, std::int64_t mass_g) {
      if (mass_g == 0) return;
      takeoff.lines.push_back({what, mass_g});
      takeoff.total_g += mass_g;
    };
    const auto whole_mm = [](Length length) { return (length.um() + 500) / 1'000; };
    // 1 kg a cubic metre is a gram in a million cubic millimetres; densities are in thousandths of it.
    const auto mass = [](std::int64_t mm3, std::int64_t density_milli) {
      return (mm3 / 1'000 * density_milli + 500'000) / 1'000'000;
    };
    const std::int64_t board_mm2 = whole_mm(parts.board.width) * whole_mm(parts.board.height);
    add("board", mass(board_mm2 * ((parts.board_thickness.um() + 50) / 100) / 10, board));
    add("frame", mass(parts.timber_mm3, timber));
    add("pieces", (parts.pieces * piece + 500) / 1'000);
    add("strips", parts.strips_g);
    add("paint", (parts.paint_ml * paint + 500) / 1'000);
    add("glue", parts.glue_g);
    takeoff.persons = std::max<std::int64_t>(1, (takeoff.total_g + person - 1) / person);
    return takeoff;
  }
};

}  // namespace handlaid
