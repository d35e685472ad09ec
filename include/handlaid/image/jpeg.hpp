// JPEG (ITU-T T.81): the file's structure is checked here, its pixels are decoded by stb_image.
// Read are baseline and progressive files of 8 bits, grey or colour. A file that was cut short is refused.
#pragma once

#include <climits>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/decoded.hpp"
#include "handlaid/image/exif.hpp"
#include "handlaid/image/stb_image.hpp"

namespace handlaid::detail {

struct JpegHeader {
  int width = 0;
  int height = 0;
  int components = 0;
  int orientation = 1;
  /// The pieces of an ICC profile as they come: number, how many there are, bytes (ICC.1:2022, B.4).
  std::vector<Bytes> profile = {};
};

/// Walks over the segments. With `to_the_end` it goes on through all scans to the end marker; otherwise it stops at the
/// first scan.
template <When = When::called>
class JpegWalk {
 public:
  JpegWalk(Bytes bytes, const std::string& name) : bytes_(bytes), name_(name) {}

  JpegHeader walk(bool to_the_end) {
    at_ = 2;
    while (true) {
      const unsigned marker = next_marker();
      if (marker == 0xd9) break;
      if (marker == 0x01 || (marker >= 0xd0 && marker <= 0xd8)) continue;  // stand alone
      const Bytes segment = next_segment();
      if (is_frame(marker)) {
        read_frame(marker, segment);
      } else if (marker == 0xc4) {
        check_huffman_tables(segment);
      } else if (marker == 0xe1 && !exif_seen_ && header_.components == 0 &&
                 has_at(segment, 0, std::string_view("Exif\0\0", 6))) {
        exif_seen_ = true;
        header_.orientation = exif_orientation(segment.subspan(6));
      } else if (marker == 0xe2 && scans_ == 0 && header_.profile.size() < 255 && segment.size() >= 14 &&
                 has_at(segment, 0, std::string_view("ICC_PROFILE\0", 12))) {
        header_.profile.push_back(segment.subspan(12));
      } else if (marker == 0xda) {
        if (!to_the_end && header_.components != 0) return std::move(header_);
        read_scan(segment);
      }
    }
    if (components_scanned_ != (1U << static_cast<unsigned>(header_.components)) - 1 || header_.components == 0) {
      throw damaged(name_, "the JPEG ends before all of its picture");
    }
    return std::move(header_);
  }

 private:
  Error cut_short() const { return damaged(name_, "the JPEG is cut short"); }
  Error not_read(const std::string& what) const {
    return Error::bad_input(name_, "it is " + what + ", which is not read", "save it as an ordinary 8-bit RGB JPEG");
  }

  unsigned next_marker() {
    // Padding between segments is let through.
    while (at_ < bytes_.size() && bytes_[at_] != 0xff) ++at_;
    while (at_ < bytes_.size() && bytes_[at_] == 0xff) ++at_;
    if (at_ >= bytes_.size()) throw cut_short();
    return bytes_[at_++];
  }
  Bytes next_segment() {
    if (bytes_.size() - at_ < 2) throw cut_short();
    const std::size_t length = big16(bytes_, at_);
    if (length < 2) throw damaged(name_, "the JPEG has a segment of no length");
    if (bytes_.size() - at_ < length) throw cut_short();
    const Bytes segment = bytes_.subspan(at_ + 2, length - 2);
    at_ += length;
    return segment;
  }
  static bool is_frame(unsigned marker) {
    return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
  }

