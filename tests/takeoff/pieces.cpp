#include "handlaid/takeoff/pieces.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

static_assert(Accepts<Pieces, Chart<>> && Accepts<Spares, PieceTakeoff>);
static_assert(!Accepts<Pieces, PieceTakeoff> && !Accepts<Spares, Chart<>> && !Accepts<Pieces, Palette>);

TEST_CASE("trade arithmetic: 100 x 167 cells at three pieces a cell") {  // common practice, no source
  const Chart<> chart = chart_of(std::vector<std::string>(167, std::string(100, '1')));
  const PieceTakeoff takeoff = chart | Pieces{.per_cell = 3};
  CHECK(takeoff.lines.at(0).cells == 16'700);
  CHECK(takeoff.pieces() == 50'100);
  CHECK(takeoff.needed() == 50'100);
}

TEST_CASE("pieces are counted for each colour, empty cells for none") {
  const Chart<> chart = chart_of({"1.33", "1123", "...."}, 4);
  const PieceTakeoff takeoff = chart | Pieces{.per_cell = 2};
  CHECK(takeoff.lines == std::vector<PieceLine>{{.number = 1, .cells = 3, .pieces = 6},
                                                {.number = 2, .cells = 1, .pieces = 2},
                                                {.number = 3, .cells = 3, .pieces = 6},
                                                {.number = 4, .cells = 0, .pieces = 0}});
  CHECK(takeoff.palette == chart.palette);
}

TEST_CASE("parts counted apart and merged equal the whole") {
  const Chart<> whole = chart_of({"1.33", "1123", "2222", "3311"}, 3);
  const Tally upper = tally(chart_of({"1.33", "1123"}, 3));
  const Tally lower = tally(chart_of({"2222", "3311"}, 3));
  CHECK(Pieces{.per_cell = 3}.from_tally(upper + lower, whole.palette) == (whole | Pieces{.per_cell = 3}));
}

TEST_CASE("spares are those of the binomial distribution") {
  const Chart<> chart = chart_of(std::vector<std::string>(167, std::string(100, '1')), 2);
  const PieceTakeoff takeoff = chart | Pieces{.per_cell = 3} | Spares{.loss = 0.02, .confidence = 0.99};
  CHECK(takeoff.lines.at(0).spares == 51'198 - 50'100);  // scipy.stats.binom, tests/data/binomial_start.csv
  CHECK(takeoff.lines.at(1).spares == 0);
  CHECK(takeoff.needed() == 51'198);
  CHECK(takeoff.loss == 0.02);
  CHECK((takeoff | Spares{.loss = 0.02, .confidence = 0.99}) == takeoff);
  CHECK((takeoff | Spares{.loss = 0}).spares() == 0);
}

TEST_CASE("counts out of range are refused") {
  const Chart<> chart = chart_of({"12"});
  CHECK_THROWS_WITH(chart | Pieces{.per_cell = 0}, contains("pieces-per-cell: 0"));
  CHECK_THROWS_WITH(chart | Pieces{.per_cell = 1001}, contains("1 to 1000"));
  CHECK_THROWS_WITH(chart | Pieces{} | Spares{.loss = 1}, contains("loss"));
  CHECK_THROWS_WITH(PieceTakeoff{} | Spares{.confidence = 1}, contains("confidence"));
  CHECK_THROWS_WITH(Pieces{}.from_tally(tally(chart), {}), contains("2 colours, the palette has 0"));
}
