#include "handlaid/sheets/figures.hpp"

#include <limits>

#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("counts, money and shares are written for readers") {
  CHECK(count_text(0) == "0");
  CHECK(count_text(999) == "999");
  CHECK(count_text(1000) == "1,000");
  CHECK(count_text(-1234567) == "-1,234,567");
  CHECK(count_text(1, "pack", "packs") == "1 pack");
  CHECK(count_text(50100, "piece", "pieces") == "50,100 pieces");
  CHECK(money_text(123405, "EUR") == "1,234.05 EUR");
  CHECK(money_text(7, "") == "0.07");
  CHECK(money_text(-250, "EUR") == "-2.50 EUR");
  CHECK(percent_text(0.03) == "3 %");
  CHECK(percent_text(0.995) == "99.5 %");
  CHECK(reported_text(4.31279) == "4.31");
  CHECK(reported_text(9.999) == "10.00");
  CHECK(reported_text(std::numeric_limits<double>::quiet_NaN()) == "n/a");
}

TEST_CASE("marks are rounded once, to what a tape shows") {
  CHECK(mark_text(132 * mm, LengthUnit::millimetres) == "132");
  CHECK(mark_text(Length::from_um(9'525), LengthUnit::millimetres) == "9.5");
  CHECK(mark_text(Length::from_um(9'550), LengthUnit::millimetres) == "9.6");
  CHECK(mark_text(Length::from_um(25'399), LengthUnit::inches) == "1");
  CHECK(mark_text(0.375 * inch, LengthUnit::inches) == "3/8");
  CHECK(mark_text(5.1875 * inch, LengthUnit::inches) == "5 3/16");
  CHECK(mark_text(Length{}, LengthUnit::inches) == "0");
  CHECK(decimal_inch_text(132 * mm) == "5.20");
  CHECK(material_text(9'999 * mm, LengthUnit::millimetres) == "9999 mm");
  CHECK(material_text(72'201 * mm, LengthUnit::millimetres) == "72.3 m");  // never less than is needed
  CHECK(material_text(1800 * inch, LengthUnit::inches) == "150.0 ft");
  CHECK(size_text({792 * mm, 1056 * mm}, LengthUnit::millimetres) == "792 × 1056 mm");
  CHECK(pitch_text({.columns = 1, .rows = 1, .pitch = 11 * mm}, LengthUnit::millimetres) == "11 mm");
  CHECK(pitch_text({.columns = 1, .rows = 1, .pitch = 0.5 * inch, .course_pitch = 1 * inch}, LengthUnit::inches) ==
        "1/2 × 1 in");
}

// A printed mark must not be further from the true one than half of the smallest step: 0.05 mm, 1/32 in.
TEST_CASE("no mark drifts, however far from the datum") {
  const Length pitch = Length::from_um(7'937);  // 5/16 in
  for (int i = 0; i <= 2000; ++i) {
    const Length mark = pitch.times(i);
    const double shown = std::stod(mark_text(mark, LengthUnit::millimetres));
    CHECK(std::abs(shown - mark.in_mm()) < 0.0500001);
    const std::string tape = mark_text(mark, LengthUnit::inches);
    Length read;
    REQUIRE(parse_length(tape, LengthUnit::inches, read));
    CHECK(std::abs((read - mark).um()) <= 25'400 / 32 + 1);
  }
}
