// Packing bytes as a zlib stream (RFC 1950, RFC 1951), quickly rather than tightly: matches by a single look-up, then
// a Huffman code for each block. Under write.hpp. The same bytes in always give the same bytes out.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/checksum.hpp"

namespace handlaid::detail {

/// Code lengths of at most `limit` bits for symbols that occur `counts` times. Two symbols at least get a code, since
/// not every reader takes a code of one.
/// A. Moffat, J. Katajainen, "In-place calculation of minimum-redundancy codes", WADS 1995; lengths above the limit are
/// then evened out until the code is complete again.
template <When = When::called>
std::vector<unsigned char> huffman_lengths(std::vector<std::uint32_t> counts, unsigned limit) {
  counts[0] = std::max(counts[0], 1U);
  counts[1] = std::max(counts[1], 1U);
  std::vector<std::uint32_t> symbols;
  for (std::uint32_t s = 0; s < counts.size(); ++s) {
    if (counts[s] > 0) symbols.push_back(s);
  }
  std::stable_sort(symbols.begin(), symbols.end(), [&](auto a, auto b) { return counts[a] < counts[b]; });

  // Joins the two rarest again and again; first `node` holds weights, then the parent of each joint, then its depth.
  const std::size_t n = symbols.size();
  std::vector<std::uint64_t> node(n);
  for (std::size_t i = 0; i < n; ++i) node[i] = counts[symbols[i]];
  std::size_t leaf = 0;
  std::size_t joint = 0;
  for (std::size_t next = 0; next + 1 < n; ++next) {
    std::uint64_t sum = 0;
    for (int k = 0; k < 2; ++k) {
      if (leaf >= n || (joint < next && node[joint] < node[leaf])) {
        sum += node[joint];
        node[joint++] = next;
      } else {
        sum += node[leaf++];
      }
    }
    node[next] = sum;
  }
  node[n - 2] = 0;
  for (std::size_t i = n - 2; i-- > 0;) node[i] = node[node[i]] + 1;
  // How many joints a depth has leaves how many leaves it has.
  std::vector<std::size_t> at_length(std::max<std::size_t>(limit, n) + 2, 0);
  std::size_t open = 1;
  std::size_t depth = 0;
  for (std::size_t i = n - 1; open > 0; ++depth) {
    std::size_t joints = 0;
    for (; i > 0 && node[i - 1] == depth; --i) ++joints;
    at_length[std::max<std::size_t>(depth, 1)] += open - joints;
    open = 2 * joints;
  }
  for (std::size_t length = at_length.size() - 1; length > limit; --length) {
    at_length[limit] += at_length[length];
    at_length[length] = 0;
  }
  std::uint64_t used = 0;
  for (unsigned length = 1; length <= limit; ++length) used += std::uint64_t{at_length[length]} << (limit - length);
  for (; used > std::uint64_t{1} << limit; --used) {
    unsigned shorter = limit - 1;
    while (at_length[shorter] == 0) --shorter;
    --at_length[limit];
    --at_length[shorter];
    at_length[shorter + 1] += 2;
  }
  std::vector<unsigned char> lengths(counts.size(), 0);
  std::size_t rarest = 0;
  for (unsigned length = limit; length > 0; --length) {
    for (std::size_t i = 0; i < at_length[length]; ++i) {
      lengths[symbols[rarest++]] = static_cast<unsigned char>(length);
    }
  }
  return lengths;
}

/// A canonical code, each turned round, since a deflate stream fills bytes from the low bit.
template <When = When::called>
struct HuffmanCode {
  std::vector<unsigned char> lengths;
  std::vector<std::uint32_t> codes;

