#include "handlaid/sheets/story_poles.hpp"

#include "handlaid/sheets/large_pages.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::small_plan;

namespace {

/// The lines of a pole that stand at `edge`, as their distance up from its foot, in drawing order.
std::vector<Length> ticks_at(const PrintedPage& page, Length edge, Length foot) {
  std::vector<Length> ticks;
  for (const PageLine& line : page.lines) {
    if (line.from.x == edge && line.from.y == line.to.y && line.to.x > edge && line.to.x <= edge + 10 * mm) {
      ticks.push_back(foot - line.from.y);
    }
  }
  return ticks;
}

/// The heavy edges: upright lines that ticks begin at.
std::vector<PagePoint> edges_of(const PrintedPage& page) {
  std::vector<PagePoint> edges;
  for (const PageLine& line : page.lines) {
    if (line.from.x == line.to.x && line.width == Length::from_um(250)) edges.push_back(line.from);
  }
  return edges;
}

}  // namespace

TEST_CASE("long story poles carry every mark at its place, to the micrometre") {
  const Plan plan = small_plan({.columns = 47, .rows = 61, .pitch = Length::from_um(9'527), .margin = 21 * mm});
  const std::vector<PrintedPage> poles = long_pole_pages(plan);
  REQUIRE(poles.size() == 2);
  const std::vector<Length>* lists[] = {&plan.marks.across, &plan.marks.up};
  for (std::size_t i = 0; i < 2; ++i) {
    const std::vector<PagePoint> edges = edges_of(poles[i]);
    REQUIRE(edges.size() == 1);
    const std::vector<Length> ticks = ticks_at(poles[i], edges[0].x, edges[0].y);
    REQUIRE(ticks.size() == lists[i]->size());
    for (std::size_t line = 0; line < ticks.size(); ++line) {
      CHECK(ticks[line] == Length::from_um(9'527).times(static_cast<std::int64_t>(line)));
    }
  }
}

TEST_CASE("lengths of a story pole together carry every mark, each from its own first line") {
  const Plan plan = small_plan({.columns = 72, .rows = 96, .pitch = 11 * mm});
  std::size_t marks = 0;
  std::vector<std::string> firsts;
  for (const PrintedPage& page : pole_pages(plan)) {
    for (const PagePoint& edge : edges_of(page)) {
      const std::vector<Length> ticks = ticks_at(page, edge.x, edge.y);
      for (std::size_t i = 0; i < ticks.size(); ++i) CHECK(ticks[i] == (11 * mm).times(static_cast<std::int64_t>(i)));
      marks += ticks.size() - 1;
    }
    for (const PageText& text : page.texts) {
      if (text.text.starts_with("first line at") || text.text.starts_with("datum end, at")) firsts.push_back(text.text);
    }
  }
  CHECK(marks == 72 + 96);
  CHECK(firsts == std::vector<std::string>{"datum end, at 0", "first line at 220", "first line at 440",
                                           "first line at 660", "datum end, at 0", "first line at 220",
                                           "first line at 440", "first line at 660", "first line at 880"});
}

TEST_CASE("a pitch longer than the paper has no story pole on it") {
  const Plan plan = small_plan({.columns = 2, .rows = 2, .pitch = 300 * mm});
  CHECK_THROWS_WITH(pole_pages(plan), Catch::Contains("A4 is shorter than one pitch of 300 mm"));
}

TEST_CASE("the whole chart is one page at true size with every numeral in the middle of its cell") {
  const Plan plan = small_plan({.columns = 30, .rows = 20, .pitch = Length::from_um(9'526)});
  const PrintedPage page = whole_chart_page(plan);
  const Length em = numeral_em(plan.chart);
  PagePoint datum = {};
  for (const PageBox& box : page.boxes) {
    // the square; a bar beside a caution is none
    if (box.fill == look::accent && box.size.width == box.size.height) datum = {box.at.x + box.size.width, box.at.y};
  }
  int numerals = 0;
  for (const PageText& text : page.texts) {
    if (!text.centred || text.anchor != TextAnchor::middle || text.em != em || text.bold || text.colour != look::ink)
      continue;
    const std::int64_t column = (text.at.x - datum.x).um() / 9'526 + 1;
    const std::int64_t course = (datum.y - text.at.y).um() / 9'526 + 1;
    if (course < 1 || column < 1 || course > 20 || column > 30) continue;  // a number of the margin
    CHECK((text.at.x - datum.x).um() == 9'526 * (column - 1) + 4'763);
    CHECK((datum.y - text.at.y).um() == 9'526 * (course - 1) + 4'763);
    CHECK(text.text ==
          std::to_string(plan.chart.course(static_cast<int>(course))[static_cast<std::size_t>(column) - 1]));
    ++numerals;
  }
  CHECK(numerals == plan.tally.laid());
  CHECK(page.size.width > plan.chart.lattice.extent().width);
}
