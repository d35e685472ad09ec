// Cutting: halves the neediest box of colours until there are enough. Median cut is the classic; cutting where the
// least error is left finds better palettes and is as quick.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/colour_tree.hpp"
#include "handlaid/palette/fit_by_rules.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/longest_axis.hpp"

namespace handlaid {

/// Which box is cut next, and where.
enum class CutAt {
  median,   ///< the box with most weight times squared side, on that side, where half of its weight is passed
  mean,     ///< the box with the largest squared error, along its longest axis, at its mean
  best_fit  ///< the same, where the two parts have the least squared error
};

/// Fits a palette by cutting boxes of colours in two.
/// `median`: P. Heckbert, "Color image quantization for frame buffer display", SIGGRAPH 1982.
/// `best_fit`: along the principal axis as X. Wu, "Color quantization by dynamic programming and principal analysis",
/// ACM TOG 11(4), 1992, cut greedily by least error as in his "Efficient statistical computations for optimal color
/// quantization", Graphics Gems II, 1991.
/// Result: exactly `colours` entries, or fewer with a note that says why.
/// Throws Error when `colours` is not in 1 to 999, the histogram is empty, or the rules contradict each other.
struct MedianCut {
  int colours = 16;
  PaletteRules rules = {};
  CutAt at = CutAt::median;

  template <MeasuredColour C>
  Palette operator()(const Histogram<C>& histogram) const;
};

namespace detail {

/// A part of the list of bins, from `first` up to but without `end`.
struct ColourBox {
  std::size_t first = 0;
  std::size_t end = 0;
  Share share = {};
  /// The direction of the cut, of any length.
  std::array<std::int64_t, 3> axis = {};
  /// What cutting it is worth: squared error, or weight times the squared side. 0 where it has one colour.
  std::uint64_t need = 0;
};

template <When = When::called>
class BoxCutter {
 public:
  BoxCutter(std::vector<Bin> bins, CutAt at) : bins_(std::move(bins)), at_(at) {
    std::uint64_t total = 0;
    int halvings = 0;  // products of weight and squared side (31 bits), and sums of squares, have to fit
    for (const Bin& bin : bins_) total += bin.weight;
    while ((total >> halvings) >> 31 != 0) ++halvings;
    for (Bin& bin : bins_) bin.weight = std::max<std::uint64_t>(bin.weight >> halvings, 1);
  }

  /// Centres of the boxes after cutting into `wanted`, or fewer where there are no more colours.
  std::vector<FixedPoint> centres(std::size_t wanted) {
    std::vector<ColourBox> boxes;
    if (wanted > 0 && !bins_.empty()) boxes.push_back(box(0, bins_.size()));
    while (boxes.size() < wanted) {
      const auto neediest = std::max_element(boxes.begin(), boxes.end(), [](const ColourBox& a, const ColourBox& b) {
        return a.need < b.need;  // the first of equals
      });
      if (neediest == boxes.end() || neediest->need == 0) break;
      const ColourBox whole = *neediest;
      const std::size_t middle = cut(whole);
      *neediest = box(whole.first, middle);
      boxes.push_back(box(middle, whole.end));
    }
    std::vector<FixedPoint> centres;
    for (const ColourBox& b : boxes) centres.push_back(b.share.mean());
    return centres;
  }

 private:
  /// Places along an axis are told apart in this many steps.
  static constexpr std::size_t steps = 256;

