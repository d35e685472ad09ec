// What a maker sees of a proof: the picture with rings, the sheet of marks, slips in words, and the table.
#include "handlaid/files/proof_table.hpp"
#include "handlaid/sheets/bench_book.hpp"
#include "handlaid/sheets/corner_marks.hpp"
#include "handlaid/sheets/page_svg.hpp"
#include "handlaid/sheets/proof_picture.hpp"
#include "handlaid/sheets/slip_words.hpp"
#include "sheets/small_plan.hpp"
#include "sheets/well_formed.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

const Palette colours = {.entries = {{.colour = {200, 30, 30}, .name = "rose, old"}, {.colour = {9, 9, 9}}}};

/// A page as pixels of a quarter millimetre, of its filled boxes alone.
Raster<Srgb8> pixels_of(const PrintedPage& page) {
  const auto at = [](Length length) { return static_cast<int>(length.um() / 250); };
  Raster<Srgb8> picture(at(page.size.width), at(page.size.height));
  for (Srgb8& pixel : picture.pixels()) pixel = {255, 255, 255};
  for (const PageBox& box : page.boxes) {
    if (!box.filled) continue;
    for (int y = at(box.at.y); y < at(box.at.y + box.size.height); ++y) {
      for (int x = at(box.at.x); x < at(box.at.x + box.size.width); ++x) picture(x, y) = box.fill;
    }
  }
  return picture;
}

}  // namespace

TEST_CASE("a ring stands round each doubtful cell, in the accent colour, and nowhere else") {
  const ProofPicture drawing{.columns = 12, .rows = 8};
  const int cell = drawing.cell_pixels();
  CHECK(cell == 32);
  Raster<Srgb8> view(12 * cell, 8 * cell);
  for (Srgb8& pixel : view.pixels()) pixel = {40, 120, 60};
  const BoardProof proof{.doubtful = {{.course = 2, .column = 5}}, .laid_courses = 6};
  const Raster<Srgb8> picture = drawing(view, proof);
  const int margin = (picture.width() - view.width()) / 2;
  CHECK(picture.height() == view.height() + 2 * margin);
  int accents = 0;
  for (int y = margin; y < margin + view.height(); ++y) {
    for (int x = margin; x < margin + view.width(); ++x) {
      if (picture(x, y) != look::accent) continue;
      ++accents;
      const double far = std::hypot(x - (margin + 4.5 * cell), y - (margin + 6.5 * cell));
      REQUIRE(far > 0.6 * cell);
      REQUIRE(far < 1.0 * cell);
    }
  }
  CHECK(accents > 4 * cell);
  CHECK(picture(margin + 4 * cell + cell / 2, margin + 6 * cell + cell / 2) == Srgb8{40, 120, 60});
  CHECK(picture(margin + cell / 2, margin + cell / 2) != Srgb8{40, 120, 60});  // course 8 is not laid yet: paler
  CHECK(picture(margin - 1, margin + view.height()) == look::accent);          // the datum
  CHECK_THROWS_WITH(drawing(Raster<Srgb8>(100, 100), proof), contains("whole cells"));
}

TEST_CASE("the printed marks are found as they are printed, and have the size that is reckoned with") {
  for (const Length pitch : {5 * mm, 11 * mm, 60 * mm}) {
    const Rectangular lattice{.columns = 10, .rows = 10, .pitch = pitch, .course_pitch = pitch.times(2)};
    const Length side = corner_mark_side(lattice);
    const PrintedPage page = corner_marks_page(lattice);
    const BoardCorners marks = find_marks(pixels_of(page));
    // On the sheet: the datum's mark at the top left, then clockwise.
    const double apart = (side + 10 * mm).in_mm();
    CHECK_THAT(marks[1].x - marks[0].x, WithinAbs(4 * apart, 2));
    CHECK_THAT(marks[0].x, WithinAbs(4 * (20 + side.in_mm() / 2), 2));
    CHECK_THAT(marks[2].y - marks[1].y, WithinAbs(4 * (side + 15 * mm).in_mm(), 2));
    for (const PageBox& box : page.boxes) {
      CHECK(box.at.x >= page_margin);
      CHECK(box.at.x + box.size.width <= page.size.width - page_margin);
      CHECK(box.at.y + box.size.height <= page.size.height - page_margin);
    }
    const MarksOut out = marks_out(lattice);
    CHECK_THAT(out.columns * pitch.in_mm(), WithinAbs(side.in_mm() / 2, 1e-9));
    CHECK_THAT(out.courses * 2, WithinAbs(out.columns, 1e-9));
  }
}

