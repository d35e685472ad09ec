#include "handlaid/sheets/crop_ruler.hpp"

#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

bool drawn(const Raster<Srgb8>& picture, int number, int x, int y) {
  Raster<Srgb8> wanted(digits_width(number, 2), digits_height(2));
  draw_digits(wanted, number, 0, 0, 2, {1, 1, 1});
  for (int v = 0; v < wanted.height(); ++v) {
    for (int u = 0; u < wanted.width(); ++u) {
      const bool ink = picture(x + u, y + v) == look::ink;
      if (ink != (wanted(u, v) == Srgb8{1, 1, 1})) return false;
    }
  }
  return true;
}

/// Whether the number stands anywhere in a band of the picture.
bool stands(const Raster<Srgb8>& picture, int number, int left, int top, int right, int bottom) {
  for (int y = top; y + digits_height(2) <= bottom; ++y) {
    for (int x = left; x + digits_width(number, 2) <= right; ++x) {
      if (drawn(picture, number, x, y)) return true;
    }
  }
  return false;
}

}  // namespace

TEST_CASE("digits are told apart") {
  for (int a = 0; a < 10; ++a) {
    for (int b = 0; b < a; ++b)
      CHECK(digit_dots[static_cast<std::size_t>(a)] != digit_dots[static_cast<std::size_t>(b)]);
  }
  CHECK(digits_width(7, 2) == 10);
  CHECK(digits_width(1000, 1) == 23);
  Raster<Srgb8> small(3, 3);
  draw_digits(small, 8, -2, -3, 1, {255, 255, 255});  // what is outside is left out
  CHECK(small(0, 0) == Srgb8{255, 255, 255});
}

TEST_CASE("the ruler counts pixels of the picture as it was read") {
  const Raster<Srgb8> thumbnail(800, 600);
  const Raster<Srgb8> sheet = CropRuler{4000, 3000, {1000, 600, 3000, 2400}}(thumbnail);
  const int left = (sheet.width() - 800) / 2;
  const int top = (sheet.height() - 600) / 2;
  for (const int number : {0, 1000, 4000}) {
    const int at = left + number / 5;  // 4000 pixels in 800
    const int first = at - digits_width(number, 2) / 2;
    CHECK(stands(sheet, number, first, 0, first + digits_width(number, 2), top));
    CHECK(stands(sheet, number, first, top + 600, first + digits_width(number, 2), sheet.height()));
  }
  for (const int number : {0, 500, 3000}) {
    const int first = top + number / 5 - digits_height(2) / 2;
    CHECK(stands(sheet, number, 0, first, left, first + digits_height(2)));
    CHECK(stands(sheet, number, left + 800, first, sheet.width(), first + digits_height(2)));
  }
}

TEST_CASE("the part in use is outlined, the rest is paler") {
  Raster<Srgb8> thumbnail(800, 600);
  for (Srgb8& pixel : thumbnail.pixels()) pixel = {20, 90, 40};
  const Raster<Srgb8> sheet = CropRuler{4000, 3000, {1000, 600, 3000, 2400}}(thumbnail);
  const int left = (sheet.width() - 800) / 2;
  const int top = (sheet.height() - 600) / 2;
  CHECK(sheet(left + 200, top + 120) == Srgb8{20, 90, 40});
  CHECK(sheet(left + 599, top + 479) == Srgb8{20, 90, 40});
  CHECK(sheet(left + 199, top + 300) == look::accent);
  CHECK(sheet(left + 600, top + 300) == look::accent);
  CHECK(sheet(left + 400, top + 119) == look::accent);
  CHECK(sheet(left + 400, top + 480) == look::accent);
  CHECK(sheet(left + 100, top + 300).g > 150);
}

TEST_CASE("a small picture is drawn large enough to count its pixels") {
  const Raster<Srgb8> sheet = CropRuler{20, 30, {0, 0, 20, 30}}(Raster<Srgb8>(20, 30));
  CHECK(sheet.height() > 600);
  CHECK(stands(sheet, 15, 0, 0, 76, sheet.height()));
  CHECK_FALSE(CropRuler{1, 1, {0, 0, 1, 1}}(Raster<Srgb8>(1, 1)).empty());
  CHECK_FALSE(CropRuler{1, 10000, {0, 0, 1, 10000}}(Raster<Srgb8>(1, 1000)).empty());
}

TEST_CASE("no picture and a crop outside it") {
  CHECK_THROWS_WITH((CropRuler{10, 10, {}}(Raster<Srgb8>{})), contains("there is no picture"));
  CHECK_THROWS_WITH((CropRuler{0, 10, {}}(Raster<Srgb8>(1, 1))), contains("there is no picture"));
  CHECK_FALSE(CropRuler{10, 10, {-5, -5, 50, 50}}(Raster<Srgb8>(10, 10)).empty());
  CHECK_FALSE(CropRuler{10, 10, {10, 10, 10, 10}}(Raster<Srgb8>(10, 10)).empty());
}
