// Writing a picture as PNG (W3C, Portable Network Graphics, third edition), to memory. The same pixels always give the
// same bytes.
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/deflate.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

namespace detail {

inline void put_big32(std::string& out, std::uint32_t value) {
  for (const unsigned shift : {24U, 16U, 8U, 0U}) out += static_cast<char>(value >> shift & 255U);
}
template <When = When::called>
void put_png_chunk(std::string& out, std::string_view type, std::string_view body) {
  put_big32(out, static_cast<std::uint32_t>(body.size()));
  const std::size_t from = out.size();
  out += type;
  out += body;
  put_big32(out, crc32({reinterpret_cast<const unsigned char*>(out.data()) + from, out.size() - from}));
}

/// Whether a picture has at most 256 colours, as drawings have.
template <Rows R>
bool has_few_colours(const R& raster) {
  std::vector<PixelOf<R>> found;
  for (int y = 0; y < raster.height(); ++y) {
    const auto& row = raster.row(y);
    for (std::size_t x = 0; x < static_cast<std::size_t>(raster.width()); ++x) {
      if (!found.empty() && row[x] == found.back()) continue;
      const auto known = std::find(found.begin(), found.end(), row[x]);
      if (known != found.end()) {
        std::iter_swap(known, found.end() - 1);  // neighbours are mostly alike
        continue;
      }
      if (found.size() == 256) return false;
      found.push_back(row[x]);
    }
  }
  return true;
}

/// The five row filters; the one whose bytes are smallest as signed numbers is taken, which is what the standard
/// proposes (section 12.7); or none where `filters` is false, since a drawing repeats rows as they are.
template <When = When::called>
class PngFilter {
 public:
  PngFilter(std::size_t bytes, std::size_t step, bool filters)
      : step_(step), filters_(filters), above_(bytes + step, 0), row_(bytes + step, 0) {
    for (auto& line : lines_) line.resize(bytes);
  }

  /// The row to be filled in; the one before it becomes the row above.
  unsigned char* next() {
    std::swap(above_, row_);
    return row_.data() + step_;
  }
  /// Adds filter byte and filtered row.
  void put(std::vector<unsigned char>& out) {
    const std::size_t bytes = lines_[0].size();
    const unsigned char* const row = row_.data() + step_;
    const unsigned char* const left = row_.data();
    const unsigned char* const up = above_.data() + step_;
    const unsigned char* const corner = above_.data();
    const auto low = [](int value) { return static_cast<unsigned char>(value); };
    for (std::size_t i = 0; i < bytes; ++i) lines_[0][i] = row[i];
    if (!filters_) return take(0, out);
    for (std::size_t i = 0; i < bytes; ++i) lines_[1][i] = low(row[i] - left[i]);
    for (std::size_t i = 0; i < bytes; ++i) lines_[2][i] = low(row[i] - up[i]);
    for (std::size_t i = 0; i < bytes; ++i) lines_[3][i] = low(row[i] - (left[i] + up[i]) / 2);
    for (std::size_t i = 0; i < bytes; ++i) {
      // 16 bits hold all of it, and twice as many fit in a vector.
      using Short = std::int16_t;
      const Short a = left[i], b = up[i], c = corner[i];
      const auto distance = [](Short p, Short q) { return static_cast<Short>(p > q ? p - q : q - p); };
      const Short to_a = distance(b, c);
      const Short to_b = distance(a, c);
      const Short to_c = distance(static_cast<Short>(a + b), static_cast<Short>(2 * c));
      const Short near = to_b <= to_c ? b : c;
      const bool is_a = to_a <= to_b && to_a <= to_c;
      lines_[4][i] = low(row[i] - (is_a ? a : near));
    }
    std::size_t best = 0;
    std::uint64_t least = UINT64_MAX;
    for (std::size_t filter = 0; filter < lines_.size(); ++filter) {
      const std::uint64_t sum = size_of(lines_[filter]);
      if (sum < least) {
        least = sum;
        best = filter;
      }
    }
    take(best, out);
  }

 private:
  void take(std::size_t filter, std::vector<unsigned char>& out) const {
    out.push_back(static_cast<unsigned char>(filter));
    out.insert(out.end(), lines_[filter].begin(), lines_[filter].end());
  }
  static std::uint64_t size_of(std::span<const unsigned char> line) {
    std::uint64_t sum = 0;
    while (!line.empty()) {  // in parts whose sum fits 16 bits, which fit in a vector
      const auto part = line.first(std::min<std::size_t>(line.size(), 256));
      std::uint16_t some = 0;
      for (const unsigned char byte : part) {
        some = static_cast<std::uint16_t>(some + (byte < 128 ? byte : 256 - byte));
      }
      sum += some;
      line = line.subspan(part.size());
    }
    return sum;
  }

  std::size_t step_;
  bool filters_;
  // Each with a pixel of zeros before it.
  std::vector<unsigned char> above_;
  std::vector<unsigned char> row_;
  std::array<std::vector<unsigned char>, 5> lines_ = {};
};

}  // namespace detail

/// The picture as a PNG file of 8 bits, colour or colour with alpha.
/// Throws Error for an empty picture or one that does not fit a PNG of 2 GB unpacked.
template <Rows R>
  requires(RasterOf<std::remove_cvref_t<R>, Srgb8> || RasterOf<std::remove_cvref_t<R>, Srgba8>)
std::string write_png(const R& raster) {
  using P = PixelOf<R>;
  constexpr std::size_t channels = AlphaPixel<P> ? 4 : 3;
  if (raster.width() < 1 || raster.height() < 1) {
    throw Error::bad_input("write PNG", "the picture has no pixels", "give a picture of at least 1 x 1");
  }
  const auto row_bytes = static_cast<std::size_t>(raster.width()) * channels;
  const auto rows = static_cast<std::size_t>(raster.height());
  if (row_bytes + 1 > INT32_MAX / rows) {
    throw Error::bad_input("write PNG", detail::size_text(raster.width(), raster.height()) + " pixels are too many",
                           "make the picture smaller");
  }
  const auto pack = [&](bool filters) {
    std::vector<unsigned char> filtered;
    filtered.reserve((row_bytes + 1) * rows);
    detail::PngFilter filter(row_bytes, channels, filters);
    for (int y = 0; y < raster.height(); ++y) {
      const auto& from = raster.row(y);
      unsigned char* to = filter.next();
      for (std::size_t x = 0; x < static_cast<std::size_t>(raster.width()); ++x, to += channels) {
        const P pixel = from[x];
        const Srgb8& colour = colour_of(pixel);
        to[0] = colour.r;
        to[1] = colour.g;
        to[2] = colour.b;
        if constexpr (AlphaPixel<P>) to[3] = pixel.alpha;
      }
      filter.put(filtered);
    }
    return detail::zlib_pack(filtered);
  };
  auto packed = pack(true);
  if (detail::has_few_colours(raster)) {
    auto plain = pack(false);
    if (plain.size() < packed.size()) packed = std::move(plain);
  }
  std::string header;
  detail::put_big32(header, static_cast<std::uint32_t>(raster.width()));
  detail::put_big32(header, static_cast<std::uint32_t>(raster.height()));
  header += '\x08';
  header += AlphaPixel<P> ? '\x06' : '\x02';
  header += std::string(3, '\0');
  std::string png = "\x89PNG\r\n\x1a\n";
  detail::put_png_chunk(png, "IHDR", header);
  detail::put_png_chunk(png, "sRGB", std::string(1, '\0'));
  detail::put_png_chunk(png, "IDAT", packed);
  detail::put_png_chunk(png, "IEND", "");
  return png;
}

}  // namespace handlaid
