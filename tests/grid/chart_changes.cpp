#include "handlaid/grid/chart_changes.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

TEST_CASE("differing cells are listed from the bottom course, and counted by their colours") {
  const Chart<> was = chart_of({"1.3", "223"});
  const Chart<> is = chart_of({"123", "113"});
  const std::vector<CellChange> changes = differing_cells(was.numbers, is.numbers);
  CHECK(changes == std::vector<CellChange>{{1, 1, 2, 1}, {1, 2, 2, 1}, {2, 2, 0, 2}});
  CHECK(changed_pairs(changes) == std::vector<ChangedPair>{{2, 1, 2}, {0, 2, 1}});
  CHECK(differing_cells(was.numbers, was.numbers).empty());
  CHECK(changed_pairs({}).empty());
  CHECK_THROWS_WITH(differing_cells(was.numbers, chart_of({"12", "11"}).numbers),
                    contains("one has 3 columns and 2 courses, the other 2 and 2"));
}
