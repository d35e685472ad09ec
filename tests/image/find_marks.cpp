#include "handlaid/image/find_marks.hpp"

#include "handlaid/image/read.hpp"
#include "support/catch.hpp"
#include "support/made_board.hpp"
#include "support/proof_score.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("marks are found in photos from aslant, each at its corner, and the board is read by them") {
  ProofScore all;
  for (int index = 0; index < 12; ++index) {
    BoardMaking making = making_of(index);
    making.cell_pixels = std::max(making.cell_pixels, 8.0);
    making.margin = 5;
    const MadeBoard made = made_board(making, static_cast<std::uint64_t>(index), mark_surround);
    const auto photo = read_memory<Srgb8>(made.jpeg, {}, "photo");
    const BoardCorners marks = find_marks(photo);
    const double out = mark_cells / 2;
    const Homography map = marks_to_photo(marks, making.columns, making.rows, out, out);
    const Homography truth = board_to_photo(made.corners, making.columns, making.rows);
    for (const double x : {0.0, 1.0 * making.columns}) {
      for (const double y : {0.0, 1.0 * making.rows}) {
        const PlanePoint off{map({x, y}).x - truth({x, y}).x, map({x, y}).y - truth({x, y}).y};
        CHECK(std::hypot(off.x, off.y) < 0.1 * making.cell_pixels);
      }
    }
    const auto seen = Straighten{.columns = making.columns, .rows = making.rows, .to_photo = map}(photo);
    const int laid = making.laid_courses == 0 ? making.rows : making.laid_courses;
    all += score_of(made, ProofOfBoard{}(made.chart, seen), laid);
  }
  CHECK(all.found * 100 >= all.wrong * 98);
  CHECK(all.false_alarms * 100 <= all.right);
}

TEST_CASE("the datum is told from the other marks, whichever way the camera was held") {
  BoardMaking making;
  making.margin = 5;
  making.tilt_degrees = 15;
  const MadeBoard made = made_board(making, 3, mark_surround);
  const BoardCorners upright = find_marks(made.photo);
  Raster<Srgb8> turned(made.photo.height(), made.photo.width());  // a quarter turn clockwise
  for (int y = 0; y < turned.height(); ++y) {
    for (int x = 0; x < turned.width(); ++x) turned(x, y) = made.photo(y, made.photo.height() - 1 - x);
  }
  const BoardCorners aside = find_marks(turned);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK_THAT(aside[i].x, WithinAbs(made.photo.height() - upright[i].y, 0.5));
    CHECK_THAT(aside[i].y, WithinAbs(upright[i].x, 0.5));
  }
}

TEST_CASE("a photo without marks says how many were found") {
  const MadeBoard made = made_board({}, 1);
  CHECK_THROWS_WITH(find_marks(made.photo), contains("at most 0 at once"));
  CHECK_THROWS_WITH(find_marks(Raster<Srgb8>(8, 8)), contains("not found"));
  BoardMaking making;
  making.margin = 5;
  MadeBoard covered = made_board(making, 3, mark_surround);
  for (int y = 0; y < covered.photo.height() / 3; ++y) {
    for (int x = 0; x < covered.photo.width() / 3; ++x) covered.photo(x, y) = {90, 80, 70};
  }
  CHECK_THROWS_WITH(find_marks(covered.photo), contains("at most 3 at once"));
}
