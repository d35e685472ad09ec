// Words for pictures, where a font cannot be counted on: capital letters as dots beside the digits of digits.hpp.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/digits.hpp"

namespace handlaid {

/// Rows of a letter from the top, the leftmost dot as bit 4; from A to Z.
inline constexpr std::array<std::array<std::uint8_t, 7>, 26> letter_dots = {{
    {0b01110, 0b10001, 0b10001, 0b11111, 0b10001, 0b10001, 0b10001},
    {0b11110, 0b10001, 0b10001, 0b11110, 0b10001, 0b10001, 0b11110},
    {0b01110, 0b10001, 0b10000, 0b10000, 0b10000, 0b10001, 0b01110},
    {0b11110, 0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b11110},
    {0b11111, 0b10000, 0b10000, 0b11110, 0b10000, 0b10000, 0b11111},
    {0b11111, 0b10000, 0b10000, 0b11110, 0b10000, 0b10000, 0b10000},
    {0b01110, 0b10001, 0b10000, 0b10111, 0b10001, 0b10001, 0b01111},
    {0b10001, 0b10001, 0b10001, 0b11111, 0b10001, 0b10001, 0b10001},
    {0b01110, 0b00100, 0b00100, 0b00100, 0b00100, 0b00100, 0b01110},
    {0b00111, 0b00010, 0b00010, 0b00010, 0b00010, 0b10010, 0b01100},
    {0b10001, 0b10010, 0b10100, 0b11000, 0b10100, 0b10010, 0b10001},
    {0b10000, 0b10000, 0b10000, 0b10000, 0b10000, 0b10000, 0b11111},
    {0b10001, 0b11011, 0b10101, 0b10101, 0b10001, 0b10001, 0b10001},
    {0b10001, 0b11001, 0b10101, 0b10011, 0b10001, 0b10001, 0b10001},
    {0b01110, 0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b01110},
    {0b11110, 0b10001, 0b10001, 0b11110, 0b10000, 0b10000, 0b10000},
    {0b01110, 0b10001, 0b10001, 0b10001, 0b10101, 0b10010, 0b01101},
    {0b11110, 0b10001, 0b10001, 0b11110, 0b10100, 0b10010, 0b10001},
    {0b01111, 0b10000, 0b10000, 0b01110, 0b00001, 0b00001, 0b11110},
    {0b11111, 0b00100, 0b00100, 0b00100, 0b00100, 0b00100, 0b00100},
    {0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b01110},
    {0b10001, 0b10001, 0b10001, 0b10001, 0b10001, 0b01010, 0b00100},
    {0b10001, 0b10001, 0b10001, 0b10101, 0b10101, 0b11011, 0b10001},
    {0b10001, 0b10001, 0b01010, 0b00100, 0b01010, 0b10001, 0b10001},
    {0b10001, 0b10001, 0b01010, 0b00100, 0b00100, 0b00100, 0b00100},
    {0b11111, 0b00001, 0b00010, 0b00100, 0b01000, 0b10000, 0b11111},
}};

namespace detail {

/// The dots of a character; small letters are drawn as capitals, and what has no drawing is a blank.
constexpr std::array<std::uint8_t, 7> character_dots(char c) {
  if (c >= '0' && c <= '9') return digit_dots[static_cast<std::size_t>(c - '0')];
  if (c >= 'a' && c <= 'z') return letter_dots[static_cast<std::size_t>(c - 'a')];
  if (c >= 'A' && c <= 'Z') return letter_dots[static_cast<std::size_t>(c - 'A')];
  if (c == '-') return {0, 0, 0, 0b01110, 0, 0, 0};
  if (c == '+') return {0, 0b00100, 0b00100, 0b11111, 0b00100, 0b00100, 0};
  if (c == '.') return {0, 0, 0, 0, 0, 0, 0b00100};
  return {};
}

}  // namespace detail

/// Width of a text in pixels, each dot `scale` pixels wide; it is `digits_height(scale)` high.
constexpr int letters_width(std::string_view text, int scale) {
  return text.empty() ? 0 : (6 * static_cast<int>(text.size()) - 1) * scale;
}

/// Draws letters A to Z, digits, "-", "+" and "." with the top left corner at x, y; anything else is a blank. What
/// falls outside the picture is left out.
template <When = When::called>
void draw_letters(Raster<Srgb8>& picture, std::string_view text, int x, int y, int scale, const Srgb8& ink) {
  for (const char character : text) {
    const auto dots = detail::character_dots(character);
    for (int v = 0; v < 7 * scale; ++v) {
      for (int u = 0; u < 5 * scale; ++u) {
        if ((dots[static_cast<std::size_t>(v / scale)] >> (4 - u / scale) & 1) == 0) continue;
        if (x + u < 0 || y + v < 0 || x + u >= picture.width() || y + v >= picture.height()) continue;
        picture(x + u, y + v) = ink;
      }
    }
    x += 6 * scale;
  }
}

}  // namespace handlaid
