#include "handlaid/sheets/book_real_size.hpp"

#include <cstdio>
#include <map>
#include <string>

#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::small_plan;

namespace {

std::string section_of(const Plan& plan) {
  Markup page;
  add_real_size(page, plan);
  return std::move(page).finish();
}

/// The colour of each place of the drawing, in hundredths of a millimetre, from its rectangles.
std::map<std::pair<int, int>, std::string> cells_of(const std::string& html, double pitch) {
  std::map<std::pair<int, int>, std::string> cells;
  for (std::size_t at = 0; (at = html.find("<path fill=\"#", at)) != std::string::npos; ++at) {
    const std::string colour = html.substr(at + 12, 7);
    const std::size_t from = html.find(" d=\"", at) + 4;
    const std::string path = html.substr(from, html.find('"', from) - from);
    for (std::size_t m = 0; (m = path.find('M', m)) != std::string::npos; ++m) {
      double x = 0, y = 0, wide = 0, high = 0, back = 0;
      REQUIRE(std::sscanf(path.c_str() + m, "M%lf %lfh%lfv%lfh%lfz", &x, &y, &wide, &high, &back) == 5);
      REQUIRE(back == -wide);
      for (double left = x; left < x + wide - pitch / 2; left += pitch) {
        const auto column = static_cast<int>(left / pitch + 0.5);
        const auto row = static_cast<int>(y / pitch + 0.5);
        REQUIRE(cells.emplace(std::pair(column, row), colour).second);  // nothing is drawn twice
      }
    }
  }
  return cells;
}

}  // namespace

TEST_CASE("a part of the panel is drawn at its real size, every cell in its colour") {
  for (const int pitch_mm : {7, 11, 40}) {
    const Plan plan = small_plan({.pitch = Length::from_um(pitch_mm * 1'000)});
    const std::string html = section_of(plan);
    const Patch part = detail::part_at_real_size(plan);
    const int columns = part.last_column - part.first_column + 1;
    const int courses = part.last_course - part.first_course + 1;
    // As many as the room of 176 x 110 mm takes, and the pilot's patch among them where it fits.
    CHECK(columns == std::min(plan.chart.columns(), 176 / pitch_mm));
    CHECK(courses == std::min(plan.chart.courses(), 110 / pitch_mm));
    CHECK(part.first_column <= plan.fabrication.pilot.first_column);
    CHECK(part.last_column >= plan.fabrication.pilot.last_column);
    CHECK_THAT(html, contains("width=\"" + std::to_string(columns * pitch_mm) + "mm\" height=\"" +
                              std::to_string(courses * pitch_mm) + "mm\""));
    const auto cells = cells_of(html, pitch_mm);
    std::size_t laid = 0;
    for (int course = part.first_course; course <= part.last_course; ++course) {
      for (int column = part.first_column; column <= part.last_column; ++column) {
        const ColourNumber number = plan.chart.course(course)[static_cast<std::size_t>(column - 1)];
        if (number == 0) continue;
        ++laid;
        const auto found = cells.find({column - part.first_column, part.last_course - course});
        REQUIRE(found != cells.end());
        REQUIRE(found->second == to_hex(plan.chart.palette[number].colour));
      }
    }
    CHECK(cells.size() == laid);
  }
}

TEST_CASE("a cell that is larger than the page is not drawn") {
  CHECK(section_of(small_plan({.pitch = 111 * mm})).empty());
}
