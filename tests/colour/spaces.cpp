// Colour spaces against published values.
#include <cmath>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"
#include "support/catch.hpp"
#include "support/own_colour.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

// Models and non-models of the concepts.
static_assert(Colour<Srgb8> && Colour<Srgb16> && Colour<LinearRgb> && Colour<Oklab> && Colour<Oklch>);
static_assert(Colour<XyzD65> && Colour<LabD50> && Colour<outside::LightOnly> && Colour<outside::CodeRgb>);
static_assert(!Colour<int> && !Colour<Srgba8> && !Colour<Light> && !Colour<FixedPoint> && !Colour<const char*>);
static_assert(MeasuredColour<Oklab> && MeasuredColour<LabD65> && MeasuredColour<outside::CodeRgb>);
static_assert(!MeasuredColour<Srgb8> && !MeasuredColour<Oklch> && !MeasuredColour<outside::LightOnly>);
static_assert(Pixel<Srgb8> && Pixel<Srgba8> && Pixel<WithAlpha<Oklab>> && AlphaPixel<Srgba16> && !AlphaPixel<Oklab>);
static_assert(!Pixel<float> && !Pixel<Light>);
static_assert(sizeof(Srgba8) == 4 && sizeof(Srgba16) == 8);
static_assert(!std::is_convertible_v<Srgb8, Oklab> && !std::is_convertible_v<Oklab, LabD65>);

namespace {

double decoded(double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); }

// The same checks at compile time, where undefined behaviour would not compile, and at run time.
constexpr bool greys_are_neutral() {
  for (int code = 0; code < 256; code += 15) {
    const auto c = static_cast<std::uint8_t>(code);
    const Oklab lab = convert_colour<Oklab>(Srgb8{c, c, c});
    if (lab.a > 1e-6F || lab.a < -1e-6F || lab.b > 1e-6F || lab.b < -1e-6F) return false;
    if (convert_colour<Srgb8>(lab) != Srgb8{c, c, c}) return false;
  }
  return true;
}
static_assert(greys_are_neutral());

}  // namespace

TEST_CASE("sRGB decodes as IEC 61966-2-1 says") {
  CHECK(greys_are_neutral());
  // srgb_curve.csv: the standard's formula in double, recomputed by two libraries.
  const Table curve("srgb_curve.csv");
  REQUIRE(curve.size() == 256);
  for (std::size_t i = 0; i < curve.size(); ++i) {
    const auto code = static_cast<std::uint8_t>(curve.whole(i, "code"));
    const double linear = curve.number(i, "linear");
    // The table is the nearest step of 1/2^24, made again here.
    CHECK(Srgb8{code, 0, 0}.light().r == std::llround(linear * linear_white));
    CHECK_THAT(static_cast<double>(convert_colour<LinearRgb>(Srgb8{0, code, 0}).g), WithinAbs(linear, 3.1e-8));
    const auto deep = static_cast<std::uint16_t>(code * 257);
    CHECK_THAT(static_cast<double>(convert_colour<LinearRgb>(Srgb16{deep, 0, 0}).r), WithinAbs(linear, 7e-8));
  }
}

TEST_CASE("linear light encodes as IEC 61966-2-1 says") {
  const Table points("srgb_encode_points.csv");
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto linear = static_cast<float>(points.number(i, "linear"));
    INFO("linear " << linear);
    CHECK(int{convert_colour<Srgb8>(LinearRgb{linear, 0, 0}).r} == points.whole(i, "code8"));
  }
  // The table of code starts, made again from the formula.
  for (int code = 1; code < 256; ++code) {
    const double start = decoded((code - 0.5) / 255);
    CHECK(srgb_code_starts_table[static_cast<std::size_t>(code)] == std::ceil(start * linear_white));
  }
  CHECK(convert_colour<Srgb8>(LinearRgb{-1, 2, NAN}) == Srgb8{0, 255, 0});
}

TEST_CASE("16-bit sRGB keeps its full depth") {
  double worst = 0;
  int lost = 0;
  for (int code = 0; code < 65536; ++code) {
    const Srgb16 colour = {static_cast<std::uint16_t>(code), 0, 0};
    const auto light = static_cast<double>(colour.light().r);
    worst = std::max(worst, std::abs(light - decoded(code / 65535.0) * linear_white));
    if (code % 7 == 0 && Srgb16::from_light(colour.light()) != colour) ++lost;
  }
  CHECK(worst < 1.01);
  CHECK(lost == 0);
}

