#include "handlaid/sheets/bench_book.hpp"

#include <set>
#include <sstream>

#include "sheets/small_plan.hpp"
#include "sheets/well_formed.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::Document;
using handlaid_test::Element;
using handlaid_test::number_of;
using handlaid_test::occurrences;
using handlaid_test::PlanOptions;
using handlaid_test::read_markup;
using handlaid_test::small_plan;

namespace {

/// The rows of the body of the table that follows the heading of a section: the text of each cell, tags dropped. Marks
/// that stand in one cell, parted by tabs, are a cell each.
std::vector<std::vector<std::string>> rows_of(const std::string& page, const std::string& section) {
  std::string text = page.substr(page.find("<section id=\"" + section + "\""));
  text = text.substr(text.find("<tbody>"));
  text = text.substr(0, text.find("</tbody>"));
  std::vector<std::vector<std::string>> rows;
  for (std::size_t at = 0; at < text.size();) {
    if (text.compare(at, 3, "<tr") == 0) rows.emplace_back();
    if (text.compare(at, 3, "<td") == 0 || text.compare(at, 3, "<th") == 0) rows.back().emplace_back();
    if (text[at] == '<') {
      at = text.find('>', at) + 1;
    } else {
      if (text[at] == '\t') {
        rows.back().emplace_back();
      } else if (!rows.empty() && !rows.back().empty()) {
        rows.back().back() += text[at];
      }
      ++at;
    }
  }
  for (auto& row : rows) {
    if (row.back().ends_with('\n')) row.back().pop_back();
  }
  return rows;
}

}  // namespace

TEST_CASE("the book is one well-formed page that fetches nothing") {
  for (const Method method : {Method::pieces, Method::strips}) {
    for (const LengthUnit units : {LengthUnit::millimetres, LengthUnit::inches}) {
      const std::string page = bench_book(small_plan({.method = method, .units = units, .margin = 8 * mm}), "png");
      const Document read = read_markup(page);
      CHECK(read.fault == "");
      CHECK(page.rfind("<!DOCTYPE html>", 0) == 0);
      CHECK(read.elements.front().attributes.at("lang") == "en");
      CHECK(occurrences(page, "http:") + occurrences(page, "https:") == 0);
      CHECK(occurrences(page, "@import") == 0);
      CHECK(occurrences(page, "url(") == 0);
      // the data of the plan, and the script that shows it
      REQUIRE(read.all("script").size() == 2);
      CHECK(read.all("script")[0].attributes.at("type") == "application/json");
      CHECK(read.all("script", "src").empty());
      CHECK(read.all("link").empty());
      CHECK(read.all("h1").size() == 1);
      for (const Element& image : read.all("img")) {
        CHECK(image.attributes.at("src") == "data:image/png;base64,cG5n");
        CHECK_FALSE(image.attributes.at("alt").empty());
      }
      // W3C technique H63: header cells say what they head
      for (const Element& head : read.all("th")) {
        CHECK((head.attributes.at("scope") == "col" || head.attributes.at("scope") == "row"));
      }
      // no heading skips a level
      int level = 1;
      for (const Element& element : read.elements) {
        if (element.tag.size() != 2 || element.tag[0] != 'h' || element.tag[1] < '1' || element.tag[1] > '4') continue;
        CHECK(element.tag[1] - '0' <= level + 1);
        level = element.tag[1] - '0';
      }
      // the contents lead somewhere
      for (const Element& link : read.all("a")) {
        CHECK(occurrences(page, " id=\"" + link.attributes.at("href").substr(1) + "\"") == 1);
      }
    }
  }
}

TEST_CASE("counts in the book are the plan's") {
  const Plan plan = small_plan();
  const std::string page = bench_book(plan, "");
  const auto palette = rows_of(page, "palette");
  REQUIRE(palette.size() == 12);
  for (std::size_t i = 0; i < 12; ++i) {
    const PieceLine& line = plan.pieces.lines[i];
    CHECK(number_of(palette[i][0]) == line.number);
    CHECK(palette[i][1] == "colour " + std::to_string(line.number) + to_hex(plan.chart.palette[line.number].colour));
    CHECK(number_of(palette[i][2]) == plan.tally.cells[i + 1]);
    CHECK(number_of(palette[i][3]) == plan.tally.cells[i + 1] * 2);
    CHECK(number_of(palette[i][4]) == line.spares);
    CHECK(number_of(palette[i][5]) == line.trials);
    CHECK(number_of(palette[i][6]) == line.needed());
  }
  // The order in two parts: the first table of the section is the pilot's, what it costs and the rest make the whole.
  const auto pilot = rows_of(page, "order");
  REQUIRE(pilot.size() == plan.fabrication.orders->pilot.lines.size());
  std::int64_t cost = plan.fabrication.orders->rest.cost_hundredths();
  for (const auto& row : pilot) cost += number_of(row.back());
  CHECK(cost == plan.order->cost_hundredths());
  CHECK_THAT(page, contains("For the pilot"));
  CHECK_THAT(page, contains("After the pilot has passed"));
  CHECK_THAT(page, contains(money_text(plan.order->cost_hundredths(), "EUR")));
  CHECK_THAT(page, contains("Colours 1 and 2 are close to each other."));
  CHECK_THAT(page, contains("As many as the stock has."));
}

