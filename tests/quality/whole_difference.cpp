#include "handlaid/quality/whole_difference.hpp"

#include "handlaid/colour/difference.hpp"
#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("CIEDE2000 in whole steps gives the published values") {
  const Table table("ciede2000_sharma.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const auto lab = [&](const std::string& n) {
      return LabD65{static_cast<float>(table.number(row, "L" + n)), static_cast<float>(table.number(row, "a" + n)),
                    static_cast<float>(table.number(row, "b" + n))};
    };
    const auto steps = whole_ciede2000(lab("1"), lab("2"));
    CHECK_THAT(static_cast<double>(steps) / difference_steps, WithinAbs(table.number(row, "de00"), 1e-4));
    CHECK(whole_ciede2000(lab("2"), lab("1")) == steps);
  }
}

TEST_CASE("CIEDE2000 in whole steps is that of the formula, all over the space") {
  std::uint32_t state = 1;
  const auto next = [&](double low, double high) {
    state = state * 1664525U + 1013904223U;
    return static_cast<float>(low + (high - low) * (state >> 8) / 16777216.0);
  };
  double worst = 0;
  for (int i = 0; i < 20000; ++i) {
    const LabD65 p = {next(0, 100), next(-120, 120), next(-120, 120)};
    const float near = i % 2 == 0 ? 1.0F : 0.02F;
    const LabD65 q = {p.L + near * next(-p.L, 100 - p.L), p.a + near * next(-90, 90), p.b + near * next(-90, 90)};
    worst = std::max(worst, std::abs(static_cast<double>(whole_ciede2000(p, q)) / difference_steps - ciede2000(p, q)));
  }
  CHECK(worst < 1e-4);
}

TEST_CASE("colours beyond all measure are held, not wrapped") {
  const LabD65 far = {1e9F, -1e9F, 1e9F};
  CHECK(whole_ciede2000(far, far) == 0);
  CHECK(whole_ciede2000(far, LabD65{-1e9F, 1e9F, -1e9F}) > 0);
  CHECK(whole_ciede2000(LabD65{}, LabD65{}) == 0);
}
