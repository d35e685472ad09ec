// JPEG: orientation against two sets of files made elsewhere, pixels against libjpeg's, damage of all kinds.
#include "handlaid/image/jpeg.hpp"

#include "handlaid/image/read.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

struct Difference {
  double mean = 0;
  int most = 0;
};
/// Over all channels, in codes; `skip` leaves pixels out.
template <class Skip>
Difference difference(const Raster<Srgb8>& a, const Raster<Srgb8>& b, const Skip& skip) {
  REQUIRE(a.width() == b.width());
  REQUIRE(a.height() == b.height());
  Difference result;
  int count = 0;
  for (int y = 0; y < a.height(); ++y) {
    for (int x = 0; x < a.width(); ++x) {
      if (skip(x, y)) continue;
      const Srgb8 p = a(x, y);
      const Srgb8 q = b(x, y);
      for (const int d : {p.r - q.r, p.g - q.g, p.b - q.b}) {
        result.mean += std::abs(d);
        result.most = std::max(result.most, std::abs(d));
        ++count;
      }
    }
  }
  result.mean /= count;
  return result;
}
Difference difference(const Raster<Srgb8>& a, const Raster<Srgb8>& b) {
  return difference(a, b, [](int, int) { return false; });
}

const std::vector<std::string> kinds = {"444", "422", "420", "440"};

/// Where the segment with this marker starts (at its ff).
std::size_t segment_at(const Bytes& jpeg, unsigned char marker) {
  std::size_t at = 2;
  while (at + 4 <= jpeg.size() && jpeg[at + 1] != marker) at += 2 + detail::big16(jpeg, at + 2);
  REQUIRE(at + 4 <= jpeg.size());
  return at;
}

}  // namespace

// exif/: made with Pillow, big-endian; Pillow's own exif_transpose gives a mean below 2 codes from upright.png.
TEST_CASE("eight orientations come out upright") {
  const auto upright = read<Srgb8>(data_path("exif/upright.png"));
  for (int orientation = 1; orientation <= 8; ++orientation) {
    INFO(orientation);
    const std::string name = "exif/orientation_" + std::to_string(orientation) + ".jpg";
    const auto picture = read<Srgb8>(data_path(name));
    CHECK(difference(picture, upright).mean < 2);
    const PictureInfo info = picture_info(load(name));
    CHECK(info == PictureInfo{PictureFormat::jpeg, upright.width(), upright.height(), false, 8, orientation});
  }
}

// exif_independent/: exif-orientation-examples (MIT, Dave Perrett; photo by John Salvino). A digit is drawn in rows 66
// to 80, columns 44 to 56; outside it every one is within 16 codes of upright.png, any wrong orientation is 38 off at
// least.
TEST_CASE("eight orientations of an independent set come out upright, in both byte orders") {
  const auto upright = read<Srgb8>(data_path("exif_independent/upright.png"));
  const auto digit = [](int x, int y) { return y >= 66 && y <= 80 && x >= 44 && x <= 56; };
  for (int orientation = 1; orientation <= 8; ++orientation) {
    INFO(orientation);
    const auto picture = read<Srgb8>(data_path("exif_independent/portrait_" + std::to_string(orientation) + ".jpg"));
    const Difference off = difference(picture, upright, digit);
    CHECK(off.mean < 4);
    CHECK(off.most < 32);
  }
}

// The same coefficients stored in two ways are the same picture.
TEST_CASE("a progressive JPEG is the picture that the baseline one is, and both are what libjpeg decodes") {
  for (const std::string& kind : kinds) {
    INFO(kind);
    const auto baseline = read<Srgb8>(data_path("pictures/jpeg_" + kind + ".jpg"));
    const auto progressive = read<Srgb8>(data_path("pictures/progressive_" + kind + ".jpg"));
    CHECK(baseline == progressive);
    // Decoders differ in how they enlarge colour and round the cosine transform.
    const Difference off = difference(baseline, read<Srgb8>(data_path("pictures/jpeg_" + kind + ".ppm")));
    CHECK(off.mean < 1);
    CHECK(off.most < 16);
  }
  const auto grey = read<Srgb8>(data_path("pictures/jpeg_grey.jpg"));
  CHECK(difference(grey, read<Srgb8>(data_path("pictures/jpeg_grey.pgm"))).most <= 1);
}

TEST_CASE("all pixel types give the same JPEG") {
  const std::string path = data_path("exif/orientation_6.jpg");
  const auto plain = read<Srgb8>(path);
  const auto alpha = read<Srgba8>(path);
  const auto deep = read<Srgb16>(path);
  const auto both = read<Srgba16>(path);
  for (std::size_t i = 0; i < plain.size(); ++i) {
    const Srgb8 p = plain.pixels()[i];
    const auto wide = [](std::uint8_t v) { return static_cast<std::uint16_t>(v * 257); };
    const Srgb16 q = {wide(p.r), wide(p.g), wide(p.b)};
    REQUIRE(alpha.pixels()[i] == Srgba8{p, 255});
    REQUIRE(deep.pixels()[i] == q);
    REQUIRE(both.pixels()[i] == Srgba16{q, 65535});
  }
  CHECK(read<Srgba8>(path, {.ground = Srgb8{}}) == alpha);
}

