#include "handlaid/sheets/setting_out_pages.hpp"

#include <set>

#include "sheets/page_checks.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::low_digits;
using handlaid_test::outside_of_margins;
using handlaid_test::overlapping_texts;
using handlaid_test::small_plan;
using handlaid_test::text_of;

namespace {

void check_pages(const std::vector<PrintedPage>& pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    CHECK(outside_of_margins(pages[i]) == std::vector<std::string>{});
    CHECK(overlapping_texts(pages[i]) == std::vector<std::string>{});
    CHECK(low_digits(pages[i]) == std::vector<std::string>{});
    CHECK(text_of(pages[i], "page " + std::to_string(i + 1) + " of " + std::to_string(pages.size())) != nullptr);
  }
}

bool says(const PrintedPage& page, const std::string& words) {
  for (const PageText& text : page.texts) {
    if (text.text.find(words) != std::string::npos) return true;
  }
  return false;
}

/// The figures of all tables as they are read: for each line of figures its number, then its marks from left to right.
std::vector<std::string> marks_read(const std::vector<PrintedPage>& pages, const Srgb8& colour) {
  std::vector<std::string> marks;
  for (std::size_t i = 1; i < pages.size(); ++i) {
    for (const PageText& text : pages[i].texts) {
      const bool mark = text.anchor == TextAnchor::right && text.room > Length{} && text.colour == colour;
      if (mark && handlaid_test::has_digit(text.text)) marks.push_back(text.text);
    }
  }
  return marks;
}

}  // namespace

