#include "handlaid/takeoff/consumables.hpp"

#include <limits>
#include <set>
#include <string>

#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {
std::int64_t amount(const std::vector<ConsumableLine>& lines, ConsumableGood good) {
  for (const ConsumableLine& line : lines) {
    if (line.good == good) return line.amount;
  }
  return 0;
}
}  // namespace

TEST_CASE("consumables follow from what was counted") {  // rates: common practice, no source
  const ConsumableNeeds needs{.glued_mm2 = 939'375,      // 750 x 1252.5 mm
                              .board_mm2 = 1'000'000,
                              .primer_ml = 340,
                              .masking_edges = 900,
                              .masking_edge = 30 * mm,
                              .colours_at_once = 7,
                              .cut = 501 * 1'000 * mm,
                              .blades_at_once = 6,
                              .hanging_points = 2,
                              .screws = 44};
  const auto lines = Consumables{}(needs);
  CHECK(amount(lines, ConsumableGood::glue) == 259);    // 0.939 m2 at 250 g
  CHECK(amount(lines, ConsumableGood::sealer) == 264);  // two faces of 1 m2 at 120 ml, a tenth more
  CHECK(amount(lines, ConsumableGood::primer) == 340);
  CHECK(amount(lines, ConsumableGood::masking_tape) == 34);  // 27 m and a quarter
  CHECK(amount(lines, ConsumableGood::brushes) == 8);
  CHECK(amount(lines, ConsumableGood::blades) == 6 + 26);  // 501 m at 20 m a blade
  CHECK(amount(lines, ConsumableGood::screws) == 49);
  CHECK(amount(lines, ConsumableGood::wall_fixings) == 2);
  CHECK(amount(lines, ConsumableGood::wood_glue) == 1);
  CHECK(amount(lines, ConsumableGood::filler) == 1);
  CHECK(amount(lines, ConsumableGood::wire) == 0);
  const auto hung = Consumables{}({.hanging_points = 1, .keepers = 2, .eyes = 2, .pads = 2, .wire = 895.8 * mm});
  CHECK(amount(hung, ConsumableGood::wire) == 1);  // whole metres, as it is sold
  CHECK(amount(hung, ConsumableGood::eyes) == 2);
  CHECK(amount(hung, ConsumableGood::keepers) == 2);
  CHECK(amount(hung, ConsumableGood::pads) == 2);
  CHECK(amount(hung, ConsumableGood::filler) == 0);  // no frame, no heads to fill over
}

TEST_CASE("what a job has none of is left out, and rates that make no sense are refused") {
  CHECK(Consumables{}({}).empty());
  CHECK(Consumables{.glue_g_per_m2 = 0}({.glued_mm2 = 1'000'000}).empty());
  CHECK_THROWS_WITH(Consumables{.metres_per_blade = 0}({}), contains("blade"));
  CHECK_THROWS_WITH(Consumables{.glue_g_per_m2 = std::numeric_limits<double>::quiet_NaN()}({}), contains("glue"));
  CHECK_THROWS_WITH(Consumables{.tape_waste = -1}({}), contains("tape waste"));
}

TEST_CASE("every good has a name of its own") {
  std::set<std::string> names;
  for (int good = 0; good <= static_cast<int>(ConsumableGood::wall_fixings); ++good) {
    names.insert(name_of(static_cast<ConsumableGood>(good)));
  }
  CHECK(names.size() == static_cast<std::size_t>(ConsumableGood::wall_fixings) + 1);
}