TEST_CASE("the course list adds up: every run, every cell, ending on the marks of the board or of the strip") {
  for (const Method method : {Method::pieces, Method::strips}) {
    const Plan plan = small_plan({.method = method, .margin = 6 * mm});
    const std::string page = bench_book(plan, "");
    const auto courses = rows_of(page, "courses");
    REQUIRE(courses.size() == 35);
    std::vector<std::int64_t> cells(13, 0);
    for (std::size_t i = 0; i < courses.size(); ++i) {
      std::string words = courses[i][1];
      for (const std::string& sign : {std::string("×"), std::string("→")}) {
        for (std::size_t at = words.find(sign); at != words.npos; at = words.find(sign))
          words.replace(at, sign.size(), " ");
      }
      std::istringstream run(words);
      int column = 0;
      int length = 0;
      int runs = 0;
      std::string number;
      double mark = 0;
      while (run >> length >> number >> mark) {
        column += length;
        CHECK(mark == (method == Method::pieces ? 3 : 0) + column * 11);
        cells[number == "empty" ? 0 : static_cast<std::size_t>(std::stoi(number))] += length;
        ++runs;
      }
      CHECK(run.eof());
      CHECK(column == 26);
      CHECK_THAT(courses[i][0], contains(std::to_string(i + 1) + "\n" + std::to_string(runs) + " runs\n"));
    }
    CHECK(cells == plan.tally.cells);
    CHECK_THAT(page, contains(method == Method::pieces ? "millimetres from the left edge of the board"
                                                       : "millimetres from the datum end of the strip"));
    // A strip has its own box, beside the one of its course.
    CHECK(occurrences(page, "data-tick=\"strip ") == (method == Method::pieces ? 0 : 35));
    CHECK(occurrences(page, "href=\"#courses\"") == (method == Method::pieces ? 1 : 2));
  }
}

TEST_CASE("a course of which nothing is laid has no strip, and no box for one") {
  Plan plan = small_plan({.method = Method::strips});
  plan.fabrication = {};
  const auto missing = plan.strips->strips.begin() + 6;
  REQUIRE(missing->course == 7);
  plan.strips->strips.erase(missing);
  const Document read = read_markup(bench_book(plan, ""));
  CHECK(read.all("input", "data-tick", "strip 6").size() == 1);
  CHECK(read.all("input", "data-tick", "strip 7").empty());
  CHECK(read.all("input", "data-course", "7").size() == 1);
}

TEST_CASE("the book says how both halves of a strip that is folded end to end are marked and painted") {
  for (const Fold fold : {Fold::none, Fold::lengthwise, Fold::end_to_end}) {
    Plan plan = small_plan({.method = Method::strips});
    plan.strips->fold = fold;
    const std::string page = bench_book(plan, "");
    const int times = fold == Fold::end_to_end ? 1 : 0;
    CHECK(occurrences(page, "its two halves have the same marks, each from its own end") == times);
    CHECK(occurrences(page, "paint both halves alike in each sitting, either measured from its own end") == times);
  }
}

TEST_CASE("the other method's parts are left out") {
  const std::string pieces = bench_book(small_plan(), "");
  for (const char* section : {"strips", "painting", "cutting"}) {
    CHECK(occurrences(pieces, std::string("id=\"") + section + "\"") == 0);
  }
  // Only where the two methods are compared.
  const std::size_t hours = pieces.find("id=\"hours\"");
  CHECK(occurrences(pieces.substr(0, hours), "strip") == 0);
  const std::string strips = bench_book(small_plan({.method = Method::strips}), "");
  for (const char* section : {"order", "board", "strips", "painting", "cutting", "hours"}) {
    CHECK(occurrences(strips, std::string("id=\"") + section + "\"") == 1);
  }
  CHECK(occurrences(strips, "Spares") == 0);
}

