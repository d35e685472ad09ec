#include "handlaid/solve/square_root.hpp"

#include "support/catch.hpp"

using handlaid::nearest_square_root;
using handlaid::square_root;

static_assert(square_root(0) == 0 && square_root(1) == 1 && square_root(3) == 1 && square_root(4) == 2);
static_assert(nearest_square_root(2) == 1 && nearest_square_root(3) == 2 && nearest_square_root(12) == 3);
static_assert(square_root(UINT64_MAX) == 4'294'967'295);

TEST_CASE("a root is right on both sides of every square") {
  for (std::uint64_t r = 1; r < 4'000'000'000; r = r * 3 / 2 + 1) {
    CHECK(square_root(r * r) == r);
    CHECK(square_root(r * r - 1) == r - 1);
    CHECK(nearest_square_root(r * r + r) == r);
    CHECK(nearest_square_root(r * r + r + 1) == r + 1);
  }
}
