#include "handlaid/quality/laid_cells.hpp"

#include "handlaid/image/read.hpp"
#include "support/catch.hpp"
#include "support/made_board.hpp"
#include "support/proof_score.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// A board as it would be seen by a perfect camera in even light, a colour a cell.
Raster<LinearRgb> seen_plainly(const Chart<>& chart, const Raster<ColourNumber>& laid) {
  Raster<LinearRgb> seen(laid.width(), laid.height());
  for (std::size_t i = 0; i < laid.size(); ++i) {
    const int number = laid.pixels()[i];
    const Srgb8 colour = number == 0 ? LightFit{}.board : chart.palette[number].colour;
    seen.pixels()[i] = convert_colour<LinearRgb>(colour);
  }
  return seen;
}

Chart<> some_chart(std::uint64_t seed = 1, const BoardMaking& making = {}) {
  Random random(seed);
  return made_chart(making, random);
}

}  // namespace

// All 200 of the series: the program proof_of_boards in bench/.
TEST_CASE("slips of made photos are found and right cells are left in peace") {
  ProofScore all;
  for (int index = 0; index < 40; ++index) all += score_of_board(index);
  INFO(all.wrong << " wrong cells, " << all.found << " found; " << all.right << " right ones, " << all.false_alarms
                 << " flagged");
  CHECK(all.wrong > 500);
  CHECK(all.found * 100 >= all.wrong * 98);
  CHECK(all.named * 100 >= all.found * 95);
  CHECK(all.false_alarms * 100 <= all.right);
  CHECK(all.courses_off == 0);
}

TEST_CASE("where strips hang over, the part that is seen of the next course is not taken for it") {
  const Chart<> chart = some_chart();
  auto laid = chart.numbers;
  for (int y = 0; y < 12; ++y) {
    for (int x = 0; x < laid.width(); ++x) laid(x, y) = y == 11 ? laid(x, 12) : ColourNumber{0};
  }
  laid(3, 20) = static_cast<ColourNumber>(laid(3, 20) % chart.palette.size() + 1);
  const auto seen = seen_plainly(chart, laid);
  CHECK(ProofOfBoard{}(chart, seen).laid_courses == 19);
  const BoardProof proof = ProofOfBoard{.hangs_over = true}(chart, seen);
  CHECK(proof.laid_courses == 18);
  REQUIRE(proof.doubtful.size() == 1);
  CHECK(proof.doubtful[0].course == 10);
  CHECK(proof.doubtful[0].column == 4);
  // One that is laid as planned stays, whole board or not.
  CHECK(ProofOfBoard{.hangs_over = true}(chart, seen_plainly(chart, chart.numbers)).laid_courses == 30);
}

TEST_CASE("every slip is named with course, column and number, and how sure it is") {
  const Chart<> chart = some_chart();
  auto laid = chart.numbers;
  const auto other = [&](int x, int y) { return static_cast<ColourNumber>(laid(x, y) % chart.palette.size() + 1); };
  const ColourNumber low = laid(4, 29) = other(4, 29);
  const ColourNumber high = laid(35, 0) = other(35, 0);
  laid(7, 20) = 0;
  const BoardProof proof = ProofOfBoard{}(chart, seen_plainly(chart, laid));
  CHECK(proof.laid_courses == 30);
  CHECK(proof.cells == 36 * 30);
  REQUIRE(proof.doubtful.size() == 3);
  CHECK(proof.doubtful[0].course == 1);
  CHECK(proof.doubtful[0].column == 5);
  CHECK(proof.doubtful[0].finding == CellFinding::wrong);
  CHECK(proof.doubtful[0].wanted == chart.numbers(4, 29));
  CHECK(proof.doubtful[0].looks_like == low);
  CHECK(proof.doubtful[0].sure_percent == 99);
  CHECK(proof.doubtful[1].course == 10);
  CHECK(proof.doubtful[1].column == 8);
  CHECK(proof.doubtful[1].finding == CellFinding::bare);
  CHECK(proof.doubtful[1].looks_like == 0);
  CHECK(proof.doubtful[2].course == 30);
  CHECK(proof.doubtful[2].column == 36);
  CHECK(proof.doubtful[2].looks_like == high);
  CHECK(ProofOfBoard{}(chart, seen_plainly(chart, chart.numbers)).doubtful.empty());
}

