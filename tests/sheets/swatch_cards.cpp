#include "handlaid/sheets/swatch_cards.hpp"

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

/// The large numbers of all pages, in their order.
std::vector<std::string> big_numbers(const std::vector<PrintedPage>& pages) {
  std::vector<std::string> numbers;
  for (const PrintedPage& page : pages) {
    for (const PageText& text : page.texts) {
      if (text.em == 14 * mm) numbers.push_back(text.text);
    }
  }
  return numbers;
}

void check_pages(const std::vector<PrintedPage>& pages) {
  for (const PrintedPage& page : pages) {
    CHECK(outside_of_margins(page) == std::vector<std::string>{});
    CHECK(overlapping_texts(page) == std::vector<std::string>{});
    CHECK(low_digits(page) == std::vector<std::string>{});
  }
}

}  // namespace

TEST_CASE("each colour that is laid has a card with its number, counts and packs") {
  Plan plan = small_plan({.colours = 11});
  plan.pieces.lines[4].cells = 0;
  const std::vector<PrintedPage> pages = swatch_card_pages(plan);
  CHECK(big_numbers(pages) == std::vector<std::string>{"1", "2", "3", "4", "6", "7", "8", "9", "10", "11"});
  REQUIRE(pages.size() == 2);
  for (std::size_t i = 0; i < plan.pieces.lines.size(); ++i) {
    const PieceLine& line = plan.pieces.lines[i];
    if (line.cells == 0) continue;
    const PrintedPage& page = pages[i < 9 ? 0 : 1];
    CHECK(text_of(page, plan.chart.palette[line.number].name) != nullptr);
    CHECK(text_of(page, count_text(line.cells) + " cells") != nullptr);
    CHECK(text_of(page, count_text(line.pieces + line.spares + line.trials) + " pieces") != nullptr);
    CHECK(text_of(page, count_text(line.spares) + " are spares") != nullptr);
  }
  // 82 cells of two pieces and 9 spares are 173: of packs of 250 and 40 the cheapest is one of 250, after one in hand
  const OrderLine& second = plan.order->lines[1];
  REQUIRE(second.packs.size() == 1);
  CHECK(text_of(pages[0], "packs: " + std::to_string(second.packs[0].count) + " of " +
                              std::to_string(second.packs[0].pack.pieces) + ", 1 in hand") != nullptr);
  CHECK(text_of(pages[1], "page 2 of 2") != nullptr);
  check_pages(pages);
}

TEST_CASE("a card has its colour beside a free box of the same size") {
  const Plan plan = small_plan({.colours = 3});
  const PrintedPage page = swatch_card_pages(plan).at(0);
  REQUIRE(page.boxes.size() == 7);
  const std::vector<PageBox> boxes(page.boxes.begin() + 1, page.boxes.end());  // the first is the bar of the caution
  for (std::size_t i = 0; i < 3; ++i) {
    const PageBox& swatch = boxes[2 * i];
    const PageBox& free_box = boxes[2 * i + 1];
    CHECK(swatch.fill == plan.chart.palette.entries[i].colour);
    CHECK(free_box.fill == Srgb8{255, 255, 255});
    CHECK(free_box.size == swatch.size);
    CHECK(free_box.at == PagePoint{swatch.at.x + swatch.size.width, swatch.at.y});
    // cards are 90 x 56 mm, so that they are cut with few strokes
    CHECK((swatch.at.x - boxes[0].at.x).um() == static_cast<std::int64_t>(i % 2) * 90'000);
    CHECK((swatch.at.y - boxes[0].at.y).um() == static_cast<std::int64_t>(i / 2) * 56'000);
  }
  int cuts = 0;
  for (const PageLine& line : page.lines) cuts += line.dash > Length{} ? 1 : 0;
  CHECK(cuts == 3 + 3);
}

TEST_CASE("painted strips have cards with sections and paint") {
  const Plan plan = small_plan({.method = Method::strips});
  const std::vector<PrintedPage> pages = swatch_card_pages(plan);
  const PaintLine& line = plan.fabrication.paint->lines.at(3);
  CHECK(text_of(pages.at(0), count_text(line.sections) + " sections") != nullptr);
  CHECK(text_of(pages.at(0), count_text(line.ml) + " ml of paint") != nullptr);
  check_pages(pages);
}

TEST_CASE("any name stands on a card without leaving its place") {
  for (const LengthUnit unit : {LengthUnit::millimetres, LengthUnit::inches}) {
    Plan plan = small_plan({.colours = 8, .units = unit});
    std::vector<PaletteEntry>& entries = plan.chart.palette.entries;
    entries[0].name = "a very long name that a shop has given its colour, \"warm\" & <deep>";
    entries[1].name = "\xf0\x9f\x90\x8c\xf0\x9f\x90\x8c snail";
    entries[2].name = "\xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d";
    entries[3].name = std::string(200, 'm');
    entries[4].name = "";
    entries[5].name = "     ";
    entries[6].name = "\xff\xfe broken bytes in a name";
    plan.job.title = "A title that is far too long for the head of a page of cards, and then some more of it";
    const std::vector<PrintedPage> pages = swatch_card_pages(plan);
    REQUIRE(pages.size() == 1);
    CHECK(pages[0].size == size_of(unit == LengthUnit::inches ? Paper::letter : Paper::a4));
    check_pages(pages);
  }
}

TEST_CASE("a name is parted at the space nearest to its middle") {
  CHECK(name_lines("short", 10).first == "short");
  CHECK(name_lines("short", 10).second.empty());
  CHECK(name_lines("warm light grey", 10).first == "warm");
  CHECK(name_lines("warm light grey", 10).second == "light grey");
  CHECK(name_lines("withoutanyspace", 10).first == "withoutanyspace");
  CHECK(name_lines("withoutanyspace", 10).second.empty());
}

TEST_CASE("999 colours have 125 pages of cards, and nothing laid has none") {
  Plan plan = small_plan({.columns = 100, .rows = 100, .colours = 2});
  for (int n = 3; n <= most_colours; ++n) {
    plan.chart.palette.entries.push_back({.name = "colour " + std::to_string(n)});
    plan.pieces.lines.push_back({.number = n, .cells = 1'234'567, .pieces = 123'456'789, .spares = 1'234});
  }
  const std::vector<PrintedPage> pages = swatch_card_pages(plan);
  CHECK(pages.size() == 125);
  CHECK(big_numbers(pages).size() == 999);
  for (const PrintedPage& page : pages) CHECK(overlapping_texts(page) == std::vector<std::string>{});
  plan.pieces.lines.clear();
  CHECK(swatch_card_pages(plan).empty());
}
