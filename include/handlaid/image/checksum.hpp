// The check sums of PNG: CRC-32 (ISO 3309, as PNG annex D) of chunks, Adler-32 (RFC 1950) of what they unpack to.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>

#include "handlaid/image/picture_format.hpp"

namespace handlaid::detail {

/// Tables for four bytes at a time: `[k][b]` is the effect of byte b with k more bytes to come.
inline constexpr auto crc32_tables = [] {
  std::array<std::array<std::uint32_t, 256>, 4> tables{};
  for (std::uint32_t n = 0; n < 256; ++n) {
    std::uint32_t c = n;
    for (int bit = 0; bit < 8; ++bit) c = (c & 1U) != 0 ? 0xedb88320U ^ (c >> 1U) : c >> 1U;
    tables[0][n] = c;
  }
  for (std::size_t n = 0; n < 256; ++n) {
    for (std::size_t k = 1; k < 4; ++k) {
      const std::uint32_t before = tables[k - 1][n];
      tables[k][n] = tables[0][before & 255U] ^ (before >> 8U);
    }
  }
  return tables;
}();

constexpr std::uint32_t crc32(Bytes bytes) {
  const auto& t = crc32_tables;
  std::uint32_t c = 0xffffffffU;
  std::size_t i = 0;
  for (; bytes.size() - i >= 4; i += 4) {
    c = t[3][(c ^ bytes[i]) & 255U] ^ t[2][((c >> 8U) ^ bytes[i + 1]) & 255U] ^
        t[1][((c >> 16U) ^ bytes[i + 2]) & 255U] ^ t[0][((c >> 24U) ^ bytes[i + 3]) & 255U];
  }
  for (; i < bytes.size(); ++i) c = t[0][(c ^ bytes[i]) & 255U] ^ (c >> 8U);
  return c ^ 0xffffffffU;
}

constexpr std::uint32_t adler32(Bytes bytes) {
  std::uint32_t a = 1;
  std::uint32_t b = 0;
  while (!bytes.empty()) {
    const Bytes part = bytes.first(std::min<std::size_t>(bytes.size(), 5552));  // more could pass 32 bits
    for (const unsigned char byte : part) {
      a += byte;
      b += a;
    }
    a %= 65521;
    b %= 65521;
    bytes = bytes.subspan(part.size());
  }
  return b << 16U | a;
}

}  // namespace handlaid::detail
