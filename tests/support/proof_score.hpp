// How many of the slips of a made photo are found, and how many right cells are called wrong.
#pragma once

#include <cstdint>

#include "handlaid/image/read.hpp"
#include "handlaid/image/straighten.hpp"
#include "handlaid/quality/laid_cells.hpp"
#include "support/made_board.hpp"

namespace handlaid_test {

struct ProofScore {
  std::int64_t wrong = 0;
  std::int64_t found = 0;
  /// Of those found, named as what stands there.
  std::int64_t named = 0;
  std::int64_t right = 0;
  std::int64_t false_alarms = 0;
  /// Photos whose last laid course was not recognised.
  int courses_off = 0;

  ProofScore& operator+=(const ProofScore& other) {
    wrong += other.wrong;
    found += other.found;
    named += other.named;
    right += other.right;
    false_alarms += other.false_alarms;
    courses_off += other.courses_off;
    return *this;
  }
};

/// Compares what was found with what stands on the board, in the courses that are laid.
inline ProofScore score_of(const MadeBoard& made, const handlaid::BoardProof& proof, int laid_courses) {
  using namespace handlaid;
  ProofScore score;
  Raster<std::uint16_t> flagged(made.laid.width(), made.laid.height());
  for (const DoubtfulCell& cell : proof.doubtful) {
    flagged(cell.column - 1, row_of_course(cell.course, made.laid.height())) =
        static_cast<std::uint16_t>(cell.looks_like + 1);
  }
  score.courses_off = proof.laid_courses != laid_courses;
  for (int y = made.laid.height() - laid_courses; y < made.laid.height(); ++y) {
    for (int x = 0; x < made.laid.width(); ++x) {
      const bool wrong = made.laid(x, y) != made.chart.numbers(x, y);
      (wrong ? score.wrong : score.right) += 1;
      if (flagged(x, y) == 0) continue;
      (wrong ? score.found : score.false_alarms) += 1;
      score.named += wrong && flagged(x, y) == made.laid(x, y) + 1 ? 1 : 0;
    }
  }
  return score;
}

/// The score of photo `index` of the series, from its JPEG file on.
inline ProofScore score_of_board(int index) {
  using namespace handlaid;
  const BoardMaking making = making_of(index);
  const MadeBoard made = made_board(making, static_cast<std::uint64_t>(index));
  const auto photo = read_memory<Srgb8>(made.jpeg, {}, "photo");
  const Homography map = board_to_photo(made.corners, making.columns, making.rows);
  const auto seen = Straighten{.columns = making.columns, .rows = making.rows, .to_photo = map}(photo);
  const int laid = making.laid_courses == 0 ? making.rows : making.laid_courses;
  return score_of(made, ProofOfBoard{}(made.chart, seen), laid);
}

}  // namespace handlaid_test
