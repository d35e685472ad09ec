// Orientation against the definition of the tag: EXIF 2.32, 0x0112, by which side the stored row 0 and column 0 lie on.
#include "handlaid/image/orient.hpp"

#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// The upright picture of what was stored: "the 0th row is the visual ... , the 0th column the visual ...".
template <class P>
Raster<P> by_definition(const Raster<P>& stored, int orientation) {
  const bool swapped = orientation >= 5;
  Raster<P> upright(swapped ? stored.height() : stored.width(), swapped ? stored.width() : stored.height());
  const int right = upright.width() - 1;
  const int bottom = upright.height() - 1;
  for (int row = 0; row < stored.height(); ++row) {
    for (int column = 0; column < stored.width(); ++column) {
      int x = 0;
      int y = 0;
      switch (orientation) {
        case 1:
          x = column, y = row;
          break;  // top, left side
        case 2:
          x = right - column, y = row;
          break;  // top, right side
        case 3:
          x = right - column, y = bottom - row;
          break;  // bottom, right side
        case 4:
          x = column, y = bottom - row;
          break;  // bottom, left side
        case 5:
          x = row, y = column;
          break;  // left side, top
        case 6:
          x = right - row, y = column;
          break;  // right side, top
        case 7:
          x = right - row, y = bottom - column;
          break;  // right side, bottom
        default:
          x = row, y = bottom - column;
          break;  // left side, bottom
      }
      upright(x, y) = stored(column, row);
    }
  }
  return upright;
}

}  // namespace

TEST_CASE("all orientations of many sizes, in the same memory") {
  for (const int width : {1, 2, 3, 7, 16, 31, 64, 100, 257, 1031}) {
    for (const int height : {1, 2, 5, 16, 33, 97}) {
      for (int orientation = 1; orientation <= 8; ++orientation) {
        INFO(width << " x " << height << ", " << orientation);
        const auto stored = numbered(width, height);
        auto given = stored;
        const int* memory = given.pixels().data();
        const auto upright = std::move(given) | orient(orientation);
        CHECK(upright == by_definition(stored, orientation));
        CHECK(upright.pixels().data() == memory);
      }
    }
  }
}

TEST_CASE("pixels of three bytes are turned as well") {
  const auto stored = opaque_noise(203, 117);
  for (int orientation = 1; orientation <= 8; ++orientation) {
    CHECK((Raster<Srgb8>(stored) | orient(orientation)) == by_definition(stored, orientation));
  }
}

TEST_CASE("what is not given away is copied, and stays") {
  const auto stored = opaque_noise(40, 30);
  const auto before = stored;
  const auto expected = by_definition(stored, 6);
  CHECK((stored | orient(6)) == expected);
  CHECK((stored.view() | orient(6)) == expected);
  CHECK((embedder::Frame(stored) | orient(6)) == expected);
  CHECK(stored == before);
}

TEST_CASE("other numbers are no orientation") {
  CHECK_THROWS_WITH(Raster<int>(2, 2) | orient(0), contains("orientation: 0 is out of range"));
  CHECK_THROWS_WITH(Raster<int>(2, 2) | orient(9), contains("1 to 8"));
  CHECK((Raster<int>() | orient(6)).empty());
}
