// Consumables: what is used up beside the material itself, from glue to wall fixings, so that the order sheet is whole.
// `Consumables{…}(needs)`
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// What the work asks for, counted elsewhere; 0 where a job has none of it.
struct ConsumableNeeds {
  /// All that gets glue: under pieces, under strips, between the halves of folded ones.
  std::int64_t glued_mm2 = 0;
  /// One face of the board.
  std::int64_t board_mm2 = 0;
  /// Sides of the timbers under it, which are sealed with it.
  std::int64_t frame_sides_mm2 = 0;
  std::int64_t primer_ml = 0;
  /// Edges to mask, all sittings together, and the length of one.
  std::int64_t masking_edges = 0;
  Length masking_edge = {};
  /// Along strips that are held down by tape while they are cut.
  Length held_edge = {};
  /// Colours open at once, at most.
  std::int64_t colours_at_once = 0;
  /// All cuts together.
  Length cut = {};
  /// Blades that work at once.
  std::int64_t blades_at_once = 1;
  std::int64_t hanging_points = 0;
  std::int64_t screws = 0;
  /// Screws that keep the panel on its wall rail.
  std::int64_t keepers = 0;
  /// On the panel itself, for a wire or hooks, which hold it off the wall: pads at its lower corners do the same.
  std::int64_t eyes = 0;
  std::int64_t pads = 0;
  /// With what the knots take.
  Length wire = {};
};

/// What is used up.
enum class ConsumableGood {
  sealer,
  primer,
  glue,
  masking_tape,
  brushes,
  blades,
  screws,
  wood_glue,
  filler,
  keepers,
  eyes,
  pads,
  wire,
  wall_fixings
};

/// What it is called in a list.
constexpr const char* name_of(ConsumableGood good) {
  constexpr const char* names[] = {"sealer for the board",
                                   "primer",
                                   "glue",
                                   "masking tape",
                                   "brushes",
                                   "blades",
                                   "screws",
                                   "wood glue",
                                   "filler",
                                   "screws that keep the panel on its rail",
                                   "eyes on the panel",
                                   "pads for the lower corners",
                                   "wire",
                                   "wall fixings"};
  return names[static_cast<int>(good)];
}

/// One line of the order sheet.
struct ConsumableLine {
  ConsumableGood good = ConsumableGood::glue;
  std::int64_t amount = 0;
  std::string unit = {};
  /// Needed for the pilot already; the same tin or box then serves the panel.
  bool for_pilot = false;
  /// How the amount comes about, for the maker to judge.
  std::string basis = {};
  friend bool operator==(const ConsumableLine&, const ConsumableLine&) = default;
};

/// The rates; common practice, no source: what the product's sheet says comes first.
struct Consumables {
  /// Glue, 0…5,000 g a square metre that is glued.
  double glue_g_per_m2 = 250;
  /// Sealer for both faces of the board, 0…5,000 ml a square metre of face.
  double sealer_ml_per_m2 = 120;
  /// Masking tape beyond the edge itself, 0…10 times its length.
  double tape_waste = 0.25;
  /// A blade is fresh for so long, 0.1…10,000 m.
  double metres_per_blade = 20;
  friend constexpr bool operator==(const Consumables&, const Consumables&) = default;

  /// Only lines with an amount. Throws Error for a rate out of range, or NaN.
  template <When = When::called>
  std::vector<ConsumableLine> operator()(const ConsumableNeeds& needs) const;
};

namespace detail {

/// A decimal rate in thousandths, checked.
template <When = When::called>
std::int64_t rate_thousandths(double value, double low, double high, const char* name, const char* range) {
  if (!(value >= low && value <= high)) {
    throw Error::out_of_range(name, value != value ? "not a number" : "the value given", range);
  }
  // Sixteen steps a part and whole-number rounding: adding a half to a product could be fused with it.
  return (static_cast<std::int64_t>(value * 16'000.0) + 8) / 16;
}

constexpr std::int64_t rounded_up(std::int64_t amount, std::int64_t step) { return (amount + step - 1) / step; }

}  // namespace detail

template <When>
std::vector<ConsumableLine> Consumables::operator()(const ConsumableNeeds& needs) const {
  const std::int64_t glue = detail::rate_thousandths(glue_g_per_m2, 0, 5'000, "glue", "0 to 5000 g a square metre");
  const std::int64_t sealer =
      detail::rate_thousandths(sealer_ml_per_m2, 0, 5'000, "sealer", "0 to 5000 ml a square metre");
  const std::int64_t waste = detail::rate_thousandths(tape_waste, 0, 10, "tape waste", "0 to 10 times the edge");
  const std::int64_t blade = detail::rate_thousandths(metres_per_blade, 0.1, 10'000, "blade", "0.1 to 10000 m");
  std::vector<ConsumableLine> lines;
  const auto add = [&](ConsumableGood good, std::int64_t amount, const char* unit, bool for_pilot, std::string basis) {
    if (amount > 0) lines.push_back({good, amount, unit, for_pilot, std::move(basis)});
  };
  using Good = ConsumableGood;
  constexpr std::int64_t m2 = 1'000'000;  // square millimetres
  // Both faces of the board are sealed alike, or it bends. A tenth more: common practice, no source.
  const auto tenth_more = [](std::int64_t amount) { return amount + detail::rounded_up(amount, 10); };
  add(Good::sealer, tenth_more(detail::rounded_up((2 * needs.board_mm2 + needs.frame_sides_mm2) / 1'000 * sealer, m2)),
      "ml", true, "one coat all round, a tenth more for edges and offcut");
  add(Good::primer, needs.primer_ml, "ml", true, "from the painted area, spare strips too");
  add(Good::glue, tenth_more(detail::rounded_up(needs.glued_mm2 / 1'000 * glue, m2)), "g", true,
      "from the area that is glued, a tenth more for the pilot");
  const std::int64_t tape_um = needs.masking_edges * needs.masking_edge.um();
  const std::int64_t held_m = detail::rounded_up(needs.held_edge.um(), 1'000'000);
  add(Good::masking_tape, detail::rounded_up(tape_um / 1'000 * (1'000 + waste), 1'000'000) + held_m, "m", true,
      "one length an edge, with what is torn off" +
          (held_m > 0 ? "; " + std::to_string(held_m) + " m of it hold strips while they are cut" : std::string{}));
  add(Good::brushes, needs.colours_at_once > 0 ? needs.colours_at_once + 1 : 0, "pieces", true,
      "one for each pot that is open in a sitting, one for primer");
  add(Good::blades, needs.cut.um() > 0 ? needs.blades_at_once + detail::rounded_up(needs.cut.um(), blade * 1'000) : 0,
      "pieces", true, "a fresh one when it begins to drag");
  add(Good::screws, needs.screws + detail::rounded_up(needs.screws, 10), "pieces", false, "one in ten over");
  if (needs.screws > 0) {
    add(Good::wood_glue, 1, "small bottle", false, "for the corners of the frame and under the board");
    add(Good::filler, 1, "small tub", false, "over the heads of the screws");
  }
  add(Good::keepers, needs.keepers, "pieces", false, "down through the top rail into the wall rail");
  add(Good::eyes, needs.eyes, "pieces", false, "with their screws, on the back");
  add(Good::pads, needs.pads, "pieces", false, "so that the panel hangs upright");
  add(Good::wire, detail::rounded_up(needs.wire.um(), 1'000'000), "m", false, "between the eyes, and the knots");
  add(Good::wall_fixings, needs.hanging_points, "pieces", false, "for the load that the board page gives");
  return lines;
}

}  // namespace handlaid
