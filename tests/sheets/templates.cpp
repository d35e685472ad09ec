#include "handlaid/sheets/templates.hpp"

#include <set>
#include <sstream>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/core/paper.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::PlanOptions;
using handlaid_test::small_plan;

namespace {

/// A corner of a template: its cross on the page and what is written there, in millimetres of the board.
struct Corner {
  Length x = {};
  Length y = {};
  double across = -1;
  double up = -1;
};

/// The corners of a page as a maker finds them: by the crosses, and by the coordinates written nearest to each.
std::vector<Corner> corners_of(const PrintedPage& page) {
  std::vector<Corner> corners;
  for (const PageLine& line : page.lines) {
    if (line.colour == look::accent && line.from.x == line.to.x) corners.push_back({line.from.x, line.from.y});
  }
  for (const PageText& text : page.texts) {
    std::istringstream words(text.text);
    double across = -1;
    double up = -1;
    std::string word;
    if (!(words >> across >> word) || word != "across," || !(words >> up)) continue;
    Corner* nearest = nullptr;
    const auto far = [&](const Corner& c) {
      return std::abs((c.x - text.at.x).in_mm()) + std::abs((c.y - text.at.y).in_mm());
    };
    for (Corner& corner : corners) {
      if (nearest == nullptr || far(corner) < far(*nearest)) nearest = &corner;
    }
    REQUIRE(nearest != nullptr);
    CHECK(nearest->across == -1);
    nearest->across = across;
    nearest->up = up;
  }
  return corners;
}

bool is_numeral(const PageText& text, Length em) {
  return text.centred && text.anchor == TextAnchor::middle && text.em == em && !text.bold;
}

/// Reads all pages as a maker does, and puts each numeral back into the cell that its place on the board names.
/// Exact: to the micrometre.
void check_every_cell(const Plan& plan) {
  const Rectangular& lattice = plan.chart.lattice;
  const Length em = numeral_em(plan.chart);
  std::set<std::pair<int, int>> seen;
  const std::vector<PrintedPage> pages = template_pages(plan);
  for (std::size_t i = 1; i < pages.size(); ++i) {
    const std::vector<Corner> corners = corners_of(pages[i]);
    REQUIRE(corners.size() == 4);
    // the lower left one on the page, and which way the board runs from it
    const Corner* from = &corners[0];
    for (const Corner& corner : corners) {
      CHECK(corner.across >= 0);
      if (corner.x <= from->x && corner.y >= from->y) from = &corner;
    }
    for (const Corner& corner : corners) {
      const double run = (corner.x - from->x).in_mm() * (plan.job.print.face_down ? -1 : 1);
      CHECK(corner.across - from->across == Approx(run).margin(0.1001));  // both written to a tenth
      CHECK(corner.up - from->up == Approx((from->y - corner.y).in_mm()).margin(0.1001));
    }
    // what is written is rounded; the line it stands for is a whole number of pitches from the margin
    const auto line_of = [](double written, Length margin, Length pitch) {
      return std::llround((written * 1000 - static_cast<double>(margin.um())) / static_cast<double>(pitch.um()));
    };
    const auto column_line = line_of(from->across, plan.marks.margin_x, lattice.pitch_x());
    const auto course_line = line_of(from->up, plan.marks.margin_y, lattice.pitch_y());
    for (const PageText& text : pages[i].texts) {
      if (!is_numeral(text, em)) continue;
      const std::int64_t dx = (text.at.x - from->x).um() * (plan.job.print.face_down ? -1 : 1);
      const std::int64_t dy = (from->y - text.at.y).um();
      const std::int64_t pitch_x = lattice.pitch_x().um();
      const std::int64_t pitch_y = lattice.pitch_y().um();
      const auto column = static_cast<int>(column_line + (dx >= 0 ? dx / pitch_x : -((-dx) / pitch_x) - 1)) + 1;
      const auto course = static_cast<int>(course_line + dy / pitch_y) + 1;
      // its middle, to a micrometre for a pitch of an odd number of them
      const std::int64_t middle_x = pitch_x * (column - 1 - column_line) * 2 + pitch_x;
      const std::int64_t middle_y = pitch_y * (course - 1 - course_line) * 2 + pitch_y;
      CHECK(std::abs(dx * 2 - middle_x) <= 2);
      CHECK(std::abs(dy * 2 - middle_y) <= 2);
      REQUIRE((column >= 1 && column <= plan.chart.columns() && course >= 1 && course <= plan.chart.courses()));
      CHECK(std::to_string(plan.chart.course(course)[static_cast<std::size_t>(column) - 1]) == text.text);
      CHECK(seen.insert({column, course}).second);
    }
  }
  CHECK(static_cast<std::int64_t>(seen.size()) == plan.tally.laid());
}

/// Everything stays on the part of the paper that a printer reaches; a digit of the printed font is 0.64 em wide, a
/// letter about as much.
void check_margins(const PrintedPage& page) {
  const auto inside = [&](Length x, Length y) {
    return x >= page_margin - 3 * mm && x <= page.size.width - page_margin + 3 * mm && y >= page_margin - 3 * mm &&
           y <= page.size.height - page_margin + 3 * mm;
  };
  for (const PageLine& line : page.lines) CHECK((inside(line.from.x, line.from.y) && inside(line.to.x, line.to.y)));
  for (const PageBox& box : page.boxes) {
    CHECK((inside(box.at.x, box.at.y) && inside(box.at.x + box.size.width, box.at.y + box.size.height)));
  }
  for (const PageText& text : page.texts) {
    if (text.quarter_turns != 0) continue;
    Length width = text.em.times(static_cast<std::int64_t>(text.text.size()) * 62).divided(100);
    if (text.room > Length{}) width = std::min(width, text.room);
    const Length left = text.anchor == TextAnchor::left     ? text.at.x
                        : text.anchor == TextAnchor::middle ? text.at.x - width.divided(2)
                                                            : text.at.x - width;
    INFO(page.name << ": " << text.text);
    CHECK((inside(left, text.at.y) && inside(left + width, text.at.y)));
  }
}

}  // namespace

