#include "handlaid/takeoff/progress.hpp"

#include "handlaid/takeoff/pieces.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

TEST_CASE("what is done and what is left are counted by hand") {
  const Chart<> chart = chart_of({"1.33", "1123", "2222"}, 4);  // course 3 at the top
  const Remaining rest = remaining(chart, {.done = {{.course = 2, .time_s = 600}}}, 2);
  CHECK(rest.lines == std::vector<RemainingLine>{{.number = 1, .done = 4, .left = 2},
                                                 {.number = 2, .done = 2, .left = 8},
                                                 {.number = 3, .done = 2, .left = 4},
                                                 {.number = 4, .done = 0, .left = 0}});
  CHECK(rest.courses == std::vector<int>{1, 3});
  CHECK(rest.course_pieces == std::vector<std::int64_t>{8, 6});
  CHECK(rest.left() == 14);
}

TEST_CASE("done and left together are the whole, whichever courses are laid") {
  const Chart<> chart = chart_of({"1.33", "1123", "2222", "3311"}, 3);
  const PieceTakeoff whole = chart | Pieces{.per_cell = 3};
  for (unsigned set = 0; set < 16; ++set) {
    Progress progress;
    for (int course = 4; course >= 1; --course) {
      if ((set >> (course - 1) & 1) != 0) progress.done.push_back({.course = course});
    }
    const Remaining rest = remaining(chart, progress, 3);
    for (std::size_t i = 0; i < whole.lines.size(); ++i) {
      CHECK(rest.lines.at(i).done + rest.lines.at(i).left == whole.lines.at(i).pieces);
    }
    CHECK(rest.courses.size() + progress.done.size() == 4);
  }
}

TEST_CASE("progress that cannot be is refused") {
  const Chart<> chart = chart_of({"12", "21"});
  CHECK_THROWS_WITH(remaining(chart, {.done = {{.course = 3}}}), contains("course 3: the chart has courses 1 to 2"));
  CHECK_THROWS_WITH(remaining(chart, {.done = {{.course = 0}}}), contains("course 0"));
  CHECK_THROWS_WITH(remaining(chart, {.done = {{.course = 1}, {.course = 1}}}), contains("it stands there twice"));
  CHECK_THROWS_WITH(remaining(chart, {.done = {{.course = 1, .time_s = -1}}}), contains("-1 seconds"));
  CHECK_THROWS_WITH(remaining(chart, {}, 0), contains("pieces-per-cell: 0"));
}
