#include "handlaid/palette/clear_numbers.hpp"

#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("numbers that look alike are more easily confused than those that do not") {
  for (const auto& [a, b] : {std::pair{6, 9},
                             {1, 7},
                             {3, 8},
                             {5, 6},
                             {12, 21},
                             {16, 19},
                             {16, 61},
                             {16, 91},
                             {19, 61},
                             {19, 91},
                             {61, 91},
                             {66, 99},
                             {86, 98},
                             {106, 109}}) {
    CHECK(numeral_confusion(a, b) >= 60);
    CHECK(numeral_confusion(a, b) == numeral_confusion(b, a));
  }
  for (const auto& [a, b] : {std::pair{2, 6}, {4, 5}, {7, 8}, {10, 25}, {14, 8}, {101, 7}}) {
    CHECK(numeral_confusion(a, b) <= 10);
  }
  CHECK(numeral_confusion(7, 17) == 30);
  CHECK(numeral_confusion(11, 1) == 30);
  CHECK(numeral_confusion(13, 88) == 8);  // 10 % of 80 %
  for (int a = 1; a <= 999; ++a) REQUIRE(numeral_confusion(a, a) == 0);
}

TEST_CASE("colours are alike in whole thousandths that fall with their distance") {
  const auto point = [](int x) { return FixedPoint{static_cast<std::int16_t>(x), 0, 0}; };
  CHECK(colour_likeness(point(0), point(0)) == 1'000);
  CHECK(colour_likeness(point(0), point(983)) == 500);
  CHECK(colour_likeness(point(0), point(1'966)) == 200);
  CHECK(colour_likeness(point(0), point(16'384)) == 3);
}
