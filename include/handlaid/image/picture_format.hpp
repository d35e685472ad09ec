// What kind of file some bytes are, told by how they begin, and how to turn it into one that can be read.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "handlaid/core/error.hpp"

namespace handlaid {

/// Formats that are read.
enum class PictureFormat { jpeg, png, bmp, pnm };

namespace detail {

using Bytes = std::span<const unsigned char>;

inline bool has_at(Bytes bytes, std::size_t at, std::string_view text) {
  if (bytes.size() < at + text.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (bytes[at + i] != static_cast<unsigned char>(text[i])) return false;
  }
  return true;
}
inline std::uint32_t big32(Bytes bytes, std::size_t at) {
  return static_cast<std::uint32_t>(bytes[at]) << 24U | static_cast<std::uint32_t>(bytes[at + 1]) << 16U |
         static_cast<std::uint32_t>(bytes[at + 2]) << 8U | bytes[at + 3];
}
inline std::uint32_t big16(Bytes bytes, std::size_t at) {
  return static_cast<std::uint32_t>(bytes[at]) << 8U | bytes[at + 1];
}
inline std::uint32_t little32(Bytes bytes, std::size_t at) {
  return static_cast<std::uint32_t>(bytes[at + 3]) << 24U | static_cast<std::uint32_t>(bytes[at + 2]) << 16U |
         static_cast<std::uint32_t>(bytes[at + 1]) << 8U | bytes[at];
}
inline std::uint32_t little16(Bytes bytes, std::size_t at) {
  return static_cast<std::uint32_t>(bytes[at + 1]) << 8U | bytes[at];
}

/// A picture file that cannot be used as it is.
inline Error damaged(const std::string& name, const std::string& problem) {
  return Error::bad_input(name, problem, "copy or export the picture again");
}

inline bool looks_like_text(Bytes bytes) {
  const Bytes start = bytes.first(bytes.size() < 512 ? bytes.size() : 512);
  for (const unsigned char c : start) {
    if (c < 32 && c != '\t' && c != '\n' && c != '\r' && c != '\f') return false;
    if (c == 127) return false;
  }
  return true;
}

/// What the bytes are, if they are something well known that is not read; empty otherwise.
inline std::string_view foreign_format(Bytes bytes) {
  struct Signature {
    std::size_t at;
    std::string_view text;
    std::string_view name;
  };
  using namespace std::string_view_literals;
  static constexpr Signature signatures[] = {
      {0, "GIF87a"sv, "a GIF picture"},
      {0, "GIF89a"sv, "a GIF picture"},
      {8, "WEBP"sv, "a WebP picture"},
      {0, "II*\0"sv, "a TIFF or camera raw picture"},
      {0, "MM\0*"sv, "a TIFF or camera raw picture"},
      {0, "II+\0"sv, "a TIFF picture"},
      {0, "MM\0+"sv, "a TIFF picture"},
      {0, "IIRO"sv, "a camera raw picture"},
      {0, "IIU\0"sv, "a camera raw picture"},
      {0, "FUJIFILMCCD-RAW"sv, "a camera raw picture"},
      {4, "ftypcrx"sv, "a camera raw picture"},
      {4, "ftypavif"sv, "an AVIF picture"},
      {4, "ftypavis"sv, "an AVIF picture"},
      {4, "ftypheic"sv, "an HEIC picture"},
      {4, "ftypheix"sv, "an HEIC picture"},
      {4, "ftyphevc"sv, "an HEIC picture"},
      {4, "ftypmif1"sv, "an HEIF picture"},
      {4, "ftypmsf1"sv, "an HEIF picture"},
      {4, "ftyp"sv, "a film"},
      {0, "\0\0\0\x0cJXL "sv, "a JPEG XL picture"},
      {0, "\xff\x0a"sv, "a JPEG XL picture"},
      {0, "\0\0\0\x0cjP  "sv, "a JPEG 2000 picture"},
      {0, "\xff\x4f\xff\x51"sv, "a JPEG 2000 picture"},
      {0, "II\xbc\x01"sv, "a JPEG XR picture"},
      {0, "8BPS"sv, "a layered PSD picture"},
      {0, "gimp xcf"sv, "a layered XCF picture"},
      {0, "#?RADIANCE"sv, "a Radiance HDR picture"},
      {0, "#?RGBE"sv, "a Radiance HDR picture"},
      {0, "\x76\x2f\x31\x01"sv, "an OpenEXR picture"},
      {0, "qoif"sv, "a QOI picture"},
      {0, "DDS "sv, "a DDS texture"},
      {0, "\0\0\1\0"sv, "an icon"},
      {0, "\0\0\2\0"sv, "a cursor"},
      {0, "PF\n"sv, "a floating-point PFM picture"},
      {0, "Pf\n"sv, "a floating-point PFM picture"},
      {0, "\x8aMNG"sv, "an MNG animation"},
      {0, "\x8bJNG"sv, "a JNG picture"},
      {0, "%PDF"sv, "a PDF document"},
      {0, "%!PS"sv, "a PostScript document"},
      {0, "\xd0\xcf\x11\xe0"sv, "an office document"},
      {0, "PK\3\4"sv, "a ZIP archive"},
      {0, "\x1f\x8b"sv, "a gzip archive"},
      {0, "7z\xbc\xaf\x27\x1c"sv, "a 7z archive"},
      {0, "Rar!"sv, "a RAR archive"},
      {0, "RIFF"sv, "a film or sound"},
      {0, "\x1a\x45\xdf\xa3"sv, "a film"},
      {0, "ID3"sv, "a sound"},
      {0,
       "\x7f"
       "ELF"sv,
       "a program"},
  };
  for (const Signature& signature : signatures) {
    if (has_at(bytes, signature.at, signature.text)) return signature.name;
  }
  return {};
}

/// The format, told by the first bytes and never by the name. Throws Error that names what was found instead.
inline PictureFormat format_of(Bytes bytes, const std::string& name) {
  if (bytes.empty()) throw Error::bad_input(name, "it is empty", "copy or export the picture again");
  if (has_at(bytes, 0, "\xff\xd8")) return PictureFormat::jpeg;
  if (has_at(bytes, 0, "\x89PNG\r\n\x1a\n")) return PictureFormat::png;
  if (has_at(bytes, 0, "BM")) return PictureFormat::bmp;
  if (bytes.size() > 2 && bytes[0] == 'P' && bytes[1] >= '1' && bytes[1] <= '6' &&
      (bytes[2] == '#' || bytes[2] == ' ' || (bytes[2] >= '\t' && bytes[2] <= '\r'))) {
    return PictureFormat::pnm;
  }
  // One byte of the signature is not plain ASCII and others are line ends, to show just this.
  if (has_at(bytes, 1, "PNG") || has_at(bytes, 12, "IHDR") || has_at(bytes, 11, "IHDR") || has_at(bytes, 13, "IHDR")) {
    throw damaged(name, "its PNG signature is damaged, as if it had been copied as text");
  }
  const std::string read = "save it as PNG or JPEG";
  const std::string_view foreign = foreign_format(bytes);
  if (!foreign.empty()) throw Error::bad_input(name, "it is " + std::string(foreign) + ", which is not read", read);
  if (looks_like_text(bytes)) {
    const std::string_view start(reinterpret_cast<const char*>(bytes.data()), bytes.size() < 512 ? bytes.size() : 512);
    if (start.find("<svg") != std::string_view::npos) {
      throw Error::bad_input(name, "it is an SVG drawing, which is not read", "export it as PNG");
    }
    if (start.find("<html") != std::string_view::npos || start.find("<!DOCTYPE html") != std::string_view::npos) {
      throw Error::bad_input(name, "it is a web page, not a picture", "save the picture itself");
    }
    throw Error::bad_input(name, "it is text, not a picture", "give a JPEG, PNG, BMP or PNM file");
  }
  throw Error::bad_input(name, "it is no picture that is known here", "give a JPEG, PNG, BMP or PNM file");
}

}  // namespace detail
}  // namespace handlaid
