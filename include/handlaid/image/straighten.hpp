// A photo of a board of cells, set straight: one colour a cell in linear light, or a picture of the board as from the
// front. Cells are counted as in a raster, from the top left; the datum is the bottom left corner of the photo's board.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/homography.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

/// From cells to pixels: (0, 0) is the top left corner of the laid field, (columns, rows) the bottom right one.
/// Throws Error as `fit_homography` does.
template <When = When::called>
Homography board_to_photo(const BoardCorners& corners, int columns, int rows) {
  const auto w = static_cast<double>(columns);
  const auto h = static_cast<double>(rows);
  const std::array<PlanePair, 4> pairs = {
      {{{0, h}, corners[0]}, {{0, 0}, corners[1]}, {{w, 0}, corners[2]}, {{w, h}, corners[3]}}};
  return fit_homography(pairs, "corners");
}

/// The corners of the lower `rows` of a field that is `more` rows higher. Strips that hang over the course below show
/// each course so much lower, and the uppermost one as much higher: in what is laid, from the end of the lowest strip
/// up, courses are seen a row after the other, and that much is left over.
template <When = When::called>
BoardCorners lower_rows(const BoardCorners& corners, int rows, double more) {
  const double h = rows + more;
  const std::array<PlanePair, 4> pairs = {
      {{{0, h}, corners[0]}, {{0, 0}, corners[1]}, {{1, 0}, corners[2]}, {{1, h}, corners[3]}}};
  const Homography map = fit_homography(pairs, "corners");
  return {corners[0], map({0, more}), map({1, more}), corners[3]};
}

/// The fewest pixels across a cell that are worth averaging.
inline constexpr int least_cell_pixels = 4;

/// One colour a cell: places in the middle of each are looked up in linear light, a quarter of them is left out at
/// either end of each channel, and the rest is averaged. So a glint, a shadow in a joint or a hair does not count.
struct Straighten {
  using is_stage = void;
  int columns = 0;
  int rows = 0;
  /// From cells to pixels, see `board_to_photo`.
  Homography to_photo = {};
  /// The share of a cell's width and height that is looked at, above 0 and up to 1.
  double middle = 0.5;

  /// Throws Error where cells are smaller than `least_cell_pixels` or outside of the picture.
  template <Picture R>
  Raster<LinearRgb> operator()(const R& photo) const;
};

/// The board as from the front, `cell_pixels` a cell.
struct StraightView {
  using is_stage = void;
  int columns = 0;
  int rows = 0;
  Homography to_photo = {};
  int cell_pixels = 16;

  template <Picture R>
  Raster<Srgb8> operator()(const R& photo) const;
};

