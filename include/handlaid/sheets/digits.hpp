// Numerals for pictures: the ten digits as dots, five wide and seven high.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// Rows of a digit from the top, the leftmost dot as bit 4.
inline constexpr std::array<std::array<std::uint8_t, 7>, 10> digit_dots = {{
    {0b01110, 0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b01110},
    {0b00100, 0b01100, 0b00100, 0b00100, 0b00100, 0b00100, 0b01110},
    {0b01110, 0b10001, 0b00001, 0b00010, 0b00100, 0b01000, 0b11111},
    {0b11110, 0b00001, 0b00001, 0b01110, 0b00001, 0b00001, 0b11110},
    {0b00010, 0b00110, 0b01010, 0b10010, 0b11111, 0b00010, 0b00010},
    {0b11111, 0b10000, 0b11110, 0b00001, 0b00001, 0b10001, 0b01110},
    {0b00110, 0b01000, 0b10000, 0b11110, 0b10001, 0b10001, 0b01110},
    {0b11111, 0b00001, 0b00010, 0b00100, 0b00100, 0b01000, 0b01000},
    {0b01110, 0b10001, 0b10001, 0b01110, 0b10001, 0b10001, 0b01110},
    {0b01110, 0b10001, 0b10001, 0b01111, 0b00001, 0b00010, 0b01100},
}};

/// Width and height of a number in pixels, each dot `scale` pixels wide.
constexpr int digits_width(int number, int scale) {
  int count = 1;
  while (number >= 10) {
    number /= 10;
    ++count;
  }
  return (6 * count - 1) * scale;
}
constexpr int digits_height(int scale) { return 7 * scale; }

/// Draws a number of 0 or more with its top left corner at x, y. What falls outside the picture is left out.
template <When = When::called>
void draw_digits(Raster<Srgb8>& picture, int number, int x, int y, int scale, const Srgb8& ink) {
  for (const char digit : std::to_string(number)) {
    for (int v = 0; v < 7 * scale; ++v) {
      for (int u = 0; u < 5 * scale; ++u) {
        const std::uint8_t row = digit_dots[static_cast<std::size_t>(digit - '0')][static_cast<std::size_t>(v / scale)];
        if ((row >> (4 - u / scale) & 1) == 0) continue;
        if (x + u < 0 || y + v < 0 || x + u >= picture.width() || y + v >= picture.height()) continue;
        picture(x + u, y + v) = ink;
      }
    }
    x += 6 * scale;
  }
}

}  // namespace handlaid
