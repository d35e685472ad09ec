// A PNG taken apart into chunks and put together again with right check sums.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "handlaid/image/checksum.hpp"
#include "support/pictures.hpp"

namespace handlaid_test {

inline void set_big32(Bytes& bytes, std::size_t at, std::uint32_t value) {
  for (unsigned i = 0; i < 4; ++i) bytes[at + i] = static_cast<unsigned char>(value >> (24 - 8 * i));
}

struct Chunk {
  std::string type;
  Bytes body;
};
inline std::vector<Chunk> chunks_of(const Bytes& png) {
  std::vector<Chunk> chunks;
  for (std::size_t at = 8; at + 12 <= png.size();) {
    const std::size_t length = handlaid::detail::big32(png, at);
    const auto begin = png.begin() + static_cast<std::ptrdiff_t>(at + 8);
    chunks.push_back({std::string(begin - 4, begin), Bytes(begin, begin + static_cast<std::ptrdiff_t>(length))});
    at += 12 + length;
  }
  return chunks;
}
/// A PNG whose chunks have right check sums.
inline Bytes png_of(const std::vector<Chunk>& chunks) {
  Bytes png = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
  for (const Chunk& chunk : chunks) {
    const std::size_t at = png.size();
    png.resize(at + 4);
    set_big32(png, at, static_cast<std::uint32_t>(chunk.body.size()));
    png.insert(png.end(), chunk.type.begin(), chunk.type.end());
    png.insert(png.end(), chunk.body.begin(), chunk.body.end());
    // zlib's own sum, by way of libpng's library, would do as well; ours is tested by all valid files.
    const std::uint32_t sum = handlaid::detail::crc32(std::span<const unsigned char>(png).subspan(at + 4));
    png.resize(png.size() + 4);
    set_big32(png, png.size() - 4, sum);
  }
  return png;
}

}  // namespace handlaid_test
