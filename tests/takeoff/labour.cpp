#include "handlaid/takeoff/labour.hpp"

#include <cmath>
#include <limits>

#include "handlaid/core/random.hpp"
#include "handlaid/takeoff/learning.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

TEST_CASE("hours are counts times rates, and a colour's hours add up") {  // rates: common practice, no source
  const WorkCounts counts{.board_marks = 269,
                          .runs = 4'000,
                          .pieces = 50'100,
                          .screws = 44,
                          .sections_of = {0, 1'500, 2'500},
                          .pieces_of = {0, 30'100, 20'000}};
  const LabourTakeoff labour = Rates{}(counts);
  CHECK(labour.lines.size() == 4);
  CHECK(labour.seconds() == 269 * 6 + 44 * 20 + 4'000 * 3 + 50'100 * 6);
  CHECK(labour.seconds_of == std::vector<std::int64_t>{0, 1'500 * 3 + 30'100 * 6, 2'500 * 3 + 20'000 * 6});
  // 50,100 pieces at 6 s are 83.5 hours.
  CHECK(Rates{}({.pieces = 50'100}).seconds() == 300'600);
  CHECK(Rates{}({}).lines.empty());
  CHECK_THROWS_WITH(Rates{.seconds_per_piece = -1}({}), contains("seconds-per-piece"));
  CHECK_THROWS_WITH(Rates{.seconds_per_cut = std::numeric_limits<double>::quiet_NaN()}({}), contains("not a number"));
}

TEST_CASE("strips: marking and painting are dealt out to colours") {
  const LabourTakeoff labour = Rates{.seconds_per_strip_mark = 4, .seconds_per_run = 1}(
      {.strip_marks = 30, .strips = 3, .painting_s = 600, .cuts = 100, .sections_of = {0, 10, 20}});
  CHECK(labour.seconds_of == std::vector<std::int64_t>{0, 10 * 5 + 200, 20 * 5 + 400});
  CHECK(labour.seconds() == 120 + 3 * 90 + 600 + 3 * 150 + 400);
}

TEST_CASE("what is made first takes its time by the same rates") {
  const LabourTakeoff pieces = Rates{}({.trial = {.pieces = 60}, .pieces = 100});
  CHECK(pieces.lines.front().step == "make the pilot");
  CHECK(pieces.lines.front().seconds == 60 * 6);
  CHECK(pieces.seconds() == 160 * 6);
  const LabourTakeoff strips = Rates{}({.trial = {.strips = 5, .strip_marks = 43, .painting_s = 700, .cuts = 75}});
  CHECK(strips.seconds() == 5 * (90 + 150) + 43 * 4 + 700 + 75 * 4);
}

TEST_CASE("the textbook's 80 % curve: 100, 80, 70.21, 64, 51.2 hours for units 1, 2, 3, 4, 8") {
  // Wright 1936; the figures are those of operations management textbooks: unit 3 is 3^(log2 0.8) = 0.7021
  const double expected[] = {0, 1, 0.8, 0.7021, 0.64, 0.5956, 0.5617, 0.5345, 0.512, 0.4930, 0.4765};
  for (int unit = 1; unit <= 10; ++unit) {
    CHECK(std::abs(static_cast<double>(learning_factor(unit, 80)) / 1'048'576 - expected[unit]) < 6e-5);
  }
  for (const int percent : {50, 65, 85, 95, 99}) {
    for (const int unit : {1, 2, 3, 7, 20, 100, 167, 1'000, 99'999}) {
      const double exact = std::pow(unit, std::log2(percent / 100.0));
      CHECK(std::abs(static_cast<double>(learning_factor(unit, percent)) / 1'048'576 - exact) < 2e-5);
    }
  }
  CHECK(learning_factor(1'000, 100) == 1'048'576);
}

TEST_CASE("a curve is fitted to what was measured, and only from three units on") {
  std::vector<TimedWork> timed;
  for (int unit = 1; unit <= 20; ++unit) {
    const double seconds = 3'600 * std::pow(unit, std::log2(0.9));
    timed.push_back({unit, 300, static_cast<std::int64_t>(std::lround(seconds))});
  }
  const LearningCurve curve = fit_learning(timed);
  CHECK(curve.percent == 90);
  CHECK(std::abs(static_cast<double>(curve.first_ms) - 12'000) < 20);
  CHECK(curve.scatter_permille <= 1);
  CHECK(fit_learning(std::vector<TimedWork>(timed.begin(), timed.begin() + 2)).percent == 100);
  // Work at a steady pace has no curve, also with noise.
  Random random(13);
  std::vector<TimedWork> steady;
  for (int unit = 1; unit <= 30; ++unit) {
    steady.push_back({unit, 100 + unit, (100 + unit) * 6 + static_cast<std::int64_t>(random.below(61)) - 30});
  }
  CHECK(fit_learning(steady).percent >= 98);
  CHECK(fit_learning({}).units == 0);
  const std::vector<TimedWork> wrong = {{1, 1, 0}};
  CHECK_THROWS_WITH(fit_learning(wrong), contains("0 s"));
}

TEST_CASE("the forecast meets the truth within its range, after a tenth and after a quarter is done") {
  // Made data with a known curve of 92 %, strays of up to 10 %: 100 panels of 120 courses.
  Random random(14);
  int within_tenth = 0;
  int within_quarter = 0;
  double off_tenth = 0;
  double off_quarter = 0;
  for (int panel = 0; panel < 100; ++panel) {
    std::vector<TimedWork> all;
    std::vector<std::int64_t> amounts;
    for (int unit = 1; unit <= 120; ++unit) {
      const auto amount = static_cast<std::int64_t>(60 + random.below(80));
      const double stray = 0.9 + static_cast<double>(random.below(201)) / 1'000;
      const double seconds = static_cast<double>(amount) * 8 * std::pow(unit, std::log2(0.92)) * stray;
      all.push_back({unit, amount, std::lround(seconds)});
      amounts.push_back(amount);
    }
    const auto check = [&](std::size_t done, int& within, double& off) {
      const LearningCurve curve = fit_learning(std::span(all).first(done));
      const LabourForecast rest =
          forecast(curve, static_cast<std::int64_t>(done) + 1, std::span(amounts).subspan(done));
      std::int64_t truth = 0;
      for (std::size_t i = done; i < all.size(); ++i) truth += all[i].seconds;
      within += truth >= rest.low_s && truth <= rest.high_s ? 1 : 0;
      off += std::abs(static_cast<double>(rest.likely_s - truth)) / static_cast<double>(truth) / 100;
    };
    check(12, within_tenth, off_tenth);
    check(30, within_quarter, off_quarter);
  }
  INFO("mean error " << off_tenth << " and " << off_quarter << ", within " << within_tenth << ", " << within_quarter);
  CHECK(off_tenth < 0.10);
  CHECK(off_quarter < 0.05);
  CHECK(within_tenth >= 70);
  CHECK(within_quarter >= 70);
}

TEST_CASE("with little measured the forecast is wide, with nothing left it is nothing") {
  const std::vector<TimedWork> one = {{1, 100, 600}};
  const std::vector<std::int64_t> amounts(10, 100);
  const LabourForecast rest = forecast(fit_learning(one), 2, amounts);
  CHECK(rest.likely_s == 6'000);
  CHECK(rest.low_s < 4'500);
  CHECK(rest.high_s > 7'500);
  CHECK(forecast(fit_learning(one), 2, {}).likely_s == 0);
}
