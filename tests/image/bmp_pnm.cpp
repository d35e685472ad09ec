// BMP and PNM against files of ImageMagick and, for BMP, against a second decoder: a copy of stb_image of our own,
// which also shows that a user's copy in the same file does no harm.
#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_BMP
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image.h>
#pragma GCC diagnostic pop

#include "handlaid/image/read.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

std::string path_of(const std::string& name) { return data_path("pictures/" + name); }

void set_little32(Bytes& bytes, std::size_t at, std::uint32_t value) {
  for (unsigned i = 0; i < 4; ++i) bytes[at + i] = static_cast<unsigned char>(value >> 8 * i);
}

}  // namespace

TEST_CASE("BMP of 1 to 32 bits are what was stored") {
  const auto photo = read_pnm("pictures/photo.ppm");
  CHECK(read<Srgb8>(path_of("photo_24.bmp")) == photo);
  CHECK(read<Srgb8>(path_of("photo_os2.bmp")) == photo);
  CHECK(read<Srgb8>(path_of("indexed_8.bmp")) == read_pnm("pictures/indexed_8.ppm"));
  CHECK(read<Srgb8>(path_of("indexed_4.bmp")) == read_pnm("pictures/indexed_4.ppm"));
  CHECK(read<Srgb8>(path_of("indexed_1.bmp")) == read_pnm("pictures/mono.pgm"));
  CHECK(read<Srgba8>(path_of("alpha_32.bmp")) == read<Srgba8>(path_of("alpha.png")));
  CHECK(picture_info(load("pictures/alpha_32.bmp")) == PictureInfo{PictureFormat::bmp, 37, 23, true, 8, 1});
  CHECK(picture_info(load("pictures/indexed_4.bmp")).bits == 4);
}

TEST_CASE("BMP are what a second decoder makes of them") {
  for (const char* name : {"photo_24.bmp", "indexed_8.bmp", "indexed_4.bmp", "indexed_1.bmp", "alpha_32.bmp"}) {
    INFO(name);
    const Bytes bytes = load(std::string("pictures/") + name);
    int width = 0;
    int height = 0;
    int channels = 0;
    unsigned char* other =
        stbi_load_from_memory(bytes.data(), static_cast<int>(bytes.size()), &width, &height, &channels, 4);
    REQUIRE(other != nullptr);
    const auto theirs = Raster<Srgba8>::adopt(reinterpret_cast<Srgba8*>(other), width, height, &stbi_image_free);
    CHECK(read_memory(bytes) == theirs);
  }
}

// The masks of 5, 6 and 5 bits as in the definition; a full channel is 255.
TEST_CASE("a BMP of 16 bits has its channels brought to full range") {
  for (const bool masked : {false, true}) {
    Bytes bmp(54, 0);
    bmp[0] = 'B';
    bmp[1] = 'M';
    set_little32(bmp, 10, masked ? 66 : 54);
    set_little32(bmp, 14, 40);
    set_little32(bmp, 18, 3);
    set_little32(bmp, 22, 1);
    set_little32(bmp, 26, 1 | 16 << 16);
    if (masked) {
      set_little32(bmp, 30, 3);
      bmp.resize(66);
      set_little32(bmp, 54, 0xf800);
      set_little32(bmp, 58, 0x07e0);
      set_little32(bmp, 62, 0x001f);
    }
    bmp.insert(bmp.end(), {0xff, 0xff, 0x00, 0x00, 0x03, 0x40, 0x00, 0x00});
    const auto picture = read_memory<Srgb8>(bmp);
    CHECK(picture(0, 0) == Srgb8{255, 255, 255});
    CHECK(picture(1, 0) == Srgb8{0, 0, 0});
    // 0x4003: 5, 6, 5 bits are 8, 0, 3; without masks 5, 5, 5 are 16, 0, 3. 3 / 31 * 255 = 24.7, 8 gives 65.8, 16
    // 131.6.
    CHECK(picture(2, 0) == (masked ? Srgb8{66, 0, 25} : Srgb8{132, 0, 25}));
    CHECK(picture_info(bmp).bits == 5);
  }
}

TEST_CASE("a BMP may be stored top down, and lack the padding of its last row") {
  Bytes bmp = load("pictures/photo_24.bmp");
  const auto photo = read_memory<Srgb8>(bmp);
  set_little32(bmp, 22, static_cast<std::uint32_t>(-23));
  CHECK(read_memory<Srgb8>(bmp) == (photo | orient(4)));
  bmp.pop_back();  // 37 * 3 = 111 bytes and one of padding
  CHECK_NOTHROW(read_memory(bmp));
  bmp.pop_back();
  CHECK_THROWS_WITH(read_memory(bmp), contains("cut short"));
}

TEST_CASE("alpha that is nowhere set counts as none") {
  Bytes bmp = load("pictures/alpha_32.bmp");
  for (std::size_t at = 138 + 3; at < bmp.size(); at += 4) bmp[at] = 0;
  const auto picture = read_memory(bmp);
  for (const Srgba8 pixel : picture.pixels()) CHECK(pixel.alpha == 255);
}

