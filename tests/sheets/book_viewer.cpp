#include "handlaid/sheets/book_viewer.hpp"

#include "sheets/small_plan.hpp"
#include "sheets/well_formed.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::Document;
using handlaid_test::Element;
using handlaid_test::occurrences;
using handlaid_test::read_markup;
using handlaid_test::small_plan;

TEST_CASE("the cells stand in the book once, as the chart has them") {
  for (const int colours : {12, 300}) {
    const Plan plan = small_plan({.columns = 26, .rows = 35, .colours = colours});
    const std::string data = book_data(plan, 11 * mm, 11 * mm);
    CHECK_THAT(data, contains("\"mark\": \"" + chart_fingerprint(plan.chart) + "\""));
    CHECK(occurrences(data, "<") == 0);
    std::string cells;
    for (int y = 34; y >= 0; --y) {
      for (int x = 0; x < 26; ++x) {
        const int number = plan.chart.numbers(x, y);
        cells += static_cast<char>(number % 256);
        if (colours > 255) cells += static_cast<char>(number / 256);
      }
    }
    CHECK_THAT(data, contains("\"cells\": \"" + base64(cells) + "\""));
    CHECK(occurrences(data, "\"runs\"") == colours);
  }
}

TEST_CASE("the viewer is hidden until its script shows it, and offers each colour") {
  Plan plan = small_plan();
  plan.chart.palette.entries[1].name = "</script><b>";
  Markup page;
  page.open("main");
  add_viewer(page, plan, 11 * mm, 11 * mm);
  page.close();
  const Document read = read_markup(std::move(page).finish());
  CHECK(read.fault == "");
  CHECK(read.all("div", "id", "viewer").at(0).attributes.count("hidden") == 1);
  CHECK(read.all("b").empty());
  const auto options = read.all("option");
  REQUIRE(options.size() == 13);
  CHECK(options[0].attributes.at("value") == "0");
  CHECK(options[2].text == "2 \u2068&lt;/script&gt;&lt;b&gt;\u2069");
  for (const Element& button : read.all("button")) CHECK(button.attributes.at("type") == "button");
}
