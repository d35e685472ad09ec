// Whole rows against one colour at a time, and the float arithmetic under both against the mathematics library.
#include <cmath>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab_rows.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(detail::steady_cbrt(0) == 0);
static_assert(detail::held(5, 2) == 2 && detail::held(-5, 2) == -2 && detail::held(-1.5F, 2) == -1.5F);

TEST_CASE("the cube root in floats is a cube root") {
  double worst = 0;
  for (double v = 1; v < 1.1e12; v *= 1.00003) {
    const auto x = static_cast<float>(v);
    worst =
        std::max(worst, std::abs(static_cast<double>(detail::steady_cbrt(x)) / std::cbrt(static_cast<double>(x)) - 1));
  }
  INFO("worst " << worst);
  CHECK(worst < 7e-7);
}

TEST_CASE("a row of codes is converted as each of them, there and back") {
  // A row shorter and longer than what is in work at a time; every code of two channels, the third mixed.
  std::vector<Srgb8> codes;
  for (unsigned i = 0; i < 65536; ++i) {
    codes.push_back({static_cast<std::uint8_t>(i), static_cast<std::uint8_t>(i >> 8U),
                     static_cast<std::uint8_t>(i * 2654435761U >> 24U)});
  }
  for (const std::size_t count : {std::size_t{0}, std::size_t{1}, std::size_t{255}, std::size_t{257}, codes.size()}) {
    const std::span<const Srgb8> some(codes.data(), count);
    std::vector<Oklab> row(count + 1, Oklab{7, 7, 7});
    convert_row(some, std::span<Oklab>(row.data(), count));
    long different = 0;
    for (std::size_t i = 0; i < count; ++i) different += row[i] == convert_colour<Oklab>(codes[i]) ? 0 : 1;
    CHECK(different == 0);
    CHECK(row.back() == Oklab{7, 7, 7});
    std::vector<Srgb8> back(count + 1, Srgb8{1, 2, 3});
    convert_row(std::span<const Oklab>(row.data(), count), std::span<Srgb8>(back.data(), count));
    for (std::size_t i = 0; i < count; ++i) different += back[i] == codes[i] ? 0 : 1;
    CHECK(different == 0);
    CHECK(back.back() == Srgb8{1, 2, 3});
  }
}

TEST_CASE("a row of colours out of gamut or not numbers is converted as each of them") {
  std::vector<Oklab> wild;
  for (const float v : {-1e30F, -1.0F, -0.2F, 0.0F, 0.3F, 1.0F, 2.0F, 1e30F, NAN, INFINITY, -INFINITY}) {
    for (const float a : {-0.4F, 0.0F, 0.7F, NAN, INFINITY}) wild.push_back({v, a, a * v});
  }
  std::vector<Srgb8> row(wild.size());
  convert_row(std::span<const Oklab>(wild), std::span<Srgb8>(row));
  for (std::size_t i = 0; i < wild.size(); ++i) CHECK(row[i] == convert_colour<Srgb8>(wild[i]));
}
