#include "handlaid/takeoff/batches.hpp"

#include <map>
#include <set>

#include "handlaid/takeoff/paint_days.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

static_assert(Accepts<Batches, StripTakeoff> && !Accepts<Batches, Chart<>>);

namespace {

StripTakeoff banded(int courses, int columns, int colours) {
  std::vector<std::string> rows;
  for (int y = 0; y < courses; ++y) {
    rows.emplace_back();
    for (int x = 0; x < columns; ++x) {
      rows.back() += static_cast<char>('1' + (x * (y % 5 + 1) / 7 + y / 3 + x * y / 13) % colours);
    }
  }
  return chart_of(rows, colours) | Strips{};
}

/// No two sections that touch are wet together, and every section is painted in one sitting.
void check_sittings(const StripTakeoff& strips, const Batch& batch, const RoundPlan& plan) {
  std::map<std::pair<std::size_t, std::size_t>, int> sitting;
  for_each_link(strips, batch, [&](std::size_t strip, std::size_t section, std::size_t chain, std::size_t link) {
    sitting[{strip, section}] = plan.round_of.at(chain).at(link);
  });
  std::int64_t sections = 0;
  for (const std::size_t strip : batch.strips) {
    const auto& list = strips.strips[strip].sections;
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (list[i].number == 0) continue;
      ++sections;
      REQUIRE(sitting.count({strip, i}) == 1);
      if (i + 1 < list.size() && list[i + 1].number != 0) REQUIRE(sitting[{strip, i}] != sitting[{strip, i + 1}]);
    }
  }
  REQUIRE(sections == batch.sections);
  REQUIRE(static_cast<std::int64_t>(sitting.size()) == sections);
}

}  // namespace

TEST_CASE("trade arithmetic: 167 strips in batches of 10 to 15 make 17 to 12 batches") {  // common practice, no source
  const StripTakeoff strips = chart_of(std::vector<std::string>(167, "12"), 2) | Strips{};
  CHECK((strips | Batches{.strips_per_batch = 10}).batches.size() == 17);
  CHECK((strips | Batches{.strips_per_batch = 12}).batches.size() == 14);
  CHECK((strips | Batches{.strips_per_batch = 15}).batches.size() == 12);
}

TEST_CASE("each strip is in one batch, neighbouring courses together unless colours decide") {
  const StripTakeoff strips = banded(40, 60, 9);
  for (const BatchOrder order : {BatchOrder::contiguous, BatchOrder::by_colours}) {
    const BatchTakeoff takeoff = strips | Batches{.strips_per_batch = 7, .order = order};
    std::set<std::size_t> seen;
    for (const Batch& batch : takeoff.batches) {
      for (const std::size_t strip : batch.strips) CHECK(seen.insert(strip).second);
      if (order == BatchOrder::contiguous) CHECK(batch.strips.back() - batch.strips.front() + 1 == batch.strips.size());
    }
    CHECK(seen.size() == strips.strips.size());
  }
}

TEST_CASE("sections that touch are never wet together, in any plan of any batch") {
  const StripTakeoff gaps = chart_of({"11.2233", "123.321", ".1.2.3.", "1212121"}, 3) | Strips{};
  for (const Batch& batch : (gaps | Batches{.strips_per_batch = 2}).batches) {
    for (const RoundPlan& plan : batch.frontier.plans) check_sittings(gaps, batch, plan);
  }
  const StripTakeoff strips = banded(36, 80, 9);
  for (const Batch& batch : (strips | Batches{}).batches) {
    REQUIRE(batch.frontier.plans.size() > 1);
    for (const RoundPlan& plan : batch.frontier.plans) check_sittings(strips, batch, plan);
    CHECK(batch.frontier.rounds_for_once <= batch.frontier.clique + 1);
    CHECK(batch.frontier.rounds_for_once < batch.frontier.kinds);
  }
}

