#include "handlaid/takeoff/screws.hpp"

#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("a screw holds, stays inside, and no longer common one would do") {
  for (const LengthUnit unit : {LengthUnit::millimetres, LengthUnit::inches}) {
    for (int through = 3; through <= 60; ++through) {
      for (int into = 6; into <= 60; ++into) {
        const Length board = Length::from_um(through * 1'000);
        const Length timber = Length::from_um(into * 1'000);
        const Length screw = screw_into(board, timber, unit);
        if (screw == Length{}) continue;
        REQUIRE(screw <= board + timber - 2 * mm);
        REQUIRE(screw >= board + 8 * mm);
        REQUIRE(screw <= board + 30 * mm);
      }
    }
  }
  // By hand: 9 mm of plywood on a rail that is 19 mm deep leave 26 mm: a screw of 25 mm, or of 1 inch.
  CHECK(screw_into(9 * mm, 19 * mm, LengthUnit::millimetres) == 25 * mm);
  CHECK(screw_into(9 * mm, 19 * mm, LengthUnit::inches) == Length::from_um(25'400));
  CHECK(screw_into(38 * mm, 38 * mm, LengthUnit::millimetres) == 60 * mm);
  CHECK(screw_into(9 * mm, 8 * mm, LengthUnit::millimetres) == Length{});     // 15 mm: no common one holds by 8 mm
  CHECK(screw_into(150 * mm, 40 * mm, LengthUnit::millimetres) == Length{});  // longer than any
}

TEST_CASE("screws along a timber stand evenly between its ends, the same from either") {
  CHECK(screws_along(696 * mm, 2) == std::vector<Length>{50 * mm, 646 * mm});
  CHECK(screws_along(700 * mm, 1) == std::vector<Length>{350 * mm});
  CHECK(screws_along(100 * mm, 3) == std::vector<Length>{25 * mm, 50 * mm, 75 * mm});
  CHECK(screws_along(700 * mm, 0).empty());
  for (const Length timber : {40 * mm, 199 * mm, 200 * mm, 476 * mm, 800 * mm, 2'400 * mm}) {
    for (const Length spacing : {1 * mm, 60 * mm, 100 * mm, 150 * mm, 5'000 * mm}) {
      const std::vector<Length> places = screws_along(timber, screws_on(timber, spacing));
      REQUIRE(places.size() >= 2);
      const Length apart = places[1] - places[0];
      CHECK(apart <= spacing + Length::from_um(1));
      if (places.size() == 2) continue;  // one fewer would be too far apart
      CHECK((places.back() - places.front()).um() > spacing.um() * static_cast<std::int64_t>(places.size() - 2));
    }
  }
  for (std::int64_t count = 2; count < 40; ++count) {
    const std::vector<Length> places = screws_along(1'200 * mm, count);
    REQUIRE(places.size() == static_cast<std::size_t>(count));
    for (std::size_t i = 0; i < places.size(); ++i) {
      const std::int64_t off = (places[i] + places[places.size() - 1 - i] - 1'200 * mm).um();
      CHECK((off >= -1 && off <= 1));
    }
  }
}
