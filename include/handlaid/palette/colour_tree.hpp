// A histogram as a tree of boxes, so that one round of k-means need not compare every colour with every centre: a whole
// box goes to a centre when no other can be nearer to any point of it.
// T. Kanungo, D. Mount, N. Netanyahu, C. Piatko, R. Silverman, A. Wu, "An efficient k-means clustering algorithm:
// analysis and implementation", IEEE PAMI 24(7), 2002. All sums are whole numbers: exact, in any order.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
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

/// The bins of a histogram in a tree. Weights are halved until all together stay below 2^31, so that no sum
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
    if (!bins_.empty()) build(order(), 0, bins_.size());
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

  /// Puts the bins into the order of their places along a Z curve (G. Morton, IBM, 1966): every box of the tree is then
  /// a stretch of them. Returns the places, ten bits an axis.
  template <When = When::called>
  std::vector<std::uint32_t> order() {
    FixedPoint low = bins_[0].point;
    FixedPoint high = low;
    for (const Bin& bin : bins_) widen(low, high, bin.point, bin.point);
    const int longest = std::max({high.x - low.x, high.y - low.y, high.z - low.z});
    int shift = 0;
    while (longest >> shift >= 1024) ++shift;
    const auto spread = [](int value) {  // two empty bits after each
      auto v = static_cast<std::uint32_t>(value);
      v = (v | v << 16U) & 0x030000ffU;
      v = (v | v << 8U) & 0x0300f00fU;
      v = (v | v << 4U) & 0x030c30c3U;
      return (v | v << 2U) & 0x09249249U;
    };
    struct Placed {
      std::uint32_t place;
      std::uint32_t bin;
    };
    std::vector<Placed> placed(bins_.size());
    for (std::size_t i = 0; i < bins_.size(); ++i) {
      const FixedPoint& p = bins_[i].point;
      placed[i] = {
          spread((p.x - low.x) >> shift) << 2U | spread((p.y - low.y) >> shift) << 1U | spread((p.z - low.z) >> shift),
          static_cast<std::uint32_t>(i)};
    }
    std::vector<Placed> other(placed.size());
    for (unsigned digit = 0; digit < 30; digit += 10) {
      std::array<std::uint32_t, 1025> starts = {};
      for (const Placed& item : placed) ++starts[(item.place >> digit & 1023U) + 1];
      for (std::size_t d = 0; d < 1024; ++d) starts[d + 1] += starts[d];
      for (const Placed& item : placed) other[starts[item.place >> digit & 1023U]++] = item;
      placed.swap(other);
    }
    std::vector<std::uint32_t> places;
    std::vector<Bin> ordered;
    places.reserve(placed.size());
    ordered.reserve(placed.size());
    for (const Placed& item : placed) {
      places.push_back(item.place);
      ordered.push_back(bins_[item.bin]);
    }
    bins_.swap(ordered);
    return places;
  }

  static void widen(FixedPoint& low, FixedPoint& high, const FixedPoint& other_low, const FixedPoint& other_high) {
    low = {std::min(low.x, other_low.x), std::min(low.y, other_low.y), std::min(low.z, other_low.z)};
    high = {std::max(high.x, other_high.x), std::max(high.y, other_high.y), std::max(high.z, other_high.z)};
  }

  template <When = When::called>
  std::uint32_t build(const std::vector<std::uint32_t>& places, std::size_t first, std::size_t end,
                      std::size_t depth = 1) {
    depth_ = std::max(depth_, depth);
    const auto index = static_cast<std::uint32_t>(nodes_.size());
    nodes_.emplace_back();
    Node node = {.low = bins_[first].point,
                 .high = bins_[first].point,
                 .first = static_cast<std::uint32_t>(first),
                 .end = static_cast<std::uint32_t>(end)};
    const std::uint32_t differ = places[first] ^ places[end - 1];
    if (end - first > leaf_size && differ != 0) {
      // The box is halved at the first bit in which its places differ.
      const std::uint32_t half = places[end - 1] >> (std::bit_width(differ) - 1) << (std::bit_width(differ) - 1);
      const auto begin = places.begin();
      const auto middle = static_cast<std::size_t>(
          std::lower_bound(begin + static_cast<std::ptrdiff_t>(first), begin + static_cast<std::ptrdiff_t>(end), half) -
          begin);
      build(places, first, middle, depth + 1);
      node.right = build(places, middle, end, depth + 1);
      for (const std::uint32_t child : {index + 1, node.right}) {
        node.share.add(nodes_[child].share);
        widen(node.low, node.high, nodes_[child].low, nodes_[child].high);
      }
    } else {
      for (std::size_t i = first; i < end; ++i) {
        node.share.add(bins_[i]);
        widen(node.low, node.high, bins_[i].point, bins_[i].point);
      }
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
