// Lattice, chart, runs and what is counted of them.
#include "handlaid/grid/chart.hpp"

#include "handlaid/core/pipe.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/grid/runs.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(AnyChart<Chart<>> && AnyChart<const Chart<>&> && !AnyChart<Raster<ColourNumber>> && !AnyChart<Palette>);
static_assert(Rectangular{.columns = 100, .rows = 167, .pitch = 7.5 * mm}.extent() == Size{750 * mm, 1252.5 * mm});
static_assert(Rectangular{.columns = 4, .rows = 2, .pitch = 10 * mm, .course_pitch = 6 * mm}.box(3, 1) ==
              Box{30 * mm, 6 * mm, 40 * mm, 12 * mm});
static_assert(course_of_row(0, 96) == 96 && row_of_course(1, 96) == 95);

namespace {

Chart<> small_chart() {
  Chart<> chart = {.lattice = {.columns = 5, .rows = 3},
                   .numbers = {5, 3},
                   .palette = palette_of({{0, 0, 0}, {255, 255, 255}, {200, 0, 0}})};
  const ColourNumber numbers[3][5] = {{1, 1, 2, 2, 2}, {3, 1, 1, 0, 0}, {2, 2, 2, 2, 2}};
  for (int y = 0; y < 3; ++y) {
    for (int x = 0; x < 5; ++x) chart.numbers(x, y) = numbers[y][x];
  }
  return chart;
}

}  // namespace

TEST_CASE("courses count from the bottom, runs from the left") {
  const auto chart = small_chart();
  chart.check();
  std::vector<Run> runs;
  for (int course = 1; course <= 3; ++course) for_each_run(chart, course, [&](const Run& run) { runs.push_back(run); });
  CHECK(runs == std::vector<Run>{{1, 1, 5, 2}, {2, 1, 1, 3}, {2, 2, 3, 1}, {2, 4, 5, 0}, {3, 1, 2, 1}, {3, 3, 5, 2}});
}

TEST_CASE("cells and runs are counted once") {
  const Tally count = small_chart() | tally;
  CHECK(count.cells == std::vector<std::int64_t>{2, 4, 8, 1});
  CHECK(count.runs == std::vector<std::int64_t>{1, 2, 2, 1});
  CHECK(count.courses == std::vector<std::int64_t>{1, 2, 2, 1});
  CHECK(count.laid() == 13);
  CHECK(count.total_runs() == 5);
  CHECK(count.colours_used() == 3);
  CHECK(count.colours() == 3);
}

TEST_CASE("tallies of parts add up to the whole") {
  Random random(5);
  Chart<> whole = {.lattice = {.columns = 40, .rows = 30}, .numbers = {40, 30}, .palette = {}};
  for (int i = 0; i < 6; ++i) whole.palette.entries.push_back({});
  for (ColourNumber& number : whole.numbers.pixels()) number = static_cast<ColourNumber>(random.below(7));
  const auto part = [&](int from, int to) {
    Chart<> chart = {
        .lattice = {.columns = 40, .rows = to - from}, .numbers = {40, to - from}, .palette = whole.palette};
    for (int y = from; y < to; ++y) {
      for (int x = 0; x < 40; ++x) chart.numbers(x, y - from) = whole.numbers(x, y);
    }
    return chart | tally;
  };
  CHECK(part(0, 11) + part(11, 30) == (whole | tally));
  // By brute force: a cell starts a run where its left neighbour differs.
  std::vector<std::int64_t> runs(7, 0);
  for (int y = 0; y < 30; ++y) {
    for (int x = 0; x < 40; ++x) {
      if (x == 0 || whole.numbers(x, y) != whole.numbers(x - 1, y)) ++runs[whole.numbers(x, y)];
    }
  }
  CHECK((whole | tally).runs == runs);
}

TEST_CASE("the trade's own arithmetic") {
  // Common practice, no source: 100 x 167 cells are 16,700 cells.
  Chart<> chart = {.lattice = {.columns = 100, .rows = 167, .pitch = 7.5 * mm},
                   .numbers = {100, 167},
                   .palette = palette_of({{9, 9, 9}})};
  for (ColourNumber& number : chart.numbers.pixels()) number = 1;
  const Tally count = chart | tally;
  CHECK(count.laid() == 16'700);
  CHECK(count.total_runs() == 167);
  CHECK(count.course_count == 167);
}

TEST_CASE("charts that do not fit together are refused") {
  auto chart = small_chart();
  chart.numbers(4, 0) = 4;
  CHECK_THROWS_WITH(chart.check(), contains("course 3, column 5 has colour 4, the palette ends at 3"));
  chart = small_chart();
  chart.lattice.columns = 6;
  CHECK_THROWS_WITH(chart.check("plan.csv"), contains("plan.csv: it has 5 x 3 numbers for 6 x 3 cells"));
  CHECK_THROWS_WITH(small_chart().palette[4], contains("colour number: 4"));
  CHECK_THROWS_WITH(small_chart().palette[0], contains("1 to 3"));
}

TEST_CASE("lattices out of range are refused") {
  const auto refuses = [](const Rectangular& lattice, const char* option) {
    CHECK_THROWS_WITH(lattice.check(), contains(option));
  };
  refuses({.columns = 0, .rows = 5}, "columns: 0");
  refuses({.columns = 1'000'000, .rows = 5}, "columns: 1000000");
  refuses({.columns = 5, .rows = -2}, "rows: -2");
  refuses({.columns = 5, .rows = 5, .pitch = {}}, "pitch");
  refuses({.columns = 5, .rows = 5, .pitch = -3 * mm}, "pitch");
  refuses({.columns = 5, .rows = 5, .course_pitch = 20'000 * mm}, "course pitch");
  refuses({.columns = 100'000, .rows = 100'000}, "100 million");
}
