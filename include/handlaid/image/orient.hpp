// Turning and mirroring a picture upright, as its EXIF orientation says.
// EXIF 2.32 (CIPA DC-008-2019), tag 0x0112.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

/// Makes a picture upright that was stored with an EXIF orientation:
/// 1 as it is, 2 mirrored left to right, 3 turned by 180 degrees, 4 mirrored top to bottom, 5 transposed, 6 to be
/// turned clockwise by 90 degrees, 7 transposed about the other diagonal, 8 to be turned anticlockwise. A raster given
/// away is turned in its own memory and an eighth of it more; others are copied first. Throws Error for an orientation
/// outside 1 to 8.
struct Orient {
  using is_stage = void;
  int orientation = 1;

  template <Rows R>
  Raster<PixelOf<R>> operator()(R&& raster) const {
    if (orientation < 1 || orientation > 8) {
      throw Error::out_of_range("orientation", std::to_string(orientation), "1 to 8");
    }
    auto result = detail::owned(std::forward<R>(raster));
    turn(result);
    return result;
  }

 private:
  template <class P>
  void turn(Raster<P>& raster) const;
};

constexpr Orient orient(int orientation) { return {.orientation = orientation}; }

namespace detail {

template <class P>
void mirror_rows(Raster<P>& raster) {
  for (int y = 0; y < raster.height(); ++y) std::reverse(raster.row(y).begin(), raster.row(y).end());
}
template <class P>
void flip_rows(Raster<P>& raster) {
  for (int top = 0, bottom = raster.height() - 1; top < bottom; ++top, --bottom) {
    std::swap_ranges(raster.row(top).begin(), raster.row(top).end(), raster.row(bottom).begin());
  }
}

/// Reorders `rows x columns` blocks of `length` pixels so that column after column follows: cycle by cycle, in place.
template <class P>
void transpose_blocks(P* pixels, std::size_t rows, std::size_t columns, std::size_t length) {
  const std::size_t last = rows * columns - 1;
  std::vector<bool> moved(rows * columns, false);
  std::vector<P> hand(length);
  for (std::size_t start = 1; start < last; ++start) {
    if (moved[start]) continue;
    std::copy_n(pixels + start * length, length, hand.begin());
    std::size_t at = start;
    while (true) {
      moved[at] = true;
      const std::size_t from = at % rows * columns + at / rows;  // what belongs to this place
      if (from == start) break;
      std::copy_n(pixels + from * length, length, pixels + at * length);
      at = from;
    }
    std::copy_n(hand.begin(), length, pixels + at * length);
  }
}

/// Transposes `rows x columns` pixels from one place to another, in squares that fit in the cache.
template <class P>
void transpose_copy(const P* from, std::size_t rows, std::size_t columns, P* to) {
  constexpr std::size_t square = 32;
  for (std::size_t top = 0; top < rows; top += square) {
    const std::size_t bottom = std::min(rows, top + square);
    for (std::size_t left = 0; left < columns; left += square) {
      const std::size_t right = std::min(columns, left + square);
      for (std::size_t x = left; x < right; ++x) {
        for (std::size_t y = top; y < bottom; ++y) to[x * rows + y] = from[y * columns + x];
      }
    }
  }
}

/// Swaps rows and columns. The picture is cut into panels of a few columns; blocks as wide as a panel are brought into
/// panel order in place, then each panel is transposed by way of a spare one. What remains at the right becomes the
/// last rows. The spare memory is an eighth of the picture at most, unless it has fewer than 8 columns.
template <class P>
void transpose(Raster<P>& raster) {
  const auto width = static_cast<std::size_t>(raster.width());
  const auto height = static_cast<std::size_t>(raster.height());
  P* const pixels = raster.pixels().data();
  if (width > 1 && height > 1) {
    const std::size_t panel = std::clamp<std::size_t>(width / 16, 1, 64);
    const std::size_t panels = width / panel;
    const std::size_t kept = panels * panel;
    const std::size_t rest = width - kept;
    std::vector<P> remainder(rest * height);
    if (rest > 0) {
      for (std::size_t y = 0; y < height; ++y) {
        for (std::size_t x = 0; x < rest; ++x) remainder[x * height + y] = pixels[y * width + kept + x];
        std::copy_n(pixels + y * width, kept, pixels + y * kept);
      }
    }
    transpose_blocks(pixels, height, panels, panel);
    std::vector<P> spare(panel * height);
    for (std::size_t i = 0; i < panels; ++i) {
      P* const at = pixels + i * panel * height;
      std::copy_n(at, spare.size(), spare.begin());
      transpose_copy(spare.data(), height, panel, at);
    }
    std::copy(remainder.begin(), remainder.end(), pixels + kept * height);
  }
  raster.reshape(raster.height(), raster.width());
}

}  // namespace detail

template <class P>
void Orient::turn(Raster<P>& raster) const {
  if (orientation >= 5) detail::transpose(raster);
  const bool mirrored = orientation == 2 || orientation == 3 || orientation == 6 || orientation == 7;
  const bool flipped = orientation == 3 || orientation == 4 || orientation == 7 || orientation == 8;
  if (mirrored) detail::mirror_rows(raster);
  if (flipped) detail::flip_rows(raster);
}

}  // namespace handlaid