  ColourBox box(std::size_t first, std::size_t end) const {
    ColourBox box = {.first = first, .end = end};
    for (std::size_t i = first; i < end; ++i) box.share.add(bins_[i]);
    if (end - first < 2) return box;
    if (at_ == CutAt::median) {
      FixedPoint low = bins_[first].point;
      FixedPoint high = low;
      for (std::size_t i = first; i < end; ++i) {
        const FixedPoint& p = bins_[i].point;
        low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
      }
      const std::array<std::int64_t, 3> sides = {high.x - low.x, high.y - low.y, high.z - low.z};
      const auto longest = std::max_element(sides.begin(), sides.end());  // the first of equals
      box.axis[static_cast<std::size_t>(longest - sides.begin())] = 1;
      box.need = box.share.weight * static_cast<std::uint64_t>(*longest * *longest);
    } else {
      const FixedPoint mean = box.share.mean();
      LongestAxis axis;
      for (std::size_t i = first; i < end; ++i) {
        const FixedPoint& p = bins_[i].point;
        axis.add(bins_[i].weight, p.x - mean.x, p.y - mean.y, p.z - mean.z);
      }
      box.axis = axis.direction();
      box.need = box.share.error(mean);
    }
    return box;
  }

  /// Puts the bins before the cut first, and returns where the others begin; both sides have some.
  std::size_t cut(const ColourBox& whole) {
    const auto place = [&](const FixedPoint& p) {
      return whole.axis[0] * p.x + whole.axis[1] * p.y + whole.axis[2] * p.z;
    };
    const auto begin = bins_.begin() + static_cast<std::ptrdiff_t>(whole.first);
    const auto end = bins_.begin() + static_cast<std::ptrdiff_t>(whole.end);
    std::int64_t low = place(begin->point);
    std::int64_t high = low;
    for (auto bin = begin; bin != end; ++bin) {
      low = std::min(low, place(bin->point));
      high = std::max(high, place(bin->point));
    }
    if (low == high) return whole.first + (whole.end - whole.first) / 2;
    // What each step along the axis holds; the median knows no steps finer than its own.
    const std::int64_t length = high - low + 1;
    const auto step = [&](const FixedPoint& p) {
      return static_cast<std::size_t>((place(p) - low) * static_cast<std::int64_t>(steps) / length);
    };
    std::array<Share, steps> parts = {};
    for (auto bin = begin; bin != end; ++bin) parts[step(bin->point)].add(*bin);
    std::size_t best = 0;
    std::uint64_t best_error = UINT64_MAX;
    Share before;
    for (std::size_t s = 0; s + 1 < steps; ++s) {
      before.add(parts[s]);
      Share after = whole.share;
      after.take(before);
      if (before.weight == 0 || after.weight == 0 || (best_error != UINT64_MAX && parts[s].weight == 0)) continue;
      const std::uint64_t error = imbalance(before, after, static_cast<std::int64_t>(s), whole, low, length);
      if (error < best_error) {
        best_error = error;
        best = s;
      }
    }
    const auto middle = std::stable_partition(begin, end, [&](const Bin& bin) { return step(bin.point) <= best; });
    return static_cast<std::size_t>(middle - bins_.begin());
  }

  /// What is wrong with a cut after step `s`.
  std::uint64_t imbalance(const Share& before, const Share& after, std::int64_t s, const ColourBox& whole,
                          std::int64_t low, std::int64_t length) const {
    if (at_ == CutAt::best_fit) return before.error(before.mean()) + after.error(after.mean());
    if (at_ == CutAt::median) {
      return before.weight > after.weight ? before.weight - after.weight : after.weight - before.weight;
    }
    const FixedPoint mean = whole.share.mean();
    const std::int64_t at = whole.axis[0] * mean.x + whole.axis[1] * mean.y + whole.axis[2] * mean.z - low;
    const std::int64_t edge = (s + 1) * length / static_cast<std::int64_t>(steps);
    return static_cast<std::uint64_t>(edge > at ? edge - at : at - edge);
  }

  std::vector<Bin> bins_;
  CutAt at_;
};

}  // namespace detail

template <MeasuredColour C>
Palette MedianCut::operator()(const Histogram<C>& histogram) const {
  return fit_by_rules(histogram, colours, rules, "median cut",
                      [&](const std::vector<Bin>& bins, const std::vector<FixedPoint>&, std::size_t wanted) {
                        return detail::BoxCutter(bins, at).centres(wanted);
                      });
}

}  // namespace handlaid