TEST_CASE("Oklab agrees with its published table") {
  const Table table("oklab_reference.csv");
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto c = [&](const char* name) { return static_cast<float>(table.number(i, name)); };
    Oklab lab;
    if (table.text(i, "input_space") == "xyz_d65") {
      lab = convert_colour<Oklab>(XyzD65{c("c1"), c("c2"), c("c3")});
    } else {
      const auto linear = [&](const char* name) { return static_cast<float>(decoded(table.number(i, name))); };
      lab = convert_colour<Oklab>(LinearRgb{linear("c1"), linear("c2"), linear("c3")});
    }
    INFO(table.text(i, "source") << " " << c("c1") << " " << c("c2") << " " << c("c3"));
    // Single precision and the hub's steps of 1/2^24 come on top of each source's own rounding.
    // XYZ goes by way of linear sRGB, whose published matrix and that for XYZ differ from the fourth decimal on.
    const double tolerance =
        std::max(table.number(i, "tolerance"), table.text(i, "input_space") == "xyz_d65" ? 6e-4 : 2e-6);
    CHECK_THAT(static_cast<double>(lab.L), WithinAbs(table.number(i, "L"), tolerance));
    CHECK_THAT(static_cast<double>(lab.a), WithinAbs(table.number(i, "a"), tolerance));
    CHECK_THAT(static_cast<double>(lab.b), WithinAbs(table.number(i, "b"), tolerance));
  }
}

TEST_CASE("Oklab stays by the formulas in double") {
  // The coefficients as B. Ottosson published them (2020, revised 2021), with the library's cube root.
  double worst = 0;
  for (int r = 0; r < 256; r += r < 16 ? 1 : 15) {
    for (int g = 0; g < 256; g += g < 16 ? 1 : 15) {
      for (int b = 0; b < 256; b += b < 16 ? 1 : 15) {
        const double x = decoded(r / 255.0);
        const double y = decoded(g / 255.0);
        const double z = decoded(b / 255.0);
        const double l = std::cbrt(0.4122214708 * x + 0.5363325363 * y + 0.0514459929 * z);
        const double m = std::cbrt(0.2119034982 * x + 0.6806995451 * y + 0.1073969566 * z);
        const double s = std::cbrt(0.0883024619 * x + 0.2817188376 * y + 0.6299787005 * z);
        const Oklab lab = convert_colour<Oklab>(
            Srgb8{static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g), static_cast<std::uint8_t>(b)});
        worst = std::max(worst, std::abs(double{lab.L} - (0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s)));
        worst = std::max(worst, std::abs(double{lab.a} - (1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s)));
        worst = std::max(worst, std::abs(double{lab.b} - (0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s)));
      }
    }
  }
  INFO("worst " << worst);
  CHECK(worst < 2e-6);
}

TEST_CASE("the cube root in integers is a cube root") {
  double worst = 0;
  for (double v = 1e-6; v < 7.9; v *= 1.0007) {
    const auto x = static_cast<std::int64_t>(v * 18014398509481984.0);  // 2^54
    const double root = static_cast<double>(detail::fixed_cbrt(x)) / 1073741824.0;
    worst = std::max(worst, std::abs(root - std::cbrt(static_cast<double>(x) / 18014398509481984.0)));
    CHECK(detail::fixed_cbrt(-x) == -detail::fixed_cbrt(x));
  }
  INFO("worst " << worst);
  CHECK(worst < 3e-9);
  CHECK(detail::fixed_cbrt(0) == 0);
  static_assert(detail::fixed_cbrt(std::int64_t{1} << 54) == std::int64_t{1} << 30);
}

TEST_CASE("every sRGB code survives the way to Oklab and back") {
  long lost = 0;
  for (int r = 0; r < 256; ++r) {
    for (int g = 0; g < 256; ++g) {
      for (int b = 0; b < 256; ++b) {
        const Srgb8 code = {static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g), static_cast<std::uint8_t>(b)};
        if (convert_colour<Srgb8>(convert_colour<Oklab>(code)) != code) ++lost;
        if (g % 15 + b % 3 == 0 && convert_colour<Srgb8>(convert_colour<LabD50>(code)) != code) ++lost;
        if (g % 15 + b % 3 == 0 && convert_colour<Srgb8>(convert_colour<Oklch>(code)) != code) ++lost;
      }
    }
  }
  CHECK(lost == 0);
}

