#include "handlaid/sheets/strip_sheets.hpp"

#include <algorithm>
#include <set>

#include "handlaid/sheets/strip_tiles.hpp"
#include "sheets/page_checks.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using Catch::Contains;
using handlaid_test::low_digits;
using handlaid_test::outside_of_margins;
using handlaid_test::overlapping_texts;
using handlaid_test::PlanOptions;
using handlaid_test::small_plan;

namespace {

constexpr std::int64_t pitch_um = 9'527;

/// A plan of strips whose sections are of all lengths, with gaps inside and at the ends.
Plan strip_plan(PlanOptions options, const Strips& how = {.fold = Fold::lengthwise}, int longest = 17) {
  options.method = Method::strips;
  Plan plan = small_plan(options);
  for (int y = 0; y < options.rows; ++y) {
    int left = 0;
    int number = y;
    for (int x = 0; x < options.columns; ++x) {
      if (left == 0) {
        number = (number + 1 + y % 3) % (options.colours + 1);
        left = 1 + (x * 7 + y * 5) % longest;
      }
      --left;
      plan.chart.numbers(x, y) = static_cast<ColourNumber>(number);
    }
    plan.chart.numbers(2, y) = 1;  // no course is empty
  }
  plan.tally = plan.chart | tally;
  plan.pieces = plan.chart | Pieces{.per_cell = 2};
  plan.strips = plan.chart | how;
  const Patch pilot = plan.chart | PilotPatch{.columns = 1, .courses = 1};
  plan.fabrication =
      fabricate(plan.job, {plan.chart, plan.tally, plan.pieces, plan.order, plan.strips, plan.marks, pilot});
  return plan;
}

/// The lanes of a page, from below: what has an outline and no fill.
std::vector<PageBox> lanes_of(const PrintedPage& page) {
  std::vector<PageBox> lanes;
  for (const PageBox& box : page.boxes) {
    if (!box.filled) lanes.push_back(box);
  }
  return lanes;
}

/// The heavy lines across the middle of a lane, as places on the page.
std::set<std::int64_t> boundaries_of(const PrintedPage& page, const PageBox& lane) {
  const Length middle = lane.at.y + lane.size.height.divided(2);
  std::set<std::int64_t> found;
  for (const PageLine& line : page.lines) {
    if (line.from.x != line.to.x || line.width != Length::from_um(350)) continue;
    if (std::min(line.from.y, line.to.y) < lane.at.y - 2 * mm && std::max(line.from.y, line.to.y) > middle) {
      // it comes out on both sides of the strip, and ends before the next lane
      CHECK(std::max(line.from.y, line.to.y) == lane.at.y + lane.size.height + 2 * mm);
      if (std::min(line.from.y, line.to.y) > lane.at.y - 20 * mm) found.insert(line.from.x.um());
    }
  }
  return found;
}

/// Lines where the number of a course changes, both ends of what is laid included; read from the chart itself.
std::set<int> changes_of(const Plan& plan, int course, int first, int last) {
  std::set<int> lines;
  const auto cells = plan.chart.course(course);
  int end = plan.chart.columns();
  while (end > 0 && cells[static_cast<std::size_t>(end) - 1] == 0) --end;
  for (int line = 0; line <= end; ++line) {
    const auto at = static_cast<std::size_t>(line);
    const bool changes = line == 0 || line == end || cells[at - 1] != cells[at];
    if (changes && line >= first - 1 && line <= last) lines.insert(line);
  }
  return lines;
}

/// The numbers above a lane stand in sections of that number, and each section of the columns has one.
void check_numbers(const Plan& plan, const PrintedPage& page, const PageBox& lane, int course, int first, int last) {
  const auto cells = plan.chart.course(course);
  std::set<int> named;  // columns that begin a run on this page
  for (const PageText& text : page.texts) {
    if (!text.centred || text.at.y >= lane.at.y || text.at.y < lane.at.y - 8 * mm) continue;
    if (text.at.x < lane.at.x || text.at.x > lane.at.x + lane.size.width) continue;
    if (!text.bold || text.anchor != TextAnchor::middle || text.em > 3.2 * mm || text.text == "0") continue;
    const std::int64_t from_left = (text.at.x - lane.at.x).um();
    int column = first + static_cast<int>(from_left / plan.chart.lattice.pitch_x().um());
    CHECK(std::to_string(cells[static_cast<std::size_t>(column) - 1]) == text.text);
    while (column > first && cells[static_cast<std::size_t>(column) - 2] == cells[static_cast<std::size_t>(column) - 1])
      --column;
    named.insert(column);
  }
  for (int column = first; column <= last; ++column) {
    const auto at = static_cast<std::size_t>(column) - 1;
    if (cells[at] == 0 || (column > first && cells[at - 1] == cells[at])) continue;
    CAPTURE(page.name, course, column);
    CHECK(named.count(column) == 1);
  }
}

/// All text of a page, lines broken by its width joined again.
std::string words_of(const PrintedPage& page) {
  std::string words;
  for (const PageText& text : page.texts) words += text.text + " ";
  return words;
}

bool says_small(const PrintedPage& page) { return words_of(page).find("Numbers are small") != std::string::npos; }

void check_page(const PrintedPage& page) {
  CHECK(outside_of_margins(page) == std::vector<std::string>{});
  CHECK(overlapping_texts(page) == std::vector<std::string>{});
}

}  // namespace

