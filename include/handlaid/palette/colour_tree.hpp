// A histogram as a tree of boxes, so that one round of k-means need not compare every colour with every centre: a whole
// box goes to a centre when no other can be nearer to any point of it.
// T. Kanungo, D. Mount, N. Netanyahu, C. Piatko, R. Silverman, A. Wu, "An efficient k-means clustering algorithm:
// analysis and implementation", IEEE PAMI 24(7), 2002. All sums are whole numbers: exact, in any order.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/nearest_in_box.hpp"

namespace handlaid {

/// What one centre serves: weight, and weighted sums of coordinates and of squared lengths. Parts add up.
struct Share {
  std::uint64_t weight = 0;
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t z = 0;
  std::uint64_t squares = 0;

  constexpr void add(const Bin& bin) {
    const auto w = static_cast<std::int64_t>(bin.weight);
    weight += bin.weight;
    x += w * bin.point.x;
    y += w * bin.point.y;
    z += w * bin.point.z;
    squares += bin.weight * squared_distance(bin.point, FixedPoint{});
  }
  constexpr void add(const Share& other) {
    weight += other.weight;
    x += other.x;
    y += other.y;
    z += other.z;
    squares += other.squares;
  }
  /// Takes away a part.
  constexpr void take(const Share& part) {
    weight -= part.weight;
    x -= part.x;
    y -= part.y;
    z -= part.z;
    squares -= part.squares;
  }
  /// The mean, each coordinate rounded to the nearest step. `weight` must not be 0.
  constexpr FixedPoint mean() const {
    const auto w = static_cast<std::int64_t>(weight);
    const auto rounded = [&](std::int64_t sum) {
      return static_cast<std::int16_t>((sum < 0 ? sum - w / 2 : sum + w / 2) / w);
    };
    return {rounded(x), rounded(y), rounded(z)};
  }
  /// The weighted sum of squared distances to `centre`.
  constexpr std::uint64_t error(const FixedPoint& centre) const {
    const std::int64_t mixed = x * centre.x + y * centre.y + z * centre.z;
    return weight * squared_distance(centre, FixedPoint{}) + squares - static_cast<std::uint64_t>(2 * mixed);
  }
};

/// The bins of a histogram in a balanced tree. Weights are halved until all together stay below 2^31, so that no sum
/// of squares overflows.
class ColourTree {
 public:
  template <When = When::called>
  explicit ColourTree(std::vector<Bin> bins) : bins_(std::move(bins)) {
    std::uint64_t total = 0;
    for (const Bin& bin : bins_) total += bin.weight;
    while ((total >> halvings_) >= (std::uint64_t{1} << 31)) ++halvings_;
    if (halvings_ > 0) {
      for (Bin& bin : bins_) bin.weight = std::max<std::uint64_t>(bin.weight >> halvings_, 1);
    }
    nodes_.reserve(bins_.size() / 2 + 1);
    if (!bins_.empty()) build(0, bins_.size());
  }

  const std::vector<Bin>& bins() const { return bins_; }
  /// How often the weights were halved.
  int halvings() const { return halvings_; }

  /// What each centre serves, every bin by its nearest centre (of equals the first). At most 999 centres.
  template <When = When::called>
  void share(const std::vector<FixedPoint>& centres, std::vector<Share>& shares) const {
    shares.assign(centres.size(), {});
    visit(
        centres, [&](std::uint16_t c, const Node& node) { shares[c].add(node.share); },
        [&](std::uint16_t c, std::uint32_t bin) { shares[c].add(bins_[bin]); });
  }

  /// The index of the nearest centre of each bin (of equals the first), in the order of `bins()`.
  template <When = When::called>
  void label(const std::vector<FixedPoint>& centres, std::vector<std::uint16_t>& labels) const {
    labels.assign(bins_.size(), 0);
    visit(
        centres,
        [&](std::uint16_t c, const Node& node) {
          std::fill(labels.begin() + node.first, labels.begin() + node.end, c);
        },
        [&](std::uint16_t c, std::uint32_t bin) { labels[bin] = c; });
  }