TEST_CASE("the tables of setting out hold every mark, rounded once from the datum") {
  const Plan plan = small_plan({.columns = 47, .rows = 61, .pitch = Length::from_um(9'527), .margin = 21 * mm});
  const std::vector<PrintedPage> pages = setting_out_pages(plan);
  std::vector<std::string> expected;
  for (const int count : {47, 61}) {
    for (int line = 0; line <= count; ++line) {
      const std::int64_t um = 10'500 + 9'527 * line;  // half of the margin, then the lines
      const std::int64_t tenths = (um + 50) / 100;
      expected.push_back(std::to_string(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10)));
    }
  }
  CHECK(marks_read(pages, look::ink) == expected);
  check_pages(pages);
}

TEST_CASE("inches stand to a sixteenth with the decimal below") {
  const Plan plan = small_plan({.columns = 21, .rows = 12, .pitch = 0.4375 * inch, .units = LengthUnit::inches});
  const std::vector<PrintedPage> pages = setting_out_pages(plan);
  const std::vector<std::string> sixteenths = marks_read(pages, look::ink);
  const std::vector<std::string> decimals = marks_read(pages, look::quiet);
  REQUIRE(sixteenths.size() == 22 + 13);
  REQUIRE(decimals.size() == 22 + 13);
  CHECK(sixteenths[1] == "7/16");
  CHECK(sixteenths[3] == "1 5/16");
  CHECK(sixteenths[16] == "7");
  CHECK(decimals[1] == "0.44");
  CHECK(decimals[3] == "1.31");
  CHECK(pages[0].size == size_of(Paper::letter));
  check_pages(pages);
}

TEST_CASE("the drawing of the board has each fifth line at its place to scale") {
  const Plan plan = small_plan({.columns = 26, .rows = 37, .pitch = 11 * mm, .margin = 40 * mm});
  const PrintedPage page = setting_out_pages(plan).at(0);
  REQUIRE(page.boxes.size() == 3);
  const PageBox& board = page.boxes[0];
  const PageBox& field = page.boxes[1];
  const PageBox& datum = page.boxes[2];
  CHECK(datum.fill == look::accent);
  CHECK(datum.at == PagePoint{board.at.x - datum.size.width, board.at.y + board.size.height});
  // the scale in micrometres of drawing a metre of board, from the board's height, to a micrometre
  const auto drawn = [&](std::int64_t um) { return (um * board.size.height.um() + 223'500) / 447'000; };
  CHECK(std::abs(board.size.width.um() - drawn(326'000)) <= 1);
  CHECK(std::abs((field.at.x - board.at.x).um() - drawn(20'000)) <= 1);
  std::vector<std::int64_t> upright;
  std::vector<std::int64_t> across;
  int diagonals = 0;
  for (const PageLine& line : page.lines) {
    if (line.dash > Length{}) ++diagonals;
    if (line.dash > Length{} || line.from.y > board.at.y + board.size.height) continue;
    if (line.from.x == line.to.x) upright.push_back((line.from.x - board.at.x).um());
    if (line.from.y == line.to.y) across.push_back((board.at.y + board.size.height - line.from.y).um());
  }
  CHECK(diagonals == 2);
  REQUIRE(upright.size() == 6);
  REQUIRE(across.size() == 8);
  for (std::size_t i = 0; i < 6; ++i) {
    CHECK(std::abs(upright[i] - drawn(20'000 + 55'000 * static_cast<std::int64_t>(i))) <= 1);
  }
  for (std::size_t i = 0; i < 8; ++i) {
    CHECK(std::abs(across[i] - drawn(20'000 + 55'000 * static_cast<std::int64_t>(i))) <= 1);
  }
  for (const char* number : {"0", "5", "10", "15", "20", "25", "30", "35"}) CHECK(text_of(page, number) != nullptr);
}

TEST_CASE("the page of setting out says how to check that the field is square") {
  // a field of 300 x 400 mm: its diagonal is 500 mm, and so is the largest triangle
  const Plan plan = small_plan({.columns = 30, .rows = 40, .pitch = 10 * mm});
  const PrintedPage page = setting_out_pages(plan).at(0);
  CHECK(says(page, "Both 500 mm."));
  CHECK(says(page, "300 mm to the right and 400 mm up the field: between the two ends 500 mm."));
  CHECK(says(page, "It takes the whole board."));
  CHECK(says(page, "all stand on it exactly"));
  const Plan off = small_plan({.columns = 30, .rows = 40, .pitch = Length::from_um(10'030), .margin = 10 * mm});
  const PrintedPage other = setting_out_pages(off).at(0);
  // where the field begins at the datum corner, its numbers keep clear of the filled square
  const PageBox& datum = page.boxes.back();
  REQUIRE(datum.fill == look::accent);
  for (const PageText& text : page.texts) {
    const handlaid_test::Extent extent = handlaid_test::extent_of(text);
    CHECK((extent.right < datum.at.x || extent.left > datum.at.x + datum.size.width || extent.bottom < datum.at.y ||
           extent.top > datum.at.y + datum.size.height));
  }
  CHECK(says(other, "It begins 5 mm from the left edge and 5 mm from the bottom edge."));
  CHECK(says(other, "None is further from its place than 0.05 mm"));
}

TEST_CASE("setting out keeps to its pages for boards of any shape and size") {
  check_pages(setting_out_pages(small_plan({.columns = 400, .rows = 6, .pitch = 8 * mm})));
  check_pages(setting_out_pages(small_plan({.columns = 6, .rows = 400, .pitch = 8 * mm})));
  check_pages(setting_out_pages(small_plan({.columns = 1, .rows = 1, .pitch = 20 * mm, .margin = 3 * mm})));
  check_pages(setting_out_pages(small_plan(
      {.columns = 60, .rows = 40, .pitch = 0.8125 * inch, .units = LengthUnit::inches, .margin = 1 * inch})));
  Plan titled = small_plan({.columns = 400, .rows = 400, .pitch = 12 * mm});
  titled.job.title = "\xf0\x9f\x90\x8c \"Heron\" and a title that is far too long for the head of any page at all";
  const std::vector<PrintedPage> pages = setting_out_pages(titled);
  CHECK(pages.size() == 3);
  check_pages(pages);
}
