// Finds four printed marks in a photo: each a black square ring on white paper with a black square in its middle, a
// larger one in the mark at the datum. They lie outside of the laid field and touch its corners, so that the photo of a
// board can be set straight without pointing at anything. Which mark is which the larger square says, and the order
// round the board; so the camera may be held any way, but not behind the board.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/homography.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

/// The parts of a mark in hundredths of the side of its paper; all have one middle.
struct CornerMark {
  static constexpr int ring = 80;
  static constexpr int hole = 56;
  static constexpr int square = 28;
  static constexpr int datum_square = 40;
};

/// The middles of the four marks in pixels: that of the datum first, then clockwise. Throws Error, naming how many were
/// found, where they are not four of which one is that of the datum.
template <Picture R>
BoardCorners find_marks(const R& photo);

/// From cells to pixels, as `board_to_photo`, by the middles of marks that lie so many columns and courses outside of
/// the corners of the field: half the side of a mark over the pitch. Rows may be broken, where the lowest hangs over.
template <When = When::called>
Homography marks_to_photo(const BoardCorners& marks, int columns, double rows, double columns_out, double courses_out) {
  const double w = columns + columns_out;
  const double h = rows + courses_out;
  const std::array<PlanePair, 4> pairs = {{{{-columns_out, h}, marks[0]},
                                           {{-columns_out, -courses_out}, marks[1]},
                                           {{w, -courses_out}, marks[2]},
                                           {{w, h}, marks[3]}}};
  return fit_homography(pairs, "marks");
}

/// The corners of the field by the same marks.
template <When = When::called>
BoardCorners corners_by_marks(const BoardCorners& marks, int columns, double rows, double columns_out,
                              double courses_out) {
  const Homography map = marks_to_photo(marks, columns, rows, columns_out, courses_out);
  const auto w = static_cast<double>(columns);
  return {map({0, rows}), map({0, 0}), map({w, 0}), map({w, rows})};
}

namespace detail {

/// Pixels that hang together: how many, the box around them, and the sums of their places.
struct DarkPart {
  std::int64_t pixels = 0;
  int left = 0, top = 0, right = 0, bottom = 0;
  std::int64_t sum_x = 0, sum_y = 0;
  int width() const { return right - left + 1; }
  int height() const { return bottom - top + 1; }
  PlanePoint middle() const {
    return {static_cast<double>(sum_x) / static_cast<double>(pixels) + 0.5,
            static_cast<double>(sum_y) / static_cast<double>(pixels) + 0.5};
  }
};

struct FoundMark {
  PlanePoint middle = {};
  bool datum = false;
  std::int64_t pixels = 0;
};

/// Marks what is darker than three quarters of the mean of a square window about it, in codes of the green channel.
template <When = When::called>
Raster<std::int32_t> darker_than_around(const Raster<std::uint8_t>& grey, int reach) {
  const int w = grey.width();
  const int h = grey.height();
  Raster<std::uint32_t> sums(w + 1, h + 1);  // of all above and to the left
  for (int y = 0; y < h; ++y) {
    std::uint32_t row = 0;
    for (int x = 0; x < w; ++x) sums(x + 1, y + 1) = (row += grey(x, y)) + sums(x + 1, y);
  }
  Raster<std::int32_t> dark(w, h);
  for (int y = 0; y < h; ++y) {
    for (int x = 0; x < w; ++x) {
      const int l = std::max(x - reach, 0), r = std::min(x + reach + 1, w);
      const int t = std::max(y - reach, 0), b = std::min(y + reach + 1, h);
      const std::uint32_t sum = sums(r, b) - sums(l, b) - sums(r, t) + sums(l, t);  // modulo 2^32, as it must be
      const std::int64_t area = std::int64_t{r - l} * (b - t);
      dark(x, y) = 4 * area * grey(x, y) < 3 * std::int64_t{sum} ? 1 : 0;
    }
  }
  return dark;
}

/// Numbers the dark parts in place, from 1; the part of number n is at n - 1. Pixels hang together by their sides.
template <When = When::called>
std::vector<DarkPart> number_parts(Raster<std::int32_t>& dark) {
  std::vector<DarkPart> parts;
  std::vector<std::array<int, 2>> open;
  for (std::int32_t& pixel : dark.pixels()) pixel = -pixel;
  for (int y = 0; y < dark.height(); ++y) {
    for (int x = 0; x < dark.width(); ++x) {
      if (dark(x, y) != -1) continue;
      const auto number = static_cast<std::int32_t>(parts.size()) + 1;
      DarkPart part{.left = x, .top = y, .right = x, .bottom = y};
      const auto take = [&](int u, int v) {
        if (u < 0 || v < 0 || u >= dark.width() || v >= dark.height() || dark(u, v) != -1) return;
        dark(u, v) = number;
        open.push_back({u, v});
      };
      take(x, y);
      while (!open.empty()) {
        const auto [u, v] = open.back();
        open.pop_back();
        ++part.pixels, part.sum_x += u, part.sum_y += v;
        part.left = std::min(part.left, u), part.right = std::max(part.right, u);
        part.top = std::min(part.top, v), part.bottom = std::max(part.bottom, v);
        take(u - 1, v), take(u + 1, v), take(u, v - 1), take(u, v + 1);
      }
      parts.push_back(part);
    }
  }
  return parts;
}

/// Rings with a square in the middle. The shares of their areas stay what they are in a photo from aslant.
template <When = When::called>
std::vector<FoundMark> marks_at(const Raster<std::uint8_t>& grey, int reach) {
  Raster<std::int32_t> dark = darker_than_around(grey, reach);
  const std::vector<DarkPart> parts = number_parts(dark);
  std::vector<FoundMark> marks;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const DarkPart& ring = parts[i];
    if (ring.width() < 10 || ring.height() < 10 || ring.width() > 4 * ring.height() ||
        ring.height() > 4 * ring.width()) {
      continue;
    }
    const PlanePoint middle = ring.middle();
    const auto at = dark(static_cast<int>(middle.x), static_cast<int>(middle.y));
    if (at == 0 || at == static_cast<std::int32_t>(i) + 1) continue;
    const DarkPart& square = parts[static_cast<std::size_t>(at) - 1];
    const PlanePoint inner = square.middle();
    const bool within =
        square.left > ring.left && square.top > ring.top && square.right < ring.right && square.bottom < ring.bottom;
    const double apart = std::hypot(inner.x - middle.x, inner.y - middle.y);
    if (!within || square.pixels < 4 || apart > 0.06 * (ring.width() + ring.height())) continue;
    // The areas of square and ring: 0.24, and 0.49 at the datum; in thousandths, so that whole numbers decide.
    const std::int64_t share = 1000 * square.pixels / ring.pixels;
    // How full the boxes around them are, so that no letter or leaf is taken for one: 2 to 1 at the least.
    const bool solid = square.pixels * 5 >= std::int64_t{square.width()} * square.height() * 2;
    const bool thin = ring.pixels * 10 <= std::int64_t{ring.width()} * ring.height() * 7;
    if (share < 120 || share > 800 || !solid || !thin) continue;
    marks.push_back({inner, share > 350, ring.pixels});
  }
  return marks;
}

}  // namespace detail

