#include "handlaid/grid/course_checks.hpp"

#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/quantise/quantise.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

/// The demo's picture in 72 columns, 96 courses and 16 colours.
const Chart<>& demo_chart() {
  static const Chart<> chart = read<Srgb8>(HANDLAID_TEST_DATA "/../../examples/demo/cat.png") |
                               map_to(Rectangular{.columns = 72, .rows = 96, .pitch = 11 * mm}) | convert<Oklab> |
                               quantise(KMeans{.colours = 16});
  return chart;
}

std::vector<ColourNumber> cells_of(const Chart<>& chart, int course) {
  const auto cells = chart.course(course);
  return {cells.begin(), cells.end()};
}

CheckFigure figure_of(const std::vector<ColourNumber>& cells) {
  return check_figure(std::span<const ColourNumber>(cells));
}

Chart<> small_chart() {
  Chart<> chart{.lattice = {.columns = 6, .rows = 2}, .numbers = {6, 2}, .palette = palette_of({{}, {}, {}, {}, {}})};
  const ColourNumber numbers[] = {5, 5, 5, 5, 0, 0, 1, 2, 2, 3, 3, 3};
  std::copy(std::begin(numbers), std::end(numbers), chart.numbers.pixels().begin());
  return chart;
}

}  // namespace

TEST_CASE("figures of courses counted by hand, from the bottom") {
  const auto checks = small_chart() | course_checks;
  REQUIRE(checks.size() == 2);
  CHECK(checks[0].course == 1);
  CHECK(checks[0].laid == 6);
  CHECK(checks[0].runs == 3);
  CHECK(check_text(checks[0].figure) == "14-56");  // 1 + 4 + 6 + 12 + 15 + 18
  CHECK(checks[1].laid == 4);
  CHECK(checks[1].runs == 2);
  CHECK(check_text(checks[1].figure) == "20-50");
  CHECK_THROWS_WITH(check_course(small_chart(), 3), contains("1 to 2"));
}

TEST_CASE("on the demo every wrong cell, every swap and every two wrong cells are found") {
  const Chart<>& chart = demo_chart();
  for (int course = 1; course <= chart.courses(); ++course) {
    const auto cells = cells_of(chart, course);
    const CheckFigure wanted = figure_of(cells);
    int missed = 0;
    int misplaced = 0;
    auto wrong = cells;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      for (ColourNumber number = 0; number <= 16; ++number) {  // every cell to every other number
        if (number == cells[i]) continue;
        wrong[i] = number;
        const CheckFigure found = figure_of(wrong);
        missed += found == wanted;
        const auto slip = locate_slip(wanted, found, 16);
        misplaced += !slip || slip->place != static_cast<std::int64_t>(i) + 1 || slip->excess != number - cells[i];
      }
      wrong[i] = cells[i];
      for (std::size_t j = i + 1; j < cells.size(); ++j) {  // every two swapped
        if (cells[i] == cells[j]) continue;
        std::swap(wrong[i], wrong[j]);
        missed += figure_of(wrong) == wanted;
        std::swap(wrong[i], wrong[j]);
      }
      wrong.erase(wrong.begin() + static_cast<std::ptrdiff_t>(i));  // every cell dropped, and laid twice
      missed += figure_of(wrong) == wanted;
      wrong = cells;
      wrong.insert(wrong.begin() + static_cast<std::ptrdiff_t>(i), cells[i]);
      missed += figure_of(wrong) == wanted;
      wrong = cells;
    }
    REQUIRE(missed == 0);
    REQUIRE(misplaced == 0);
  }
  // Two wrong cells: by their changes of the sums, all 16 x 16 of each two places.
  const std::int64_t p = check_modulus(chart.columns());
  std::int64_t missed = 0;
  for (std::int64_t i = 1; i <= chart.columns(); ++i) {
    for (std::int64_t j = i + 1; j <= chart.columns(); ++j) {
      for (std::int64_t d = -16; d <= 16; ++d) {
        for (std::int64_t e = -16; e <= 16; ++e) {
          if (d != 0 && e != 0) missed += (d + e) % p == 0 && (i * d + j * e) % p == 0;
        }
      }
    }
  }
  CHECK(missed == 0);
}

TEST_CASE("on the demo no two different courses have the same figures") {
  const Chart<>& chart = demo_chart();
  const auto checks = chart | course_checks;
  int pairs = 0;
  for (int a = 1; a <= chart.courses(); ++a) {
    for (int b = a + 1; b <= chart.courses(); ++b) {
      if (cells_of(chart, a) == cells_of(chart, b)) continue;
      ++pairs;
      REQUIRE(checks[static_cast<std::size_t>(a) - 1].figure != checks[static_cast<std::size_t>(b) - 1].figure);
    }
  }
  CHECK(pairs > 4'000);
}

TEST_CASE("slips are named by column, neighbours with the same slip as one") {
  const Chart<> chart = small_chart();  // course 1: 1 2 2 3 3 3
  using Slips = std::vector<CourseSlip>;
  CHECK(course_slips(chart, 1, {1, 2, 2, 3, 3, 3}).empty());
  CHECK(course_slips(chart, 1, {1, 2, 2, 4, 4, 3}) == Slips{{EditKind::changed, 4, 5, 4, 3}});
  CHECK(course_slips(chart, 1, {2, 1, 2, 3, 3, 3}) == Slips{{EditKind::swapped, 1, 2, 2, 1}});
  CHECK(course_slips(chart, 1, {1, 3, 3, 3}) == Slips{{EditKind::missing, 2, 3, 0, 2}});
  CHECK(course_slips(chart, 1, {1, 2, 2, 5, 5, 3, 3, 3}) == Slips{{EditKind::extra, 4, 5, 5, 0}});
  CHECK_THROWS_WITH(course_slips(chart, 7, {1}), contains("1 to 2"));
}
