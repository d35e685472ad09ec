// Rasters own, views borrow.
#include "handlaid/core/raster.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(AnyRaster<Raster<int>> && AnyRaster<RasterView<int>> && AnyRaster<RasterView<const int>>);
static_assert(RasterOf<RasterView<const int>, int> && !RasterOf<Raster<int>, float>);
static_assert(!AnyRaster<int> && !AnyRaster<std::string> && !AnyRaster<std::span<int>>);
static_assert(!std::is_convertible_v<Raster<int>, RasterView<int>>);
static_assert(std::is_nothrow_move_constructible_v<Raster<int>>);
template <class R>
concept GivesView = requires(R&& raster) { std::forward<R>(raster).view(); };
static_assert(GivesView<Raster<int>&> && GivesView<const Raster<int>&> && !GivesView<Raster<int>>);

TEST_CASE("a raster starts at zero and compares by value") {
  Raster<int> raster(3, 2);
  for (const int p : raster.pixels()) CHECK(p == 0);
  raster(2, 1) = 7;
  CHECK(raster.row(1)[2] == 7);
  CHECK(raster.pixels()[5] == 7);
  Raster<int> copy = raster;
  CHECK(copy == raster);
  copy(0, 0) = 1;
  CHECK_FALSE(copy == raster);
  CHECK_FALSE(Raster<int>(2, 3) == Raster<int>(3, 2));
}

TEST_CASE("moving leaves nothing behind and copies nothing") {
  Raster<int> raster(100, 100);
  const int* where = raster.pixels().data();
  Raster<int> other = std::move(raster);
  CHECK(other.pixels().data() == where);
  Raster<int> third;
  third = std::move(other);
  CHECK(third.pixels().data() == where);
}

TEST_CASE("adopted memory is released by its own function") {
  static int released = 0;
  static int memory[6] = {1, 2, 3, 4, 5, 6};
  {
    auto raster = Raster<int>::adopt(memory, 3, 2, [](void*) { ++released; });
    CHECK(raster(1, 1) == 5);
    const Raster<int> moved = std::move(raster);
    CHECK(released == 0);
  }
  CHECK(released == 1);
}

TEST_CASE("a view borrows with a stride") {
  int memory[8] = {1, 2, 3, 0, 4, 5, 6, 0};
  const auto borrowed = view(memory, 3, 2, 4);
  CHECK(borrowed(2, 1) == 6);
  CHECK(borrowed.row(1).size() == 3);
  borrowed(0, 0) = 9;
  CHECK(memory[0] == 9);
  CHECK_THROWS_WITH(view(memory, 3, 2, 2), contains("stride"));
  CHECK_THROWS_WITH(view(memory, -1, 2, 2), contains("view"));
}

TEST_CASE("sizes that make no sense are refused") {
  CHECK_THROWS_WITH((Raster<int>(-1, 5)), contains("-1 x 5"));
  CHECK(Raster<int>(0, 5).empty());
}
