// What every reader of a text file needs: is it text at all, where does a byte stand, and which word was meant.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// Where bytes stop being UTF-8 (RFC 3629) without control characters other than tabs and line ends; the size of `text`
/// where they never do.
template <When = When::called>
std::size_t first_not_text(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  std::size_t at = 0;
  while (at < text.size()) {
    const unsigned first = byte(at);
    if (first < 0x80) {
      if ((first < 0x20 && first != '\t' && first != '\r' && first != '\n') || first == 0x7f) return at;
      ++at;
      continue;
    }
    // The range of the second byte keeps out long forms, surrogates and what lies beyond U+10FFFF.
    std::size_t length = 2;
    unsigned low = 0x80;
    unsigned high = 0xbf;
    if (first < 0xc2 || first > 0xf4) return at;
    if (first >= 0xe0) length = 3;
    if (first >= 0xf0) length = 4;
    if (first == 0xe0) low = 0xa0;
    if (first == 0xed) high = 0x9f;
    if (first == 0xf0) low = 0x90;
    if (first == 0xf4) high = 0x8f;
    if (byte(at + 1) < low || byte(at + 1) > high) return at;
    for (std::size_t i = 2; i < length; ++i) {
      if (byte(at + i) < 0x80 || byte(at + i) > 0xbf) return at;
    }
    at += length;
  }
  return text.size();
}

/// A place in a text, both from 1. A column is a character, not a byte.
struct TextPlace {
  int line = 1;
  int column = 1;

  /// Goes on past the bytes. A line ends with LF, CR LF or CR; the bytes must not begin between CR and LF.
  template <When = When::called>
  void pass(std::string_view bytes) {
    for (std::size_t i = 0; i < bytes.size(); ++i) {
      const char c = bytes[i];
      if (c == '\n' || (c == '\r' && (i + 1 == bytes.size() || bytes[i + 1] != '\n'))) {
        ++line;
        column = 1;
      } else if (c != '\r' && (static_cast<unsigned char>(c) & 0xc0U) != 0x80) {
        ++column;
      }
    }
  }
};

/// Without spaces and tabs at both ends.
template <When = When::called>
std::string_view without_blanks(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

/// How many letters must be changed, added, dropped or swapped with the next one to make one word of the other
/// (F. Damerau, "A technique for computer detection and correction of spelling errors", CACM 7(3), 1964).
template <When = When::called>
std::size_t letters_between(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) now[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(now);
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, changed});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) now[j] = std::min(now[j], before_last[j - 2] + 1);
    }
  }
  return now[b.size()];
}

/// The word of the list that is nearest to a misspelt one, the first of equals; empty for an empty list.
/// Only the first 40 bytes of each count.
template <When = When::called>
std::string nearest_word(std::string_view word, const std::vector<std::string>& list) {
  std::string best;
  std::size_t least = static_cast<std::size_t>(-1);
  for (const std::string& candidate : list) {
    const std::size_t apart = letters_between(word.substr(0, 40), std::string_view(candidate).substr(0, 40));
    if (apart < least) {
      least = apart;
      best = candidate;
    }
  }
  return best;
}

/// A text as it can be shown in one line of a message: in quotes, at most 40 bytes of it, line breaks as spaces.
template <When = When::called>
std::string quoted_in_message(std::string_view text) {
  std::string shown(text.substr(0, 40));
  if (text.size() > 40) {
    while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0xc0U) == 0x80) shown.pop_back();
    if (!shown.empty() && static_cast<unsigned char>(shown.back()) >= 0x80) shown.pop_back();
    shown += "...";
  }
  for (char& c : shown) {
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  }
  return '"' + shown + '"';
}

}  // namespace handlaid