 private:
  struct Node {
    FixedPoint low = {};
    FixedPoint high = {};
    Share share = {};
    std::uint32_t first = 0;
    std::uint32_t end = 0;
    std::uint32_t right = 0;  // the left child follows its parent; 0 marks a leaf
  };
  static constexpr std::size_t leaf_size = 6;

  static int coordinate(const FixedPoint& p, int axis) { return axis == 0 ? p.x : (axis == 1 ? p.y : p.z); }

  template <When = When::called>
  std::uint32_t build(std::size_t first, std::size_t end, std::size_t depth = 1) {
    depth_ = std::max(depth_, depth);
    const auto index = static_cast<std::uint32_t>(nodes_.size());
    nodes_.emplace_back();
    Node node = {.low = bins_[first].point,
                 .high = bins_[first].point,
                 .first = static_cast<std::uint32_t>(first),
                 .end = static_cast<std::uint32_t>(end)};
    for (std::size_t i = first; i < end; ++i) {
      const FixedPoint& p = bins_[i].point;
      node.low = {std::min(node.low.x, p.x), std::min(node.low.y, p.y), std::min(node.low.z, p.z)};
      node.high = {std::max(node.high.x, p.x), std::max(node.high.y, p.y), std::max(node.high.z, p.z)};
      node.share.add(bins_[i]);
    }
    if (end - first > leaf_size) {
      int axis = 0;
      int side = -1;
      for (int a = 0; a < 3; ++a) {
        const int length = coordinate(node.high, a) - coordinate(node.low, a);
        if (length > side) {
          side = length;
          axis = a;
        }
      }
      const std::size_t middle = first + (end - first) / 2;
      const auto at = [&](std::size_t i) { return bins_.begin() + static_cast<std::ptrdiff_t>(i); };
      std::nth_element(at(first), at(middle), at(end), [axis](const Bin& p, const Bin& q) {
        const int a = coordinate(p.point, axis);
        const int b = coordinate(q.point, axis);
        return a != b ? a < b : p.point < q.point;
      });
      build(first, middle, depth + 1);
      node.right = build(middle, end, depth + 1);
    } else {
      // The order that nth_element leaves is the standard library's own choice; random starts depend on it.
      std::sort(bins_.begin() + static_cast<std::ptrdiff_t>(first), bins_.begin() + static_cast<std::ptrdiff_t>(end),
                [](const Bin& p, const Bin& q) { return p.point < q.point; });
    }
    nodes_[index] = node;
    return index;
  }

  /// Calls `whole(centre, node)` for boxes that go to one centre, and `single(centre, bin)` for the other bins.
  template <class Whole, class Single>
  void visit(const std::vector<FixedPoint>& centres, Whole&& whole, Single&& single) const {
    if (nodes_.empty() || centres.empty()) return;
    std::vector<std::uint16_t> candidates(centres.size() * (depth_ + 2));
    for (std::size_t c = 0; c < centres.size(); ++c) candidates[c] = static_cast<std::uint16_t>(c);
    descend(0, centres, candidates.data(), centres.size(), whole, single);
  }

  /// `candidates` has the `count` centres that may be nearest in this box, ascending; the room behind is for children.
  template <class Whole, class Single>
  void descend(std::uint32_t index, const std::vector<FixedPoint>& centres, std::uint16_t* candidates,
               std::size_t count, Whole& whole, Single& single) const {
    const Node& node = nodes_[index];
    std::uint16_t* kept = candidates + count;
    const std::size_t left = keep_nearest(node.low, node.high, centres, candidates, count, kept);
    if (left == 1) {
      whole(kept[0], node);
    } else if (node.right == 0) {
      for (std::uint32_t i = node.first; i < node.end; ++i) {
        std::uint32_t least = UINT32_MAX;
        std::uint16_t nearest = 0;
        for (std::size_t c = 0; c < left; ++c) {
          const std::uint32_t d = squared_distance(centres[kept[c]], bins_[i].point);
          if (d < least) {
            least = d;
            nearest = kept[c];
          }
        }
        single(nearest, i);
      }
    } else {
      descend(index + 1, centres, kept, left, whole, single);
      descend(node.right, centres, kept, left, whole, single);
    }
  }

  std::vector<Bin> bins_;
  std::vector<Node> nodes_;
  std::size_t depth_ = 0;
  int halvings_ = 0;
};

}  // namespace handlaid
