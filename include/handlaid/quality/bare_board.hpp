// The part of a board where nothing is laid yet, whatever its colour: courses are laid from the lowest up, and above
// them all cells look alike.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/quality/log_light.hpp"

namespace handlaid::detail {

struct BareBoard {
  /// The lower rows, that seem to be laid; all of them where there are too few to tell.
  int laid_rows = 0;
  /// Of the rows above, in the light of the palette.
  LogLight look = {};
};

/// Tries sixteenths of a board as laid, in one light for all, with the middle of what is above as the board, and takes
/// what fits best. `seen` and `numbers` are cells row by row, `looks` those of the numbers, that of the board first.
template <When = When::called>
BareBoard find_bare_board(const std::vector<LogLight>& seen, const std::vector<ColourNumber>& numbers,
                          const std::vector<LogLight>& looks, int width) {
  constexpr int tried = 16;
  const int height = static_cast<int>(seen.size()) / width;
  const std::size_t step = seen.size() / 4'000 + 1;  // every so many cells are enough to find a start
  std::vector<Oklab> places;
  for (const LogLight& look : looks) places.push_back(convert_colour<Oklab>(of_log(look)));
  BareBoard best{.laid_rows = height, .look = looks[0]};
  double least = -1;
  for (int t = 1; t < tried; ++t) {
    const int laid = height * t / tried;
    if (laid == 0) continue;
    const std::size_t first_laid = static_cast<std::size_t>(height - laid) * static_cast<std::size_t>(width);
    // How much lighter than their numbers those are that are laid, and how light the others.
    LogLight even;
    LogLight board;
    for (std::size_t c = 0; c < 3; ++c) {
      std::vector<double> lighter;
      std::vector<double> above;
      for (std::size_t i = 0; i < seen.size(); i += step) {
        if (i < first_laid) {
          above.push_back(seen[i][c]);
        } else if (numbers[i] != 0) {
          lighter.push_back(seen[i][c] - looks[numbers[i]][c]);
        }
      }
      even[c] = median_of(lighter);
      board[c] = settled(median_of(above) - even[c]);
    }
    places[0] = convert_colour<Oklab>(of_log(board));
    double off = 0;
    for (std::size_t i = 0; i < seen.size(); i += step) {
      LogLight cell = seen[i];
      for (std::size_t c = 0; c < 3; ++c) cell[c] -= even[c];
      off += std::min(apart(convert_colour<Oklab>(of_log(cell)), places[i < first_laid ? 0 : numbers[i]]), 0.1);
    }
    if (least >= 0 && off >= least) continue;
    least = off;
    best = {.laid_rows = laid, .look = board};
  }
  return best;
}

}  // namespace handlaid::detail