  explicit HuffmanCode(std::vector<unsigned char> given) : lengths(std::move(given)), codes(lengths.size(), 0) {
    std::uint32_t code = 0;
    for (unsigned length = 1; length <= 15; ++length, code <<= 1U) {
      for (std::size_t s = 0; s < lengths.size(); ++s) {
        if (lengths[s] != length) continue;
        for (unsigned bit = 0; bit < length; ++bit) codes[s] |= (code >> bit & 1U) << (length - 1 - bit);
        ++code;
      }
    }
  }
};

class BitWriter {
 public:
  explicit BitWriter(std::string& out) : out_(out) {}
  /// At most 31 bits.
  void put(std::uint32_t value, unsigned bits) {
    held_ |= std::uint64_t{value} << count_;
    count_ += bits;
    if (count_ < 32) return;
    const char four[4] = {byte(0), byte(8), byte(16), byte(24)};
    out_.append(four, 4);
    held_ >>= 32U;
    count_ -= 32;
  }
  void put(const HuffmanCode<>& code, std::size_t symbol) { put(code.codes[symbol], code.lengths[symbol]); }
  /// Writes what is held, filled up to a whole byte.
  void finish() {
    for (unsigned shift = 0; shift < count_; shift += 8) out_ += byte(shift);
    held_ = 0;
    count_ = 0;
  }

 private:
  char byte(unsigned shift) const { return static_cast<char>(held_ >> shift & 255U); }