TEST_CASE("BMP that are damaged or packed are refused by name") {
  CHECK_THROWS_WITH(read(path_of("packed.bmp")), contains("run-length") && contains("PNG or JPEG"));
  const Bytes whole = load("pictures/indexed_4.bmp");
  for (std::size_t length = 0; length < whole.size() - 1; ++length) {
    INFO(length);
    CHECK_THROWS_AS(read_memory(std::span(whole).first(length)), Error);
  }
  Bytes few = whole;
  set_little32(few, 46, 3);  // says that it has three colours
  CHECK_THROWS_WITH(read_memory(few), contains("not in its palette"));
  Bytes inside = whole;
  inside[30] = 4;
  CHECK_THROWS_WITH(read_memory(inside), contains("a JPEG inside"));
  Bytes tall = whole;
  set_little32(tall, 22, 0x80000000U);
  CHECK_THROWS_AS(read_memory(tall), Error);
  for (const std::string name : {"indexed_4.bmp", "alpha_32.bmp"}) {
    const Bytes good = load("pictures/" + name);
    for (std::size_t at = 0; at < 140; ++at) {
      for (const unsigned char to : Bytes{0, 1, 0x7f, 0x80, 0xff}) {
        Bytes changed = good;
        changed[at] = to;
        try {
          const auto once = read_memory(changed, {.max_pixels = 100'000});
          if (!(once == read_memory(changed, {.max_pixels = 100'000}))) FAIL(name << " differs at " << at);
        } catch (const Error& error) {
          if (std::string(error.what()).find('\n') != std::string::npos) FAIL(error.what());
        }
      }
    }
  }
}

TEST_CASE("PNM as text and as bytes are the same picture") {
  const auto photo = read_pnm("pictures/photo.ppm");
  CHECK(read<Srgb8>(path_of("photo.ppm")) == photo);
  CHECK(read<Srgb8>(path_of("photo_plain.ppm")) == photo);
  CHECK(read<Srgb8>(path_of("grey.pgm")) == read_pnm("pictures/grey.pgm"));
  CHECK(read<Srgb8>(path_of("grey_plain.pgm")) == read_pnm("pictures/grey.pgm"));
  CHECK(read<Srgb8>(path_of("mono.pbm")) == read_pnm("pictures/mono.pgm"));
  CHECK(read<Srgb8>(path_of("mono_plain.pbm")) == read_pnm("pictures/mono.pgm"));
  // 16 bits at full depth: stored by the same program as PNG, which libpng vouches for elsewhere.
  CHECK(read<Srgb16>(path_of("photo_16.ppm")) == read<Srgb16>(path_of("photo_16.png")));
  CHECK(read<Srgb8>(path_of("photo_16.ppm")) == read<Srgb8>(path_of("photo_16.png")));
  CHECK(picture_info(load("pictures/photo_16.ppm")) == PictureInfo{PictureFormat::pnm, 37, 23, false, 16, 1});
  CHECK(picture_info(load("pictures/mono.pbm")).bits == 1);
}

// By hand, after the definition of the format.
TEST_CASE("PNM with comments, any largest value, and samples that do not fill it") {
  const auto grey = read_memory<Srgb8>(bytes_of("P2 # grey\n# more\n3 1 4\n0 1\n4"));
  CHECK(grey(0, 0) == Srgb8{0, 0, 0});
  CHECK(grey(1, 0) == Srgb8{64, 64, 64});  // 255 / 4 = 63.75
  CHECK(grey(2, 0) == Srgb8{255, 255, 255});
  const auto bits = read_memory<Srgb8>(bytes_of("P1\n3 2\n101\n0 1 0"));
  CHECK(bits(0, 0).r == 0);
  CHECK(bits(1, 0).r == 255);
  CHECK(bits(1, 1).r == 0);
  Bytes deep = bytes_of("P5 1 1 1000 ");
  deep.insert(deep.end(), {0x01, 0xf4});              // 500
  CHECK(read_memory<Srgb16>(deep)(0, 0).r == 32768);  // 32767.5 rounds up
  CHECK(read_memory<Srgb8>(bytes_of("P6 1 1 255\nabc"))(0, 0) == Srgb8{'a', 'b', 'c'});
}

TEST_CASE("PNM that are cut short or make no sense are refused") {
  for (const std::string name : {"photo.ppm", "photo_16.ppm", "mono.pbm", "grey.pgm"}) {
    const Bytes whole = load("pictures/" + name);
    for (std::size_t length = 0; length < whole.size(); ++length) {
      INFO(name << " " << length);
      CHECK_THROWS_AS(read_memory(std::span(whole).first(length)), Error);
    }
  }
  CHECK_THROWS_WITH(read_memory(bytes_of("P2 2 2 255 1 2 3 ")), contains("cut short"));
  CHECK_THROWS_WITH(read_memory(bytes_of("P2 2 1 9 1 10")), contains("above its largest"));
  CHECK_THROWS_WITH(read_memory(bytes_of("P2 2 1 70000 1 10")), contains("largest value"));
  CHECK_THROWS_WITH(read_memory(bytes_of("P2 0 1 255 ")), contains("size is 0 x 1"));
  CHECK_THROWS_WITH(read_memory(bytes_of("P5 -3 1 255 ")), contains("not a number"));
  CHECK_THROWS_WITH(read_memory(bytes_of("P1 2 1 12")), contains("not 0 or 1"));
  CHECK_THROWS_WITH(read_memory(bytes_of("P5 99999 99999 255 x")), contains("limit of 100000000"));
  CHECK_THROWS_WITH(read_memory(bytes_of("P5 99999999999 1 255 x")), contains("not a number"));
}
