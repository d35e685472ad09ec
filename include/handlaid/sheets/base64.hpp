// Base64 (RFC 4648, section 4): a picture inside a page.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// The bytes as base64, padded, without line breaks.
template <When = When::called>
std::string base64(std::string_view bytes) {
  constexpr char alphabet[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t k) -> std::uint32_t {
      return i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U;
    };
    const std::uint32_t group = byte(0) << 16 | byte(1) << 8 | byte(2);
    text += alphabet[group >> 18];
    text += alphabet[group >> 12 & 63U];
    text += i + 1 < bytes.size() ? alphabet[group >> 6 & 63U] : '=';
    text += i + 2 < bytes.size() ? alphabet[group & 63U] : '=';
  }
  return text;
}

}  // namespace handlaid
