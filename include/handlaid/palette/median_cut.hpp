// Median cut: halves the neediest box of colours until there are enough.
// P. Heckbert, "Color image quantization for frame buffer display", SIGGRAPH 1982.
#pragma once

#include <algorithm>
#include <vector>

#include "handlaid/palette/colour_tree.hpp"
#include "handlaid/palette/complete.hpp"
#include "handlaid/palette/histogram.hpp"

namespace handlaid {

/// Fits a palette by splitting boxes of colours along their longest side at the weighted median.
/// Result: exactly `colours` entries, or fewer with a note where the histogram has fewer colours.
/// Throws Error when `colours` is not in 1 to 999, the histogram is empty, or the locked colours do not fit.
struct MedianCut {
  int colours = 16;
  /// Colours that must be used; they take the first numbers, the rest is shared by the other colours.
  std::vector<PaletteEntry> locked = {};

  template <MeasuredColour C>
  Palette operator()(const Histogram<C>& histogram) const;
};

namespace detail {

/// A part of the list of bins, from `first` up to but without `end`.
struct ColourBox {
  std::size_t first = 0;
  std::size_t end = 0;
  std::uint64_t weight = 0;
  int axis = 0;
  int side = 0;
  /// Weight times the squared side.
  std::uint64_t need = 0;
};

constexpr int coordinate(const FixedPoint& p, int axis) { return axis == 0 ? p.x : (axis == 1 ? p.y : p.z); }

/// `shift` brings weights down so that products with a squared side (31 bits) fit.
inline ColourBox colour_box(const std::vector<Bin>& bins, std::size_t first, std::size_t end, int shift) {
  ColourBox box = {.first = first, .end = end};
  for (int axis = 0; axis < 3; ++axis) {
    int low = coordinate(bins[first].point, axis);
    int high = low;
    for (std::size_t i = first; i < end; ++i) {
      low = std::min(low, coordinate(bins[i].point, axis));
      high = std::max(high, coordinate(bins[i].point, axis));
    }
    if (high - low > box.side) {
      box.side = high - low;
      box.axis = axis;
    }
  }
  for (std::size_t i = first; i < end; ++i) box.weight += bins[i].weight;
  const auto side = static_cast<std::uint64_t>(box.side);
  box.need = (box.weight >> shift) * side * side;
  return box;
}

/// Centres of the boxes after cutting `bins` into `wanted` boxes, or fewer where there are no more colours.
inline std::vector<FixedPoint> cut_centres(std::vector<Bin> bins, std::size_t wanted) {
  std::uint64_t total = 0;
  for (const Bin& bin : bins) total += bin.weight;
  int shift = 0;
  while ((total >> shift) >> 32 != 0) ++shift;
  std::vector<ColourBox> boxes;
  if (wanted > 0 && !bins.empty()) boxes.push_back(colour_box(bins, 0, bins.size(), shift));
  while (boxes.size() < wanted) {
    // The box in most need of a split: a long side counts squared, as an error would. The earlier one of equals.
    ColourBox* neediest = nullptr;
    for (ColourBox& box : boxes) {
      if (box.side > 0 && (neediest == nullptr || box.need > neediest->need)) neediest = &box;
    }
    if (neediest == nullptr) break;
    const ColourBox box = *neediest;
    std::sort(bins.begin() + static_cast<std::ptrdiff_t>(box.first),
              bins.begin() + static_cast<std::ptrdiff_t>(box.end), [&](const Bin& p, const Bin& q) {
                const int a = coordinate(p.point, box.axis);
                const int b = coordinate(q.point, box.axis);
                return a != b ? a < b : p.point < q.point;
              });
    // The cut lies where half of the weight is passed, but never parts colours of one coordinate, and leaves both
    // sides with a colour.
    std::uint64_t passed = 0;
    std::size_t cut = box.first;
    while (cut + 1 < box.end && (passed + bins[cut].weight) * 2 <= box.weight) passed += bins[cut++].weight;
    if (cut == box.first) ++cut;
    const auto same = [&](std::size_t i) {
      return coordinate(bins[i - 1].point, box.axis) == coordinate(bins[i].point, box.axis);
    };
    std::size_t up = cut;
    while (up < box.end && same(up)) ++up;
    while (cut > box.first && same(cut)) --cut;
    if (cut == box.first) cut = up;
    *neediest = colour_box(bins, box.first, cut, shift);
    boxes.push_back(colour_box(bins, cut, box.end, shift));
  }
  std::vector<FixedPoint> centres;
  for (const ColourBox& box : boxes) {
    Share share;
    for (std::size_t i = box.first; i < box.end; ++i) {
      share.add({bins[i].point, std::max<std::uint64_t>(bins[i].weight >> shift, 1)});
    }
    centres.push_back(share.mean());
  }
  return centres;
}

}  // namespace detail

template <MeasuredColour C>
Palette MedianCut::operator()(const Histogram<C>& histogram) const {
  check_locked(colours, locked);
  if (histogram.bins.empty()) throw Error::bad_input("median cut", "there are no colours to fit", "lay some cells");
  const auto centres = detail::cut_centres(histogram.bins, static_cast<std::size_t>(colours) - locked.size());
  return complete_palette(centres, locked, colours, histogram);
}

}  // namespace handlaid
