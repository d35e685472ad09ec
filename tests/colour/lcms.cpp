// CIELAB and the colour differences beside Little CMS 2, an independent implementation.
#include <lcms2.h>

#include <algorithm>
#include <cmath>

#include "handlaid/colour/difference.hpp"
#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("CIELAB of D50 is that of Little CMS") {
  Random random(7);
  double worst = 0;
  for (int i = 0; i < 20'000; ++i) {
    const auto part = [&] { return static_cast<float>(random.below(1'000'000)) / 1e6F; };
    const XyzD50 xyz = {part() * 0.9642F, part(), part() * 0.8249F};
    const cmsCIEXYZ theirs = {double{xyz.X}, double{xyz.Y}, double{xyz.Z}};
    cmsCIELab lab;
    // The library's white is given, so that only the formula is compared.
    const cmsCIEXYZ white = {D50::white[0], D50::white[1], D50::white[2]};
    cmsXYZ2Lab(&white, &lab, &theirs);
    const auto ours = LabD50::from_xyz(xyz);
    worst = std::max(
        {worst, std::abs(double{ours.L} - lab.L), std::abs(double{ours.a} - lab.a), std::abs(double{ours.b} - lab.b)});
  }
  CHECK(worst < 2e-4);
}

TEST_CASE("CIEDE2000 and CIE76 are those of Little CMS") {
  Random random(8);
  double worst = 0;
  for (int i = 0; i < 20'000; ++i) {
    const auto part = [&](int low, int high) {
      return static_cast<float>(low) +
             static_cast<float>(random.below(1'000)) / 1000.0F * static_cast<float>(high - low);
    };
    const LabD50 p = {part(0, 100), part(-90, 90), part(-90, 90)};
    const LabD50 q = {part(0, 100), part(-90, 90), part(-90, 90)};
    const cmsCIELab a = {double{p.L}, double{p.a}, double{p.b}};
    const cmsCIELab b = {double{q.L}, double{q.a}, double{q.b}};
    worst = std::max(worst, std::abs(cie76(p, q) - cmsDeltaE(&a, &b)));
    // At almost opposite hues the formula itself jumps (Sharma, Wu, Dalal 2005).
    const double turn = std::abs(std::atan2(double{p.b}, double{p.a}) - std::atan2(double{q.b}, double{q.a}));
    if (std::abs(turn - 3.14159265) < 0.02) continue;
    worst = std::max(worst, std::abs(ciede2000(p, q) - cmsCIE2000DeltaE(&a, &b, 1, 1, 1)));
  }
  CHECK(worst < 1e-4);
}
