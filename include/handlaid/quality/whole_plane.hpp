// Blurring planes of whole numbers, the same bit for bit in every build.
// The numbers are kept in doubles, which compilers turn into vectors: all sums and products stay below 2^53 and are
// exact, so that neither their order nor a fused multiply-add can change anything; rounding is done by name.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid::detail {

/// The nearest whole number, ties to even, for |v| below 2^51: an addition rounds there.
constexpr double whole(double v) { return (v + 6755399441055744.0) - 6755399441055744.0; }

/// e^-x in steps of 1/2^30, for x of 0 or more in steps of 1/2^30; to about 1e-7.
constexpr std::int64_t fixed_exp_minus(std::int64_t x) {
  if (x >= std::int64_t{21} << 30) return 0;
  // The series for x / 32, below 1, by Horner's scheme in steps of 1/2^30, then squared five times.
  const std::int64_t part = x >> 5;
  std::int64_t sum = std::int64_t{1} << 30;
  for (std::int64_t n = 12; n > 0; --n) sum = (std::int64_t{1} << 30) - ((sum * part) >> 30) / n;
  for (int i = 0; i < 5; ++i) sum = (sum * sum + (std::int64_t{1} << 29)) >> 30;
  return sum;
}

/// Half of a Gaussian's taps, from the middle outwards, as far as they reach from one of `places` to another; all taps
/// together are about 2^20. `variance` is in steps of 1/2^16 of a squared place.
template <When = When::called>
std::vector<double> gaussian_taps(std::int64_t variance, int places) {
  std::vector<std::int64_t> taps = {std::int64_t{1} << 30};
  std::int64_t sum = taps[0];
  for (std::int64_t i = 1; variance > 0 && i < places; ++i) {
    const std::int64_t square = i * i;
    if (square << 16 > variance * 20) break;  // beyond 4.5 sigma
    taps.push_back(fixed_exp_minus((square << 45) / variance));
    sum += 2 * taps.back();
  }
  std::vector<double> shares;
  for (const std::int64_t tap : taps) shares.push_back(static_cast<double>(((tap << 20) + sum / 2) / sum));
  return shares;
}

/// Rows of whole numbers, |v| below 2^28, blurred along rows and then along columns; beyond the edge there are zeros.
template <When = When::called>
Raster<double> blurred(const Raster<double>& plane, const std::vector<double>& across,
                       const std::vector<double>& down) {
  constexpr double step = 1.0 / 1048576.0;
  const auto width = static_cast<std::size_t>(plane.width());
  const auto add = [](double* to, const double* from, double tap, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) to[i] += tap * from[i];
  };
  Raster<double> rows(plane.width(), plane.height());
  for (int y = 0; y < plane.height(); ++y) {
    const double* from = plane.row(y).data();
    double* to = rows.row(y).data();
    for (std::size_t tap = 0; tap < across.size() && tap < width; ++tap) {
      add(to + tap, from, across[tap], width - tap);
      if (tap > 0) add(to, from + tap, across[tap], width - tap);
    }
    for (std::size_t x = 0; x < width; ++x) to[x] = whole(to[x] * step);
  }
  if (down.size() == 1) return rows;
  Raster<double> both(plane.width(), plane.height());
  for (int y = 0; y < plane.height(); ++y) {
    double* to = both.row(y).data();
    const int reach = static_cast<int>(down.size()) - 1;
    for (int from = std::max(y - reach, 0); from <= std::min(y + reach, plane.height() - 1); ++from) {
      add(to, rows.row(from).data(), down[static_cast<std::size_t>(from < y ? y - from : from - y)], width);
    }
    for (std::size_t x = 0; x < width; ++x) to[x] = whole(to[x] * step);
  }
  return both;
}

/// The mean of each block of `across` x `down` places, both powers of two, with a rim of zeros one block wide; what a
/// block lacks at the edge is zero too.
template <When = When::called>
Raster<double> block_means(const Raster<double>& plane, int across, int down) {
  Raster<double> blocks((plane.width() + across - 1) / across + 2, (plane.height() + down - 1) / down + 2);
  for (int y = 0; y < plane.height(); ++y) {
    for (int x = 0; x < plane.width(); ++x) blocks(x / across + 1, y / down + 1) += plane(x, y);
  }
  const double share = 1.0 / (static_cast<double>(across) * static_cast<double>(down));
  for (double& value : blocks.pixels()) value = whole(value * share);
  return blocks;
}

