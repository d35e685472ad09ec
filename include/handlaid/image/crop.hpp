// Cropping: a box in pixels, or the largest box of an aspect around a point of interest.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

/// Keeps `width` x `height` pixels whose top left one is `x`, `y`, counted from 0 at the top left of the picture.
/// A raster given away is cropped in place; a view stays a view of the same memory; anything else is copied.
/// Throws Error unless the box has pixels and lies within the picture.
struct Crop {
  using is_stage = void;
  int x = 0;
  int y = 0;
  int width = 0;
  int height = 0;

  template <Rows R>
  auto operator()(R&& raster) const {
    using P = PixelOf<R>;
    check(raster.width(), raster.height());
    if constexpr (detail::is_view<std::remove_cvref_t<R>>) {
      return std::remove_cvref_t<R>(raster.row(y).data() + x, width, height, raster.stride());
    } else if constexpr (GivenAway<R>) {
      for (int to = 0; to < height; ++to) move_row(raster, to);
      raster.reshape(width, height);
      return Raster<P>(std::move(raster));
    } else {
      Raster<P> result(width, height);
      for (int to = 0; to < height; ++to) {
        const auto& from = raster.row(y + to);
        const auto row = result.row(to);
        for (std::size_t i = 0; i < row.size(); ++i) row[i] = from[static_cast<std::size_t>(x) + i];
      }
      return result;
    }
  }

  friend constexpr bool operator==(const Crop&, const Crop&) = default;

 private:
  void check(int picture_width, int picture_height) const {
    const bool inside = x >= 0 && y >= 0 && width >= 1 && height >= 1 && width <= picture_width &&
                        height <= picture_height && x <= picture_width - width && y <= picture_height - height;
    if (inside) return;
    throw Error::bad_option("crop",
                            "the box of " + detail::size_text(width, height) + " at " + std::to_string(x) + ", " +
                                std::to_string(y) + " is not inside the picture of " +
                                detail::size_text(picture_width, picture_height),
                            "give a box of at least 1 x 1 inside it");
  }
  template <class P>
  void move_row(Raster<P>& raster, int to) const {
    // Never behind what is still to be read.
    P* const target = raster.pixels().data() + static_cast<std::ptrdiff_t>(to) * width;
    const P* const from = raster.row(y + to).data() + x;
    std::copy(from, from + width, target);
  }
};

/// Keeps the largest box whose width is to its height as `width_part` to `height_part`, with its middle as near to the
/// focus as the edges allow. The focus is a part of the picture: 0, 0 is its top left corner, 1, 1 the bottom right.
/// Sides are rounded to whole pixels, 1 at least.
/// Throws Error for a part below 1 or above 1,000,000, for a focus outside 0 to 1, and for an empty picture.
struct CropTo {
  using is_stage = void;
  std::int64_t width_part = 1;
  std::int64_t height_part = 1;
  double focus_x = 0.5;
  double focus_y = 0.5;

  template <Rows R>
  auto operator()(R&& raster) const {
    return box(raster.width(), raster.height())(std::forward<R>(raster));
  }

  /// The box that is kept of a picture of this size.
  Crop box(int width, int height) const {
    const auto part = [](const char* name, std::int64_t value) {
      if (value < 1 || value > 1'000'000) throw Error::out_of_range(name, std::to_string(value), "1 to 1000000");
    };
    part("width of the aspect", width_part);
    part("height of the aspect", height_part);
    if (width < 1 || height < 1) {
      throw Error::bad_input("crop", "the picture has no pixels", "give a picture of at least 1 x 1");
    }
    const auto scaled = [](std::int64_t side, std::int64_t by, std::int64_t of) {
      const std::int64_t result = (side * by + of / 2) / of;
      return static_cast<int>(result < 1 ? 1 : result);
    };
    Crop crop{.x = 0, .y = 0, .width = width, .height = height};
    if (width * height_part > height * width_part) {
      crop.width = scaled(height, width_part, height_part);
    } else {
      crop.height = scaled(width, height_part, width_part);
    }
    crop.x = start(width, crop.width, focus_x);
    crop.y = start(height, crop.height, focus_y);
    return crop;
  }

 private:
  static int start(std::int64_t side, std::int64_t kept, double focus) {
    if (!(focus >= 0 && focus <= 1)) {
      throw Error::bad_option("focus", "it is not a part of the picture", "give numbers from 0 to 1, like 0.5");
    }
    constexpr std::int64_t one = 1 << 20;
    const auto middle = static_cast<std::int64_t>(focus * static_cast<double>(one) + 0.5) * side;
    const std::int64_t first = (2 * middle - kept * one + one) >> 21;
    return static_cast<int>(first < 0 ? 0 : (first > side - kept ? side - kept : first));
  }
};

/// The largest box of an aspect, width divided by height, such as `crop_to(3.0 / 4)`, in the middle of the picture.
/// The aspect is taken as the simplest fraction within a billionth of it, or the nearest with a part below 10,000.
/// Throws Error unless it is from 1 / 10,000 to 10,000.
template <When = When::called>
CropTo crop_to(double aspect) {
  if (!(aspect >= 1e-4 && aspect <= 1e4)) {
    throw Error::bad_option("aspect", "it is not a usable width divided by height", "give one like 0.75 for 3 to 4");
  }
  // Continued fraction: each step gives the best fraction for the size of its parts.
  CropTo crop;
  std::int64_t before_width = 1;
  std::int64_t before_height = 0;
  auto whole = static_cast<std::int64_t>(aspect);
  crop.width_part = whole;
  crop.height_part = 1;
  double rest = aspect - static_cast<double>(whole);
  const auto off = [&] {
    const double error = static_cast<double>(crop.width_part) / static_cast<double>(crop.height_part) - aspect;
    return (error < 0 ? -error : error) / aspect;
  };
  while (crop.width_part == 0 || (off() > 1e-9 && rest > 1e-12)) {
    const double next = 1 / rest;
    whole = static_cast<std::int64_t>(next);
    rest = next - static_cast<double>(whole);
    const std::int64_t width = whole * crop.width_part + before_width;
    const std::int64_t height = whole * crop.height_part + before_height;
    if (crop.width_part != 0 && (width > 10'000 || height > 10'000)) break;
    before_width = crop.width_part;
    before_height = crop.height_part;
    crop.width_part = width;
    crop.height_part = height;
  }
  return crop;
}

}  // namespace handlaid