template <Picture R>
BoardCorners find_marks(const R& photo) {
  Raster<std::uint8_t> grey(photo.width(), photo.height());
  for (int y = 0; y < photo.height(); ++y) {
    const auto& row = photo.row(y);
    for (int x = 0; x < photo.width(); ++x) {
      grey(x, y) = Srgb8::from_light(colour_of(row[static_cast<std::size_t>(x)]).light()).g;
    }
  }
  std::size_t most = 0;
  const int longer = std::max(photo.width(), photo.height());
  for (const int part : {24, 48, 12, 96}) {  // windows about as large as marks come
    const int reach = longer / part;
    if (reach < 4) continue;
    std::vector<detail::FoundMark> marks = detail::marks_at(grey, reach);
    most = std::max(most, marks.size());
    const auto datums = std::count_if(marks.begin(), marks.end(), [](const auto& mark) { return mark.datum; });
    if (marks.size() != 4 || datums != 1) continue;
    PlanePoint middle;
    for (const auto& mark : marks) middle.x += mark.middle.x / 4, middle.y += mark.middle.y / 4;
    std::sort(marks.begin(), marks.end(), [&](const auto& a, const auto& b) {  // clockwise, as y points down
      return std::atan2(a.middle.y - middle.y, a.middle.x - middle.x) <
             std::atan2(b.middle.y - middle.y, b.middle.x - middle.x);
    });
    const auto first = std::find_if(marks.begin(), marks.end(), [](const auto& mark) { return mark.datum; });
    std::rotate(marks.begin(), first, marks.end());
    BoardCorners corners;
    for (std::size_t i = 0; i < 4; ++i) corners[i] = marks[i].middle;
    check_corners(corners, photo.width(), photo.height(), "marks");
    return corners;
  }
  throw Error::bad_input("photo", "the four marks were not found in it (at most " + std::to_string(most) + " at once)",
                         "lay them flat at the corners, in view and in even light, or give the corners by hand");
}

}  // namespace handlaid
