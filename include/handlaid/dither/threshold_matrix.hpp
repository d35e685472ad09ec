// A matrix of thresholds for ordered dithering, as data: Bayer's, blue noise, or one of your own.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// The order in which the places of a tile turn to the second colour. `ranks` has `columns` * `rows` places, row after
/// row from the top; each is 0 to `columns` * `rows` - 1, and where every rank stands once each level of a mix has
/// exactly its count of places.
struct ThresholdMatrix {
  int columns = 0;
  int rows = 0;
  std::vector<std::uint16_t> ranks = {};
  friend bool operator==(const ThresholdMatrix&, const ThresholdMatrix&) = default;
};

/// Throws Error unless the matrix has 1 to 65536 places, as many ranks, and each rank is below their number.
template <When = When::called>
void check_matrix(const ThresholdMatrix& matrix) {
  const std::int64_t places = std::int64_t{matrix.columns} * matrix.rows;
  const std::string size = std::to_string(matrix.columns) + " x " + std::to_string(matrix.rows);
  if (matrix.columns < 1 || matrix.rows < 1 || places > 65536) {
    throw Error::out_of_range("threshold matrix", size, "1 to 65536 places");
  }
  if (static_cast<std::int64_t>(matrix.ranks.size()) != places) {
    throw Error::bad_option("threshold matrix", size + " places have " + std::to_string(matrix.ranks.size()) + " ranks",
                            "give one rank for each place");
  }
  for (const std::uint16_t rank : matrix.ranks) {
    if (rank >= places) {
      throw Error::out_of_range("threshold rank", std::to_string(rank), "0 to " + std::to_string(places - 1));
    }
  }
}

/// Bayer's matrix of 2^n by 2^n ranks, 0 to 4^n - 1, by his recursion.
/// B. Bayer, "An optimum method for two-level rendition of continuous-tone pictures", ICC 1973.
template <std::size_t Side>
constexpr std::array<std::array<int, Side>, Side> bayer_matrix() {
  std::array<std::array<int, Side>, Side> matrix = {};
  for (std::size_t y = 0; y < Side; ++y) {
    for (std::size_t x = 0; x < Side; ++x) {
      int rank = 0;
      int scale = static_cast<int>(Side * Side) / 4;
      for (std::size_t bit = 1; bit < Side; bit *= 2, scale /= 4) {
        const bool right = (x & bit) != 0;
        const bool down = (y & bit) != 0;
        rank += scale * (down ? (right ? 1 : 3) : (right ? 2 : 0));
      }
      matrix[y][x] = rank;
    }
  }
  return matrix;
}

}  // namespace handlaid