TEST_CASE("paper has the sizes of ISO 216 and ANSI/ASME Y14.1") {
  CHECK(size_of(Paper::a4) == Size{210 * mm, 297 * mm});
  CHECK(size_of(Paper::letter) == Size{Length::from_um(215'900), Length::from_um(279'400)});
}

TEST_CASE("template pages hold every cell once, at its place on the board to the micrometre") {
  SECTION("front") { check_every_cell(small_plan()); }
  SECTION("a board with a margin") { check_every_cell(small_plan({.margin = 33 * mm})); }
  SECTION("a pitch of an odd number of micrometres") {
    check_every_cell(small_plan({.columns = 71, .rows = 53, .pitch = Length::from_um(9'527)}));
  }
  SECTION("face down, on Letter") {
    Plan plan = small_plan({.columns = 60, .rows = 44, .pitch = 7 * mm});
    plan.job.print = {.paper = Paper::letter, .tint = true, .face_down = true};
    check_every_cell(plan);
  }
}

TEST_CASE("corners in inches are written to a sixteenth and a thousandth") {
  // 1 in is 25.4 mm exactly: 100 mm are 3.93700... in, 3 15/16 = 3.9375
  CHECK(detail::corner_mark(100 * mm, LengthUnit::inches) == "3 15/16 (3.937)");
  CHECK(detail::corner_mark(1 * inch, LengthUnit::inches) == "1 (1.000)");
  CHECK(detail::corner_mark(Length{}, LengthUnit::inches) == "0 (0.000)");
}

TEST_CASE("template pages keep the margins of the printer") {
  Plan plan = small_plan({.columns = 200, .rows = 300, .colours = 12, .pitch = 5 * mm});
  for (const bool face_down : {false, true}) {
    for (const Paper paper : {Paper::a4, Paper::letter}) {
      plan.job.print = {.paper = paper, .tint = face_down, .face_down = face_down};
      for (const PrintedPage& page : template_pages(plan)) check_margins(page);
    }
  }
}

TEST_CASE("numerals of templates are 2.2 mm high from a pitch of 5 mm on, and can be read on their tint") {
  for (const int pitch : {5, 8, 11, 40}) {
    Plan plan = small_plan({.colours = 40, .pitch = pitch * mm});
    CHECK(numeral_em(plan.chart).times(look::digit_height).divided(1000) >= 2.2 * mm);
  }
  Plan plan = small_plan({.colours = 40});
  plan.job.print.tint = true;
  int read = 0;
  for (const PrintedPage& page : template_pages(plan)) {
    for (const PageText& text : page.texts) {
      if (!is_numeral(text, numeral_em(plan.chart))) continue;
      const PageBox* under = nullptr;
      for (const PageBox& box : page.boxes) {
        if (box.at.x <= text.at.x && text.at.x <= box.at.x + box.size.width && box.at.y <= text.at.y &&
            text.at.y <= box.at.y + box.size.height) {
          under = &box;
        }
      }
      REQUIRE(under != nullptr);
      CHECK(contrast_ratio(under->fill, text.colour) >= 4.5);
      ++read;
    }
  }
  CHECK(read == plan.tally.laid());
}

TEST_CASE("template pages are as few as the paper allows, then equal") {
  for (const int columns : {1, 7, 16, 17, 72, 400}) {
    const Rectangular lattice{.columns = columns, .rows = columns, .pitch = 11 * mm};
    const TemplateLayout layout = template_layout(lattice, Paper::a4);
    const Size most = template_room(Paper::a4).most;
    const auto fit = static_cast<int>(most.width.count_of(11 * mm));
    CHECK(layout.across() == (columns + fit - 1) / fit);
    CHECK(lattice.pitch_x().times(layout.columns_a_page) <= most.width);
    CHECK(lattice.pitch_y().times(layout.courses_a_page) <= most.height);
    std::int64_t cells = 0;
    for (int page = 1; page <= layout.pages(); ++page)
      cells += layout.part(page).columns() * layout.part(page).courses();
    CHECK(cells == std::int64_t{columns} * columns);
  }
  // counted without being drawn
  CHECK(template_layout({.columns = 4'000, .rows = 6'000, .pitch = 40 * mm}, Paper::a4).pages() > most_pages_unasked);
}

TEST_CASE("paper too small for a cell is refused with both sizes") {
  CHECK_THROWS_WITH(
      template_layout({.columns = 3, .rows = 3, .pitch = 180 * mm}, Paper::a4),
      "paper: A4 holds 172 × 235 mm of cells, less than one of 180 × 180 mm; print the whole chart on large "
      "paper, or say templates = no");
}

TEST_CASE("what the bars of a first print measure corrects the next") {
  Job job;
  CHECK(print_scale(job).across == 1);
  job.print.bar_across = 178.2 * mm;
  job.print.bar_up = 240.6 * mm;
  CHECK(print_scale(job).across == Approx(180 / 178.2));
  CHECK(print_scale(job).up == Approx(240 / 240.6));
  job.units = LengthUnit::inches;  // on Letter, bars of 7 and 8 1/2 in
  CHECK_THROWS_WITH(print_scale(job), Catch::Contains("bar-up") && Catch::Contains("more than 4 % out"));
  job.print.bar_across = 7.01 * inch;
  job.print.bar_up = 8.5 * inch;
  CHECK(print_scale(job).across == Approx(7 / 7.01));
  CHECK(paper_of(job) == Paper::letter);
}
