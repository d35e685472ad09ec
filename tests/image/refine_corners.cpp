#include "handlaid/image/refine_corners.hpp"

#include "handlaid/image/read.hpp"
#include "support/catch.hpp"
#include "support/made_board.hpp"
#include "support/proof_score.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("corners pointed at a third of a cell beside come to where they are, and right ones stay") {
  ProofScore all;
  for (const int index : {0, 3, 5, 8, 11}) {
    const BoardMaking making = making_of(index);
    const MadeBoard made = made_board(making, static_cast<std::uint64_t>(index));
    const auto photo = read_memory<Srgb8>(made.jpeg, {}, "photo");
    Random random(static_cast<std::uint64_t>(index));
    for (const double off : {0.0, 0.3}) {
      BoardCorners pointed = made.corners;
      for (PlanePoint& p : pointed) {
        const double way = between(random, 0, 2 * std::numbers::pi);
        p = {p.x + off * making.cell_pixels * std::cos(way), p.y + off * making.cell_pixels * std::sin(way)};
      }
      const BoardCorners refined = refine_corners(photo, pointed, making.columns, making.rows);
      for (std::size_t i = 0; i < 4; ++i) {
        const double left = std::hypot(refined[i].x - made.corners[i].x, refined[i].y - made.corners[i].y);
        CHECK(left < 0.25 * making.cell_pixels);
      }
      const Homography map = board_to_photo(refined, making.columns, making.rows);
      const auto seen = Straighten{.columns = making.columns, .rows = making.rows, .to_photo = map}(photo);
      all += score_of(made, ProofOfBoard{}(made.chart, seen),
                      making.laid_courses == 0 ? making.rows : making.laid_courses);
    }
  }
  CHECK(all.found * 100 >= all.wrong * 98);
  CHECK(all.false_alarms * 200 <= all.right);
}

TEST_CASE("what is even everywhere is left as it was pointed at") {
  Raster<Srgb8> plain(100, 100);
  const BoardCorners corners = {{{10, 90}, {10, 10}, {90, 10}, {90, 90}}};
  CHECK(refine_corners(plain, corners, 8, 8) == corners);
  CHECK_THROWS_WITH(refine_corners(plain, corners, 40, 40), contains("4 are needed"));
}