TEST_CASE("a marking sheet has every boundary of every strip at its place, to the micrometre") {
  const Plan plan = strip_plan({.columns = 83, .rows = 30, .pitch = Length::from_um(pitch_um)});
  const std::vector<PrintedPage> pages = strip_sheets(plan);
  const std::vector<Batch>& batches = plan.fabrication.batches->batches;
  REQUIRE(pages.size() == 3);
  REQUIRE(batches.size() == 3);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::vector<PageBox> lanes = lanes_of(pages[i]);
    REQUIRE(lanes.size() == batches[i].strips.size());
    for (std::size_t k = 0; k < lanes.size(); ++k) {
      const Strip& strip = plan.strips->strips[batches[i].strips[k]];
      CHECK(lanes[k].size.height == plan.strips->flat_width);
      CHECK(lanes[k].size.width == strip.length());
      CHECK(lanes[k].at.x == lanes[0].at.x);
      if (k > 0) CHECK(lanes[k].at.y + lanes[k].size.height + 8 * mm <= lanes[k - 1].at.y);
      std::set<std::int64_t> expected;
      for (const int line : changes_of(plan, strip.course, 1, 83)) {
        expected.insert(lanes[k].at.x.um() + pitch_um * line);
      }
      CHECK(boundaries_of(pages[i], lanes[k]) == expected);
      check_numbers(plan, pages[i], lanes[k], strip.course, 1, strip.sections.back().last_column);
      int ends = 0;
      for (const PageText& text : pages[i].texts) {
        const Length middle = lanes[k].at.y + lanes[k].size.height.divided(2);
        if (text.at.y == middle && text.text == std::to_string(strip.course)) ++ends;
      }
      CHECK(ends == 2);
    }
    check_page(pages[i]);
    CHECK(low_digits(pages[i]) == std::vector<std::string>{});
  }
}

TEST_CASE("the long lines of a marking sheet stand each ten cells, with their marks from the datum end") {
  const Plan plan = strip_plan({.columns = 83, .rows = 12, .pitch = Length::from_um(pitch_um)});
  const PrintedPage page = strip_sheets(plan).at(0);
  const std::vector<PageBox> lanes = lanes_of(page);
  std::set<std::int64_t> found;
  for (const PageLine& line : page.lines) {
    if (line.from.x != line.to.x) continue;
    const Length top = std::min(line.from.y, line.to.y);
    const Length bottom = std::max(line.from.y, line.to.y);
    if (top < lanes.back().at.y && bottom > lanes.front().at.y + lanes.front().size.height) {
      found.insert((line.from.x - lanes[0].at.x).um());
    }
  }
  CHECK(found == std::set<std::int64_t>{0, 95'270, 190'540, 285'810, 381'080, 476'350, 571'620, 666'890, 762'160});
  for (const char* mark : {"95.3", "190.5", "285.8", "381.1", "476.4", "571.6", "666.9", "762.2"}) {
    CHECK(handlaid_test::text_of(page, mark) != nullptr);
  }
}