TEST_CASE("setting out: marks from the datum, the diagonal, a 3-4-5 triangle") {
  const std::string page = bench_book(small_plan({.columns = 30, .rows = 40, .pitch = 20 * mm}), "");
  const auto across = rows_of(page, "marks");
  REQUIRE(across.size() == 4);
  CHECK(across[1] ==
        std::vector<std::string>{"10", "200", "220", "240", "260", "280", "300", "320", "340", "360", "380"});
  CHECK(across[3] == std::vector<std::string>{"30", "600"});
  CHECK_THAT(page, contains("Both diagonals of the laid field are 1000 mm"));  // 600, 800, 1000
  CHECK_THAT(page, contains("600 mm to the right, 800 mm up; between the two ends it must be 1000 mm"));
  const std::string inches = bench_book(small_plan({.pitch = 0.4375 * inch, .units = LengthUnit::inches}), "");
  // sixteenths, below them decimals
  const auto marks = rows_of(inches, "marks")[0];
  CHECK(std::vector<std::string>(marks.begin(), marks.begin() + 10) ==
        std::vector<std::string>{"0", "0", "7/16", "7/8", "1 5/16", "1 3/4\n0.00", "0.44", "0.88", "1.31", "1.75"});
}

TEST_CASE("names from others cannot break the book") {
  Plan plan = small_plan();
  plan.job.title = "</title><script>alert('x')</script> \"6\" & שלום 🌿 \xff\x07";
  plan.chart.palette.entries[3].name = "<img src=x onerror=alert(1)>";
  plan.order->lines[0].name = "</table>&nbsp;";
  plan.order->currency = "<b>";
  plan.notes = {"<h1>note</h1>"};
  plan.reasons = {{"<td>", "\"&\"", "</section>"}};
  const Document read = read_markup(bench_book(plan, ""));
  CHECK(read.fault == "");
  CHECK(read.all("script").size() == 2);
  CHECK_THAT(read.all("script")[0].text, contains("\"\\u003cimg src=x onerror=alert(1)>\""));
  CHECK(read.all("img").empty());
  CHECK(read.all("h1").size() == 1);
  CHECK(read.all("b").size() == read.all("p", "class", "care").size());
  CHECK(read.all("bdi")[0].text.rfind("&lt;/title&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;", 0) == 0);
}

TEST_CASE("the book stays small, with few elements") {
  // Where scripts run, what stands inside of noscript is text.
  const auto elements = [](const std::string& page) {
    const std::size_t begin = page.find("<noscript>");
    const std::size_t end = page.find("</noscript>");
    return read_markup(page.substr(0, begin) + page.substr(end + 11)).elements.size();
  };
  const std::string demo = bench_book(small_plan({.columns = 72, .rows = 96, .colours = 16}), "");
  CHECK(demo.size() < 1'500'000);
  CHECK(elements(demo) < 2'500);
  const std::string large = bench_book(small_plan({.columns = 300, .rows = 400, .colours = 20}), "");
  CHECK(large.size() < 6'000'000);
  CHECK(elements(large) < 5'000);

  // Painted strips, about as heavy as the plan of a photograph: 48,000 runs, a hundred sittings, 680 pots. What such a
  // plan has of pictures, at most 1.3 million bytes, and of further sittings comes on top; tests/browser weighs one.
  const Plan painted =
      small_plan({.columns = 300, .rows = 400, .colours = 20, .method = Method::strips, .grainy_rings = true});
  CHECK(painted.tally.total_runs() > 48'000);
  const std::string strips = bench_book(painted, "");
  CHECK(occurrences(strips, "<h4>") > 100);
  CHECK(occurrences(strips, "--pot:#") > 600);
  CHECK(strips.size() < 4'700'000);
  CHECK(elements(strips) < 4'800);
}

TEST_CASE("each course has a box, and no two boxes have one name") {
  for (const Method method : {Method::pieces, Method::strips}) {
    const Document read = read_markup(bench_book(small_plan({.method = method}), ""));
    std::set<std::string> names;
    int courses = 0;
    for (const Element& box : read.all("input", "type", "checkbox")) {
      CHECK_FALSE(box.attributes.at("aria-label").empty());
      const auto course = box.attributes.find("data-course");
      if (course != box.attributes.end()) {
        CHECK(course->second == std::to_string(++courses));
      } else {
        CHECK(names.insert(box.attributes.at("data-tick")).second);
      }
    }
    CHECK(courses == 35);
    CHECK(names.size() > 10);
  }
}

TEST_CASE("the least plan gives a book") {
  CHECK(read_markup(bench_book(small_plan({.columns = 1, .rows = 1, .colours = 1}), "")).fault == "");
  CHECK(read_markup(bench_book(small_plan({.columns = 2, .rows = 2, .colours = 1, .pitch = 0.2 * mm}), "")).fault ==
        "");
}
