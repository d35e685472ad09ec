#include "handlaid/takeoff/pieces.hpp"

#include "handlaid/takeoff/flat_spares.hpp"
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

TEST_CASE("the confidence is that of all colours together") {
  // Twenty colours at 2 % and 99 %: the binomial distribution at 1 - 0.01 / 20 for each, scipy.stats.binom:
  // next(s for s in count() if binom.cdf(s, n + s, 0.02) >= 0.9995)
  PieceTakeoff takeoff{.palette = {.entries = std::vector<PaletteEntry>(20)}};
  const std::int64_t pieces[] = {12, 60, 300, 2505, 7000};
  for (int number = 1; number <= 20; ++number) {
    takeoff.lines.push_back({.number = number, .pieces = number <= 5 ? pieces[number - 1] : 100});
  }
  const PieceTakeoff with = takeoff | Spares{.loss = 0.02, .confidence = 0.99};
  CHECK(with.colour_confidence_ppb == 999'500'000);
  const std::int64_t spares[] = {3, 6, 16, 77, 184};
  std::int64_t all = 1'000'000'000;
  for (std::size_t i = 0; i < 20; ++i) {
    if (i < 5) CHECK(with.lines[i].spares == spares[i]);
    all = all * chance_of_at_most(with.lines[i].spares, with.lines[i].needed(), 0.02) / 1'000'000'000;
  }
  CHECK(all >= 990'000'000);
}

TEST_CASE("a rare colour keeps its least spares, one that is not laid gets none") {
  const Chart<> chart = chart_of({"1122", "1122"}, 3);
  const PieceTakeoff takeoff = chart | Pieces{} | Spares{.loss = 0.001, .confidence = 0.9, .at_least = 2};
  CHECK(takeoff.lines[0].spares == 2);
  CHECK(takeoff.lines[2].spares == 0);
  CHECK((takeoff | Spares{.loss = 0, .at_least = 3}).lines[1].spares == 3);
  CHECK_THROWS_WITH(takeoff | Spares{.at_least = -1}, contains("least spares: -1"));
}

TEST_CASE("a flat percentage is shown with what it risks") {
  // scipy.stats.binom.sf(1, 6, 0.05), sf(2, 14, 0.05), sf(6, 66, 0.05), sf(251, 2756, 0.05)
  PieceTakeoff takeoff{.palette = {.entries = std::vector<PaletteEntry>(5)}, .loss = 0.05};
  const std::int64_t pieces[] = {5, 12, 60, 2505, 0};
  for (int number = 1; number <= 5; ++number) takeoff.lines.push_back({.number = number, .pieces = pieces[number - 1]});
  const FlatSpareRisk risk = takeoff | FlatSpares{.share = 0.1};
  REQUIRE(risk.lines.size() == 4);
  CHECK(risk.lines[0] == FlatSpareLine{.number = 1, .spares = 1, .runs_out_ppm = 32774});
  CHECK(risk.lines[1] == FlatSpareLine{.number = 2, .spares = 2, .runs_out_ppm = 30054});
  CHECK(risk.lines[2] == FlatSpareLine{.number = 3, .spares = 6, .runs_out_ppm = 46416});
  CHECK(risk.lines[3] == FlatSpareLine{.number = 4, .spares = 251, .runs_out_ppm = 0});
  CHECK(risk.spares == 260);
  CHECK(risk.any_runs_out_ppm == 105388);
  CHECK_THROWS_WITH(takeoff | FlatSpares{.share = 1.5}, contains("flat share"));
}

TEST_CASE("counts out of range are refused") {
  const Chart<> chart = chart_of({"12"});
  CHECK_THROWS_WITH(chart | Pieces{.per_cell = 0}, contains("pieces-per-cell: 0"));
  CHECK_THROWS_WITH(chart | Pieces{.per_cell = 1001}, contains("1 to 1000"));
  CHECK_THROWS_WITH(chart | Pieces{} | Spares{.loss = 1}, contains("loss"));
  CHECK_THROWS_WITH(PieceTakeoff{} | Spares{.confidence = 1}, contains("confidence"));
  CHECK_THROWS_WITH(Pieces{}.from_tally(tally(chart), {}), contains("2 colours, the palette has 0"));
}
