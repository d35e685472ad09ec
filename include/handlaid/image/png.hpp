// The pixels of a PNG: unpacked by stb_image's inflater, checked, and brought to full range at full depth.
// All of PNG is read: grey, colour and palette, 1 to 16 bits, alpha or a transparent colour, interlaced or not.
// Samples come as they are stored; what their profile makes of them is the affair of read.hpp.
#pragma once

#include <climits>
#include <cstring>

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/png_chunks.hpp"
#include "handlaid/image/stb_image.hpp"

namespace handlaid::detail {

template <When = When::called>
PictureInfo png_info(Bytes bytes, const std::string& name) {
  const PngHeader header = PngWalk(bytes, name).walk(false);
  check_size(header.width, header.height, {.max_pixels = INT64_MAX}, name);
  return {.format = PictureFormat::png,
          .width = static_cast<int>(header.width),
          .height = static_cast<int>(header.height),
          .has_alpha = header.has_alpha(),
          .bits = header.depth,
          .orientation = header.orientation};
}

/// Every how many columns and rows a pass has pixels, from where; a plain PNG is one pass of all.
struct PngPass {
  int left, top, across, down;
  std::int64_t width(std::int64_t all) const { return (all - left + across - 1) / across; }
  std::int64_t height(std::int64_t all) const { return (all - top + down - 1) / down; }
};
template <When = When::called>
std::vector<PngPass> png_passes(const PngHeader& header) {
  if (!header.interlaced) return {{0, 0, 1, 1}};
  return {{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}};
}
inline std::int64_t png_row_bytes(const PngHeader& header, std::int64_t width) {
  return (width * header.samples() * header.depth + 7) / 8;
}

/// Unpacks all rows, each with its filter byte, and compares the check sum that follows them.
template <When = When::called>
Memory unpack_png(const PngHeader& header, const std::string& name) {
  std::int64_t size = 0;
  for (const PngPass& pass : png_passes(header)) {
    const std::int64_t width = pass.width(header.width);
    if (width > 0) size += pass.height(header.height) * (1 + png_row_bytes(header, width));
  }
  std::vector<unsigned char> joined;
  Bytes packed = header.data.front();
  if (header.data.size() > 1) {
    for (const Bytes part : header.data) joined.insert(joined.end(), part.begin(), part.end());
    packed = joined;
  }
  constexpr std::int64_t spare = 4096;  // some writers add a few zeros
  if (size + spare > INT_MAX || packed.size() > INT_MAX) {
    throw Error::bad_input(name, "it is too large to be unpacked", "make the picture smaller");
  }
  Memory rows = take_memory(static_cast<std::size_t>(size + spare), name);
  const int got = stb::handlaid_stbi_zlib_decode_buffer(
      reinterpret_cast<char*>(rows.get()), static_cast<int>(size + spare), reinterpret_cast<const char*>(packed.data()),
      static_cast<int>(packed.size()));
  if (got < size) throw damaged(name, "the PNG's pixels are damaged or too few");
  const std::uint32_t sum = adler32({rows.get(), static_cast<std::size_t>(got)});
  // It is at the very end, but for junk that some writers leave behind it.
  const std::size_t earliest = packed.size() > 4096 ? packed.size() - 4096 : 0;
  for (std::size_t at = packed.size() < 4 ? 0 : packed.size() - 4;; --at) {
    if (packed.size() >= 4 && big32(packed, at) == sum) return rows;
    if (at == earliest) throw damaged(name, "the PNG is damaged: the check sum of its pixels is wrong");
  }
}

/// Takes back the filter of a row; `above` is null for the first.
template <When = When::called>
bool unfilter_png_row(unsigned filter, unsigned char* row, const unsigned char* above, std::size_t bytes,
                      std::size_t step) {
  const auto up = [&](std::size_t i) -> int { return above == nullptr ? 0 : above[i]; };
  const auto left = [&](std::size_t i) -> int { return i < step ? 0 : row[i - step]; };
  const auto add = [&](std::size_t i, int value) { row[i] = static_cast<unsigned char>(row[i] + value); };
  switch (filter) {
    case 0:
      return true;
    case 1:
      for (std::size_t i = step; i < bytes; ++i) add(i, row[i - step]);
      return true;
    case 2:
      if (above != nullptr) {
        for (std::size_t i = 0; i < bytes; ++i) add(i, above[i]);
      }
      return true;
    case 3:
      for (std::size_t i = 0; i < bytes; ++i) add(i, (left(i) + up(i)) / 2);
      return true;
    case 4:
      for (std::size_t i = 0; i < bytes; ++i) {
        const int a = left(i);
        const int b = up(i);
        const int c = above == nullptr || i < step ? 0 : above[i - step];
        const int pa = b > c ? b - c : c - b;
        const int pb = a > c ? a - c : c - a;
        const int pc = a + b > 2 * c ? a + b - 2 * c : 2 * c - a - b;
        add(i, pa <= pb && pa <= pc ? a : (pb <= pc ? b : c));
      }
      return true;
    default:
      return false;
  }
}

/// Writes the pixels of an unfiltered row to `out`, `step` samples apart, in the full range of T.
/// Returns false where an index has no colour.
template <class T>
bool write_png_row(const PngHeader& header, const unsigned char* row, std::size_t count, T* out, std::size_t step,
                   int channels) {
  const auto depth = static_cast<unsigned>(header.depth);
  const std::uint32_t most = (1U << depth) - 1;
  const auto sample = [&](std::size_t i) -> std::uint32_t {
    if (depth == 8) return row[i];
    if (depth == 16) return static_cast<std::uint32_t>(row[2 * i]) << 8U | row[2 * i + 1];
    const std::size_t bit = i * depth;
    return (static_cast<std::uint32_t>(row[bit / 8]) >> (8 - depth - bit % 8)) & most;
  };
  const auto full = [&](std::uint32_t value) { return full_range<T>(value, most); };
  constexpr T opaque = static_cast<T>(~T{0});
  const bool alpha = channels == 4;
  for (std::size_t i = 0; i < count; ++i, out += step) {
    switch (header.colour_type) {
      case 0: {
        const std::uint32_t v = sample(i);
        out[0] = out[1] = out[2] = full(v);
        if (alpha) out[3] = header.has_key && v == header.key[0] ? T{0} : opaque;
        break;
      }
      case 2: {
        const std::uint32_t r = sample(3 * i), g = sample(3 * i + 1), b = sample(3 * i + 2);
        out[0] = full(r);
        out[1] = full(g);
        out[2] = full(b);
        const bool clear = header.has_key && r == header.key[0] && g == header.key[1] && b == header.key[2];
        if (alpha) out[3] = clear ? T{0} : opaque;
        break;
      }
      case 3: {
        const std::uint32_t index = sample(i);
        if (index >= header.palette.size()) return false;
        const auto& colour = header.palette[index];
        for (std::size_t c = 0; c < static_cast<std::size_t>(channels); ++c) out[c] = full_range<T>(colour[c], 255);
        break;
      }
      case 4:
        out[0] = out[1] = out[2] = full(sample(2 * i));
        if (alpha) out[3] = full(sample(2 * i + 1));
        break;
      default:
        for (std::size_t c = 0; c < static_cast<std::size_t>(channels); ++c) out[c] = full(sample(4 * i + c));
        break;
    }
  }
  return true;
}

template <class T>
void write_png_pixels(const PngHeader& header, unsigned char* rows, T* out, int channels, const std::string& name) {
  const std::size_t step = header.depth < 8 ? 1 : static_cast<std::size_t>(header.samples() * header.depth / 8);
  const auto samples = static_cast<std::size_t>(channels);
  const auto line = static_cast<std::size_t>(header.width) * samples;
  for (const PngPass& pass : png_passes(header)) {
    const std::int64_t width = pass.width(header.width);
    if (width < 1) continue;
    const auto bytes = static_cast<std::size_t>(png_row_bytes(header, width));
    const unsigned char* above = nullptr;
    for (std::int64_t y = 0; y < pass.height(header.height); ++y) {
      if (!unfilter_png_row(rows[0], rows + 1, above, bytes, step)) {
        throw damaged(name, "the PNG has a row filter that there is not");
      }
      above = rows + 1;
      rows += 1 + bytes;
      T* const to = out + static_cast<std::size_t>(pass.top + y * pass.down) * line +
                    static_cast<std::size_t>(pass.left) * samples;
      const auto apart = static_cast<std::size_t>(pass.across) * samples;
      const bool as_stored = sizeof(T) == 1 && header.depth == 8 && apart == samples && !header.has_key &&
                             (header.colour_type == 2 || header.colour_type == 6) && channels == header.samples();
      if (as_stored) {
        std::memcpy(to, above, bytes);
      } else if (!write_png_row(header, above, static_cast<std::size_t>(width), to, apart, channels)) {
        throw damaged(name, "the PNG uses a colour that is not in its palette");
      }
    }
  }
}

template <When = When::called>
Decoded decode_png(Bytes bytes, const Wanted& wanted, const ReadOptions& options, const std::string& name) {
  if (bytes.size() >= 24 && has_at(bytes, 12, "IHDR")) check_size(big32(bytes, 16), big32(bytes, 20), options, name);
  const PngHeader header = PngWalk(bytes, name).walk(true);
  Memory rows = unpack_png(header, name);
  Decoded decoded{.samples = {},
                  .width = static_cast<int>(header.width),
                  .height = static_cast<int>(header.height),
                  .channels = header.has_alpha() ? 4 : wanted.channels,
                  .sample_bytes = wanted.sample_bytes,
                  .orientation = header.orientation};
  const auto sample = static_cast<std::size_t>(decoded.channels * decoded.sample_bytes);
  decoded.samples = take_memory(decoded.pixels() * sample, name);
  if (decoded.sample_bytes == 1) {
    write_png_pixels(header, rows.get(), decoded.samples.get(), decoded.channels, name);
  } else {
    write_png_pixels(header, rows.get(), reinterpret_cast<std::uint16_t*>(decoded.samples.get()), decoded.channels,
                     name);
  }
  return decoded;
}

}  // namespace handlaid::detail
