// MD5 (RFC 1321), to compare with sums that were published or made elsewhere.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace handlaid_test {

inline std::string md5(std::span<const unsigned char> bytes) {
  std::array<std::uint32_t, 64> constants;
  for (std::size_t i = 0; i < 64; ++i) {
    constants[i] =
        static_cast<std::uint32_t>(std::floor(std::abs(std::sin(static_cast<double>(i + 1))) * 4294967296.0));
  }
  constexpr unsigned shifts[4][4] = {{7, 12, 17, 22}, {5, 9, 14, 20}, {4, 11, 16, 23}, {6, 10, 15, 21}};
  std::array<std::uint32_t, 4> state = {0x67452301U, 0xefcdab89U, 0x98badcfeU, 0x10325476U};
  std::vector<unsigned char> all(bytes.begin(), bytes.end());
  all.push_back(0x80);
  while (all.size() % 64 != 56) all.push_back(0);
  const std::uint64_t bits = std::uint64_t{bytes.size()} * 8;
  for (unsigned i = 0; i < 8; ++i) all.push_back(static_cast<unsigned char>(bits >> 8 * i));
  for (std::size_t at = 0; at < all.size(); at += 64) {
    std::array<std::uint32_t, 16> word;
    for (std::size_t i = 0; i < 16; ++i) {
      word[i] = 0;
      for (std::size_t k = 0; k < 4; ++k) word[i] |= std::uint32_t{all[at + 4 * i + k]} << 8 * k;
    }
    auto [a, b, c, d] = state;
    for (std::size_t i = 0; i < 64; ++i) {
      const std::size_t round = i / 16;
      std::uint32_t f = 0;
      std::size_t g = 0;
      if (round == 0) {
        f = (b & c) | (~b & d);
        g = i;
      } else if (round == 1) {
        f = (d & b) | (~d & c);
        g = (5 * i + 1) % 16;
      } else if (round == 2) {
        f = b ^ c ^ d;
        g = (3 * i + 5) % 16;
      } else {
        f = c ^ (b | ~d);
        g = 7 * i % 16;
      }
      const std::uint32_t sum = a + f + constants[i] + word[g];
      const unsigned shift = shifts[round][i % 4];
      a = d;
      d = c;
      c = b;
      b += sum << shift | sum >> (32 - shift);
    }
    state = {state[0] + a, state[1] + b, state[2] + c, state[3] + d};
  }
  std::string text;
  for (const std::uint32_t part : state) {
    for (unsigned i = 0; i < 4; ++i) {
      constexpr char digits[] = "0123456789abcdef";
      const std::uint32_t byte = part >> 8 * i & 255U;
      text += digits[byte / 16];
      text += digits[byte % 16];
    }
  }
  return text;
}

}  // namespace handlaid_test