TEST_CASE("XYZ and CIELAB under D65 agree with a published calculator's table") {
  const Table table("xyz_lab_d65.csv");
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto linear = [&](const char* name) { return static_cast<float>(decoded(table.number(i, name))); };
    const LinearRgb rgb = {linear("R"), linear("G"), linear("B")};
    const auto xyz = convert_colour<XyzD65>(rgb);
    CHECK_THAT(static_cast<double>(xyz.X), WithinAbs(table.number(i, "X"), 2e-6));
    CHECK_THAT(static_cast<double>(xyz.Y), WithinAbs(table.number(i, "Y"), 2e-6));
    CHECK_THAT(static_cast<double>(xyz.Z), WithinAbs(table.number(i, "Z"), 2e-6));
    const auto lab = convert_colour<LabD65>(rgb);
    CHECK_THAT(static_cast<double>(lab.L), WithinAbs(table.number(i, "L"), 5e-3));
    CHECK_THAT(static_cast<double>(lab.a), WithinAbs(table.number(i, "a"), 5e-3));
    CHECK_THAT(static_cast<double>(lab.b), WithinAbs(table.number(i, "b"), 5e-3));
  }
}

TEST_CASE("CIELAB under D50 agrees with the published 24-patch chart") {
  // x y Y and L* a* b* of the same 24 patches, two publications of one set of measurements.
  const Table table("colour_chart_24.csv");
  REQUIRE(table.size() == 24);
  for (std::size_t i = 0; i < table.size(); ++i) {
    const double x = table.number(i, "x_2005");
    const double y = table.number(i, "y_2005");
    const double Y = table.number(i, "Y_2005");
    const auto v = [&](const char* name) { return static_cast<float>(table.number(i, name)); };
    const LabD50 lab = {v("L_d50_before2014"), v("a_d50_before2014"), v("b_d50_before2014")};
    INFO(table.text(i, "name"));
    // The published x y Y have four decimals: L* a* b* with their three must lead to each of them.
    const XyzD50 xyz = lab.xyz();
    const double sum = double{xyz.X} + double{xyz.Y} + double{xyz.Z};
    CHECK_THAT(double{xyz.X} / sum, WithinAbs(x, 6e-5));
    CHECK_THAT(double{xyz.Y} / sum, WithinAbs(y, 6e-5));
    CHECK_THAT(double{xyz.Y}, WithinAbs(Y, 6e-5));
    const LabD50 back = LabD50::from_xyz(xyz);
    CHECK_THAT(static_cast<double>(back.L), WithinAbs(double{lab.L}, 1e-4));
    CHECK_THAT(static_cast<double>(back.a), WithinAbs(double{lab.a}, 2e-4));
    CHECK_THAT(static_cast<double>(back.b), WithinAbs(double{lab.b}, 2e-4));
    // By Bradford to D65 and sRGB codes, clipped: computed with another library.
    const Srgb8 code = convert_colour<Srgb8>(lab);
    CHECK(std::abs(int{code.r} - table.whole(i, "R_computed")) <= 1);
    CHECK(std::abs(int{code.g} - table.whole(i, "G_computed")) <= 1);
    CHECK(std::abs(int{code.b} - table.whole(i, "B_computed")) <= 1);
  }
}

TEST_CASE("alpha is held within its range") {
  CHECK(Srgba8{{}, 255}.opacity() == 65535);
  CHECK(Srgba8{{}, 128}.opacity() == 32896);
  CHECK(WithAlpha<Oklab>{{}, 2.0F}.opacity() == 65535);
  CHECK(WithAlpha<Oklab>{{}, NAN}.opacity() == 0);
  for (int alpha = 0; alpha < 256; ++alpha) {
    const Srgba8 pixel = {{}, static_cast<std::uint8_t>(alpha)};
    CHECK(Srgba8::from({}, pixel.opacity()) == pixel);
  }
}

TEST_CASE("colours far out of gamut or not numbers stay within whole steps") {
  for (const float wild : {-1e30F, 1e30F, NAN, INFINITY, -INFINITY}) {
    const FixedPoint p = Oklab{wild, wild, wild}.fixed();
    CHECK(std::abs(int{p.x}) <= 16384);
    const FixedPoint q = LabD65{wild, wild, wild}.fixed();
    CHECK(std::abs(int{q.y}) <= 16384);
    const Light light = LinearRgb{wild, wild, wild}.light();
    CHECK(std::abs(light.r) <= std::int64_t{4} << 24);
    CHECK(std::abs(Oklab{wild, wild, wild}.light().g) <= std::int64_t{4} << 24);
    CHECK(std::abs(LabD50{wild, wild, wild}.light().g) <= std::int64_t{4} << 24);
    CHECK(convert_colour<Srgb8>(convert_colour<Oklab>(LinearRgb{wild, wild, wild})) != Srgb8{1, 2, 3});
  }
}