  void read_frame(unsigned marker, Bytes segment) {
    if (marker == 0xc3) throw not_read("a lossless JPEG");
    if (marker >= 0xc5 && marker <= 0xc7) throw not_read("a hierarchical JPEG");
    if (marker >= 0xc9) throw not_read("a JPEG with arithmetic coding");
    if (header_.components != 0) throw damaged(name_, "the JPEG has two frames");
    if (segment.size() < 6) throw damaged(name_, "the JPEG's frame header is too short");
    if (segment[0] != 8) throw not_read("a JPEG of " + std::to_string(segment[0]) + " bits");
    header_.height = static_cast<int>(big16(segment, 1));
    header_.width = static_cast<int>(big16(segment, 3));
    const unsigned components = segment[5];
    if (components == 4) throw not_read("a JPEG in CMYK, made for print");
    if (components != 1 && components != 3) throw not_read("a JPEG of " + std::to_string(components) + " channels");
    if (segment.size() != 6 + 3 * components) throw damaged(name_, "the JPEG's frame header has a wrong length");
    header_.components = static_cast<int>(components);
    for (std::size_t i = 0; i < components; ++i) ids_[i] = segment[6 + 3 * i];
  }
  /// A table of more than 256 codes would not fit where the decoder puts it.
  void check_huffman_tables(Bytes segment) const {
    std::size_t at = 0;
    while (at < segment.size()) {
      std::size_t codes = 0;
      for (std::size_t i = 1; i <= 16 && at + i < segment.size(); ++i) codes += segment[at + i];
      if (codes > 256 || segment.size() - at < 17 + codes) throw damaged(name_, "the JPEG has a broken table");
      at += 17 + codes;
    }
  }
  void read_scan(Bytes segment) {
    if (header_.components == 0 || segment.empty() || segment.size() != 4 + std::size_t{2} * segment[0]) {
      throw damaged(name_, "the JPEG has a scan that makes no sense");
    }
    // A tiny file with scans without end would keep the decoder busy for hours.
    if (++scans_ > 1000) throw damaged(name_, "the JPEG has more than 1000 scans");
    for (std::size_t i = 0; i < segment[0]; ++i) {
      for (unsigned c = 0; c < static_cast<unsigned>(header_.components); ++c) {
        if (ids_[c] == segment[1 + 2 * i]) components_scanned_ |= 1U << c;
      }
    }
    // Coded data: a byte ff in it is followed by 0 or by a restart marker.
    while (true) {
      if (bytes_.size() - at_ < 2) throw cut_short();
      const unsigned after = bytes_[at_ + 1];
      if (bytes_[at_] == 0xff && after != 0 && after != 0xff && !(after >= 0xd0 && after <= 0xd7)) return;
      ++at_;
    }
  }

  Bytes bytes_;
  const std::string& name_;
  std::size_t at_ = 0;
  JpegHeader header_ = {};
  bool exif_seen_ = false;
  unsigned ids_[3] = {0, 0, 0};
  unsigned components_scanned_ = 0;
  int scans_ = 0;
};

template <When = When::called>
PictureInfo jpeg_info(Bytes bytes, const std::string& name) {
  const JpegHeader header = JpegWalk(bytes, name).walk(false);
  return {.format = PictureFormat::jpeg,
          .width = header.width,
          .height = header.height,
          .has_alpha = false,
          .bits = 8,
          .orientation = header.orientation};
}

template <When = When::called>
Decoded decode_jpeg(Bytes bytes, const Wanted& wanted, const ReadOptions& options, const std::string& name) {
  const JpegHeader early = JpegWalk(bytes, name).walk(false);
  check_size(early.width, early.height, options, name);
  const JpegHeader header = JpegWalk(bytes, name).walk(true);
  const std::int64_t size = static_cast<std::int64_t>(header.width) * header.height * wanted.channels;
  if (bytes.size() > INT_MAX || size > INT_MAX) {
    throw Error::bad_input(name, "it is too large to be decoded", "make the picture smaller");
  }
  int width = 0;
  int height = 0;
  int components = 0;
  Decoded decoded;
  decoded.samples = Memory(stb::handlaid_stbi_load_from_memory(bytes.data(), static_cast<int>(bytes.size()), &width,
                                                               &height, &components, wanted.channels));
  if (decoded.samples.get() == nullptr) {
    throw damaged(name, std::string("the JPEG's picture is damaged (") + stb::handlaid_stbi_failure_reason() + ")");
  }
  decoded.width = width;
  decoded.height = height;
  decoded.channels = wanted.channels;
  decoded.orientation = header.orientation;
  return decoded;
}

}  // namespace handlaid::detail