  std::string& out_;
  std::uint64_t held_ = 0;
  unsigned count_ = 0;
};

/// A code with `bits` more bits for how far above its `base` the value is (RFC 1951, 3.2.5).
struct DeflateStep {
  std::uint32_t code;
  std::uint32_t bits;
  std::uint32_t more;
};
/// Of a match's length, 3 to 258.
constexpr DeflateStep deflate_length(std::uint32_t length) {
  if (length == 258) return {285, 0, 0};
  const std::uint32_t v = length - 3;
  if (v < 8) return {257 + v, 0, 0};
  const auto bits = static_cast<std::uint32_t>(std::bit_width(v)) - 3;
  return {257 + 4 * (bits + 1) + (v >> bits & 3U), bits, v & ((1U << bits) - 1)};
}
/// Of its distance, 1 to 32768.
constexpr DeflateStep deflate_distance(std::uint32_t distance) {
  const std::uint32_t v = distance - 1;
  if (v < 4) return {v, 0, 0};
  const auto bits = static_cast<std::uint32_t>(std::bit_width(v)) - 2;
  return {2 * (bits + 1) + (v >> bits & 1U), bits, v & ((1U << bits) - 1)};
}

/// A byte, or a match: length in the upper half, distance - 1 in the lower.
using DeflateToken = std::uint32_t;

template <When = When::called>
void put_deflate_block(std::span<const DeflateToken> tokens, bool last, BitWriter& out) {
  std::vector<std::uint32_t> literal_counts(286, 0);
  std::vector<std::uint32_t> distance_counts(30, 0);
  for (const DeflateToken token : tokens) {
    if (token < 65536) {
      ++literal_counts[token];
    } else {
      ++literal_counts[deflate_length(token >> 16U).code];
      ++distance_counts[deflate_distance((token & 65535U) + 1).code];
    }
  }
  literal_counts[256] = 1;  // end of block
  const HuffmanCode literals(huffman_lengths(std::move(literal_counts), 15));
  const HuffmanCode distances(huffman_lengths(std::move(distance_counts), 15));

  // The lengths of both codes, runs of one length shortened; a run is the symbol and how often in the upper half.
  std::vector<unsigned char> lengths = literals.lengths;
  lengths.insert(lengths.end(), distances.lengths.begin(), distances.lengths.end());
  std::vector<std::uint32_t> runs;
  std::vector<std::uint32_t> run_counts(19, 0);
  for (std::size_t i = 0; i < lengths.size();) {
    std::size_t end = i + 1;
    while (end < lengths.size() && lengths[end] == lengths[i]) ++end;
    while (i < end) {
      const auto left = static_cast<std::uint32_t>(end - i);
      std::uint32_t symbol = lengths[i];
      std::uint32_t length = 1;
      if (lengths[i] == 0 && left >= 3) {
        length = std::min(left, 138U);
        symbol = length < 11 ? 17 : 18;
      } else if (i > 0 && lengths[i - 1] == lengths[i] && left >= 3) {
        length = std::min(left, 6U);
        symbol = 16;
      }
      runs.push_back(length << 16U | symbol);
      ++run_counts[symbol];
      i += length;
    }
  }
  const HuffmanCode run_code(huffman_lengths(std::move(run_counts), 7));
  constexpr std::array<std::size_t, 19> order = {16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15};
  out.put((last ? 1U : 0U) | 2U << 1U, 3);
  out.put(286 - 257, 5);
  out.put(30 - 1, 5);
  out.put(19 - 4, 4);
  for (const std::size_t symbol : order) out.put(run_code.lengths[symbol], 3);
  for (const std::uint32_t run : runs) {
    const std::uint32_t symbol = run & 65535U;
    out.put(run_code, symbol);
    if (symbol == 16) out.put((run >> 16U) - 3, 2);
    if (symbol == 17) out.put((run >> 16U) - 3, 3);
    if (symbol == 18) out.put((run >> 16U) - 11, 7);
  }

  for (const DeflateToken token : tokens) {
    if (token < 65536) {
      out.put(literals, token);
    } else {
      const DeflateStep length = deflate_length(token >> 16U);
      const DeflateStep distance = deflate_distance((token & 65535U) + 1);
      out.put(literals, length.code);
      out.put(length.more, length.bits);
      out.put(distances, distance.code);
      out.put(distance.more, distance.bits);
    }
  }
  out.put(literals, 256);
}

/// The bytes as a zlib stream.
template <When = When::called>
std::string zlib_pack(Bytes bytes) {
  std::string packed = "\x78\x01";
  BitWriter out(packed);
  constexpr std::size_t block = 1 << 16;
  std::vector<DeflateToken> tokens;
  tokens.reserve(block);
  std::vector<std::int64_t> last_seen(std::size_t{1} << 15, -40'000);
  const std::size_t size = bytes.size();
  const auto four = [&](std::size_t i) { return little32(bytes, i); };
  for (std::size_t i = 0; i < size;) {
    std::uint32_t length = 0;
    std::int64_t from = 0;
    if (i + 4 <= size) {
      std::int64_t& seen = last_seen[four(i) * 0x9e3779b1U >> 17U];
      from = seen;
      seen = static_cast<std::int64_t>(i);
      if (static_cast<std::int64_t>(i) - from <= 32768 && four(static_cast<std::size_t>(from)) == four(i)) {
        const std::size_t most = std::min<std::size_t>(258, size - i);
        length = 4;
        while (length < most && bytes[static_cast<std::size_t>(from) + length] == bytes[i + length]) ++length;
      }
    }
    if (length == 0) {
      tokens.push_back(bytes[i++]);
    } else {
      tokens.push_back(length << 16U | static_cast<std::uint32_t>(static_cast<std::int64_t>(i) - from - 1));
      // Places inside a short match may begin the next; a long one is as good as its end.
      const std::size_t end = i + length;
      for (i = length > 32 ? end - 2 : i + 1; i < end; ++i) {
        if (i + 4 <= size) last_seen[four(i) * 0x9e3779b1U >> 17U] = static_cast<std::int64_t>(i);
      }
    }
    if (tokens.size() == block && i < size) {
      put_deflate_block(tokens, false, out);
      tokens.clear();
    }
  }
  put_deflate_block(tokens, true, out);
  out.finish();
  const std::uint32_t sum = adler32(bytes);
  for (int shift = 24; shift >= 0; shift -= 8) packed += static_cast<char>(sum >> static_cast<unsigned>(shift) & 255U);
  return packed;
}

}  // namespace handlaid::detail
