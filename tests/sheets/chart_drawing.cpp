#include "handlaid/sheets/chart_drawing.hpp"

#include <sstream>

#include "sheets/small_plan.hpp"
#include "sheets/well_formed.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::Document;
using handlaid_test::Element;
using handlaid_test::occurrences;
using handlaid_test::read_markup;
using handlaid_test::small_plan;

namespace {

struct Rect {
  double x, y, width, height;
};

/// The rectangles of a path made of "M x y h w v h h -w z".
std::vector<Rect> rectangles(std::string path) {
  for (char& c : path) {
    if (c == 'M' || c == 'h' || c == 'v' || c == 'z') c = ' ';
  }
  std::istringstream numbers(path);
  std::vector<Rect> rects;
  double back = 0;
  for (Rect r{}; numbers >> r.x >> r.y >> r.width >> r.height >> back;) {
    CHECK(back == -r.width);
    rects.push_back(r);
  }
  return rects;
}

std::vector<double> numbers_of(const std::string& list) {
  std::istringstream stream(list);
  std::vector<double> numbers;
  for (double n = 0; stream >> n;) numbers.push_back(n);
  return numbers;
}

}  // namespace

// W3C, SVG 1.1, section 7: with width in mm and a viewBox as wide in mm, a unit is a millimetre
TEST_CASE("chart.svg is as large as the panel, in millimetres") {
  const Plan plan = small_plan({.pitch = 9.525 * mm});
  const Document svg = read_markup(chart_svg(plan));
  REQUIRE(svg.fault == "");
  const Element root = svg.elements.front();
  CHECK(root.tag == "svg");
  const std::vector<double> view = numbers_of(root.attributes.at("viewBox"));
  REQUIRE(view.size() == 4);
  CHECK(root.attributes.at("width") == drawing_mm(view[2] * mm) + "mm");
  CHECK(root.attributes.at("height") == drawing_mm(view[3] * mm) + "mm");
}

TEST_CASE("each run is one rectangle, where it belongs and of its colour") {
  const Plan plan = small_plan();
  const Document svg = read_markup(chart_svg(plan));
  Chart<> drawn = plan.chart;
  for (ColourNumber& number : drawn.numbers.pixels()) number = 0;
  std::int64_t runs = 0;
  double left = 1e9;
  double bottom = 0;
  std::vector<std::pair<int, Rect>> all;
  for (int number = 1; number <= plan.chart.palette.size(); ++number) {
    const auto paths = svg.all("path", "fill", to_hex(plan.chart.palette[number].colour));
    REQUIRE(paths.size() == 1);
    for (const Rect& rect : rectangles(paths[0].attributes.at("d"))) {
      ++runs;
      left = std::min(left, rect.x);
      bottom = std::max(bottom, rect.y + rect.height);
      all.emplace_back(number, rect);
    }
  }
  CHECK(runs == plan.tally.total_runs());
  for (const auto& [number, rect] : all) {
    CHECK(rect.height == 11);
    const int row = 35 - static_cast<int>(std::lround((bottom - rect.y) / 11));
    const int column = static_cast<int>(std::lround((rect.x - left) / 11));
    for (int i = 0; i < std::lround(rect.width / 11); ++i) {
      CHECK(drawn.numbers(column + i, row) == 0);  // nothing is drawn twice
      drawn.numbers(column + i, row) = static_cast<ColourNumber>(number);
    }
  }
  CHECK(drawn == plan.chart);
}

