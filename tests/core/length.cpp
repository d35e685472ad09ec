// Lengths: exact sums, one rounding.
#include <cmath>
#include <limits>

#include "handlaid/core/fingerprint.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(12 * mm == Length::from_um(12'000));
static_assert(7.5 * mm == Length::from_um(7'500));
static_assert(1 * inch == 25.4 * mm);  // the international inch of 1959
static_assert((-0.5) * inch == Length::from_um(-12'700));
static_assert(0.0625 * inch == Length::from_um(1'588));  // 1587.5 um, half away from zero
static_assert(!std::is_convertible_v<double, Length> && !std::is_convertible_v<Length, double>);

TEST_CASE("a product of a fraction is rounded once, like the exact product") {
  for (int i = 0; i < 20'000; ++i) {
    const double factor = i * 0.37 + 0.0004;
    CHECK((factor * mm).um() == std::llround(static_cast<long double>(factor) * 1000.0L));
    CHECK((factor * inch).um() == std::llround(static_cast<long double>(factor) * 25400.0L));
  }
}

TEST_CASE("sums of lengths never drift") {
  Length sum;
  for (int i = 0; i < 1000; ++i) sum += 7.5 * mm;
  CHECK(sum == 7500 * mm);
  CHECK((7.5 * mm).times(167) == 1252.5 * mm);
  CHECK((1 * mm).divided(3).um() == 333);
  CHECK((2 * mm).divided(3).um() == 667);
  CHECK((-2 * mm).divided(3).um() == -667);
  CHECK((100 * mm).count_of(7.5 * mm) == 13);
}

TEST_CASE("lengths that are no numbers are refused") {
  for (const double wrong : {std::nan(""), std::numeric_limits<double>::infinity(), 1e300, -1e300}) {
    CHECK_THROWS_WITH(wrong * mm, contains("length"));
  }
}

TEST_CASE("the random numbers are splitmix64's") {
  // First outputs for seed 1234567, as published with the generator's reference implementation (from memory).
  Random random(1234567);
  CHECK(random.next() == 6457827717110365317ULL);
  CHECK(random.next() == 3203168211198807973ULL);
  Random other(7);
  bool seen[10] = {};
  for (int i = 0; i < 1000; ++i) seen[other.below(10)] = true;
  for (const bool s : seen) CHECK(s);
  CHECK(other.below(1) == 0);
}

TEST_CASE("fingerprints are FNV-1a") {
  // Test vectors of the FNV authors' page (RFC 9923, appendix).
  CHECK(fingerprint("") == 0xcbf29ce484222325ULL);
  CHECK(fingerprint("a") == 0xaf63dc4c8601ec8cULL);
  CHECK(fingerprint("foobar") == 0x85944171f73967e8ULL);
  CHECK(fingerprint("bar", fingerprint("foo")) == fingerprint("foobar"));
}
