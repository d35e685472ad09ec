// Damages a valid file in many ways: a reader must take each or refuse it by an Error, nothing else.
#pragma once

#include <string>
#include <string_view>

#include "handlaid/core/error.hpp"
#include "handlaid/core/random.hpp"

namespace handlaid_test {

/// Changes, drops, repeats or inserts a few bytes or stretches.
inline std::string damaged(std::string text, handlaid::Random& random) {
  constexpr std::string_view bytes = ",;\t\"\r\n #.0123456789-abcfXYZ\xff\x80\xc3";
  for (std::uint64_t changes = random.below(3) + 1; changes > 0; --changes) {
    const auto at = static_cast<std::size_t>(random.below(text.size() + 1));
    const auto length = static_cast<std::size_t>(random.below(random.below(4) == 0 ? 40 : 2) + 1);
    const char byte = bytes[static_cast<std::size_t>(random.below(bytes.size()))];
    switch (random.below(5)) {
      case 0:
        text.insert(at, 1, byte);
        break;
      case 1:
        text.erase(at, length);
        break;
      case 2:
        text.insert(at, text.substr(at, length));
        break;
      case 3:
        text.resize(at);
        break;
      default:
        if (at < text.size()) text[at] = byte;
    }
  }
  return text;
}

/// Damages `valid` again and again, gives each to `read`, and counts those that were not refused.
template <class Read>
int count_readable(const std::string& valid, int rounds, Read&& read) {
  handlaid::Random random(7);
  int readable = 0;
  for (int round = 0; round < rounds; ++round) {
    try {
      read(damaged(valid, random));
      ++readable;
    } catch (const handlaid::Error&) {
    }
  }
  return readable;
}

}  // namespace handlaid_test