namespace detail {

/// The light between four pixels, in whole numbers: a place is rounded to 1/256 of a pixel. Outside, the nearest pixel.
template <Picture R>
Light light_at(const R& photo, const PlanePoint& place) {
  const auto axis = [](double v, int size) {  // the middle of pixel 0 is at 0.5
    const double most = static_cast<double>(size - 1);
    return static_cast<std::int64_t>(std::clamp(v - 0.5, 0.0, most) * 256 + 0.5);
  };
  const std::int64_t x = axis(place.x, photo.width());
  const std::int64_t y = axis(place.y, photo.height());
  Light sum;
  for (int v = 0; v < 2; ++v) {
    const auto& row = photo.row(std::min(static_cast<int>(y / 256) + v, photo.height() - 1));
    const std::int64_t wy = v == 0 ? 256 - y % 256 : y % 256;
    for (int u = 0; u < 2; ++u) {
      const int column = std::min(static_cast<int>(x / 256) + u, photo.width() - 1);
      const std::int64_t w = wy * (u == 0 ? 256 - x % 256 : x % 256);
      const Light light = colour_of(row[static_cast<std::size_t>(column)]).light();
      sum.r += w * light.r, sum.g += w * light.g, sum.b += w * light.b;
    }
  }
  return {(sum.r + 32768) >> 16, (sum.g + 32768) >> 16, (sum.b + 32768) >> 16};
}

/// The mean of the middle half.
template <When = When::called>
std::int64_t middle_mean(std::vector<std::int64_t>& values) {
  std::sort(values.begin(), values.end());
  const std::size_t cut = values.size() / 4;
  std::int64_t sum = 0;
  for (std::size_t i = cut; i < values.size() - cut; ++i) sum += values[i];
  return sum / static_cast<std::int64_t>(values.size() - 2 * cut);
}

/// The shortest side of the cells at the corners, where perspective makes the smallest ones.
template <When = When::called>
double least_cell_side(const Homography& to_photo, int columns, int rows) {
  double least = 1e9;
  for (const int x : {0, columns - 1}) {
    for (const int y : {0, rows - 1}) {
      const auto at = [&](int u, int v) { return to_photo({static_cast<double>(x + u), static_cast<double>(y + v)}); };
      for (const auto& [p, q] :
           {std::pair{at(0, 0), at(1, 0)}, {at(0, 1), at(1, 1)}, {at(0, 0), at(0, 1)}, {at(1, 0), at(1, 1)}}) {
        least = std::min(least, std::hypot(p.x - q.x, p.y - q.y));
      }
    }
  }
  return least;
}

template <When = When::called>
void check_board_in_photo(const Homography& to_photo, int columns, int rows, int width, int height) {
  if (columns < 1 || rows < 1) throw Error::out_of_range("board", size_text(columns, rows) + " cells", "1 or more");
  for (const int x : {0, columns}) {
    for (const int y : {0, rows}) {
      const PlanePoint p = to_photo({static_cast<double>(x), static_cast<double>(y)});
      if (!(p.x > -1 && p.y > -1 && p.x < width + 1 && p.y < height + 1)) {
        throw Error::bad_input("photo", "a corner of the board is outside of it", "take a photo of the whole board");
      }
    }
  }
  // In millionths of a pixel, so that the last bits of the map say nothing.
  const double side = std::round(least_cell_side(to_photo, columns, rows) * 1e6) / 1e6;
  if (side < least_cell_pixels) {
    const auto needed = [&](int pixels) {
      return static_cast<std::int64_t>(std::ceil(pixels * static_cast<double>(least_cell_pixels) / side));
    };
    const auto tenths = static_cast<int>(side * 10);
    throw Error::bad_input(
        "photo",
        "its smallest cells are " + std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) +
            " pixels across, 4 are needed",
        "take one of " + size_text(needed(width), needed(height)) + " pixels or more, or nearer to the board");
  }
}

}  // namespace detail

template <Picture R>
Raster<LinearRgb> Straighten::operator()(const R& photo) const {
  if (!(middle > 0 && middle <= 1)) throw Error::out_of_range("middle", std::to_string(middle), "above 0, up to 1");
  detail::check_board_in_photo(to_photo, columns, rows, photo.width(), photo.height());
  Raster<LinearRgb> cells(columns, rows);
  std::array<std::vector<std::int64_t>, 3> values;
  for (int y = 0; y < rows; ++y) {
    for (int x = 0; x < columns; ++x) {
      const auto at = [&](double u, double v) { return to_photo({x + u, y + v}); };
      const PlanePoint p = at(0.5, 0.5), q = at(1.5, 0.5), r = at(0.5, 1.5);
      const double longer = std::max(std::hypot(q.x - p.x, q.y - p.y), std::hypot(r.x - p.x, r.y - p.y));
      const int count = std::clamp(static_cast<int>(longer * middle + 0.999), 3, 12);
      for (auto& list : values) list.clear();
      for (int v = 0; v < count; ++v) {
        for (int u = 0; u < count; ++u) {
          const auto share = [&](int i) { return 0.5 + middle * ((i + 0.5) / count - 0.5); };
          const Light light = detail::light_at(photo, at(share(u), share(v)));
          values[0].push_back(light.r), values[1].push_back(light.g), values[2].push_back(light.b);
        }
      }
      const auto mean = [&](std::size_t channel) { return detail::middle_mean(values[channel]); };
      cells(x, y) = LinearRgb::from_light({mean(0), mean(1), mean(2)});
    }
  }
  return cells;
}

template <Picture R>
Raster<Srgb8> StraightView::operator()(const R& photo) const {
  if (cell_pixels < 1) throw Error::out_of_range("cell pixels", std::to_string(cell_pixels), "1 or more");
  Raster<Srgb8> view(columns * cell_pixels, rows * cell_pixels);
  for (int y = 0; y < view.height(); ++y) {
    for (int x = 0; x < view.width(); ++x) {
      Light sum;
      for (const double v : {0.25, 0.75}) {
        for (const double u : {0.25, 0.75}) {
          const Light light = detail::light_at(photo, to_photo({(x + u) / cell_pixels, (y + v) / cell_pixels}));
          sum.r += light.r, sum.g += light.g, sum.b += light.b;
        }
      }
      view(x, y) = Srgb8::from_light({sum.r / 4, sum.g / 4, sum.b / 4});
    }
  }
  return view;
}

}  // namespace handlaid