TEST_CASE("tiles of a marking sheet show the same boundaries and say where their corners lie") {
  const Plan plan = strip_plan({.columns = 83, .rows = 30, .pitch = Length::from_um(pitch_um)});
  std::vector<std::set<std::size_t>> rows_of(31);
  std::vector<std::set<int>> seen(31);
  std::size_t lanes_seen = 0;
  std::vector<PrintedPage> tiles = strip_tile_pages(plan);
  check_page(tiles.at(0));
  tiles.erase(tiles.begin());  // the page that says how
  for (const PrintedPage& page : tiles) {
    CHECK(page.size == size_of(Paper::a4));
    check_page(page);
    CHECK(low_digits(page) == std::vector<std::string>{});
    // the corners, from the page's own words
    std::set<std::int64_t> along;
    std::set<std::int64_t> up;
    for (const PageText& text : page.texts) {
      const std::size_t comma = text.text.find(" along, ");
      if (comma == std::string::npos) continue;
      along.insert(std::stoll(text.text));
      CHECK(text.at.x > lanes_of(page).front().at.x);  // the left margin may be cut off, its corners' places stay
      up.insert(std::stoll(text.text.substr(comma + 8)));
    }
    REQUIRE(along.size() == 2);
    REQUIRE(up.size() == 2);
    const int first = static_cast<int>((*along.begin() * 1'000 + pitch_um / 2) / pitch_um) + 1;
    const int last = static_cast<int>((*along.rbegin() * 1'000 + pitch_um / 2) / pitch_um);
    // tiles of further rows begin a sheet higher, so that no margin hides what another tile shows
    CHECK(*up.begin() % 297 == 0);
    const auto row = static_cast<std::size_t>(*up.begin() / 297);
    for (const PageBox& lane : lanes_of(page)) {
      ++lanes_seen;
      int course = 0;
      for (const PageText& text : page.texts) {
        if (text.at.y == lane.at.y + lane.size.height.divided(2) && text.anchor == TextAnchor::right)
          course = std::stoi(text.text);
      }
      REQUIRE(course >= 1);
      rows_of[static_cast<std::size_t>(course)].insert(row);
      std::set<std::int64_t> expected;
      for (const int line : changes_of(plan, course, first, last)) {
        expected.insert(lane.at.x.um() + pitch_um * (line - first + 1));
        seen[static_cast<std::size_t>(course)].insert(line);
      }
      CHECK(boundaries_of(page, lane) == expected);
      const int end = first + static_cast<int>(lane.size.width.um() / pitch_um) - 1;
      check_numbers(plan, page, lane, course, first, end);
    }
  }
  // a tile speaks of the red line only where it has it
  for (const PrintedPage& page : tiles) {
    const std::string words = words_of(page);
    CHECK((words.find("Cut off the left margin") != std::string::npos) ==
          (words.find(" 0 along") == std::string::npos));
    bool red = false;
    for (const PageLine& line : page.lines) red = red || (line.colour == look::accent && line.width == 0.45 * mm);
    CHECK((words.find("red line") != std::string::npos) == red);
    CHECK((words.find("0 of the bench") != std::string::npos) == !red);
  }
  CHECK(lanes_seen >= 30U * 5U - 10U);
  for (std::size_t course = 1; course <= 30; ++course) {
    CHECK(rows_of[course].size() == 1);  // all of a strip in one row of its batch, and rows go up as courses do
    if (course % 12 != 1) CHECK(*rows_of[course].begin() >= *rows_of[course - 1].begin());
    if (course % 12 == 1) CHECK(*rows_of[course].begin() == 0);
  }
  for (int course = 1; course <= 30; ++course) {
    CHECK(seen[static_cast<std::size_t>(course)] == changes_of(plan, course, 1, 83));
  }
}

TEST_CASE("narrow cells turn their numbers, and only cells narrower than a digit make them small") {
  const Plan narrow = strip_plan({.columns = 60, .rows = 8, .colours = 120, .pitch = 3 * mm}, {}, 2);
  for (const PrintedPage& page : strip_sheets(narrow)) {
    check_page(page);
    CHECK(low_digits(page) == std::vector<std::string>{});
    const std::vector<PageBox> lanes = lanes_of(page);
    REQUIRE(lanes.size() == 8);
    int turned = 0;
    for (const PageText& text : page.texts) turned += text.quarter_turns == 1 ? 1 : 0;
    CHECK(turned > 100);
    CHECK_FALSE(says_small(page));
  }
  const Plan tiny = strip_plan({.columns = 100, .rows = 8, .colours = 120, .pitch = 1.5 * mm}, {}, 2);
  for (const PrintedPage& page : strip_sheets(tiny)) {
    CHECK(overlapping_texts(page) == std::vector<std::string>{});
    CHECK(outside_of_margins(page) == std::vector<std::string>{});
    CHECK(says_small(page));
  }
}

TEST_CASE("marking sheets keep to their margins with folds, trim, tints and inches") {
  for (const Fold fold : {Fold::none, Fold::end_to_end, Fold::lengthwise}) {
    for (const LengthUnit unit : {LengthUnit::millimetres, LengthUnit::inches}) {
      Plan plan = strip_plan({.columns = 70, .rows = 14, .pitch = 0.5 * inch, .units = unit},
                             {.fold = fold, .overlap = 3 * mm, .trim = 20 * mm});
      plan.job.print.tint = true;
      plan.job.title =
          "\"Reiher\" \xf0\x9f\x90\x8c \xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d & a title that is far too long for its head";
      for (const PrintedPage& page : strip_sheets(plan)) check_page(page);
      for (const PrintedPage& page : strip_tile_pages(plan)) {
        check_page(page);
        CHECK(page.size == size_of(unit == LengthUnit::inches ? Paper::letter : Paper::a4));
      }
    }
  }
}

TEST_CASE("a strip folded end to end is marked by one lane: its middle lies where the lane ends") {
  for (const Length trim : {Length{}, 25 * mm}) {
    const Plan plan = strip_plan({.columns = 60, .rows = 9}, {.fold = Fold::end_to_end, .trim = trim});
    const std::vector<PrintedPage> pages = strip_sheets(plan);
    REQUIRE(pages.size() == 1);
    const std::vector<PageBox> lanes = lanes_of(pages[0]);
    REQUIRE(lanes.size() == 9);
    for (std::size_t k = 0; k < lanes.size(); ++k) {
      const Strip& strip = plan.strips->strips[k];
      const Length fold = lanes[k].at.x + plan.strips->flat_length(strip).divided(2);
      int folds = 0;
      for (const PageLine& line : pages[0].lines) {
        if (line.dash == Length{} || line.width != Length::from_um(350) || line.from.x != line.to.x) continue;
        if (line.from.y > lanes[k].at.y || line.to.y < lanes[k].at.y + lanes[k].size.height) continue;
        ++folds;
        CHECK(line.from.x == fold);
      }
      CHECK(folds == 1);
      // What is painted of the whole strip, by the paint takeoff's own rule that both layers get it: the second layer
      // lies face to face with the first, so a mark has its twin as far beyond the fold as it is before it. Turned end
      // for end, the twins are the marks again.
      for (const std::int64_t mark : boundaries_of(pages[0], lanes[k])) {
        const std::int64_t from_start = mark - lanes[k].at.x.um();
        const std::int64_t twin = 2 * (fold - lanes[k].at.x).um() - from_start;
        CHECK(plan.strips->flat_length(strip).um() - twin == from_start);
      }
    }
    const auto says = [](const PrintedPage& page, const char* words) {
      return std::any_of(page.texts.begin(), page.texts.end(),
                         [&](const PageText& text) { return text.text.find(words) != text.text.npos; });
    };
    CHECK(says(pages[0], "one half of a strip"));
    CHECK(says(pages[0], "turn the strip end for end"));
    // the guide of the tiles says the same, and the tiles at the far end where the fold is
    int tiles = 0;
    for (const PrintedPage& page : strip_tile_pages(plan)) tiles += says(page, "Heavy dashes: the fold") ? 1 : 0;
    CHECK(tiles > 0);
    CHECK(words_of(strip_tile_pages(plan)[0]).find("one half of a strip") != std::string::npos);
  }
}

TEST_CASE("batches that are no neighbours name each course") {
  Plan plan = strip_plan({.columns = 40, .rows = 20});
  plan.fabrication.batches = *plan.strips | Batches{.strips_per_batch = 5, .order = BatchOrder::by_colours};
  std::multiset<std::string> courses;
  for (const PrintedPage& page : strip_sheets(plan)) {
    for (const PageText& text : page.texts) {
      if (text.em == 4.2 * mm) courses.insert(text.text);
    }
  }
  for (int course = 1; course <= 20; ++course) CHECK(courses.count(std::to_string(course)) == 2);
  // the lowest course is at the bottom all the same
  for (const PrintedPage& page : strip_sheets(plan)) {
    int above = 21;
    for (std::size_t lane = lanes_of(page).size(); lane-- > 0;) {
      const PageBox box = lanes_of(page)[lane];
      for (const PageText& text : page.texts) {
        if (text.at.y != box.at.y + box.size.height.divided(2) || text.anchor != TextAnchor::left) continue;
        CHECK(std::stoi(text.text) < above);
        above = std::stoi(text.text);
      }
    }
  }
  plan.fabrication.batches = *plan.strips | Batches{.strips_per_batch = 19, .order = BatchOrder::by_colours};
  for (const PrintedPage& page : strip_sheets(plan)) {
    check_page(page);
    CHECK(low_digits(page) == std::vector<std::string>{});
  }
}

TEST_CASE("a plan without strips has no marking sheets, and what cannot be printed is refused") {
  CHECK(strip_sheets(small_plan()).empty());
  CHECK(strip_tile_pages(small_plan()).empty());
  CHECK(strip_tile_count(small_plan()) == 0);
  const Plan plan = strip_plan({.columns = 20, .rows = 4});
  CHECK_THROWS_WITH(strip_sheets(plan, {.gap = 201 * mm}), Contains("gap of strips") && Contains("0 to 200 mm"));
  CHECK_THROWS_WITH(strip_tile_pages(plan, {.gap = Length{} - 1 * mm}), Contains("out of range"));
  const Plan wide = strip_plan({.columns = 4, .rows = 2, .pitch = 150 * mm});
  CHECK_THROWS_WITH(strip_tile_pages(wide), Contains("A4 does not hold one cell of a strip that is 300 mm wide"));
  CHECK(strip_sheets(wide).size() == 1);
}

TEST_CASE("a panel of 400 courses has as many marking sheets as batches") {
  const Plan plan = strip_plan({.columns = 300, .rows = 400, .pitch = 8 * mm});
  const std::vector<PrintedPage> pages = strip_sheets(plan);
  CHECK(pages.size() == 34);
  std::size_t lines = 0;
  for (const PrintedPage& page : pages) lines += page.lines.size();
  // a boundary a section, and ticks, arrows and long lines
  std::size_t sections = 0;
  for (const Strip& strip : plan.strips->strips) sections += strip.sections.size() + 1;
  CHECK(lines > sections);
  CHECK(lines < sections + 34 * 1'000);
  // 20 columns and 8 lanes fit on A4: 15 x 2 tiles for each of 33 batches of 12, 15 for the last four strips
  CHECK(strip_tile_count(plan) == 33 * 30 + 15);
  CHECK(strip_tile_pages(plan).size() == 33 * 30 + 15 + 1);  // and the page that says how
}
