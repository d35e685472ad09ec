#include "handlaid/takeoff/pace.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

TEST_CASE("timed courses carry their place in the order of laying and their pieces") {
  const Chart<> chart = chart_of({"1.2", "...", "111"});  // course 1 at the bottom
  const Progress progress{.done = {{.course = 3, .time_s = 60}, {.course = 2, .time_s = 9}, {.course = 1}}};
  // Course 3 has two cells; course 2 none, course 1 was not timed.
  CHECK(timed_courses(chart, progress, 4) == std::vector<TimedWork>{{.unit = 1, .amount = 8, .seconds = 60}});
  CHECK_THROWS_WITH(timed_courses(chart, {.done = {{.course = 4}}}), contains("course 4"));
}

TEST_CASE("a day's target are the courses that end in its minutes, and what is begun goes on") {
  const LearningCurve steady{.percent = 100, .first_ms = 60'000};  // a minute a piece
  const std::vector<std::int64_t> pieces{10, 10, 10, 45, 5, 0};
  // By hand: they end after 10, 20, 30, 75, 80 and 80 minutes.
  CHECK(day_targets(steady, 1, pieces, 30) == std::vector<int>{3, 0, 3});
  CHECK(day_targets(steady, 1, pieces, 20) == std::vector<int>{2, 1, 0, 3});
  CHECK(day_targets(steady, 1, pieces, 1440) == std::vector<int>{6});
  CHECK(day_targets(steady, 1, {}, 30).empty());
  // At 50 % the second unit takes half the time of the first, the fourth a quarter (Wright 1936).
  const LearningCurve learning{.percent = 50, .first_ms = 60'000};
  const std::vector<std::int64_t> tens{10, 10, 10};
  CHECK(day_targets(learning, 2, tens, 5) == std::vector<int>{1, 1, 1});  // 5, 3.3 and 2.5 minutes
  CHECK(day_targets(learning, 2, tens, 6) == std::vector<int>{1, 2});
}

TEST_CASE("days of no length and works without an end are refused") {
  const std::vector<std::int64_t> pieces{1'000'000'000};
  CHECK_THROWS_WITH(day_targets({.first_ms = 1}, 1, pieces, 0), contains("minutes a day: 0"));
  CHECK_THROWS_WITH(day_targets({.first_ms = 1}, 1, pieces, 1'441), contains("minutes a day: 1441"));
  CHECK_THROWS_WITH(day_targets({.first_ms = 60'000}, 1, pieces, 1), contains("100000 days"));
}
