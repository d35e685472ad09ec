// Colours as text, "#rrggbb" (CSS Color Module Level 4, section 5.2).
#pragma once

#include <string>
#include <string_view>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/error.hpp"

namespace handlaid {

/// "#rrggbb" in lower case.
inline std::string to_hex(const Srgb8& colour) {
  constexpr char digits[] = "0123456789abcdef";
  std::string text = "#";
  for (const std::uint8_t channel : {colour.r, colour.g, colour.b}) {
    text += digits[channel / 16];
    text += digits[channel % 16];
  }
  return text;
}

/// Whether `text` is "#" and six hexadecimal digits; then `colour` is set.
inline bool parse_hex(std::string_view text, Srgb8& colour) {
  if (text.size() != 7 || text[0] != '#') return false;
  int channels[3] = {0, 0, 0};
  for (std::size_t i = 1; i < 7; ++i) {
    const char c = text[i];
    int digit = 0;
    if (c >= '0' && c <= '9') {
      digit = c - '0';
    } else if (c >= 'a' && c <= 'f') {
      digit = c - 'a' + 10;
    } else if (c >= 'A' && c <= 'F') {
      digit = c - 'A' + 10;
    } else {
      return false;
    }
    int& channel = channels[(i - 1) / 2];
    channel = channel * 16 + digit;
  }
  colour = {static_cast<std::uint8_t>(channels[0]), static_cast<std::uint8_t>(channels[1]),
            static_cast<std::uint8_t>(channels[2])};
  return true;
}

/// Reads "#rrggbb"; throws Error naming `where` for anything else.
inline Srgb8 colour_from_hex(std::string_view text, const std::string& where) {
  Srgb8 colour;
  if (!parse_hex(text, colour)) {
    throw Error::bad_option(where, "\"" + std::string(text) + "\" is not a colour",
                            "write it as #rrggbb, like #c04020");
  }
  return colour;
}

}  // namespace handlaid