TEST_CASE("a JPEG cut short anywhere is refused") {
  for (const std::string file : {"exif/orientation_5.jpg", "pictures/jpeg_420.jpg", "pictures/progressive_444.jpg"}) {
    INFO(file);
    const Bytes whole = load(file);
    for (std::size_t length = 0; length < whole.size(); ++length) {
      INFO(length);
      CHECK_THROWS_AS(read_memory(std::span(whole).first(length)), Error);
    }
    // What cameras leave behind the end is no harm.
    Bytes longer = whole;
    longer.insert(longer.end(), {0, 1, 2, 3});
    CHECK(read_memory(longer) == read_memory(whole));
  }
}

TEST_CASE("a damaged JPEG is refused or decoded, the same each time") {
  for (const std::string file : {"pictures/jpeg_420.jpg", "pictures/progressive_444.jpg", "pictures/jpeg_grey.jpg"}) {
    INFO(file);
    const Bytes whole = load(file);
    int refused = 0;
    int decoded = 0;
    for (std::size_t at = 0; at < whole.size(); ++at) {
      for (const int to : {0x00, 0xff, 0x80, whole[at] ^ 0x01, whole[at] ^ 0x10}) {
        Bytes changed = whole;
        changed[at] = static_cast<unsigned char>(to);
        try {
          const auto once = read_memory(changed, {.max_pixels = 1'000'000});
          // Fill what was freed with something else, so that memory that was never set would show.
          Bytes dirt(once.size() * 8, 0xa5);
          CHECK(dirt.size() > 0);
          if (!(once == read_memory(changed, {.max_pixels = 1'000'000}))) FAIL("differs at " << at);
          ++decoded;
        } catch (const Error& error) {
          if (std::string(error.what()).find('\n') != std::string::npos) FAIL(error.what());
          ++refused;
        }
      }
    }
    CHECK(refused > 100);
    CHECK(decoded > 100);
  }
}

TEST_CASE("kinds of JPEG that are not read are named") {
  CHECK_THROWS_WITH(read(data_path("pictures/cmyk.jpg")),
                    contains("cmyk.jpg") && contains("CMYK") && contains("RGB JPEG"));
  const Bytes baseline = load("pictures/jpeg_444.jpg");
  const std::size_t frame = segment_at(baseline, 0xc0);
  const auto with_marker = [&](unsigned char marker) {
    Bytes changed = baseline;
    changed[frame + 1] = marker;
    return changed;
  };
  CHECK_THROWS_WITH(read_memory(with_marker(0xc3)), contains("lossless"));
  CHECK_THROWS_WITH(read_memory(with_marker(0xc9)), contains("arithmetic"));
  CHECK_THROWS_WITH(read_memory(with_marker(0xca)), contains("arithmetic"));
  CHECK_THROWS_WITH(read_memory(with_marker(0xc5)), contains("hierarchical"));
  CHECK_THROWS_WITH(picture_info(with_marker(0xc3)), contains("lossless"));
  Bytes deep = baseline;
  deep[frame + 4] = 12;
  CHECK_THROWS_WITH(read_memory(deep), contains("12 bits"));
}

TEST_CASE("a JPEG that ends before all channels, or has a broken table, is refused") {
  const Bytes whole = load("pictures/progressive_444.jpg");
  // The end marker comes before the first scan.
  Bytes none(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(segment_at(whole, 0xda)));
  none.insert(none.end(), {0xff, 0xd9});
  CHECK_THROWS_WITH(read_memory(none), contains("ends before all of its picture"));
  Bytes table = load("pictures/jpeg_444.jpg");
  const std::size_t at = segment_at(table, 0xc4);
  for (std::size_t i = 0; i < 16; ++i) table[at + 5 + i] = 255;
  CHECK_THROWS_WITH(read_memory(table), contains("broken table"));
}

TEST_CASE("limits hold for a JPEG by its header") {
  const Bytes whole = load("exif/orientation_6.jpg");
  CHECK_THROWS_WITH(read_memory(whole, {.max_pixels = 24575}, "cat"), contains("cat: ") && contains("limit of 24575"));
  CHECK_NOTHROW(read_memory(whole, {.max_pixels = 24576}));
  Bytes huge = load("pictures/jpeg_444.jpg");
  const std::size_t frame = segment_at(huge, 0xc0);
  for (std::size_t i = 5; i < 9; ++i) huge[frame + i] = 0xff;
  CHECK_THROWS_WITH(read_memory(huge), contains("65535 x 65535"));
}

TEST_CASE("EXIF that makes no sense leaves the picture as it is") {
  CHECK(detail::exif_orientation({}) == 1);
  Bytes exif = {'I', 'I', 42, 0, 8, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0};
  CHECK(detail::exif_orientation(exif) == 6);
  for (std::size_t length = 0; length < exif.size(); ++length) {
    CHECK(detail::exif_orientation(std::span<const unsigned char>(exif).first(length)) == 1);
  }
  for (const unsigned char wrong : Bytes{0, 9, 255}) {
    exif[18] = wrong;
    CHECK(detail::exif_orientation(exif) == 1);
  }
  exif[18] = 6;
  exif[4] = exif[5] = exif[6] = exif[7] = 0xff;  // a directory beyond the end
  CHECK(detail::exif_orientation(exif) == 1);
}