TEST_CASE("the recommended way takes no more days than any other, and one colour at a time is among them") {
  const StripTakeoff strips = banded(36, 80, 9);
  const BatchTakeoff batches = strips | Batches{};
  const PaintTakeoff paint = strips | Painting{};
  for (const double drying : {0.0, 30.0, 60.0, 240.0, 1'440.0}) {
    const PaintSchedule schedule = PaintDays{.drying_minutes = drying}(batches, paint);
    const PaintWay& best = schedule.ways.at(schedule.recommended);
    for (const PaintWay& way : schedule.ways) {
      CHECK(best.days <= way.days);
      if (best.days == way.days) CHECK(best.openings <= way.openings);
      CHECK(way.least_openings <= way.openings);
      CHECK(way.edges == schedule.ways.front().edges);  // each mark is masked once a coat, whatever the order
    }
    CHECK(schedule.ways.back().sittings == 0);
    CHECK(schedule.ways.front().waits < schedule.ways.back().waits);
    CHECK(schedule.ways.front().openings > schedule.ways.back().openings);
  }
}

TEST_CASE("days by hand: two batches on a bench, 30 minutes of work a sitting, an hour to dry, two hours a day") {
  // Strips of one section each: one sitting a coat. 60 sections at half a minute, pots open in no time.
  const StripTakeoff strips = chart_of(std::vector<std::string>(120, "1"), 1) | Strips{};
  const BatchTakeoff batches = strips | Batches{.strips_per_batch = 60};
  REQUIRE(batches.batches.size() == 2);
  const PaintTakeoff paint = strips | Painting{.coats = 2, .primer_coats = 0};
  const PaintDays pace{.bench_strips = 120, .drying_minutes = 60, .hours_a_day = 2, .minutes_per_opening = 0};
  // A 0:00-0:30, B 0:30-1:00, A dry at 1:30: 1:30-2:00. B dry at 2:00: next day.
  CHECK(pace(batches, paint).ways.at(0).days == 2);
  CHECK(pace(batches, paint).ways[0].waits == 4);
  CHECK(pace(batches, paint).ways[0].work_s == 4 * 1'800);
  // With half an hour more the same day does: B 2:00-2:30.
  PaintDays longer = pace;
  longer.hours_a_day = 2.5;
  CHECK(longer(batches, paint).ways.at(0).days == 1);
  // One batch at a time: A 0:00-0:30, 1:30-2:00, dry at 3:00: day 2: B 0:00-0:30, 1:30-2:00.
  PaintDays narrow = pace;
  narrow.bench_strips = 60;
  CHECK(narrow(batches, paint).ways.at(0).days == 2);
  // A sitting that the evening breaks off goes on the next day: 4 x 30 minutes in days of 12.
  PaintDays short_days = pace;
  short_days.hours_a_day = 0.2;
  CHECK(short_days(batches, paint).ways.at(0).days == 10);
}

TEST_CASE("batches of no sense are refused, with both sides") {
  const StripTakeoff strips = banded(4, 8, 3);
  CHECK_THROWS_WITH((strips | Batches{.strips_per_batch = 0}), contains("strips-per-batch: 0"));
  const BatchTakeoff batches = strips | Batches{};
  const PaintTakeoff paint = strips | Painting{};
  CHECK_THROWS_WITH(PaintDays{.bench_strips = 10}(batches, paint),
                    contains("the bench holds 10 strips, a batch has 12; make batches of 10 or fewer"));
  CHECK_THROWS_WITH(PaintDays{.hours_a_day = 0}(batches, paint), contains("hours-a-day"));
  CHECK_THROWS_WITH(PaintDays{.drying_minutes = -1}(batches, paint), contains("drying-minutes"));
  CHECK((StripTakeoff{} | Batches{}).batches.empty());
  CHECK(PaintDays{}(StripTakeoff{} | Batches{}, PaintTakeoff{}).ways.at(0).days == 0);
}
