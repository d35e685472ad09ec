// A blue-noise matrix of thresholds: at every level the places lie apart as evenly as chance allows, so that a mix has
// neither grid nor clumps.
// R. Ulichney, "The void-and-cluster method for dither array generation", Proc. SPIE 1913, 1993.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/dither/threshold_matrix.hpp"

namespace handlaid {

/// Makes a matrix of `side` x `side` places that tiles without a seam, in whole numbers: the same everywhere. Energy is
/// Gaussian with sigma 1.5 places, as published. The time grows with side^4: 64 takes about a tenth of a second.
/// Throws Error when `side` is not within 4 to 256.
template <When = When::called>
ThresholdMatrix void_and_cluster(int side, std::uint64_t seed = 1);

namespace detail {

/// A pattern of dots on a torus, and at each place how crowded it is.
class DotPattern {
 public:
  explicit DotPattern(int side)
      : side_(side),
        dots_(static_cast<std::size_t>(side) * static_cast<std::size_t>(side), 0),
        energy_(dots_.size(), 0) {}

  bool has(std::size_t at) const { return dots_[at] != 0; }
  void put(std::size_t at) { change(at, 1); }
  void remove(std::size_t at) { change(at, -1); }

  /// The dot with the most dots about it, and the free place with the fewest; the first of equals.
  std::size_t tightest_cluster() const { return extreme(1, 1); }
  std::size_t largest_void() const { return extreme(0, -1); }

 private:
  /// 65536 * exp(-d^2 / (2 * 1.5^2)), rounded.
  static constexpr std::int64_t fall[8] = {65536, 52477, 26943, 8869, 1872, 253, 22, 1};

  template <When = When::called>
  void change(std::size_t at, int sign) {
    dots_[at] = sign > 0 ? 1 : 0;
    const int x = static_cast<int>(at) % side_;
    const int y = static_cast<int>(at) / side_;
    for (int dy = -7; dy <= 7; ++dy) {
      for (int dx = -7; dx <= 7; ++dx) {
        const int to = (y + dy + 2 * side_) % side_ * side_ + (x + dx + 2 * side_) % side_;
        energy_[static_cast<std::size_t>(to)] += sign * fall[dx < 0 ? -dx : dx] * fall[dy < 0 ? -dy : dy];
      }
    }
  }
  template <When = When::called>
  std::size_t extreme(std::uint8_t dot, int sign) const {
    std::size_t found = dots_.size();
    for (std::size_t i = 0; i < dots_.size(); ++i) {
      if (dots_[i] == dot && (found == dots_.size() || sign * energy_[i] > sign * energy_[found])) found = i;
    }
    return found;
  }

  int side_;
  std::vector<std::uint8_t> dots_;
  std::vector<std::int64_t> energy_;
};

}  // namespace detail

template <When>
ThresholdMatrix void_and_cluster(int side, std::uint64_t seed) {
  if (side < 4 || side > 256) throw Error::out_of_range("side of the matrix", std::to_string(side), "4 to 256");
  detail::DotPattern pattern(side);
  const std::size_t places = static_cast<std::size_t>(side) * static_cast<std::size_t>(side);
  Random random(seed);
  const std::size_t first_dots = places / 10;
  for (std::size_t dots = 0; dots < first_dots;) {
    const auto at = static_cast<std::size_t>(random.below(places));
    if (pattern.has(at)) continue;
    pattern.put(at);
    ++dots;
  }
  // Dots move from clusters to voids until none has a better place. Each move lowers the energy of the whole.
  for (bool moved = true; moved;) {
    const std::size_t cluster = pattern.tightest_cluster();
    pattern.remove(cluster);
    const std::size_t empty = pattern.largest_void();
    pattern.put(empty);
    moved = empty != cluster;
  }
  ThresholdMatrix matrix = {.columns = side, .rows = side, .ranks = std::vector<std::uint16_t>(places, 0)};
  detail::DotPattern thinned = pattern;
  for (std::size_t rank = first_dots; rank-- > 0;) {
    const std::size_t at = thinned.tightest_cluster();
    thinned.remove(at);
    matrix.ranks[at] = static_cast<std::uint16_t>(rank);
  }
  // Past one half the paper seeks clusters of free places: with this energy these are the largest voids again.
  for (std::size_t rank = first_dots; rank < places; ++rank) {
    const std::size_t at = pattern.largest_void();
    pattern.put(at);
    matrix.ranks[at] = static_cast<std::uint16_t>(rank);
  }
  return matrix;
}

}  // namespace handlaid
