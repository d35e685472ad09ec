// A short number that tells two texts apart: FNV-1a, 64 bit (Fowler, Noll, Vo; RFC 9923). Not for secrets.
#pragma once

#include <cstdint>
#include <string_view>

namespace handlaid {

/// The FNV-1a hash of the bytes; give the previous result as `start` to go on.
constexpr std::uint64_t fingerprint(std::string_view bytes, std::uint64_t start = 0xcbf29ce484222325ULL) {
  for (const char c : bytes) {
    start ^= static_cast<unsigned char>(c);
    start *= 0x100000001b3ULL;
  }
  return start;
}

}  // namespace handlaid
