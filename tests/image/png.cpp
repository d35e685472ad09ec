// PNG against libpng, and against sums that a strict decoder made (tests/data/pngsuite_check.csv); damage of all kinds.
#include <png.h>

#include "handlaid/image/read.hpp"
#include "support/catch.hpp"
#include "support/md5.hpp"
#include "support/pictures.hpp"
#include "support/png_parts.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// What libpng decodes, as 16-bit RGBA, transparency applied at full depth, no gamma.
Raster<Srgba16> libpng_decode(const std::string& path) {
  std::FILE* file = std::fopen(path.c_str(), "rb");
  png_structp png = png_create_read_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  if (setjmp(png_jmpbuf(png)) != 0) {
    png_destroy_read_struct(&png, &info, nullptr);
    std::fclose(file);
    throw std::runtime_error("libpng refuses " + path);
  }
  png_init_io(png, file);
  png_read_info(png, info);
  png_set_expand_16(png);
  png_set_gray_to_rgb(png);
  png_set_add_alpha(png, 0xffff, PNG_FILLER_AFTER);
  png_set_interlace_handling(png);
  png_read_update_info(png, info);
  const auto width = static_cast<int>(png_get_image_width(png, info));
  const auto height = static_cast<int>(png_get_image_height(png, info));
  Raster<Srgba16> raster(width, height);
  std::vector<Bytes> lines(static_cast<std::size_t>(height), Bytes(png_get_rowbytes(png, info)));
  std::vector<png_bytep> pointers;
  for (Bytes& line : lines) pointers.push_back(line.data());
  png_read_image(png, pointers.data());
  png_read_end(png, nullptr);
  png_destroy_read_struct(&png, &info, nullptr);
  std::fclose(file);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto sample = [&](int c) {
        const Bytes& line = lines[static_cast<std::size_t>(y)];
        const auto at = static_cast<std::size_t>((4 * x + c) * 2);
        return static_cast<std::uint16_t>(line[at] * 256 + line[at + 1]);
      };
      raster(x, y) = {{sample(0), sample(1), sample(2)}, sample(3)};
    }
  }
  return raster;
}

}  // namespace

TEST_CASE("every valid file of PngSuite is what libpng decodes, and what the recorded sums say") {
  const Table table("pngsuite_check.csv");
  int valid = 0;
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (table.text(i, "valid") != "yes") continue;
    const std::string file = table.text(i, "file");
    INFO(file);
    const std::string path = data_path("pngsuite/" + file);
    CHECK(read<Srgba16>(path, {.use_profile = false}) == libpng_decode(path));
    const auto eight = read<Srgba8>(path, {.use_profile = false});
    CHECK(md5({reinterpret_cast<const unsigned char*>(eight.pixels().data()), eight.size() * 4}) ==
          table.text(i, "md5_rgba8_rounded"));
    const PictureInfo info = picture_info(load("pngsuite/" + file));
    CHECK(info.format == PictureFormat::png);
    CHECK(info.width == table.whole(i, "width"));
    CHECK(info.height == table.whole(i, "height"));
    CHECK(info.bits == table.whole(i, "bit_depth"));
    const bool alpha = table.whole(i, "colour_type") >= 4;
    if (alpha) CHECK(info.has_alpha);
    ++valid;
  }
  CHECK(valid == 161);
}

TEST_CASE("every corrupt file of PngSuite is refused in one line") {
  const Table table("pngsuite_check.csv");
  int corrupt = 0;
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (table.text(i, "valid") == "yes") continue;
    const std::string file = table.text(i, "file");
    INFO(file);
    CHECK_THROWS_WITH(read(data_path("pngsuite/" + file)), contains(file) && contains("PNG"));
    ++corrupt;
  }
  CHECK(corrupt == 14);
}

TEST_CASE("types without alpha take opaque pictures and refuse transparent ones without a ground") {
  const auto opaque = read<Srgb8>(data_path("pngsuite/basn2c08.png"));
  CHECK(opaque.width() == 32);
  const std::string clear = data_path("pngsuite/tbbn2c16.png");
  CHECK_THROWS_WITH(read<Srgb8>(clear), contains("transparent pixels"));
  CHECK_THROWS_WITH(read<Srgb16>(clear), contains("transparent pixels"));
  const auto laid = read<Srgb8>(clear, {.ground = Srgb8{200, 30, 10}});
  const auto with_alpha = read<Srgba8>(clear);
  int transparent = 0;
  for (std::size_t i = 0; i < laid.size(); ++i) {
    const Srgba8 pixel = with_alpha.pixels()[i];
    REQUIRE((pixel.alpha == 0 || pixel.alpha == 255));
    CHECK(laid.pixels()[i] == (pixel.alpha == 0 ? Srgb8{200, 30, 10} : pixel.colour));
    transparent += pixel.alpha == 0 ? 1 : 0;
  }
  CHECK(transparent > 100);
  // An alpha channel that is opaque throughout is no hindrance: type 6 with all alpha at its largest.
  auto chunks = chunks_of(load("pngsuite/basn2c08.png"));
  CHECK(read_memory<Srgb8>(png_of(chunks)) == opaque);
}

