// crop_ruler.png: the picture with rulers on its edges, for choosing the crop. Figures are pixels of the picture as it
// was read, so they can be given back as they stand.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>

#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/sheets/digits.hpp"
#include "handlaid/sheets/look.hpp"

namespace handlaid {

namespace detail {

/// The least of 1, 2, 5, 10, 20, 50 … whose distance is at least `room` when `length` pixels are drawn `shown` long.
template <When = When::called>
int ruler_step(int length, int shown, int room) {
  for (std::int64_t step = 1;; step *= 10) {
    for (const int times : {1, 2, 5}) {
      if (step * times * shown >= std::int64_t{room} * length || step * times >= length) {
        return static_cast<int>(step * times);
      }
    }
  }
}

template <When = When::called>
void fill(Raster<Srgb8>& picture, int left, int top, int right, int bottom, const Srgb8& colour) {
  for (int y = std::max(top, 0); y < std::min(bottom, picture.height()); ++y) {
    for (int x = std::max(left, 0); x < std::min(right, picture.width()); ++x) picture(x, y) = colour;
  }
}

/// An outline of `weight` pixels outside the box.
template <When = When::called>
void outline(Raster<Srgb8>& picture, int left, int top, int right, int bottom, int weight, const Srgb8& colour) {
  fill(picture, left - weight, top - weight, right + weight, top, colour);
  fill(picture, left - weight, bottom, right + weight, bottom + weight, colour);
  fill(picture, left - weight, top, left, bottom, colour);
  fill(picture, right, top, right + weight, bottom, colour);
}

}  // namespace detail

/// Draws the picture with its rulers.
struct CropRuler {
  /// Size of the picture as it was read; `picture` may be a smaller one of it.
  int original_width = 0;
  int original_height = 0;
  /// The part in use: outlined, and the rest paler.
  CropBox crop = {};

  /// `picture` has at least one pixel. Small ones are drawn larger by a whole number, to about 600 pixels along.
  /// Throws Error for an empty picture or original size.
  template <When = When::called>
  Raster<Srgb8> operator()(const Raster<Srgb8>& picture) const {
    if (picture.empty() || original_width < 1 || original_height < 1) {
      throw Error::bad_option("crop ruler", "there is no picture", "give a picture of at least one pixel and its size");
    }
    const int zoom = std::max(1, 600 / std::max(picture.width(), picture.height()));
    const int width = picture.width() * zoom;
    const int height = picture.height() * zoom;
    Raster<Srgb8> sheet(width + 2 * border_x, height + 2 * border_y);
    std::fill(sheet.pixels().begin(), sheet.pixels().end(), look::paper);

    const int left = place(crop.left, original_width, width);
    const int top = place(crop.top, original_height, height);
    const int right = std::max(place(crop.right, original_width, width), left + 1);
    const int bottom = std::max(place(crop.bottom, original_height, height), top + 1);
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        const Srgb8& pixel = picture(x / zoom, y / zoom);
        const bool used = x >= left && x < right && y >= top && y < bottom;
        sheet(border_x + x, border_y + y) = used ? pixel : pale(pixel);
      }
    }
    detail::outline(sheet, border_x, border_y, border_x + width, border_y + height, 1, look::quiet);
    detail::outline(sheet, border_x + left, border_y + top, border_x + right, border_y + bottom, 2, look::accent);
    detail::outline(sheet, border_x + left - 2, border_y + top - 2, border_x + right + 2, border_y + bottom + 2, 1,
                    look::paper);
    draw_across(sheet, width, height);
    draw_down(sheet, width, height);
    return sheet;
  }

 private:
  static constexpr int scale = 2;
  static constexpr int border_x = 76;
  static constexpr int border_y = 36;

  static int place(int pixel, int original, int shown) {
    return static_cast<int>(std::int64_t{std::clamp(pixel, 0, original)} * shown / original);
  }
  static Srgb8 pale(const Srgb8& colour) {
    const auto channel = [](int code, int to) { return static_cast<std::uint8_t>((code * 2 + to * 3) / 5); };
    return {channel(colour.r, look::paper.r), channel(colour.g, look::paper.g), channel(colour.b, look::paper.b)};
  }

  template <When = When::called>
  void draw_across(Raster<Srgb8>& sheet, int width, int height) const {
    const int step = detail::ruler_step(original_width, width, 90);
    const int small = detail::ruler_step(original_width, width, 9);
    for (int at = 0; at <= original_width; at += small) {
      const bool numbered = at % step == 0;
      const int x = border_x + place(at, original_width, width);
      const int tick = numbered ? 12 : 5;
      detail::fill(sheet, x, border_y - 1 - tick, x + 1, border_y - 1, look::ink);
      detail::fill(sheet, x, border_y + height + 1, x + 1, border_y + height + 1 + tick, look::ink);
      if (!numbered) continue;
      const int left = x - digits_width(at, scale) / 2;
      draw_digits(sheet, at, left, border_y - 16 - digits_height(scale), scale, look::ink);
      draw_digits(sheet, at, left, border_y + height + 16, scale, look::ink);
    }
  }

  template <When = When::called>
  void draw_down(Raster<Srgb8>& sheet, int width, int height) const {
    const int step = detail::ruler_step(original_height, height, 60);
    const int small = detail::ruler_step(original_height, height, 9);
    for (int at = 0; at <= original_height; at += small) {
      const bool numbered = at % step == 0;
      const int y = border_y + place(at, original_height, height);
      const int tick = numbered ? 12 : 5;
      detail::fill(sheet, border_x - 1 - tick, y, border_x - 1, y + 1, look::ink);
      detail::fill(sheet, border_x + width + 1, y, border_x + width + 1 + tick, y + 1, look::ink);
      if (!numbered) continue;
      const int top = y - digits_height(scale) / 2;
      draw_digits(sheet, at, border_x - 18 - digits_width(at, scale), top, scale, look::ink);
      draw_digits(sheet, at, border_x + width + 18, top, scale, look::ink);
    }
  }
};

}  // namespace handlaid
