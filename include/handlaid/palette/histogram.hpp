// The weighted histogram: how much of each colour there is. What fitters look at.
// Histograms of parts of a picture add up to the histogram of the whole.
#pragma once

#include <algorithm>
#include <concepts>
#include <cstdint>
#include <span>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/oklab_rows.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// A colour in whole steps of its space, and how much there is of it.
struct Bin {
  FixedPoint point = {};
  std::uint64_t weight = 0;
  friend constexpr bool operator==(const Bin&, const Bin&) = default;
};

namespace detail {

/// By counting, axis by axis: many times as fast as by comparing.
template <When = When::called>
void sort_bins(std::vector<Bin>& bins) {
  std::vector<Bin> other(bins.size());
  for (const auto axis : {&FixedPoint::z, &FixedPoint::y, &FixedPoint::x}) {
    int low = 32767;
    int high = -32768;
    for (const Bin& bin : bins) {
      low = std::min(low, int{bin.point.*axis});
      high = std::max(high, int{bin.point.*axis});
    }
    if (low >= high) continue;
    std::vector<std::size_t> starts(static_cast<std::size_t>(high - low) + 2, 0);
    const auto place = [&](const Bin& bin) { return static_cast<std::size_t>(bin.point.*axis - low); };
    for (const Bin& bin : bins) ++starts[place(bin) + 1];
    for (std::size_t i = 1; i < starts.size(); ++i) starts[i] += starts[i - 1];
    for (const Bin& bin : bins) other[starts[place(bin)]++] = bin;
    bins.swap(other);
  }
}

}  // namespace detail

/// Distinct colours of the space `C`, in ascending order, each with a weight of 1 or more.
template <MeasuredColour C = Oklab>
struct Histogram {
  using colour_type = C;
  std::vector<Bin> bins = {};

  std::uint64_t total() const {
    std::uint64_t sum = 0;
    for (const Bin& bin : bins) sum += bin.weight;
    return sum;
  }

  friend Histogram operator+(const Histogram& a, const Histogram& b) {
    Histogram sum;
    sum.bins.resize(a.bins.size() + b.bins.size());
    std::merge(a.bins.begin(), a.bins.end(), b.bins.begin(), b.bins.end(), sum.bins.begin(),
               [](const Bin& p, const Bin& q) { return p.point < q.point; });
    sum.join_equal();
    return sum;
  }
  friend bool operator==(const Histogram&, const Histogram&) = default;

  /// Sorts the bins and joins those of one colour; needed after adding to `bins` by hand.
  void tidy() {
    detail::sort_bins(bins);
    join_equal();
  }

 private:
  void join_equal() {
    std::size_t kept = 0;
    for (const Bin& bin : bins) {
      if (bin.weight == 0) continue;
      if (kept > 0 && bins[kept - 1].point == bin.point) {
        bins[kept - 1].weight += bin.weight;
      } else {
        bins[kept++] = bin;
      }
    }
    bins.resize(kept);
  }
};

