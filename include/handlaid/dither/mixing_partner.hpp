// The second colour of a mix: the one whose line from the first passes nearest to the wanted colour.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

namespace detail {

struct Difference {
  std::int64_t x, y, z;
  constexpr std::int64_t dot(const Difference& other) const { return x * other.x + y * other.y + z * other.z; }
};
constexpr Difference difference(const FixedPoint& p, const FixedPoint& q) { return {q.x - p.x, q.y - p.y, q.z - p.z}; }
constexpr Difference difference(const Light& p, const Light& q) { return {q.r - p.r, q.g - p.g, q.b - p.b}; }

/// Finds partners for many points. Not for two threads at once.
class MixingPartner {
 public:
  /// `points` are the palette's, in the order of the numbers; they must outlive the search.
  explicit MixingPartner(const std::vector<FixedPoint>& points)
      : points_(points), lines_(points.size()), quarter_(points.size()) {}

  /// The number whose line from the colour `from` takes most of the squared distance of `point` away, the lower one of
  /// equals (in whole squared steps), or `from` if none leads towards it.
  ColourNumber number(ColourNumber from, const FixedPoint& point) {
    const Lines& lines = of(from);
    const Difference wanted = difference(points_[from - std::size_t{1}], point);
    const auto x = static_cast<float>(wanted.x);
    const auto y = static_cast<float>(wanted.y);
    const auto z = static_cast<float>(wanted.z);
    // A quarter of part^2 / length, so that it fits. Rounding in the sum is at most 2^-22 |along| |wanted|, which makes
    // 2^-23 |wanted|^2 here; far more is allowed for.
    for (std::size_t i = 0; i < quarter_.size(); ++i) {
      const float part = lines.x[i] * x + lines.y[i] * y + lines.z[i] * z;
      quarter_[i] = part > 0 ? static_cast<std::int32_t>(part * part * lines.scale[i]) : 0;
    }
    std::int32_t most = 0;
    for (const std::int32_t q : quarter_) most = std::max(most, q);
    const std::int32_t enough = most - 2 - static_cast<std::int32_t>(wanted.dot(wanted) >> 20);
    ColourNumber partner = from;
    std::int64_t taken = 0;
    for (std::size_t i = 0; i < quarter_.size(); ++i) {
      if (quarter_[i] < enough) continue;
      const std::int64_t exactly = taken_by(from, i, wanted);
      if (exactly > taken) {
        taken = exactly;
        partner = static_cast<ColourNumber>(i + 1);
      }
    }
    return partner;
  }

 private:
  /// From one colour to all others: along each axis, and a quarter of 1 / length^2 (0 for no length).
  struct Lines {
    std::vector<float> x, y, z, scale;
  };

  std::int64_t taken_by(ColourNumber from, std::size_t to, const Difference& wanted) const {
    const Difference along = difference(points_[from - std::size_t{1}], points_[to]);
    const std::int64_t part = along.dot(wanted);
    return part <= 0 ? 0 : part * part / along.dot(along);
  }

  const Lines& of(ColourNumber from) {
    Lines& lines = lines_[from - std::size_t{1}];
    if (!lines.x.empty()) return lines;
    for (const FixedPoint& point : points_) {
      const Difference along = difference(points_[from - std::size_t{1}], point);
      const std::int64_t length = along.dot(along);
      lines.x.push_back(static_cast<float>(along.x));
      lines.y.push_back(static_cast<float>(along.y));
      lines.z.push_back(static_cast<float>(along.z));
      lines.scale.push_back(length == 0 ? 0.0F : 0.25F / static_cast<float>(length));
    }
    return lines;
  }

  const std::vector<FixedPoint>& points_;
  std::vector<Lines> lines_;
  std::vector<std::int32_t> quarter_;
};

}  // namespace detail

}  // namespace handlaid
