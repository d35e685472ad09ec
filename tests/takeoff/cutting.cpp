#include "handlaid/takeoff/cutting.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

static_assert(Accepts<Cutting, StripTakeoff> && !Accepts<Cutting, Chart<>>);

TEST_CASE("trade arithmetic: 100 cells at three pieces a cell are 299 cuts a strip") {  // common practice, no source
  const auto strips = chart_of(std::vector<std::string>(167, std::string(100, '1')), 1, 7.5 * mm) |
                      Strips{.fold = Fold::lengthwise, .finished_width = 20 * mm, .fastened_edge = 5 * mm};
  const CuttingTakeoff takeoff = strips | Cutting{.pieces_per_cell = 3, .pitch = 7.5 * mm};
  CHECK(takeoff.cuts_on_longest == 299);
  CHECK(takeoff.cuts == 299 * 167);
  CHECK(takeoff.piece_width == 2.5 * mm);
  CHECK(takeoff.cut_length == 15 * mm);
  CHECK(takeoff.total == 748'995 * mm);  // 49,933 cuts of 15 mm
}

TEST_CASE("cuts are reckoned from the datum: at most half a micrometre off on any length") {
  for (const int pieces : {1, 2, 3, 7, 12}) {
    for (const std::int64_t um : {7'500, 10'001, 11'113}) {
      for (std::int64_t i = 0; i < 40'000; i += 37) {
        const std::int64_t off = cut_at(i, Length::from_um(um), pieces).um() * pieces - um * i;
        REQUIRE(off * 2 <= pieces);
        REQUIRE(off * 2 >= -pieces);
      }
    }
  }
}

TEST_CASE("pieces that cannot be cut are refused") {
  const auto strips = chart_of({"11"}, 1, 10 * mm) | Strips{};
  CHECK_THROWS_WITH((strips | Cutting{.pieces_per_cell = 0}), contains("pieces-per-cell: 0"));
  CHECK_THROWS_WITH((strips | Cutting{.pieces_per_cell = 200}), contains("200 pieces in a pitch of 10 mm"));
  CHECK((StripTakeoff{} | Cutting{}).cuts == 0);
}
