// Exact averages of areas of a picture, in linear light, weighted by opacity: under resample and map_to.
// Everything is a whole number, so that the result is the same in every build and for any number of threads.
#pragma once

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <vector>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid::detail {

/// The longest side and the largest area that an average may have: then no sum below can pass its limit.
inline constexpr std::int64_t longest_side = std::int64_t{1} << 20;
inline constexpr std::int64_t largest_area = std::int64_t{1} << 31;

/// A sum of products that may pass 64 bits: `high` counts 2^32.
class WideSum {
 public:
  /// `value` below 2^63, `weight` at most 2^31.
  constexpr void add(std::uint64_t value, std::uint64_t weight) {
    low_ += (value & 0xffffffffU) * weight;
    high_ += (value >> 32U) * weight + (low_ >> 32U);
    low_ &= 0xffffffffU;
  }
  /// The quotient rounded half up; `by` is from 1 to 2^47, the quotient must be below 2^48.
  constexpr std::uint64_t divided(std::uint64_t by) const {
    if (high_ < (std::uint64_t{1} << 31U)) return (((high_ << 32U) | low_) + by / 2) / by;
    std::uint64_t quotient = high_ / by;
    std::uint64_t rest = high_ % by;
    for (const std::uint64_t digit : {low_ >> 16U, low_ & 0xffffU}) {
      rest = (rest << 16U) | digit;
      quotient = (quotient << 16U) + rest / by;
      rest %= by;
    }
    return quotient + (rest >= by - by / 2 ? 1 : 0);
  }

 private:
  std::uint64_t low_ = 0;
  std::uint64_t high_ = 0;
};

/// A sum of products that stays below 2^64.
class NarrowSum {
 public:
  constexpr void add(std::uint64_t value, std::uint64_t weight) { sum_ += value * weight; }
  constexpr std::uint64_t divided(std::uint64_t by) const { return (sum_ + by / 2) / by; }

 private:
  std::uint64_t sum_ = 0;
};

/// Light that may be negative is lifted by this while it is summed.
template <class C>
inline constexpr std::int64_t light_lift = std::int64_t{4} << 24U;
template <>
inline constexpr std::int64_t light_lift<Srgb8> = 0;
template <>
inline constexpr std::int64_t light_lift<Srgb16> = 0;

/// The sum of light times opacity, and of opacity, over pixels of one row. An opaque type leaves `opacity` at 0.
struct PixelSum {
  std::uint64_t r = 0;
  std::uint64_t g = 0;
  std::uint64_t b = 0;
  std::uint64_t opacity = 0;

  constexpr PixelSum& operator+=(const PixelSum& other) {
    r += other.r;
    g += other.g;
    b += other.b;
    opacity += other.opacity;
    return *this;
  }
  friend constexpr PixelSum operator*(const PixelSum& sum, std::uint64_t weight) {
    return {sum.r * weight, sum.g * weight, sum.b * weight, sum.opacity * weight};
  }
};

/// Turns pixels into what is summed. 16-bit codes are expensive to decode: for a large picture they are tabled first.
template <class P>
class PixelReader {
 public:
  explicit PixelReader(std::int64_t pixels) {
    if constexpr (std::same_as<ColourOf<P>, Srgb16>) {
      if (pixels < 65536 / 3) return;
      table_.resize(65536);
      for (std::uint32_t code = 0; code < 65536; ++code) {
        const auto c = static_cast<std::uint16_t>(code);
        table_[code] = static_cast<std::uint32_t>(Srgb16{c, c, c}.light().r);
      }
    }
  }
  PixelSum operator()(const P& pixel) const {
    const PixelSum light = light_of(colour_of(pixel));
    if constexpr (AlphaPixel<P>) {
      const std::uint64_t opacity = pixel.opacity();
      return {light.r * opacity, light.g * opacity, light.b * opacity, opacity};
    } else {
      return light;
    }
  }

 private:
  using C = ColourOf<P>;
  PixelSum light_of(const C& colour) const {
    if constexpr (std::same_as<C, Srgb8>) {
      const auto of = [](std::uint8_t code) { return static_cast<std::uint64_t>(srgb_to_linear_table[code]); };
      return {of(colour.r), of(colour.g), of(colour.b)};
    } else {
      if constexpr (std::same_as<C, Srgb16>) {
        if (!table_.empty()) return {table_[colour.r], table_[colour.g], table_[colour.b]};
      }
      const Light light = colour.light();
      constexpr std::int64_t most = std::int64_t{4} << 24U;
      const auto lifted = [](std::int64_t v) {
        return static_cast<std::uint64_t>(clamp(v, -most, most) + light_lift<C>);
      };
      return {lifted(light.r), lifted(light.g), lifted(light.b)};
    }
  }

  std::vector<std::uint32_t> table_ = {};
};

/// What a stretch along one axis covers: pixels `first` to `last`, the two ends with weights of their own.
struct Cover {
  int first = 0;
  int last = 0;
  std::uint64_t first_weight = 0;
  std::uint64_t inner_weight = 0;
  std::uint64_t last_weight = 0;

  /// Covers `from` up to `to` (above `from`) on an axis where each pixel is `unit` long.
  static Cover of(std::int64_t from, std::int64_t to, std::int64_t unit) {
    Cover cover;
    cover.first = static_cast<int>(from / unit);
    cover.last = static_cast<int>((to - 1) / unit);
    cover.inner_weight = static_cast<std::uint64_t>(unit);
    const std::int64_t end = std::min(to, (cover.first + std::int64_t{1}) * unit);
    cover.first_weight = static_cast<std::uint64_t>(end - from);
    cover.last_weight = static_cast<std::uint64_t>(to - cover.last * unit);
    return cover;
  }
  std::uint64_t weight(int at) const {
    if (at == first) return first_weight;
    return at == last ? last_weight : inner_weight;
  }
};

/// The sum over the pixels of a row strictly between the ends of a cover, unweighted.
template <class P, class Row>
PixelSum inner_sum(const Row& row, const Cover& cover, const PixelReader<P>& read) {
  PixelSum sum;
  for (auto x = static_cast<std::size_t>(cover.first) + 1; x < static_cast<std::size_t>(cover.last); ++x) {
    sum += read(row[x]);
  }
  return sum;
}

/// The mean of an area, kept as sums until it is asked for.
template <class P>
class AreaMean {
 public:
  void add(const PixelSum& sum, std::uint64_t weight) {
    r_.add(sum.r, weight);
    g_.add(sum.g, weight);
    b_.add(sum.b, weight);
    opacity_ += sum.opacity * weight;
  }
  /// All weights that were added.
  void set_area(std::uint64_t area) { area_ = area; }

  /// Whether any of it is not transparent, so that it has a colour.
  bool has_colour() const { return AlphaPixel<P> ? opacity_ > 0 : area_ > 0; }
  Light light() const {
    const std::uint64_t by = AlphaPixel<P> ? opacity_ : area_;
    const auto mean = [&](const Sum& sum) {
      return static_cast<std::int64_t>(sum.divided(by)) - light_lift<ColourOf<P>>;
    };
    return {mean(r_), mean(g_), mean(b_)};
  }
  /// From 0 to 65535, rounded.
  std::uint32_t opacity() const {
    if constexpr (!AlphaPixel<P>) return 65535U;
    return static_cast<std::uint32_t>((opacity_ + area_ / 2) / area_);
  }
  /// Whether the mean opacity, unrounded, is at least `part` / 65536.
  bool covers(std::uint64_t part) const {
    if constexpr (!AlphaPixel<P>) return area_ > 0;
    return opacity_ > 0 && opacity_ * 65536U >= part * 65535U * area_;
  }

 private:
  // Without opacity a value is below 2^27 and an area at most 2^31.
  using Sum = std::conditional_t<AlphaPixel<P>, WideSum, NarrowSum>;

  Sum r_ = {};
  Sum g_ = {};
  Sum b_ = {};
  std::uint64_t opacity_ = 0;
  std::uint64_t area_ = 0;
};

/// Along one axis, `cells` equal parts of `pixels`: both in the smallest whole units in which they meet.
struct Division {
  std::int64_t pixel = 1;  ///< length of a pixel
  std::int64_t cell = 1;   ///< length of a cell
  Division(std::int64_t pixels, std::int64_t cells) {
    const std::int64_t common = std::gcd(pixels, cells);
    pixel = cells / common;
    cell = pixels / common;
  }
  Cover cover(std::int64_t index) const { return Cover::of(index * cell, (index + 1) * cell, pixel); }
};

inline void check_averaged(std::int64_t width, std::int64_t height, const char* step) {
  if (width < 1 || height < 1) {
    throw Error::bad_input(step, "the picture has no pixels", "give a picture of at least 1 x 1");
  }
  if (width > longest_side || height > longest_side || width * height > largest_area) {
    throw Error::bad_input(step, "a picture of " + size_text(width, height) + " is too large", "crop it first");
  }
}

/// Divides a picture into `columns` x `rows` equal parts and calls `emit(column, row, mean)` for each, row by row and
/// from several threads at once. The picture's rows are read once, in order.
template <Picture R, class Emit>
void average_grid(const R& raster, int columns, int rows, const Work& work, const char* step, const Emit& emit) {
  using P = PixelOf<R>;
  check_averaged(raster.width(), raster.height(), step);
  check_averaged(columns, rows, step);
  const Division across(raster.width(), columns);
  const Division down(raster.height(), rows);
  std::vector<Cover> covers;
  covers.reserve(static_cast<std::size_t>(columns));
  for (int column = 0; column < columns; ++column) covers.push_back(across.cover(column));
  const auto area = static_cast<std::uint64_t>(across.cell * down.cell);
  const PixelReader<P> read(static_cast<std::int64_t>(raster.width()) * raster.height());

  for_each_band(rows, work, [&](int first, int last) {
    std::vector<PixelSum> sums(covers.size());
    std::vector<AreaMean<P>> means(covers.size());
    int summed = -1;
    for (int row = first; row < last; ++row) {
      if (first == 0 && !work.progress(step, static_cast<double>(row) / last)) throw Error::stopped(step);
      const Cover cover = down.cover(row);
      for (AreaMean<P>& mean : means) mean = {};
      for (int y = cover.first; y <= cover.last; ++y) {
        if (y != summed) {
          const auto& pixels = raster.row(y);
          for (std::size_t i = 0; i < covers.size(); ++i) {
            const Cover& c = covers[i];
            PixelSum sum = read(pixels[static_cast<std::size_t>(c.first)]) * c.first_weight;
            if (c.last > c.first) {
              sum += inner_sum<P>(pixels, c, read) * c.inner_weight;
              sum += read(pixels[static_cast<std::size_t>(c.last)]) * c.last_weight;
            }
            sums[i] = sum;
          }
          summed = y;
        }
        const std::uint64_t weight = cover.weight(y);
        for (std::size_t i = 0; i < covers.size(); ++i) means[i].add(sums[i], weight);
      }
      for (std::size_t i = 0; i < covers.size(); ++i) {
        means[i].set_area(area);
        emit(static_cast<int>(i), row, means[i]);
      }
    }
  });
}

}  // namespace handlaid::detail