namespace detail {

/// Colours that cannot be compared are counted in Oklab.
template <Colour C>
struct MeasuredIn {
  using type = Oklab;
};
template <MeasuredColour C>
struct MeasuredIn<C> {
  using type = C;
};

/// Sorts keys of three bytes by their digits: three passes over the data, whatever it holds.
template <When = When::called>
void radix_sort_24(std::vector<std::uint32_t>& keys) {
  std::vector<std::uint32_t> other(keys.size());
  for (int shift = 0; shift < 24; shift += 8) {
    std::size_t starts[257] = {};
    for (const std::uint32_t key : keys) ++starts[((key >> shift) & 255U) + 1];
    for (int digit = 0; digit < 256; ++digit) starts[digit + 1] += starts[digit];
    for (const std::uint32_t key : keys) other[starts[(key >> shift) & 255U]++] = key;
    keys.swap(other);
  }
}

/// Counts sRGB codes first, so that each distinct code is converted only once.
template <MeasuredColour C, class Pixels>
Histogram<C> count_codes(int width, int height, Pixels&& pixel_or_nothing) {
  std::vector<std::uint32_t> keys;
  keys.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      if (const Srgb8* code = pixel_or_nothing(x, y)) {
        keys.push_back(static_cast<std::uint32_t>(code->r << 16 | code->g << 8 | code->b));
      }
    }
  }
  radix_sort_24(keys);
  Histogram<C> histogram;
  histogram.bins.reserve(keys.size());
  constexpr std::size_t part = 256;
  Srgb8 codes[part];
  C colours[part];
  for (std::size_t first = 0; first < keys.size();) {
    const std::size_t begin = histogram.bins.size();
    std::size_t count = 0;
    for (; count < part && first < keys.size(); ++count) {
      const std::uint32_t key = keys[first];
      codes[count] = {static_cast<std::uint8_t>(key >> 16), static_cast<std::uint8_t>(key >> 8),
                      static_cast<std::uint8_t>(key)};
      std::size_t end = first + 1;
      while (end < keys.size() && keys[end] == key) ++end;
      histogram.bins.push_back({.weight = end - first});
      first = end;
    }
    if constexpr (requires { convert_row(std::span<const Srgb8>(codes), std::span<C>(colours)); }) {
      convert_row(std::span<const Srgb8>(codes, count), std::span<C>(colours));
    } else {
      for (std::size_t i = 0; i < count; ++i) colours[i] = convert_colour<C>(codes[i]);
    }
    for (std::size_t i = 0; i < count; ++i) histogram.bins[begin + i].point = colours[i].fixed();
  }
  histogram.tidy();
  return histogram;
}

}  // namespace detail

/// The space in which colours of type `C` are compared: their own, or Oklab.
template <Colour C>
using MeasuredSpace = typename detail::MeasuredIn<C>::type;

/// Colours of which only some are there, such as the cells of a lattice: those where `laid` is not 0.
template <class T>
concept PartlyLaid = requires(const T& cells) {
  requires Colour<typename T::colour_type>;
  { cells.colours(0, 0) } -> std::same_as<const typename T::colour_type&>;
  { cells.laid(0, 0) } -> std::convertible_to<int>;
};

/// Counts colours: of the laid cells, or of the pixels that are at least half opaque. `cells | count_colours`.
/// With an importance picture, here or in the cells, each counts as often as its weight says, 0 to 65535.
struct CountColours {
  using is_stage = void;
  /// Empty, or of the size of what is counted.
  Raster<std::uint16_t> importance = {};

  template <PartlyLaid T>
  auto operator()(const T& cells) const {
    const Raster<std::uint16_t>* weights = &importance;
    if constexpr (requires { cells.importance(0, 0); }) {
      if (importance.empty()) weights = &cells.importance;
    }
    return count<typename T::colour_type>(
        cells.colours.width(), cells.colours.height(),
        [&](int x, int y) { return cells.laid(x, y) != 0 ? &cells.colours(x, y) : nullptr; }, *weights);
  }
  template <AnyRaster R>
    requires Pixel<typename R::pixel_type>
  auto operator()(const R& raster) const {
    return count<ColourOf<typename R::pixel_type>>(
        raster.width(), raster.height(),
        [&](int x, int y) {
          const auto& pixel = raster.row(y)[static_cast<std::size_t>(x)];
          return opacity_of(pixel) >= 32768U ? &colour_of(pixel) : nullptr;
        },
        importance);
  }

 private:
  template <Colour C, class At>
  static Histogram<MeasuredSpace<C>> count(int width, int height, At&& at, const Raster<std::uint16_t>& importance) {
    using Space = MeasuredSpace<C>;
    const bool weighted = !importance.empty();
    if (weighted && (importance.width() != width || importance.height() != height)) {
      throw Error::bad_option("importance",
                              "it has " + std::to_string(importance.width()) + " x " +
                                  std::to_string(importance.height()) + " weights for " + std::to_string(width) +
                                  " x " + std::to_string(height) + " places",
                              "give one weight for each");
    }
    if constexpr (std::same_as<C, Srgb8>) {
      if (!weighted) return detail::count_codes<Space>(width, height, at);
    }
    Histogram<Space> histogram;
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        if (const C* colour = at(x, y)) {
          const std::uint64_t weight = weighted ? importance(x, y) : 1U;
          histogram.bins.push_back({convert_colour<Space>(*colour).fixed(), weight});
        }
      }
    }
    histogram.tidy();
    return histogram;
  }
};
inline const CountColours count_colours = {};

}  // namespace handlaid