TEST_CASE("a PNG cut short anywhere is refused") {
  for (const char* file : {"basn0g01.png", "basn6a16.png", "tp1n3p08.png", "oi9n2c16.png", "basi3p04.png"}) {
    INFO(file);
    const Bytes whole = load(std::string("pngsuite/") + file);
    for (std::size_t length = 0; length < whole.size(); ++length) {
      INFO(length);
      CHECK_THROWS_AS(read_memory(std::span(whole).first(length)), Error);
    }
    CHECK_NOTHROW(read_memory(whole));
  }
}

TEST_CASE("a PNG with any byte changed is refused") {
  for (const char* file : {"basn0g01.png", "tp1n3p08.png", "basi6a08.png"}) {
    INFO(file);
    const Bytes whole = load(std::string("pngsuite/") + file);
    for (std::size_t at = 0; at < whole.size(); ++at) {
      INFO(at);
      Bytes changed = whole;
      changed[at] = static_cast<unsigned char>(changed[at] ^ (1U << at % 8));
      CHECK_THROWS_AS(read_memory(changed), Error);
    }
  }
}

TEST_CASE("a PNG whose pixels are damaged under a right chunk sum is refused by the sum of its pixels") {
  auto chunks = chunks_of(load("pngsuite/basn2c08.png"));
  for (Chunk& chunk : chunks) {
    if (chunk.type != "IDAT") continue;
    chunk.body.back() = static_cast<unsigned char>(chunk.body.back() ^ 1U);
    CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("the check sum of its pixels is wrong"));
    chunk.body.back() = static_cast<unsigned char>(chunk.body.back() ^ 1U);
    const auto right = read_memory(png_of(chunks));
    int refused = 0;
    for (std::size_t at = 0; at < chunk.body.size(); ++at) {
      const Chunk kept = chunk;
      chunk.body[at] = static_cast<unsigned char>(chunk.body[at] ^ (1U << at % 8));
      try {  // the bits that fill the last byte of the pixels mean nothing
        const auto picture = read_memory(png_of(chunks));
        CHECK(picture == right);
      } catch (const Error&) {
        ++refused;
      }
      chunk = kept;
    }
    CHECK(refused >= static_cast<int>(chunk.body.size()) - 1);
    // Junk after the sum is let through.
    chunk.body.push_back(0);
    CHECK(read_memory(png_of(chunks)) == read(data_path("pngsuite/basn2c08.png")));
  }
}

TEST_CASE("an index without a colour, a wrong order, an unknown extension are refused") {
  auto chunks = chunks_of(load("pngsuite/basn3p08.png"));
  SECTION("short palette") {
    for (Chunk& chunk : chunks) {
      if (chunk.type == "PLTE") chunk.body.resize(3 * 10);
    }
    CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("not in its palette"));
  }
  SECTION("no palette") {
    std::erase_if(chunks, [](const Chunk& chunk) { return chunk.type == "PLTE"; });
    CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("IDAT"));
  }
  SECTION("transparency for more colours than there are") {
    chunks.insert(chunks.end() - 2, Chunk{"tRNS", Bytes(257, 0)});
    CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("tRNS"));
  }
  SECTION("unknown extension") {
    chunks.insert(chunks.begin() + 1, Chunk{"FuLL", {}});
    CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("(FuLL)") && contains("ordinary PNG"));
    chunks[1].type = "maYb";
    CHECK_NOTHROW(read_memory(png_of(chunks)));
  }
  SECTION("no header first") {
    std::swap(chunks[0], chunks[1]);
    CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("does not start with one header"));
  }
}

TEST_CASE("EXIF in a PNG turns the picture") {
  auto chunks = chunks_of(load("pngsuite/basn2c08.png"));
  const auto plain = read_memory<Srgb8>(png_of(chunks));
  // TIFF 6.0: big-endian, one entry, tag 0x0112, SHORT, 1 value.
  for (unsigned char orientation = 1; orientation <= 8; ++orientation) {
    const Bytes exif = {'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0};
    for (const bool at_end : {false, true}) {
      auto with = chunks;
      with.insert(at_end ? with.end() - 1 : with.begin() + 1, Chunk{"eXIf", exif});
      CHECK(read_memory<Srgb8>(png_of(with)) == (plain | orient(orientation)));
      CHECK(picture_info(png_of(with)).orientation == orientation);
    }
  }
}

TEST_CASE("limits hold before memory is taken") {
  const Bytes png = load("pngsuite/basn2c08.png");
  CHECK_NOTHROW(read_memory(png, {.max_pixels = 1024}));
  CHECK_THROWS_WITH(read_memory(png, {.max_pixels = 1023}), contains("32 x 32") && contains("limit of 1023"));
  CHECK_THROWS_WITH(read_memory(png, {.max_bytes = 100}), contains("limit of 100 bytes"));
  CHECK_THROWS_WITH(read(data_path("pngsuite/basn2c08.png"), {.max_bytes = 100}), contains("limit of 100 bytes"));
  // A tiny file that claims to be enormous.
  auto chunks = chunks_of(png);
  set_big32(chunks[0].body, 0, 0x7fffffff);
  set_big32(chunks[0].body, 4, 0x7fffffff);
  CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("2147483647 x 2147483647"));
  set_big32(chunks[0].body, 0, 9999);
  set_big32(chunks[0].body, 4, 9999);
  CHECK_THROWS_WITH(read_memory(png_of(chunks)), contains("damaged or too few"));
  set_big32(chunks[0].body, 0, 0);
  CHECK_THROWS_AS(read_memory(png_of(chunks)), Error);
}