TEST_CASE("each laid cell has its numeral, in ink that reads on it") {
  const Plan plan = small_plan();
  const Document svg = read_markup(chart_svg(plan));
  std::size_t dark = 0;
  std::size_t light = 0;
  for (int number = 1; number <= plan.chart.palette.size(); ++number) {
    const auto cells = static_cast<std::size_t>(plan.tally.cells[static_cast<std::size_t>(number)]);
    const std::size_t digits = number < 10 ? 1 : 2;
    (numeral_colour(plan.chart.palette[number].colour) == Srgb8{} ? dark : light) += cells * digits;
  }
  REQUIRE(dark > 0);
  REQUIRE(light > 0);
  for (const auto& [ink, digits] : {std::pair{"#000000", dark}, std::pair{"#ffffff", light}}) {
    const auto texts = svg.all("text", "fill", ink);
    REQUIRE(texts.size() == 1);
    CHECK(texts[0].text.size() == digits);
    CHECK(numbers_of(texts[0].attributes.at("x")).size() == digits);
    // the first baseline, then steps of whole courses down
    CHECK(numbers_of(texts[0].attributes.at("y")).size() == 1);
    const std::vector<double> steps = numbers_of(texts[0].attributes.at("dy"));
    CHECK(steps.size() == digits);
    CHECK(steps.front() == 0);
    CHECK(std::all_of(steps.begin(), steps.end(), [](double step) { return step >= 0 && std::fmod(step, 11) == 0; }));
    CHECK(std::accumulate(steps.begin(), steps.end(), 0.0) == 34 * 11);
    CHECK(std::stod(texts[0].attributes.at("font-size")) * 0.72 >= 2.2);  // the height of a digit, mm
  }
}

TEST_CASE("both ends and the datum are named, a heavy line stands each ten cells from it") {
  const std::string svg = chart_svg(small_plan());
  CHECK(occurrences(svg, ">datum end<") == 1);
  CHECK(occurrences(svg, ">far end<") == 1);
  CHECK(occurrences(svg, ">datum corner<") == 1);
  CHECK(occurrences(svg, to_hex(look::accent)) == 2);
  CHECK(occurrences(svg, "100 mm if printed true") == 0);  // the panel is 286 mm wide
  CHECK(occurrences(svg, "10 mm if printed true") == 1);
  Markup lines;
  draw_lines(lines, {.part = {1, 26, 1, 35}, .cell_width = 10 * mm, .cell_height = 10 * mm});
  const Document heavy = read_markup("<g>" + std::move(lines).finish() + "</g>");
  const auto weight = heavy.all("path", "stroke-width", "0.45");
  REQUIRE(weight.size() == 1);
  // columns 0, 10, 20; courses 0, 10, 20, 30, counted from the bottom at 350
  CHECK(weight[0].attributes.at("d") == "M0 0V350M100 0V350M200 0V350M0 350H260M0 250H260M0 150H260M0 50H260");
}

TEST_CASE("counts stand at both ends, the fives heavier") {
  Markup svg;
  const Length margin = 8 * mm;
  draw_counts(svg,
              {.part = {9, 11, 20, 21}, .left = margin, .top = margin, .cell_width = 10 * mm, .cell_height = 10 * mm},
              margin);
  const Document read = read_markup("<g>" + std::move(svg).finish() + "</g>");
  REQUIRE(read.fault == "");
  const auto bold = read.all("text", "font-weight", "bold");
  REQUIRE(bold.size() == 1);
  CHECK(bold[0].text == "20201010");  // course 20 left and right, column 10 above and below
  for (const Element& text : read.all("text")) {
    if (text.attributes.count("font-weight") == 0)
      CHECK(text.text ==
            "21219"
            "9"
            "11"
            "11");
  }
}

// Bands of three cells: busier than a picture ever is.
TEST_CASE("a chart of 72 x 96 stays well below a megabyte, one of 300 x 400 at a few") {
  CHECK(chart_svg(small_plan({.columns = 72, .rows = 96, .colours = 16})).size() < 500'000);
  CHECK(chart_svg(small_plan({.columns = 300, .rows = 400, .colours = 20})).size() < 7'000'000);
}

TEST_CASE("hostile names cannot break the drawing") {
  Plan plan = small_plan();
  plan.job.title = "\"/><script>alert(1)</script> & שלום \xff";
  plan.chart.palette.entries[0].name = "</title></svg>";
  const Document svg = read_markup(chart_svg(plan));
  CHECK(svg.fault == "");
  CHECK(svg.all("script").empty());
}

TEST_CASE("a chart of one cell and one of 999 colours can be drawn") {
  CHECK(read_markup(chart_svg(small_plan({.columns = 1, .rows = 1, .colours = 1}))).fault == "");
  const Document many = read_markup(chart_svg(small_plan({.columns = 120, .rows = 90, .colours = 999})));
  CHECK(many.fault == "");
}
