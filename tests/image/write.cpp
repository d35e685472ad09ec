// PNG written by us: libpng decodes it to the same pixels, and our own reader too, check sums included.
#include <png.h>

#include "handlaid/core/fingerprint.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/image/write.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

template <class P>
Raster<P> libpng_decode(const std::string& png) {
  png_image image = {};
  image.version = PNG_IMAGE_VERSION;
  REQUIRE(png_image_begin_read_from_memory(&image, png.data(), png.size()) != 0);
  image.format = AlphaPixel<P> ? PNG_FORMAT_RGBA : PNG_FORMAT_RGB;
  Raster<P> raster(static_cast<int>(image.width), static_cast<int>(image.height));
  REQUIRE(png_image_finish_read(&image, nullptr, raster.pixels().data(), 0, nullptr) != 0);
  CHECK(image.warning_or_error == 0);
  return raster;
}

template <class P>
void check_round_trip(const Raster<P>& picture) {
  const std::string png = write_png(picture);
  CHECK(libpng_decode<P>(png) == picture);
  const Bytes bytes = bytes_of(png);
  CHECK(read_memory<P>(bytes) == picture);
  CHECK(write_png(picture) == png);
}

/// Bands, gradients and noise, so that all filters and both kinds of token occur.
Raster<Srgb8> mixed(int width, int height) {
  Raster<Srgb8> picture(width, height);
  Random random(5);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto r = static_cast<std::uint8_t>(x + y);
      picture(x, y) = y % 40 < 10   ? Srgb8{r, static_cast<std::uint8_t>(x / 2), static_cast<std::uint8_t>(y)}
                      : y % 40 < 20 ? Srgb8{static_cast<std::uint8_t>(x / 16 * 16), 7, 200}
                      : y % 40 < 30 ? Srgb8{static_cast<std::uint8_t>(random.next()), 1, 2}
                                    : Srgb8{};
    }
  }
  return picture;
}

}  // namespace

TEST_CASE("what is written is what libpng reads") {
  for (const auto& [width, height] : {std::pair(1, 1), std::pair(1, 300), std::pair(300, 1), std::pair(2, 2),
                                      std::pair(33, 17), std::pair(640, 400)}) {
    INFO(width << " x " << height);
    check_round_trip(mixed(width, height));
    check_round_trip(opaque_noise(width, height));
    check_round_trip(noise(width, height));
    check_round_trip(Raster<Srgb8>(width, height));
  }
  check_round_trip(read<Srgb8>(data_path("exif/upright.png")));
}

TEST_CASE("views and other pictures are written without a copy of theirs") {
  const auto picture = mixed(60, 50);
  const Crop crop{.x = 7, .y = 3, .width = 40, .height = 30};
  CHECK(write_png(picture.view() | crop) == write_png(picture | crop));
  CHECK(write_png(embedder::Frame(picture)) == write_png(picture));
}

TEST_CASE("the bytes never change from build to build") {
  CHECK(fingerprint(write_png(mixed(200, 100))) == 0xa3179464e8f50cedULL);
  CHECK(fingerprint(write_png(noise(50, 50))) == 0xb2aac3e7df4dc401ULL);
}

TEST_CASE("a drawing of few colours takes fewer bytes than libpng's filters make of it") {
  Raster<Srgb8> drawing(400, 300);
  Random random(9);
  for (Srgb8& dot : drawing.pixels()) {
    const auto code = static_cast<std::uint8_t>(random.below(8) * 30);
    dot = {code, static_cast<std::uint8_t>(250 - code), 80};
  }
  check_round_trip(drawing);
  png_image image = {};
  image.version = PNG_IMAGE_VERSION;
  image.width = 400;
  image.height = 300;
  image.format = PNG_FORMAT_RGB;
  png_alloc_size_t size = 0;
  REQUIRE(png_image_write_get_memory_size(image, size, 0, drawing.pixels().data(), 0, nullptr) != 0);
  CHECK(write_png(drawing).size() < size);
}

// RFC 1950 and 1951: every length of data, with few and with many kinds of byte.
TEST_CASE("packed bytes unpack again") {
  Random random(3);
  for (std::size_t size = 0; size < 2000; size = size * 5 / 4 + 1) {
    for (const std::uint64_t kinds : std::vector<std::uint64_t>{1, 2, 3, 17, 256}) {
      Bytes bytes(size);
      for (unsigned char& byte : bytes) byte = static_cast<unsigned char>(random.below(kinds));
      const std::string packed = detail::zlib_pack(bytes);
      Bytes out(size + 1, 0);
      const int got = detail::stb::handlaid_stbi_zlib_decode_buffer(reinterpret_cast<char*>(out.data()),
                                                                    static_cast<int>(out.size()), packed.data(),
                                                                    static_cast<int>(packed.size()));
      REQUIRE(got == static_cast<int>(size));
      out.pop_back();
      CHECK(out == bytes);
    }
  }
}

// Counts like Fibonacci numbers make the deepest of all trees.
TEST_CASE("a Huffman code keeps its limit and stays complete") {
  for (const unsigned limit : {7U, 15U}) {
    std::vector<std::uint32_t> counts = {1, 1};
    while (counts.size() < (limit == 7 ? 19U : 40U))
      counts.push_back(counts[counts.size() - 1] + counts[counts.size() - 2]);
    const auto lengths = detail::huffman_lengths(counts, limit);
    double used = 0;
    for (std::size_t i = 0; i < lengths.size(); ++i) {
      CHECK(lengths[i] >= 1);
      CHECK(lengths[i] <= limit);
      if (i > 0) CHECK(lengths[i] <= lengths[i - 1]);
      used += std::ldexp(1.0, -static_cast<int>(lengths[i]));
    }
    CHECK(used == 1.0);
  }
  // Without a limit in the way the code is the best one. Counts 5 9 12 13 16 45 take 224 bits (Cormen, Leiserson,
  // Rivest, Stein, "Introduction to Algorithms", the example of Huffman codes).
  const std::vector<std::uint32_t> counts = {45, 13, 12, 16, 9, 5};
  const auto lengths = detail::huffman_lengths(counts, 15);
  std::uint32_t bits = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) bits += counts[i] * lengths[i];
  CHECK(bits == 224);
}

// "123456789" gives cbf43926, the check value of this CRC in the catalogues; "Wikipedia" gives Adler-32 11e60398.
TEST_CASE("check sums have their known values") {
  CHECK(detail::crc32(bytes_of("123456789")) == 0xcbf43926U);
  CHECK(detail::adler32(bytes_of("Wikipedia")) == 0x11e60398U);
  CHECK(detail::adler32({}) == 1);
}

TEST_CASE("an empty picture is not written") { CHECK_THROWS_WITH(write_png(Raster<Srgb8>()), contains("no pixels")); }
