// Corners that were pointed at by hand, moved to where the cells are most even: a cell is of one colour, so where the
// looked-at part of cells reaches over joints or into neighbours, their light spreads. Nothing need be known of
// colours.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/homography.hpp"
#include "handlaid/image/picture.hpp"
#include "handlaid/image/straighten.hpp"

namespace handlaid {

/// Corners near the given ones (in all within half a cell or so) for which the cells are most even; the given ones
/// where none are better. Throws Error where they are no corners of a board of so many cells in the picture.
template <Picture R>
BoardCorners refine_corners(const R& photo, const BoardCorners& corners, int columns, int rows);

namespace detail {

/// How uneven cells are: the sum of differences from their middle, over at most about 2,000 of them.
template <Picture R>
std::int64_t unevenness(const R& photo, const BoardCorners& corners, int columns, int rows) {
  const Homography map = board_to_photo(corners, columns, rows);
  const std::int64_t cells = std::int64_t{columns} * rows;
  const std::int64_t step = cells / 2'000 + 1;
  std::int64_t sum = 0;
  for (std::int64_t i = 0; i < cells; i += step) {
    const auto x = static_cast<double>(i % columns);
    const auto y = static_cast<double>(i / columns);
    const Light middle = light_at(photo, map({x + 0.5, y + 0.5}));
    for (const double v : {0.2, 0.5, 0.8}) {
      for (const double u : {0.2, 0.5, 0.8}) {
        const Light light = light_at(photo, map({x + u, y + v}));
        const auto apart = [](std::int64_t a, std::int64_t b) { return a < b ? b - a : a - b; };
        sum += apart(light.r, middle.r) + apart(light.g, middle.g) + apart(light.b, middle.b);
      }
    }
  }
  return sum;
}

}  // namespace detail

template <Picture R>
BoardCorners refine_corners(const R& photo, const BoardCorners& corners, int columns, int rows) {
  detail::check_board_in_photo(board_to_photo(corners, columns, rows), columns, rows, photo.width(), photo.height());
  const double cell = std::max(std::hypot(corners[3].x - corners[0].x, corners[3].y - corners[0].y) / columns,
                               std::hypot(corners[1].x - corners[0].x, corners[1].y - corners[0].y) / rows);
  BoardCorners best = corners;
  std::int64_t least = detail::unevenness(photo, best, columns, rows);
  constexpr std::array<std::array<int, 2>, 4> ways = {{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}};
  for (const double share : {0.16, 0.08, 0.04}) {
    for (int round = 0; round < 4; ++round) {
      bool better = false;
      for (std::size_t which = 0; which < 5; ++which) {  // all four together, then one by one
        for (const auto& [dx, dy] : ways) {
          BoardCorners moved = best;
          for (std::size_t i = 0; i < 4; ++i) {
            if (which != 0 && which != i + 1) continue;
            moved[i] = {moved[i].x + dx * share * cell, moved[i].y + dy * share * cell};
          }
          const bool inside = std::all_of(moved.begin(), moved.end(), [&](const PlanePoint& p) {
            return p.x >= -0.5 && p.y >= -0.5 && p.x <= photo.width() + 0.5 && p.y <= photo.height() + 0.5;
          });
          if (!inside) continue;
          const std::int64_t sum = detail::unevenness(photo, moved, columns, rows);
          if (sum >= least) continue;
          least = sum;
          best = moved;
          better = true;
        }
      }
      if (!better) break;
    }
  }
  return best;
}

}  // namespace handlaid
