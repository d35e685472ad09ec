#include "handlaid/takeoff/board_marks.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

static_assert(Accepts<BoardMarking, Chart<>> && Accepts<BoardMarking, Rectangular>);
static_assert(!Accepts<BoardMarking, Palette>);

TEST_CASE("marks stand at whole pitches from the datum, without drift") {
  const Rectangular lattice{.columns = 100, .rows = 167, .pitch = 7.5 * mm};
  const BoardMarks marks = lattice | BoardMarking{};
  REQUIRE(marks.across.size() == 101);
  REQUIRE(marks.up.size() == 168);
  CHECK(marks.across.front() == 0 * mm);
  CHECK(marks.across.back() == 750 * mm);
  CHECK(marks.up.back() == 1252.5 * mm);
  CHECK(marks.up[120] == 900 * mm);
  CHECK(marks.board == Size{750 * mm, 1252.5 * mm});
  CHECK(marks.diagonal.um() == std::llround(std::hypot(750'000.0L, 1'252'500.0L)));
}

TEST_CASE("3-4-5: the builder's triangle") {  // common practice, no source
  const Rectangular lattice{.columns = 3, .rows = 4, .pitch = 100 * mm};
  CHECK((lattice | BoardMarking{}).diagonal == 500 * mm);
}

TEST_CASE("the field stands in the middle of a larger board") {
  const Chart<> chart = chart_of({"111", "111"}, 1, 10 * mm);
  const BoardMarks marks = chart | BoardMarking{.board = {50 * mm, 20.001 * mm}};
  CHECK(marks.margin_x == 10 * mm);
  CHECK(marks.margin_y == 0 * mm);  // half a micrometre is given to the other side
  CHECK(marks.across == std::vector<Length>{10 * mm, 20 * mm, 30 * mm, 40 * mm});
  CHECK(marks.up == std::vector<Length>{0 * mm, 10 * mm, 20 * mm});
}

TEST_CASE("a board that is too small is refused, and both sizes are named") {
  const Chart<> chart = chart_of({"111", "111"}, 1, 10 * mm);
  CHECK_THROWS_WITH((chart | BoardMarking{.board = {29.5 * mm, 20 * mm}}),
                    contains("board: its width of 29.5 mm is less than the 30 mm of the cells"));
  CHECK_THROWS_WITH((chart | BoardMarking{.board = {30 * mm, 10 * mm}}), contains("height of 10 mm"));
  CHECK_THROWS_WITH((Rectangular{.columns = 100'000, .rows = 1, .pitch = 10'000 * mm} | BoardMarking{}),
                    contains("1 km"));
}
