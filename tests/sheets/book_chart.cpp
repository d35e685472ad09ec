#include "handlaid/sheets/book_chart.hpp"

#include "sheets/small_plan.hpp"
#include "sheets/well_formed.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::Document;
using handlaid_test::Element;
using handlaid_test::read_markup;
using handlaid_test::small_plan;

TEST_CASE("parts cover each cell once and fit the page") {
  for (const auto& [columns, rows, pitch, course_pitch] :
       {std::tuple{72, 96, 11 * mm, 11 * mm}, std::tuple{1, 1, 50 * mm, 50 * mm},
        std::tuple{25, 33, 7.5 * mm, 7.5 * mm}, std::tuple{100, 10, 10 * mm, 30 * mm},
        std::tuple{10, 100, 1000 * mm, 10 * mm}, std::tuple{300, 400, 9 * mm, 8 * mm}}) {
    INFO(columns << " x " << rows);
    Chart<> chart;
    chart.lattice = {.columns = columns, .rows = rows, .pitch = pitch, .course_pitch = course_pitch};
    chart.numbers = Raster<ColourNumber>(columns, rows);
    const ChartPages pages = chart_pages(chart);
    Raster<std::uint8_t> seen(columns, rows);
    for (const ChartPart& part : pages.parts) {
      CHECK(part.columns() <= 24);
      CHECK(part.courses() <= 32);
      // A4 (ISO 216) is 210 x 297 mm, Letter (ANSI Y14.1) 215.9 x 279.4 mm; less margins of 12 mm, counts of 6.5 mm,
      // and 14 mm for the heading
      CHECK(pages.cell_width.times(part.columns()) <= 173 * mm);
      CHECK(pages.cell_height.times(part.courses()) <= 228 * mm);
      for (int course = part.first_course; course <= part.last_course; ++course) {
        for (int column = part.first_column; column <= part.last_column; ++column) {
          ++seen(column - 1, row_of_course(course, rows));
        }
      }
    }
    CHECK(std::all_of(seen.pixels().begin(), seen.pixels().end(), [](std::uint8_t n) { return n == 1; }));
    CHECK(pages.parts.size() == static_cast<std::size_t>(pages.across) * static_cast<std::size_t>(pages.up));
    CHECK(pages.parts.front().first_column == 1);
    CHECK(pages.parts.front().first_course == 1);
    CHECK(std::min(pages.cell_width, pages.cell_height) >= 7 * mm);
  }
}

TEST_CASE("numerals of a page are at least 2.2 mm high, up to three digits") {
  const CellFrame frame{.cell_width = 7 * mm, .cell_height = 7 * mm};
  for (const int digits : {1, 2, 3}) {
    CHECK(frame.em(digits).times(look::digit_height).divided(1000) >= 2.2 * mm);
    CHECK(frame.em(digits).times(look::digit_advance * digits).divided(1000) <= 6.5 * mm);
  }
}

TEST_CASE("the parts of the book show the numerals of the chart, and are numbered from the datum") {
  const Plan plan = small_plan({.columns = 50, .rows = 40});
  Markup page;
  add_chart(page, plan);
  const Document read = read_markup(std::move(page).finish());
  REQUIRE(read.fault == "");
  std::size_t digits = 0;
  for (const char* ink : {"#000000", "#ffffff"}) {
    for (const Element& text : read.all("text", "fill", ink)) digits += text.text.size();
  }
  std::size_t wanted = 0;
  for (std::size_t n = 1; n < plan.tally.cells.size(); ++n) {
    wanted += static_cast<std::size_t>(plan.tally.cells[n]) * (n < 10 ? 1 : 2);
  }
  CHECK(digits == wanted);
  const auto parts = read.all("article");
  REQUIRE(parts.size() == 6);
  CHECK(parts[0].attributes.at("id") == "part1");
  const auto where = read.all("small");
  REQUIRE(where.size() == 6);
  CHECK(where[0].text == "columns 1 to 17, courses 1 to 20");
  CHECK(where[5].text == "columns 35 to 50, courses 21 to 40");
  // the map names each part, and each part stands on a map of its own
  CHECK(read.all("svg", "class", "map").size() == 1);
  CHECK(read.all("text", "fill", to_hex(look::ink)).front().text == "123456");
  CHECK(read.all("svg").size() == 1 + 1 + 6 * 2);
}