TEST_CASE("a bare board may have any colour") {
  const Srgb8 boards[] = {{200, 170, 120}, {170, 160, 140}, {120, 120, 120},
                          {30, 28, 25},    {250, 250, 250}, {60, 90, 140}};
  for (const Srgb8& board : boards) {
    for (const int laid_courses : {7, 20, 27}) {
      const BoardMaking making{.laid_courses = laid_courses, .bare = board};
      const MadeBoard made = made_board(making, 5);
      const auto photo = read_memory<Srgb8>(made.jpeg, {}, "photo");
      const Homography map = board_to_photo(made.corners, making.columns, making.rows);
      const auto seen = Straighten{.columns = making.columns, .rows = making.rows, .to_photo = map}(photo);
      const BoardProof proof = ProofOfBoard{}(made.chart, seen);
      const ProofScore score = score_of(made, proof, laid_courses);
      INFO("board " << int{board.r} << "," << int{board.g} << "," << int{board.b} << ", " << laid_courses
                    << " courses: " << proof.laid_courses << " found, slips " << score.found << " of " << score.wrong
                    << ", " << score.false_alarms << " false");
      CHECK(score.courses_off == 0);
      CHECK(score.found * 100 >= score.wrong * 90);  // a few slips a board: one may be missed
      CHECK(score.false_alarms * 100 <= score.right);
    }
  }
}

TEST_CASE("courses that are not laid yet are not listed cell by cell") {
  const Chart<> chart = some_chart();
  auto laid = chart.numbers;
  for (int y = 0; y < 18; ++y) {
    for (int x = 0; x < 36; ++x) laid(x, y) = 0;
  }
  const BoardProof proof = ProofOfBoard{}(chart, seen_plainly(chart, laid));
  CHECK(proof.laid_courses == 12);
  CHECK(proof.cells == 36 * 12);
  CHECK(proof.doubtful.empty());
}

TEST_CASE("what looks like no colour of the plan is said so") {
  const Chart<> chart = some_chart();
  auto seen = seen_plainly(chart, chart.numbers);
  for (int y = 10; y < 13; ++y) {
    for (int x = 20; x < 24; ++x) seen(x, y) = {0.9F, 0.002F, 0.9F};
  }
  const BoardProof proof = ProofOfBoard{}(chart, seen);
  REQUIRE(proof.doubtful.size() == 12);
  for (const DoubtfulCell& cell : proof.doubtful) CHECK(cell.finding == CellFinding::unlike);
}

TEST_CASE("colours that a photo cannot tell apart are listed and not held against the maker") {
  Chart<> chart = some_chart();
  chart.palette.entries[1].colour = chart.palette.entries[0].colour;
  ++chart.palette.entries[1].colour.r;
  auto laid = chart.numbers;
  for (auto& number : laid.pixels()) number = number == 2 ? ColourNumber{1} : number;
  const BoardProof proof = ProofOfBoard{}(chart, seen_plainly(chart, laid));
  CHECK(proof.doubtful.empty());
  CHECK(proof.look_alikes == std::vector<LookAlikes>{{1, 2}});
}

TEST_CASE("another board, one that lies differently, a bare one and one of another size are refused in one line") {
  const Chart<> chart = some_chart();
  const Chart<> other = some_chart(2);
  CHECK_THROWS_WITH(ProofOfBoard{}(chart, seen_plainly(other, other.numbers)),
                    contains("does not look like this plan"));
  auto turned = seen_plainly(chart, chart.numbers);
  std::reverse(turned.pixels().begin(), turned.pixels().end());
  CHECK_THROWS_WITH(ProofOfBoard{}(chart, turned), contains("corners from the datum"));
  CHECK_THROWS_WITH(ProofOfBoard{}(chart, seen_plainly(chart, Raster<ColourNumber>(36, 30))),
                    contains("nothing is laid"));
  CHECK_THROWS_WITH(ProofOfBoard{}(chart, Raster<LinearRgb>(36, 29)), contains("another number of cells"));
  CHECK_THROWS_WITH((ProofOfBoard{.one_slip_in = 1}(chart, seen_plainly(chart, chart.numbers))), contains("2 or more"));
}
