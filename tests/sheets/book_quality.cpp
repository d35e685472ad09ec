#include "handlaid/sheets/book_quality.hpp"

#include "sheets/small_plan.hpp"
#include "sheets/well_formed.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// With grey cells to look at.
Plan looked_at(const PlanOptions& options = {}) {
  Plan plan = small_plan(options);
  Cells<Oklab>& part = plan.quality.part;
  part = {.lattice = plan.chart.lattice,
          .colours = {options.columns, options.rows},
          .laid = {options.columns, options.rows}};
  for (std::size_t i = 0; i < part.laid.size(); ++i) {
    part.laid.pixels()[i] = plan.chart.numbers.pixels()[i] == 0 ? 0 : 1;
    part.colours.pixels()[i] = {.L = 0.5F};
  }
  return plan;
}

std::string section(const Plan& plan) {
  Markup page;
  add_quality(page, plan);
  return std::move(page).finish();
}

}  // namespace

TEST_CASE("the book shows the panel from three distances, its figures and its worst cells") {
  const std::string page = section(looked_at());
  std::size_t pictures = 0;
  for (std::size_t at = page.find("<img"); at != page.npos; at = page.find("<img", at + 1)) ++pictures;
  CHECK(pictures == 3);
  // 333, 1,000 and 3,000 times 11 mm
  for (const char* part : {"3.66 m", "11 m", "33 m", "2.50", "from 2.5 m, 227 times the pitch", "31.50", "15.26",
                           "recommended, and used here", "0.70 with half"}) {
    CHECK_THAT(page, contains(part));
  }
  CHECK_THAT(section(looked_at({.units = LengthUnit::inches})), contains("8.2 ft, 227 times the pitch"));
}

TEST_CASE("what was not measured is left out") {
  Plan plan = looked_at();
  plan.quality = {};
  const std::string page = section(plan);
  CHECK(page.find("<img") == page.npos);
  CHECK(page.find("worst") == page.npos);
  CHECK_THAT(page, contains("4.31"));
}

TEST_CASE("a view has the reference to the left and the chart to the right, of whole pixels") {
  Cells<Oklab> cells = {.lattice = {.columns = 3, .rows = 2}, .colours = {3, 2}, .laid = {3, 2}};
  Chart<> chart = {.lattice = cells.lattice, .numbers = {3, 2}, .palette = palette_of({{200, 10, 10}})};
  for (std::size_t i = 0; i < 5; ++i) {  // the last one stays empty
    cells.colours.pixels()[i] = convert_colour<Oklab>(Srgb8{10, 10, 200});
    cells.laid.pixels()[i] = 1;
    chart.numbers.pixels()[i] = 1;
  }
  const SeenView view = seen_view(cells, chart, 3'000 * mm, 30);
  REQUIRE(view.picture.width() == 2 * 30 + 8);
  REQUIRE(view.picture.height() == 20);
  CHECK(view.picture(5, 5) == Srgb8{10, 10, 200});
  CHECK(view.picture(33, 5) == look::paper);
  CHECK(view.picture(43, 5) == Srgb8{200, 10, 10});
  CHECK(view.picture(29, 19) == look::board);
  CHECK(view.picture(67, 19) == look::board);
  CHECK(view.seen.mean() > 30);
}
