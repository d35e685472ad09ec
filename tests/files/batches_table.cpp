#include "handlaid/files/batches_table.hpp"

#include <set>

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

TEST_CASE("batches.csv lists the stretches in the order of work") {
  const Chart<> chart = chart_of({"2211", "11.3", "1122"}, 3, 12.7 * mm);
  const StripTakeoff strips = chart | Strips{};
  const BatchTakeoff batches = strips | Batches{.strips_per_batch = 2};
  // One colour at a time: each colour is a sitting; a gap counts as a section, as in strips.csv.
  CHECK(write_batches(strips, batches, 0, chart.palette) ==
        "batch,courses,sitting,number,name,course,section,from mm,to mm\n"
        "1,1-2,1,1,colour 1,1,1,0,25.4\n"
        "1,1-2,1,1,colour 1,2,1,0,25.4\n"
        "1,1-2,2,2,colour 2,1,2,25.4,50.8\n"
        "1,1-2,3,3,colour 3,2,3,38.1,50.8\n"
        "2,3,1,1,colour 1,3,2,25.4,50.8\n"
        "2,3,2,2,colour 2,3,1,0,25.4\n");
  CHECK_THROWS_WITH(write_batches(strips, batches, -1, chart.palette), contains("sittings"));
  CHECK_THROWS_WITH(write_batches(chart_of({"12"}) | Strips{}, batches, 2, chart.palette), contains("other strips"));
  CHECK_THROWS_WITH(write_batches(strips, batches, 2, Palette{}), contains("colour number"));
}

TEST_CASE("in the order of work every stretch stands once, in sittings from 1, touching ones apart") {
  std::vector<std::string> rows;
  for (int y = 0; y < 30; ++y) {
    rows.emplace_back();
    for (int x = 0; x < 40; ++x) rows.back() += static_cast<char>('1' + (x * (y % 5 + 1) / 7 + x * y / 13) % 7);
  }
  const StripTakeoff strips = chart_of(rows, 7) | Strips{};
  const BatchTakeoff batches = strips | Batches{};
  for (int sittings = 0; sittings <= batches.most_sittings(); ++sittings) {
    if (sittings == 1) continue;
    for (const Batch& batch : batches.batches) {
      const auto order = paint_order(strips, batch, sittings);
      CHECK(static_cast<std::int64_t>(order.size()) == batch.sections);
      std::set<std::pair<int, int>> places;
      std::set<std::pair<int, int>> pots;
      int before = 1;
      int touching = 0;
      for (const PaintStretch& a : order) {
        CHECK((a.sitting == before || a.sitting == before + 1));
        before = a.sitting;
        places.insert({a.course, a.section});
        pots.insert({a.sitting, a.number});
        for (const PaintStretch& b : order) {
          touching += a.course == b.course && a.end == b.start && a.sitting == b.sitting ? 1 : 0;
        }
      }
      CHECK(places.size() == order.size());
      CHECK(touching == 0);
      if (sittings == 0) {
        CHECK(before == batch.frontier.kinds);
      } else {
        CHECK(before <= sittings);
        CHECK(static_cast<std::int64_t>(pots.size()) == batch.plan_within(sittings).take_ups);
      }
    }
  }
}

TEST_CASE("courses of a batch are told shortly") {
  const StripTakeoff strips = chart_of({"1", "1", "1", "1", "1", "1"}) | Strips{};
  CHECK(courses_text(strips, {.strips = {0, 1, 2}}) == "1-3");
  CHECK(courses_text(strips, {.strips = {4, 0, 3}}) == "1 4-5");
  CHECK(courses_text(strips, {.strips = {5}}) == "6");
}
