// Colour differences and contrast against published values.
#include "handlaid/colour/difference.hpp"

#include <vector>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/difference_rows.hpp"
#include "handlaid/colour/hex.hpp"
#include "handlaid/core/random.hpp"
#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("CIEDE2000 gives the 34 published values to four decimals") {
  // Sharma, Wu, Dalal, Color Research and Application 30(1), 2005, table 1.
  const Table pairs("ciede2000_sharma.csv");
  REQUIRE(pairs.size() == 34);
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const auto v = [&](const char* name) { return static_cast<float>(pairs.number(i, name)); };
    const LabD65 p = {v("L1"), v("a1"), v("b1")};
    const LabD65 q = {v("L2"), v("a2"), v("b2")};
    INFO("pair " << i + 1);
    CHECK_THAT(ciede2000(p, q), WithinAbs(pairs.number(i, "de00"), 5.1e-5));
    CHECK_THAT(ciede2000(q, p), WithinAbs(pairs.number(i, "de00"), 5.1e-5));
  }
}

TEST_CASE("CIE76 and CIE94 follow their definitions") {
  const LabD50 p = {50, 10, 20};
  const LabD50 q = {53, 14, 8};
  CHECK_THAT(cie76(p, q), WithinAbs(13.0, 1e-12));  // 3, 4, 12
  // CIE 116:1995 worked by hand: C1 = 22.36068, C2 = 16.12452, dC = 6.23616, dH2 = 16 + 144 - 38.88970,
  // SC = 2.00623, SH = 1.33541.
  CHECK_THAT(cie94(p, q), WithinAbs(std::sqrt(9 + 9.66205 + 67.91285), 1e-4));
  CHECK(cie94(p, p) == 0);
  CHECK_THAT(distance_oklab(Oklab{1, 0, 0}, Oklab{0, 0, 0}), WithinAbs(1.0, 1e-12));
}

TEST_CASE("contrast gives the ratios that WCAG and its readers print") {
  const Table table("wcag_contrast.csv");
  for (std::size_t i = 0; i < table.size(); ++i) {
    const Srgb8 one = colour_from_hex(table.text(i, "colour1"), "table");
    const Srgb8 other = colour_from_hex(table.text(i, "colour2"), "table");
    INFO(to_hex(one) << " on " << to_hex(other));
    CHECK_THAT(contrast_ratio(one, other), WithinAbs(table.number(i, "ratio_formula"), 1e-5));
    CHECK((contrast_ratio(one, other) >= 4.5) == (table.whole(i, "ge_4_5") == 1));
    CHECK((contrast_ratio(one, other) >= 7) == (table.whole(i, "ge_7") == 1));
  }
}

TEST_CASE("a numeral reads well on every swatch") {
  double least = 21;
  int wrong = 0;
  for (int r = 0; r < 256; r += 3) {
    for (int g = 0; g < 256; g += 3) {
      for (int b = 0; b < 256; b += 3) {
        const Srgb8 swatch = {static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g), static_cast<std::uint8_t>(b)};
        const Srgb8 ink = numeral_colour(swatch);
        const Srgb8 rival = ink == Srgb8{} ? Srgb8{255, 255, 255} : Srgb8{};
        least = std::min(least, contrast_ratio(ink, swatch));
        if (contrast_ratio(rival, swatch) > contrast_ratio(ink, swatch) + 1e-6) ++wrong;
      }
    }
  }
  CHECK(least >= 4.5);
  CHECK(wrong == 0);
}

TEST_CASE("colours are read and written as #rrggbb") {
  CHECK(to_hex({0, 171, 255}) == "#00abff");
  CHECK(colour_from_hex("#C04020", "here") == Srgb8{192, 64, 32});
  for (const char* wrong : {"", "#", "c04020", "#c0402", "#c040200", "#c0402g", " #c04020", "red"}) {
    CHECK_THROWS_WITH(colour_from_hex(wrong, "ground"), contains("ground: \"" + std::string(wrong) + "\""));
  }
}

TEST_CASE("CIEDE2000 of whole rows gives the published values and stays by the formula in double") {
  const Table pairs("ciede2000_sharma.csv");
  std::vector<LabD65> p;
  std::vector<LabD65> q;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const auto v = [&](const char* name) { return static_cast<float>(pairs.number(i, name)); };
    p.push_back({v("L1"), v("a1"), v("b1")});
    q.push_back({v("L2"), v("a2"), v("b2")});
  }
  // Near and far, grey and deep, and one of both grey. Opposite hues are left to the published pairs: there the formula
  // jumps, and rounding decides.
  Random random(4);
  const auto real = [&](double low, double high) {
    return static_cast<float>(low + (high - low) * static_cast<double>(random.below(1U << 24U)) / (1U << 24U));
  };
  for (int i = 0; i < 60000; ++i) {
    const double reach = i % 3 == 0 ? 128 : 6;
    const LabD65 one = {real(0, 100), real(-reach, reach), real(-reach, reach)};
    LabD65 other = {real(0, 100), real(-reach, reach), real(-reach, reach)};
    if (i % 5 == 0) other = {one.L + real(-2, 2), one.a + real(-2, 2), one.b + real(-2, 2)};
    if (i % 11 == 0) other.a = other.b = 0;
    if (i % 1000 == 0) other = one;
    p.push_back(one);
    q.push_back(other);
  }
  std::vector<float> row(p.size());
  ciede2000_row(std::span<const LabD65>(p), std::span<const LabD65>(q), std::span<float>(row));
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    INFO("pair " << i + 1);
    CHECK_THAT(static_cast<double>(row[i]), WithinAbs(pairs.number(i, "de00"), 1e-4));
  }
  double worst = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const double error = std::abs(static_cast<double>(row[i]) - ciede2000(p[i], q[i]));
    worst = error <= worst ? worst : error;  // keeps what is not a number
  }
  INFO("worst " << worst);
  CHECK(worst < 1e-4);
}