TEST_CASE("a page as SVG is well formed and at its true size") {
  PrintedPage page = corner_marks_page({.columns = 4, .rows = 4}, {.paper = Paper::letter});
  page.texts.push_back({.at = {5 * mm, 9 * mm}, .text = "a < b & \"c\"", .centred = true, .quarter_turns = 1});
  page.lines.push_back({.from = {}, .to = {9 * mm, 1 * mm}, .dash = 2 * mm});
  const std::string svg = page_svg(page);
  CHECK(read_markup(svg).fault == "");
  CHECK_THAT(svg, contains("width=\"215.9mm\" height=\"279.4mm\" viewBox=\"0 0 215.9 279.4\""));
  CHECK_THAT(svg, contains("a &lt; b &amp; &quot;c&quot;"));
  CHECK_THAT(svg, contains("rotate(-90 5 9)"));
  CHECK_THAT(svg, contains("stroke-dasharray=\"2\""));
  CHECK_THAT(svg, contains("y=\"10.26\""));  // half of 0.72 em of 3.5 mm lower
}

TEST_CASE("slips in words") {
  const auto said = [](const CourseSlip& slip) { return slip_text(slip, colours); };
  CHECK(said({EditKind::changed, 4, 4, 2, 1}) == "column 4: 2 stands there, 1 (rose, old) should be");
  CHECK(said({EditKind::changed, 4, 6, 2, 1}) == "columns 4 to 6: 2 stand there, 1 (rose, old) should be");
  CHECK(said({EditKind::changed, 4, 5, 0, 2}) == "columns 4 and 5: nothing stands there, 2 should be");
  CHECK(said({EditKind::swapped, 4, 5, 2, 1}) ==
        "columns 4 and 5: 2 and 1 (rose, old) have changed places, 1 (rose, old) comes first");
  CHECK(said({EditKind::missing, 4, 4, 0, 2}) == "column 4: 2 is missing, and what follows stands too near the datum");
  CHECK(said({EditKind::extra, 4, 5, 2, 0}) == "before column 4: 2 cells of 2 too many");
  const DoubtfulCell wrong{.course = 3, .column = 9, .wanted = 1, .looks_like = 2, .sure_percent = 97};
  CHECK(doubt_text(wrong, colours) == "course 3, column 9: looks like 2, should be 1 (rose, old) (97 % sure)");
  DoubtfulCell bare = wrong;
  bare.finding = CellFinding::bare;
  bare.looks_like = 0;
  CHECK_THAT(doubt_text(bare, colours), contains("looks bare, should be 1"));
}

TEST_CASE("proof.csv by hand") {
  const BoardProof proof{
      .doubtful = {{.course = 3, .column = 9, .wanted = 1, .looks_like = 2, .sure_percent = 97, .colour = {16, 32, 48}},
                   {.course = 4, .column = 1, .finding = CellFinding::bare, .wanted = 2},
                   {.course = 4, .column = 2, .finding = CellFinding::unlike, .looks_like = 2}}};
  CHECK(write_proof(proof, colours) ==
        "course,column,finding,should be,name,looks like,its name,sure %,colour\n"
        "3,9,wrong,1,\"rose, old\",2,,97,#102030\n"
        "4,1,bare,2,,,,50,#000000\n"
        "4,2,no colour of the plan,,,,,50,#000000\n");
}

TEST_CASE("each course of the book ends with its check, as in checks.csv") {
  const Plan plan = small_plan();
  const std::string page = bench_book(plan, "");
  const auto checks = plan.chart | course_checks;
  for (const CourseCheck& check : checks) {
    CHECK_THAT(page, contains("/>" + std::to_string(check.course) + "\n" + count_text(check.runs, "run", "runs") +
                              "\n" + check_text(check.figure)));
    CHECK_THAT(write_checks(checks),
               contains("\n" + std::to_string(check.course) + "," + std::to_string(plan.chart.columns()) + ","));
  }
}