/// Where a place lies between the middles of two blocks, as two weights that add up to twice the block's size.
struct BetweenBlocks {
  int first = 0;
  int second = 0;
  double weight_first = 0;
  double weight_second = 0;

  static BetweenBlocks at(int place, int block) {
    const int twice = 2 * place + 1 + block;  // twice the distance from the middle of the rim's block
    const int before = twice / (2 * block);
    const int rest = twice % (2 * block);
    return {before, before + 1, static_cast<double>(2 * block - rest), static_cast<double>(rest)};
  }
};

/// Back from blocks with their rim to `width` x `height` places, along straight lines; values grow by 4 * `across` *
/// `down`.
template <When = When::called>
Raster<double> from_blocks(const Raster<double>& blocks, int across, int down, int width, int height) {
  std::vector<BetweenBlocks> columns;
  for (int x = 0; x < width; ++x) columns.push_back(BetweenBlocks::at(x, across));
  std::vector<double> line(static_cast<std::size_t>(blocks.width()), 0.0);
  Raster<double> plane(width, height);
  for (int y = 0; y < height; ++y) {
    const BetweenBlocks row = BetweenBlocks::at(y, down);
    for (int x = 0; x < blocks.width(); ++x) {
      line[static_cast<std::size_t>(x)] =
          blocks(x, row.first) * row.weight_first + blocks(x, row.second) * row.weight_second;
    }
    for (int x = 0; x < width; ++x) {
      const BetweenBlocks& column = columns[static_cast<std::size_t>(x)];
      plane(x, y) = line[static_cast<std::size_t>(column.first)] * column.weight_first +
                    line[static_cast<std::size_t>(column.second)] * column.weight_second;
    }
  }
  return plane;
}

/// A Gaussian of any width over rows of whole numbers, |v| below 2^27: a wide one is blurred in blocks, so that its
/// cost does not grow with its width. Beyond the edge there are zeros, and values grow by a factor: divide by the blur
/// of what is there.
class GaussianBlur {
 public:
  /// For planes of `width` x `height`. Variances in steps of 1/2^16 of a squared place, below 2^42.
  GaussianBlur(int width, int height, std::int64_t across, std::int64_t down)
      : block_across_(block_for(across, width)),
        block_down_(block_for(down, height)),
        taps_across_(gaussian_taps(left_over(across, block_across_), width / block_across_ + 2)),
        taps_down_(gaussian_taps(left_over(down, block_down_), height / block_down_ + 2)) {}

  bool leaves_all() const { return taps_across_.size() == 1 && taps_down_.size() == 1; }

  template <When = When::called>
  Raster<double> operator()(const Raster<double>& plane) const {
    if (!in_blocks()) return blurred(plane, taps_across_, taps_down_);
    const Raster<double> blocks = block_means(plane, block_across_, block_down_);
    return from_blocks(blurred(blocks, taps_across_, taps_down_), block_across_, block_down_, plane.width(),
                       plane.height());
  }

 private:
  bool in_blocks() const { return block_across_ * block_down_ > 1; }
  /// Blocks are at most a quarter of sigma, and small enough that means over thinly laid ones keep their precision.
  template <When = When::called>
  static int block_for(std::int64_t variance, int places) {
    int block = 1;
    while (block < std::min(64, places) && (variance >> 16) >= std::int64_t{16} * 4 * block * block) block *= 2;
    return block;
  }
  /// What is left to blur, in squared blocks: the mean of a block of n places has a variance of (n^2 - 1) / 12, the
  /// straight line between blocks one of n^2 / 6.
  template <When = When::called>
  static std::int64_t left_over(std::int64_t variance, int block) {
    if (block == 1) return variance;
    const std::int64_t square = std::int64_t{block} * block;
    const std::int64_t done = ((square - 1) << 16) / 12 + (square << 16) / 6;
    return (variance - done) / square;
  }

  int block_across_ = 1;
  int block_down_ = 1;
  std::vector<double> taps_across_;
  std::vector<double> taps_down_;
};

}  // namespace handlaid::detail
