// The frame of a PNG file (W3C, Portable Network Graphics, third edition): chunks, their order and their check sums.
#pragma once

#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/checksum.hpp"
#include "handlaid/image/decoded.hpp"
#include "handlaid/image/exif.hpp"

namespace handlaid::detail {

/// What a PNG says besides its pixels.
struct PngHeader {
  std::int64_t width = 0;
  std::int64_t height = 0;
  int depth = 8;
  /// 0 grey, 2 colour, 3 palette, 4 grey with alpha, 6 colour with alpha.
  int colour_type = 2;
  bool interlaced = false;
  /// Red, green, blue, alpha of each index.
  std::vector<std::array<unsigned char, 4>> palette = {};
  /// The grey or colour that is transparent, at full depth.
  bool has_key = false;
  std::array<std::uint32_t, 3> key = {0, 0, 0};
  bool palette_has_alpha = false;
  int orientation = 1;
  /// What it says of its colours: the chunks cICP, iCCP, sRGB, cHRM and gAMA, as they are; the first of each counts.
  Bytes cicp = {};
  Bytes iccp = {};
  Bytes srgb = {};
  Bytes chrm = {};
  Bytes gama = {};
  /// The pieces of the packed pixels.
  std::vector<Bytes> data = {};

  bool has_alpha() const { return colour_type >= 4 || has_key || palette_has_alpha; }
  /// Samples of a pixel as stored.
  int samples() const { return colour_type == 2 ? 3 : colour_type == 4 ? 2 : colour_type == 6 ? 4 : 1; }
};

template <When = When::called>
class PngWalk {
 public:
  PngWalk(Bytes bytes, const std::string& name) : bytes_(bytes), name_(name) {}

  /// All chunks to the end; without `check_sums` damage inside a chunk is not noticed.
  PngHeader walk(bool check_sums) {
    std::size_t at = 8;
    bool first = true;
    while (true) {
      if (bytes_.size() - at < 12) throw cut_short();
      const std::size_t length = big32(bytes_, at);
      if (length > 0x7fffffffU) throw damaged(name_, "the PNG has a chunk of impossible length");
      if (bytes_.size() - at - 12 < length) throw cut_short();
      const Bytes named = bytes_.subspan(at + 4, length + 4);
      const Bytes body = named.subspan(4);
      const std::string_view type(reinterpret_cast<const char*>(named.data()), 4);
      if (check_sums && crc32(named) != big32(bytes_, at + 8 + length)) {
        throw damaged(name_, "the PNG is damaged: the check sum of its " + printable(type) + " chunk is wrong");
      }
      if (first != (type == "IHDR")) throw damaged(name_, "the PNG does not start with one header");
      first = false;
      if (type == "IEND") break;
      read_chunk(type, body);
      at += 12 + length;
    }
    if (header_.data.empty()) throw damaged(name_, "the PNG has no pixels");
    return std::move(header_);
  }

 private:
  Error cut_short() const { return damaged(name_, "the PNG is cut short"); }
  Error wrong(std::string_view type) const {
    return damaged(name_, "the PNG's " + printable(type) + " chunk is wrong or in the wrong place");
  }
  static std::string printable(std::string_view type) {
    std::string text;
    for (const char c : type) text += (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ? c : '?';
    return text;
  }

  void read_chunk(std::string_view type, Bytes body) {
    const bool in_data = type == "IDAT";
    if (in_data) {
      if (data_over_ || (header_.colour_type == 3 && header_.palette.empty())) throw wrong(type);
      header_.data.push_back(body);
    } else {
      if (!header_.data.empty()) data_over_ = true;
      if (type == "IHDR") {
        read_header(body);
      } else if (type == "PLTE") {
        read_palette(body);
      } else if (type == "tRNS") {
        read_transparency(body);
      } else if (type == "eXIf") {
        header_.orientation = exif_orientation(body);
      } else if (header_.data.empty() && note_colours(type, body)) {
      } else if ((type[0] & 0x20) == 0) {  // a capital: nobody may pass over it
        throw Error::bad_input(name_, "the PNG needs an extension (" + printable(type) + ") that is not known here",
                               "save it as an ordinary PNG");
      }
    }
  }
  bool note_colours(std::string_view type, Bytes body) {
    Bytes* const chunk = type == "cICP"   ? &header_.cicp
                         : type == "iCCP" ? &header_.iccp
                         : type == "sRGB" ? &header_.srgb
                         : type == "cHRM" ? &header_.chrm
                         : type == "gAMA" ? &header_.gama
                                          : nullptr;
    if (chunk != nullptr && chunk->empty()) *chunk = body;
    return chunk != nullptr;
  }
  void read_header(Bytes body) {
    if (body.size() != 13) throw wrong("IHDR");
    header_.width = big32(body, 0);
    header_.height = big32(body, 4);
    header_.depth = body[8];
    header_.colour_type = body[9];
    const int depth = header_.depth;
    const int type = header_.colour_type;
    const bool small = depth == 1 || depth == 2 || depth == 4;
    const bool usual = depth == 8 || depth == 16;
    const bool fits = (type == 0 && (small || usual)) || (type == 3 && (small || depth == 8)) ||
                      ((type == 2 || type == 4 || type == 6) && usual);
    if (!fits) {
      throw damaged(name_, "the PNG has a colour type (" + std::to_string(type) + ") and depth (" +
                               std::to_string(depth) + ") that there is not");
    }
    if (body[10] != 0 || body[11] != 0 || body[12] > 1) throw wrong("IHDR");
    header_.interlaced = body[12] == 1;
  }
  void read_palette(Bytes body) {
    if (header_.colour_type != 3) return;  // a proposal only
    const std::size_t entries = body.size() / 3;
    const std::size_t most = std::size_t{1} << static_cast<unsigned>(header_.depth);
    if (body.size() % 3 != 0 || entries < 1 || entries > most || !header_.palette.empty() || !header_.data.empty()) {
      throw wrong("PLTE");
    }
    for (std::size_t i = 0; i < entries; ++i) {
      header_.palette.push_back({body[3 * i], body[3 * i + 1], body[3 * i + 2], 255});
    }
  }
  void read_transparency(Bytes body) {
    if (!header_.data.empty()) throw wrong("tRNS");
    if (header_.colour_type == 3) {
      if (body.size() > header_.palette.size()) throw wrong("tRNS");
      header_.palette_has_alpha = true;
      for (std::size_t i = 0; i < body.size(); ++i) header_.palette[i][3] = body[i];
    } else if (header_.colour_type == 0 || header_.colour_type == 2) {
      if (body.size() != (header_.colour_type == 0 ? 2U : 6U)) throw wrong("tRNS");
      header_.has_key = true;
      const std::uint32_t mask = (1U << static_cast<unsigned>(header_.depth)) - 1;
      for (std::size_t i = 0; i < body.size() / 2; ++i) header_.key[i] = big16(body, 2 * i) & mask;
    }
  }

  Bytes bytes_;
  const std::string& name_;
  PngHeader header_ = {};
  bool data_over_ = false;
};

}  // namespace handlaid::detail
