// The map of a flat board to its photo: a projective map of the plane (a homography), from four or more places known on
// both. Straight lines stay straight; what is parallel on the board need not be in the photo.
#pragma once

#include <Eigen/SVD>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// A place in a plane: pixels of a photo, or cells of a board.
struct PlanePoint {
  double x = 0;
  double y = 0;
  friend constexpr bool operator==(const PlanePoint&, const PlanePoint&) = default;
};

/// The same place in two planes.
struct PlanePair {
  PlanePoint from = {};
  PlanePoint to = {};
};

/// A projective map, row by row: (x, y) goes to ((m0 x + m1 y + m2) / w, (m3 x + m4 y + m5) / w), w = m6 x + m7 y + m8.
struct Homography {
  std::array<double, 9> m = {1, 0, 0, 0, 1, 0, 0, 0, 1};

  constexpr PlanePoint operator()(const PlanePoint& p) const {
    const double w = m[6] * p.x + m[7] * p.y + m[8];
    return {(m[0] * p.x + m[1] * p.y + m[2]) / w, (m[3] * p.x + m[4] * p.y + m[5]) / w};
  }
  /// The way back: the adjugate, which differs from the inverse by a factor that does not matter.
  constexpr Homography inverse() const {
    return {{m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4], m[5] * m[6] - m[3] * m[8],
             m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5], m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7],
             m[0] * m[4] - m[1] * m[3]}};
  }
};

/// The map that takes each pair's `from` to its `to`, exactly for four pairs and by least algebraic error for more: the
/// normalised direct linear transformation (R. Hartley, A. Zisserman, "Multiple View Geometry in Computer Vision", 2nd
/// edition, 2004, algorithm 4.2). Throws Error, naming `where`, for fewer than four pairs, places that are not finite,
/// and places of which too many lie on one line to say anything.
template <When = When::called>
Homography fit_homography(std::span<const PlanePair> pairs, const std::string& where = "places");

/// The corners of a board in a photo, in pixels, y down: bottom left (the datum) first, then clockwise.
using BoardCorners = std::array<PlanePoint, 4>;

/// Throws Error unless all four corners are inside of a picture of that size and go round clockwise: collinear, crossed
/// and anticlockwise corners are told apart.
template <When = When::called>
void check_corners(const BoardCorners& corners, int width, int height, const std::string& where = "corners");

namespace detail {

/// Moves and scales places so that their middle is 0 and their mean distance from it the root of 2.
struct PlaneScale {
  double x = 0;
  double y = 0;
  double scale = 1;

  template <class Of>
  static PlaneScale over(std::span<const PlanePair> pairs, const Of& of) {
    PlaneScale s;
    const auto count = static_cast<double>(pairs.size());
    for (const PlanePair& pair : pairs) s.x += of(pair).x / count, s.y += of(pair).y / count;
    double mean = 0;
    for (const PlanePair& pair : pairs) mean += std::hypot(of(pair).x - s.x, of(pair).y - s.y) / count;
    s.scale = mean > 0 ? std::sqrt(2.0) / mean : 1;
    return s;
  }
  PlanePoint operator()(const PlanePoint& p) const { return {(p.x - x) * scale, (p.y - y) * scale}; }
  Homography map() const { return {{scale, 0, -scale * x, 0, scale, -scale * y, 0, 0, 1}}; }
  Homography back() const { return {{1 / scale, 0, x, 0, 1 / scale, y, 0, 0, 1}}; }
};

constexpr Homography product(const Homography& a, const Homography& b) {
  Homography c{{}};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) c.m[3 * i + j] += a.m[3 * i + k] * b.m[3 * k + j];
    }
  }
  return c;
}

/// Twice the area of a triangle: above 0 where a, b, c go round clockwise as seen with y down.
constexpr double turn(const PlanePoint& a, const PlanePoint& b, const PlanePoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

}  // namespace detail

template <When when>
Homography fit_homography(std::span<const PlanePair> pairs, const std::string& where) {
  if (pairs.size() < 4) {
    throw Error::bad_input(where, std::to_string(pairs.size()) + " are too few", "give four or more");
  }
  for (const PlanePair& pair : pairs) {
    for (const double v : {pair.from.x, pair.from.y, pair.to.x, pair.to.y}) {
      if (!(std::abs(v) < 1e9)) throw Error::bad_input(where, "one is not within a thousand million", "give pixels");
    }
  }
  const auto from = detail::PlaneScale::over(pairs, [](const PlanePair& p) { return p.from; });
  const auto to = detail::PlaneScale::over(pairs, [](const PlanePair& p) { return p.to; });
  using Rows = Eigen::Matrix<later<when, double>, Eigen::Dynamic, 9>;
  Rows rows(2 * static_cast<Eigen::Index>(pairs.size()), 9);
  for (Eigen::Index i = 0; i < static_cast<Eigen::Index>(pairs.size()); ++i) {
    const PlanePoint p = from(pairs[static_cast<std::size_t>(i)].from);
    const PlanePoint q = to(pairs[static_cast<std::size_t>(i)].to);
    rows.row(2 * i) << 0, 0, 0, -p.x, -p.y, -1, q.y * p.x, q.y * p.y, q.y;
    rows.row(2 * i + 1) << p.x, p.y, 1, 0, 0, 0, -q.x * p.x, -q.x * p.y, -q.x;
  }
  const Eigen::JacobiSVD<Rows> svd(rows, Eigen::ComputeFullV);
  Homography scaled{{}};
  for (std::size_t i = 0; i < 9; ++i) scaled.m[i] = svd.matrixV()(static_cast<Eigen::Index>(i), 8);
  const auto& m = scaled.m;
  const double area =
      m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) + m[2] * (m[3] * m[7] - m[4] * m[6]);
  // On a line a second axis is as good as the first, or the map makes a line of the plane.
  const auto& sizes = svd.singularValues();
  if (sizes(7) < 3e-5 * sizes(0) || std::abs(area) < 1e-6) {
    throw Error::bad_input(where, "they lie on a line, or all but one do", "give places well apart in both directions");
  }
  Homography whole = detail::product(to.back(), detail::product(scaled, from.map()));
  const double middle = whole.m[6] * from.x + whole.m[7] * from.y + whole.m[8];
  for (double& v : whole.m) v /= middle;  // so that w is 1 in the middle: the sign of a singular vector says nothing
  return whole;
}

template <When>
void check_corners(const BoardCorners& corners, int width, int height, const std::string& where) {
  double longest = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const PlanePoint& p = corners[i];
    if (!(p.x >= 0 && p.y >= 0 && p.x <= width && p.y <= height)) {
      throw Error::bad_option(where, "corner " + std::to_string(i + 1) + " is outside of the picture",
                              "give pixels from 0,0 to " + std::to_string(width) + "," + std::to_string(height));
    }
    const PlanePoint& q = corners[(i + 1) % 4];
    longest = std::max(longest, std::hypot(q.x - p.x, q.y - p.y));
  }
  int right = 0;
  int left = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const double area = detail::turn(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]);
    if (std::abs(area) <= 0.01 * longest * longest) {
      throw Error::bad_option(where, "three of them are on one line", "give the four corners of the laid field");
    }
    (area > 0 ? right : left) += 1;
  }
  if (right == 4) return;
  throw Error::bad_option(where, left == 4 ? "they go round anticlockwise" : "their lines cross or bend inwards",
                          "give bottom left (the datum), top left, top right, bottom right");
}

}  // namespace handlaid
