// Reading a picture: JPEG, PNG, BMP and PNM, from a path or from memory, upright and with its alpha.
// Colours come as sRGB: a profile of curves and primaries is applied, of any other kind `picture_info` tells and sRGB
// is assumed (profile.hpp). Colours outside of sRGB are held at its ends, channel by channel. Not read, but named: JPEG
// in CMYK, of 12 bits, lossless, hierarchical or with arithmetic coding, compressed BMP, and other formats. PAM and PFM
// are not read either. Of a file with several pictures the first is read.
#pragma once

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/bmp.hpp"
#include "handlaid/image/ground.hpp"
#include "handlaid/image/jpeg.hpp"
#include "handlaid/image/orient.hpp"
#include "handlaid/image/picture_colours.hpp"
#include "handlaid/image/png.hpp"
#include "handlaid/image/pnm.hpp"

namespace handlaid {

/// What a picture can be read as.
template <class P>
concept ReadablePixel =
    std::same_as<P, Srgb8> || std::same_as<P, Srgba8> || std::same_as<P, Srgb16> || std::same_as<P, Srgba16>;

/// What the header says, without decoding; `name` is for messages. Throws Error for anything that is not read.
template <When = When::called>
PictureInfo picture_info(std::span<const unsigned char> bytes, const std::string& name = "picture");

/// Reads a picture from memory.
/// 16-bit types keep full depth; in 8-bit types a 16-bit sample v becomes (v * 255 + 32767) / 65535.
/// Types without alpha refuse a picture with transparent pixels, unless `options.ground` is given.
/// Throws Error, naming the picture `name`, for bytes that are damaged, cut short, of another format or over a limit.
template <ReadablePixel P = Srgba8>
Raster<P> read_memory(std::span<const unsigned char> bytes, const ReadOptions& options = {},
                      const std::string& name = "picture");

/// The bytes of a file. Throws Error when it is missing, a folder, not readable, or longer than `max_bytes`.
template <When = When::called>
std::vector<unsigned char> read_file(const std::string& path, std::int64_t max_bytes = ReadOptions{}.max_bytes);

/// Reads a picture from a file, as `read_memory` does.
template <ReadablePixel P = Srgba8>
Raster<P> read(const std::string& path, const ReadOptions& options = {}) {
  return read_memory<P>(read_file(path, options.max_bytes), options, path);
}

// --- how
// --------------------------------------------------------------------------------------------------------------

template <When>
PictureInfo picture_info(std::span<const unsigned char> bytes, const std::string& name) {
  PictureInfo info;
  switch (detail::format_of(bytes, name)) {
    case PictureFormat::jpeg:
      info = detail::jpeg_info(bytes, name);
      break;
    case PictureFormat::png:
      info = detail::png_info(bytes, name);
      break;
    case PictureFormat::bmp:
      info = detail::bmp_info(bytes, name);
      break;
    case PictureFormat::pnm:
      info = detail::pnm_info(bytes, name);
      break;
  }
  info.profile = detail::colours_of(info.format, bytes, name).report;
  if (info.orientation >= 5) std::swap(info.width, info.height);
  return info;
}

template <When>
std::vector<unsigned char> read_file(const std::string& path, std::int64_t max_bytes) {
  const auto refuse = [&](int reason) {
    if (reason == ENOENT) return Error::bad_input(path, "there is no such file", "check the name and the folder");
    if (reason == EISDIR) return Error::bad_input(path, "it is a folder", "name a file in it");
    if (reason == EACCES) return Error::bad_input(path, "it may not be read", "check its permissions");
    return Error::bad_input(path, std::string("it cannot be read (") + std::strerror(reason) + ")", "check the file");
  };
  struct File {
    std::FILE* file;
    ~File() {
      if (file != nullptr) std::fclose(file);
    }
  };
  const File opened{std::fopen(path.c_str(), "rb")};
  std::FILE* const file = opened.file;
  if (file == nullptr) throw refuse(errno);
  const auto too_long = [&] {
    return Error::bad_input(path, "it is longer than the limit of " + std::to_string(max_bytes) + " bytes",
                            "make the picture smaller or raise the limit");
  };
  std::vector<unsigned char> bytes;
  // A pipe has no length to ask for; then it is read in pieces.
  long length = -1;
  if (std::fseek(file, 0, SEEK_END) == 0) length = std::ftell(file);
  std::rewind(file);
  if (length > max_bytes && length != LONG_MAX) throw too_long();
  std::size_t piece = length > 0 && length != LONG_MAX ? static_cast<std::size_t>(length) + 1 : 65536;
  while (true) {
    const std::size_t before = bytes.size();
    bytes.resize(before + piece);
    errno = 0;
    const std::size_t got = std::fread(bytes.data() + before, 1, piece, file);
    bytes.resize(before + got);
    if (static_cast<std::int64_t>(bytes.size()) > max_bytes) throw too_long();
    if (std::ferror(file) != 0) throw refuse(errno);
    if (got < piece) return bytes;
    piece = 1 << 20;
  }
}

namespace detail {

/// Samples of one byte become two, in the same memory made larger.
template <When = When::called>
void widen(Decoded& decoded, const std::string& name) {
  const std::size_t count = decoded.pixels() * static_cast<std::size_t>(decoded.channels);
  void* const larger = std::realloc(decoded.samples.get(), 2 * count);
  if (larger == nullptr) throw Error::bad_input(name, "there is no memory for its pixels", "make the picture smaller");
  static_cast<void>(decoded.samples.release());
  decoded.samples = Memory(larger);
  unsigned char* const bytes = decoded.samples.get();
  for (std::size_t i = count; i-- > 0;) {
    const auto wide = static_cast<std::uint16_t>(bytes[i] * 257);
    std::memcpy(bytes + 2 * i, &wide, 2);
  }
  decoded.sample_bytes = 2;
}

/// Takes alpha away, or fills it, in the same memory.
template <class P>
void settle_alpha(Decoded& decoded, const ReadOptions& options, const std::string& name) {
  using C = ColourOf<P>;
  using A = WithAlpha<C>;
  unsigned char* const bytes = decoded.samples.get();
  const C ground = options.ground ? C::from_light(options.ground->light()) : C{};
  for (std::size_t i = 0; i < decoded.pixels(); ++i) {
    A pixel;
    std::memcpy(&pixel, bytes + i * sizeof(A), sizeof(A));
    if (!options.ground && pixel.opacity() != 65535) {
      throw Error::bad_input(name, "it has transparent pixels, and no ground is given to lay it over",
                             "give a ground, or read it with alpha");
    }
    const C colour = lay_over(pixel, ground);
    if constexpr (AlphaPixel<P>) {
      const A opaque = A::from(colour, 65535U);
      std::memcpy(bytes + i * sizeof(A), &opaque, sizeof(A));
    } else {
      std::memcpy(bytes + i * sizeof(C), &colour, sizeof(C));
    }
  }
  if constexpr (!AlphaPixel<P>) {
    decoded.channels = 3;
    // Smaller memory cannot be refused; if it is all the same, the old one still serves.
    if (void* const smaller = std::realloc(bytes, decoded.pixels() * sizeof(C)); smaller != nullptr) {
      static_cast<void>(decoded.samples.release());
      decoded.samples = Memory(smaller);
    }
  }
}

}  // namespace detail

template <ReadablePixel P>
Raster<P> read_memory(std::span<const unsigned char> bytes, const ReadOptions& options, const std::string& name) {
  using Sample = typename ColourOf<P>::channel_type;
  static_assert(sizeof(P) == sizeof(Sample) * (AlphaPixel<P> ? 4 : 3), "pixels must lie as samples do");
  if (static_cast<std::int64_t>(bytes.size()) > options.max_bytes) {
    throw Error::bad_input(name, "it is longer than the limit of " + std::to_string(options.max_bytes) + " bytes",
                           "make the picture smaller or raise the limit");
  }
  const detail::Wanted wanted{.channels = AlphaPixel<P> ? 4 : 3, .sample_bytes = sizeof(Sample)};
  detail::Decoded decoded;
  const PictureFormat format = detail::format_of(bytes, name);
  switch (format) {
    case PictureFormat::jpeg:
      decoded = detail::decode_jpeg(bytes, wanted, options, name);
      break;
    case PictureFormat::png:
      decoded = detail::decode_png(bytes, wanted, options, name);
      break;
    case PictureFormat::bmp:
      decoded = detail::decode_bmp(bytes, wanted, options, name);
      break;
    case PictureFormat::pnm:
      decoded = detail::decode_pnm(bytes, wanted, options, name);
      break;
  }
  if (decoded.sample_bytes < wanted.sample_bytes) detail::widen(decoded, name);
  if (options.use_profile) {
    const detail::PictureColours colours = detail::colours_of(format, bytes, name);
    if (colours.report.use == ProfileUse::converted) detail::convert_to_srgb(decoded, colours.space);
  }
  if (decoded.channels == 4 && (options.ground || wanted.channels == 3)) {
    detail::settle_alpha<P>(decoded, options, name);
  }
  auto* const pixels = reinterpret_cast<P*>(decoded.samples.release());
  return Raster<P>::adopt(pixels, decoded.width, decoded.height, &std::free) | orient(decoded.orientation);
}

}  // namespace handlaid
