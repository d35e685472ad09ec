// The second colour of a mix: the one whose line from the first passes nearest to the wanted colour, and that does not
// lie so far away that its few cells stand out.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/core/when_called.hpp"
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
      : points_(points), lines_(points.size()), score_(points.size()) {}

  /// A colour q that takes the share t of the cells from the colour p leaves the rest |wanted|^2 - t^2 |q - p|^2, and
  /// the cells scatter by t (1 - t) |q - p|^2 around their mean. Gives the number with the least rest + scatter / 4,
  /// the lower one of equals (in whole squared steps), or `from` if none leads towards the point. The quarter is ours:
  /// without it a far colour in one cell of thirty beats a near one in one of three.
  template <When = When::called>
  ColourNumber number(ColourNumber from, const FixedPoint& point) {
    const Lines& lines = of(from);
    const Difference wanted = difference(points_[from - std::size_t{1}], point);
    const auto x = static_cast<float>(wanted.x);
    const auto y = static_cast<float>(wanted.y);
    const auto z = static_cast<float>(wanted.z);
    // A sixteenth of 5 part^2 / length - part, so that it fits. Rounding in the sum is at most 2^-22 |along| |wanted|,
    // which makes 2^-23 |wanted|^2 and 2^-26 |along| |wanted| < 40 here; more is allowed for.
    for (std::size_t i = 0; i < score_.size(); ++i) {
      const float part = lines.x[i] * x + lines.y[i] * y + lines.z[i] * z;
      score_[i] = part > 0 ? static_cast<std::int32_t>(part * (part * lines.scale[i] - 0.0625F)) : lowest;
    }
    std::int32_t most = lowest;
    for (const std::int32_t score : score_) most = std::max(most, score);
    ColourNumber partner = from;
    if (most == lowest) return partner;
    const std::int32_t enough = most - 80 - static_cast<std::int32_t>(wanted.dot(wanted) >> 20);
    std::int64_t best = INT64_MIN;
    for (std::size_t i = 0; i < score_.size(); ++i) {
      if (score_[i] < enough) continue;
      const std::int64_t exactly = exact_score(from, i, wanted);
      if (exactly > best) {
        best = exactly;
        partner = static_cast<ColourNumber>(i + 1);
      }
    }
    return partner;
  }

 private:
  static constexpr std::int32_t lowest = INT32_MIN / 2;

  /// From one colour to all others: along each axis, and 5 / 16 of 1 / length^2 (0 for no length).
  struct Lines {
    std::vector<float> x, y, z, scale;
  };

  template <When = When::called>
  std::int64_t exact_score(ColourNumber from, std::size_t to, const Difference& wanted) const {
    const Difference along = difference(points_[from - std::size_t{1}], points_[to]);
    const std::int64_t part = along.dot(wanted);
    return part <= 0 ? INT64_MIN : 5 * (part * part / along.dot(along)) - part;
  }

  template <When = When::called>
  const Lines& of(ColourNumber from) {
    Lines& lines = lines_[from - std::size_t{1}];
    if (!lines.x.empty()) return lines;
    for (const FixedPoint& point : points_) {
      const Difference along = difference(points_[from - std::size_t{1}], point);
      const std::int64_t length = along.dot(along);
      lines.x.push_back(static_cast<float>(along.x));
      lines.y.push_back(static_cast<float>(along.y));
      lines.z.push_back(static_cast<float>(along.z));
      lines.scale.push_back(length == 0 ? 0.0F : 0.3125F / static_cast<float>(length));
    }
    return lines;
  }

  const std::vector<FixedPoint>& points_;
  std::vector<Lines> lines_;
  std::vector<std::int32_t> score_;
};

}  // namespace detail

}  // namespace handlaid
