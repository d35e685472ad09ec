#include "handlaid/sheets/book_painting.hpp"

#include <set>
#include <sstream>

#include "sheets/well_formed.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;
using handlaid_test::occurrences;

namespace {

struct Made {
  Palette palette = {};
  PaintingPages pages = {};
};

Made made(int courses, int columns, int faces) {
  std::vector<std::string> rows;
  for (int y = 0; y < courses; ++y) {
    rows.emplace_back();
    for (int x = 0; x < columns; ++x) rows.back() += static_cast<char>('1' + (x * (y % 5 + 1) / 7 + x * y / 13) % 7);
  }
  Chart<> chart = chart_of(rows, 7, 12 * mm);
  const Srgb8 colours[] = {{30, 60, 90},  {200, 180, 90}, {240, 240, 230}, {150, 40, 30},
                           {40, 110, 70}, {110, 90, 70},  {20, 20, 25}};
  for (std::size_t i = 0; i < 7; ++i) chart.palette.entries[i].colour = colours[i];
  Made result{.palette = chart.palette};
  PaintingPages& pages = result.pages;
  pages.strips = chart | Strips{};
  pages.paint = pages.strips | Painting{.faces = faces};
  pages.batches = pages.strips | Batches{};
  pages.schedule = PaintDays{}(pages.batches, pages.paint);
  Stock stock{.currency = "EUR"};
  for (const PaletteEntry& entry : chart.palette.entries) {
    stock.colours.push_back({.name = entry.name, .colour = entry.colour, .packs = {{50, 390}, {250, 1'150}}});
  }
  stock.unit = StockUnit::millilitres;
  pages.pots = paint_needs(pages.paint, chart.palette) | choose_packs(stock);
  return result;
}

std::string page_of(const Made& m, LengthUnit unit) {
  Markup page;
  begin_book(page, "Painting");
  add_painting(page, m.pages, m.palette, unit);
  end_book(page);
  return std::move(page).finish();
}

}  // namespace

TEST_CASE("the pages on painting name the best way, every pot of every sitting, and the caution") {
  const Made m = made(30, 40, 2);
  const std::string text = page_of(m, LengthUnit::millimetres);
  const auto document = handlaid_test::read_markup(text.substr(text.find('\n') + 1));
  CHECK(document.fault.empty());
  CHECK_THAT(text, contains(std::string(caution(Hazard::glue_and_paint)).substr(0, 20)));
  CHECK_THAT(text, contains("turn its strips over"));
  CHECK_THAT(text, contains("off your skin"));
  CHECK_THAT(text, contains("Pour all cans of a colour together"));

  std::size_t marked = 0;
  for (std::size_t at = text.find("use this one"); at != std::string::npos; at = text.find("use this one", at + 1)) {
    ++marked;
  }
  CHECK(marked == 1);
  // A paragraph for each pot opening of a batch, and a box for each coat of each face of a sitting.
  const PaintWay& way = m.pages.schedule.ways.at(m.pages.schedule.recommended);
  std::int64_t pots = 0;
  int sittings = 0;
  for (const Batch& batch : m.pages.batches.batches) {
    pots += way.sittings == 0 ? batch.frontier.kinds : batch.plan_within(way.sittings).take_ups;
    sittings += way.sittings == 0 ? batch.frontier.kinds : batch.plan_within(way.sittings).rounds;
  }
  CHECK(static_cast<std::int64_t>(occurrences(text, "<p style=\"--pot:#")) == pots);
  CHECK(static_cast<int>(document.all("h4").size()) == sittings);
  CHECK(occurrences(text, "Wait until it is dry") == sittings);
  CHECK(static_cast<int>(document.all("input", "class", "tick").size()) ==
        sittings * m.pages.paint.coats * m.pages.paint.faces);
  for (const PaintWay& each : m.pages.schedule.ways) CHECK_THAT(text, contains(count_text(each.openings)));
}

TEST_CASE("the pots of all sittings paint every section once, from mark to mark") {
  for (const LengthUnit unit : {LengthUnit::millimetres, LengthUnit::inches}) {
    const Made m = made(30, 40, 1);
    const std::string text = page_of(m, unit);
    // What each line says: number of the colour, course, and the marks as they are written.
    std::multiset<std::string> painted;
    for (std::size_t at = text.find("<p style=\"--pot:"); at != text.npos;
         at = text.find("<p style=\"--pot:", at + 1)) {
      const std::size_t from = text.find('>', at) + 1;
      std::istringstream pot(text.substr(from, text.find('<', from) - from));
      std::string line;
      std::getline(pot, line);
      const std::string number = line.substr(0, line.find(' '));
      while (std::getline(pot, line)) {
        const std::string course = line.substr(0, line.find(':'));
        std::string rest = line.substr(course.size() + 2) + ", ";
        for (std::size_t end = rest.find(", "); end != rest.npos; end = rest.find(", ")) {
          painted.insert(number + " on " + course + ": " + rest.substr(0, end));
          rest.erase(0, end + 2);
        }
      }
    }
    std::multiset<std::string> wanted;
    for (const Strip& strip : m.pages.strips.strips) {
      for (const StripSection& section : strip.sections) {
        const bool metric = unit == LengthUnit::millimetres;
        std::string marks =
            mark_text(section.start, unit) + (metric ? "\u2011" : " to ") + mark_text(section.end, unit);
        for (std::size_t space = marks.find(' '); space != marks.npos; space = marks.find(' ')) {
          marks.replace(space, 1, "\u202f");
        }
        wanted.insert(std::to_string(section.number) + " on " + std::to_string(strip.course) + ": " + marks);
      }
    }
    CHECK(painted == wanted);
  }
}

TEST_CASE("the pages on painting refuse parts that do not belong together") {
  Made m = made(6, 10, 1);
  CHECK_THAT(page_of(m, LengthUnit::inches), contains("in inches"));
  m.pages.strips.strips.pop_back();
  CHECK_THROWS_WITH(page_of(m, LengthUnit::millimetres), contains("other strips"));
  m.pages.schedule.ways.clear();
  CHECK_THROWS_WITH(page_of(m, LengthUnit::millimetres), contains("no way to paint"));
}

TEST_CASE("amounts and times as a maker reads them") {
  CHECK(detail::paint_amount_text(350) == "350 ml");
  CHECK(detail::paint_amount_text(1'301) == "1.4 l");
  CHECK(time_text(45 * 60) == "45\u00a0min");
  CHECK(time_text(12'000) == "3\u00a0h 20\u00a0min");
}
