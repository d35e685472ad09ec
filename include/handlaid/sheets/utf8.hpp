// Text that others typed, made safe to print: whatever is not UTF-8 becomes the replacement character U+FFFD.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "handlaid/core/when_called.hpp"

namespace handlaid {

namespace detail {

/// Bytes of the valid sequence that starts at `at` (RFC 3629: shortest form, no surrogates, up to U+10FFFF), or 0.
constexpr std::size_t utf8_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> std::uint32_t {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
  };
  const std::uint32_t first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xf0 ? 4 : (first >= 0xe0 ? 3 : 2);
  if (first < 0xc2 || first > 0xf4) return 0;
  std::uint32_t code = first & (0x7fU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0U) != 0x80U) return 0;
    code = (code << 6) | (byte(i) & 0x3fU);
  }
  constexpr std::uint32_t shortest[] = {0, 0, 0x80, 0x800, 0x10000};
  if (code < shortest[length] || code > 0x10ffff || (code >= 0xd800 && code < 0xe000)) return 0;
  return length;
}

}  // namespace detail

/// `text` with each byte that belongs to no valid sequence replaced by U+FFFD. Valid text comes back unchanged.
template <When = When::called>
std::string valid_utf8(std::string_view text) {
  std::string valid;
  valid.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = detail::utf8_length(text, at);
    if (length == 0) {
      valid += "\xef\xbf\xbd";
      ++at;
    } else {
      valid += text.substr(at, length);
      at += length;
    }
  }
  return valid;
}

}  // namespace handlaid
