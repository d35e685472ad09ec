// BMP (Microsoft, "Bitmap Storage", headers of 12, 40, 52, 56, 64, 108 and 124 bytes): 1, 4, 8, 16, 24 and 32 bits,
// palette or masks, top down or bottom up. Compressed ones are refused by name.
#pragma once

#include <bit>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/decoded.hpp"

namespace handlaid::detail {

struct BmpHeader {
  std::int64_t width = 0;
  std::int64_t height = 0;
  bool top_down = false;
  unsigned bits = 24;
  /// Red, green, blue, alpha; a mask of 0 means that there is no such channel.
  std::uint32_t masks[4] = {0, 0, 0, 0};
  std::vector<std::array<unsigned char, 3>> palette = {};
  std::size_t pixels_at = 0;

  /// Rows start at multiples of 4 bytes.
  std::size_t row_bytes() const { return (static_cast<std::size_t>(width) * bits + 31) / 32 * 4; }
};

template <When = When::called>
BmpHeader bmp_header(Bytes bytes, const std::string& name) {
  const auto wrong = [&](const std::string& problem) { return damaged(name, problem); };
  if (bytes.size() < 26) throw wrong("the BMP is cut short");
  BmpHeader header;
  header.pixels_at = little32(bytes, 10);
  const std::size_t length = little32(bytes, 14);
  const bool known =
      length == 12 || length == 40 || length == 52 || length == 56 || length == 64 || length == 108 || length == 124;
  if (!known) throw wrong("the BMP has a header of a length that there is not");
  if (bytes.size() < 14 + length) throw wrong("the BMP is cut short");
  std::uint32_t compression = 0;
  std::size_t colours = 0;
  if (length == 12) {
    header.width = little16(bytes, 18);
    header.height = little16(bytes, 20);
    header.bits = little16(bytes, 24);
  } else {
    header.width = static_cast<std::int32_t>(little32(bytes, 18));
    header.height = static_cast<std::int32_t>(little32(bytes, 22));
    header.bits = little16(bytes, 28);
    compression = little32(bytes, 30);
    colours = little32(bytes, 46);
  }
  header.top_down = header.height < 0;
  if (header.top_down) header.height = -header.height;

  const auto refuse = [&](const std::string& what) {
    return Error::bad_input(name, "it is a BMP with " + what + ", which is not read", "save it as PNG or JPEG");
  };
  if (compression == 1 || compression == 2 || (length == 64 && compression == 4))
    throw refuse("run-length compression");
  if (compression == 4) throw refuse("a JPEG inside");
  if (compression == 5) throw refuse("a PNG inside");
  if (length == 64 && compression == 3) throw refuse("fax compression");
  if (compression != 0 && compression != 3 && compression != 6) throw wrong("the BMP has an unknown compression");

  const unsigned bits = header.bits;
  if (bits == 1 || bits == 4 || bits == 8) {
    const std::size_t entry = length == 12 ? 3 : 4;
    const std::size_t most = std::size_t{1} << bits;
    if (colours == 0 || colours > most) colours = most;
    const std::size_t at = 14 + length;
    // Some files hold fewer colours than they say: the pixels begin before.
    if (header.pixels_at > at) colours = std::min(colours, (header.pixels_at - at) / entry);
    if (bytes.size() < at + colours * entry) throw wrong("the BMP is cut short");
    for (std::size_t i = 0; i < colours; ++i) {
      const std::size_t b = at + i * entry;
      header.palette.push_back({bytes[b + 2], bytes[b + 1], bytes[b]});
    }
  } else if (bits == 16 || bits == 32) {
    const bool masked = compression == 3 || compression == 6;
    if (masked) {
      if (bytes.size() < 66) throw wrong("the BMP is cut short");
      for (std::size_t c = 0; c < 3; ++c) header.masks[c] = little32(bytes, 54 + 4 * c);
      if (length >= 56 || compression == 6) {
        if (bytes.size() < 70) throw wrong("the BMP is cut short");
        header.masks[3] = little32(bytes, 66);
      }
    } else if (bits == 16) {
      header.masks[0] = 31U << 10U;
      header.masks[1] = 31U << 5U;
      header.masks[2] = 31U;
    } else {
      header.masks[0] = 0xff0000U;
      header.masks[1] = 0xff00U;
      header.masks[2] = 0xffU;
      if (length >= 108) header.masks[3] = little32(bytes, 66);
    }
    for (const std::uint32_t mask : header.masks) {
      const std::uint32_t run = mask == 0 ? 0 : mask >> static_cast<unsigned>(std::countr_zero(mask));
      if ((run & (run + 1U)) != 0 || run > 0xffffU) throw wrong("the BMP has channels that make no sense");
    }
  } else if (bits != 24 || compression != 0) {
    throw wrong("the BMP has " + std::to_string(bits) + " bits a pixel");
  }
  return header;
}

template <When = When::called>
PictureInfo bmp_info(Bytes bytes, const std::string& name) {
  const BmpHeader header = bmp_header(bytes, name);
  check_size(header.width, header.height, {.max_pixels = INT64_MAX}, name);
  const int bits = header.bits == 16 ? std::popcount(header.masks[0])
                   : header.bits < 8 ? static_cast<int>(header.bits)
                                     : 8;
  return {PictureFormat::bmp,
          static_cast<int>(header.width),
          static_cast<int>(header.height),
          header.masks[3] != 0,
          bits,
          1};
}

/// Alpha that is 0 everywhere counts as none: many programs leave it unset (common practice, no source).
template <When = When::called>
Decoded decode_bmp(Bytes bytes, const Wanted& wanted, const ReadOptions& options, const std::string& name) {
  const BmpHeader header = bmp_header(bytes, name);
  check_size(header.width, header.height, options, name);
  const std::size_t row_bytes = header.row_bytes();
  const auto rows = static_cast<std::size_t>(header.height);
  // The padding of the last row may be missing.
  const std::size_t last_row = (static_cast<std::size_t>(header.width) * header.bits + 7) / 8;
  if (header.pixels_at > bytes.size() || bytes.size() - header.pixels_at < row_bytes * (rows - 1) + last_row) {
    throw damaged(name, "the BMP is cut short");
  }
  const bool alpha = header.masks[3] != 0;
  Decoded decoded{.samples = {},
                  .width = static_cast<int>(header.width),
                  .height = static_cast<int>(header.height),
                  .channels = alpha ? 4 : wanted.channels};
  const auto channels = static_cast<std::size_t>(decoded.channels);
  decoded.samples = take_memory(decoded.pixels() * channels, name);
  bool any_alpha = false;
  for (std::size_t y = 0; y < rows; ++y) {
    const unsigned char* const row = bytes.data() + header.pixels_at + (header.top_down ? y : rows - 1 - y) * row_bytes;
    unsigned char* out = decoded.samples.get() + y * static_cast<std::size_t>(header.width) * channels;
    for (std::size_t x = 0; x < static_cast<std::size_t>(header.width); ++x, out += channels) {
      if (channels == 4) out[3] = 255;
      if (header.bits <= 8) {
        const std::size_t bit = x * header.bits;
        const std::size_t index =
            (static_cast<unsigned>(row[bit / 8]) >> (8 - header.bits - bit % 8)) & ((1U << header.bits) - 1U);
        if (index >= header.palette.size()) throw damaged(name, "the BMP uses a colour that is not in its palette");
        for (std::size_t c = 0; c < 3; ++c) out[c] = header.palette[index][c];
      } else if (header.bits == 24) {
        for (std::size_t c = 0; c < 3; ++c) out[c] = row[3 * x + 2 - c];
      } else {
        std::uint32_t value = 0;
        for (std::size_t b = header.bits / 8; b-- > 0;) value = value << 8U | row[x * (header.bits / 8) + b];
        for (std::size_t c = 0; c < (alpha ? 4U : 3U); ++c) {
          const std::uint32_t mask = header.masks[c];
          if (mask == 0) continue;
          const auto shift = static_cast<unsigned>(std::countr_zero(mask));
          out[c] = full_range<unsigned char>((value & mask) >> shift, mask >> shift);
        }
        any_alpha = any_alpha || (alpha && out[3] != 0);
      }
    }
  }
  if (alpha && !any_alpha) {
    for (std::size_t i = 0; i < decoded.pixels(); ++i) decoded.samples.get()[4 * i + 3] = 255;
  }
  return decoded;
}

}  // namespace handlaid::detail
