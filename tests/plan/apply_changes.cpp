#include "handlaid/plan/apply_changes.hpp"

#include "handlaid/files/chart_table.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

namespace {

Chart<> small() { return chart_of({"1.34", "2233", "1112"}); }

Chart<> changed_by(const std::string& text, const Stock* stock = nullptr) {
  Chart<> chart = small();
  apply_changes(chart, read_colour_changes(text, "my.txt"), stock);
  chart.check();
  return chart;
}
std::string cells_after(const std::string& text) { return write_chart(changed_by(text)); }

}  // namespace

TEST_CASE("changes by hand change cells and palette, and nothing else") {
  CHECK(cells_after("merge 3 into 1") == "1,,1,4\n2,2,1,1\n1,1,1,2\n");
  CHECK(changed_by("merge 3 into 1").palette == small().palette);
  CHECK(cells_after("swap 1 and 2") == "2,,3,4\n1,1,3,3\n2,2,2,1\n");
  CHECK(changed_by("swap 1 and 2").palette == small().palette);

  const Chart<> renumbered = changed_by("number 1 as 2");
  CHECK(write_chart(renumbered) == "2,,3,4\n1,1,3,3\n2,2,2,1\n");
  CHECK(renumbered.palette[1] == small().palette[2]);
  CHECK(renumbered.palette[2] == small().palette[1]);

  const Chart<> split = changed_by("split 1 at course 1 columns 2-4 as 5 #a0b0c0 \"moss\"");
  CHECK(write_chart(split) == "1,,3,4\n2,2,3,3\n1,5,5,2\n");
  REQUIRE(split.palette.size() == 5);
  CHECK(split.palette[5] == PaletteEntry{.colour = {160, 176, 192}, .name = "moss"});

  const Chart<> replaced = changed_by("replace 4 by #010203");
  CHECK(replaced.numbers == small().numbers);
  CHECK(replaced.palette[4] == PaletteEntry{.colour = {1, 2, 3}});

  CHECK(cells_after("lay 4 at courses 1-2 columns 1 3-4") == "1,,3,4\n4,2,4,4\n4,1,4,4\n");
  CHECK(cells_after("lay nothing at column 4") == "1,,3,\n2,2,3,\n1,1,1,\n");
  CHECK(cells_after("lay 2 at course 3") == "2,2,2,2\n2,2,3,3\n1,1,1,2\n");
}

TEST_CASE("each change sees what those before it did, and says how many cells it changed") {
  Chart<> chart = small();
  const auto made = apply_changes(
      chart, read_colour_changes(
                 "merge 4 into 3\nsplit 3 at course 3 as 5 #000000\nmerge 5 into 1\nreplace 2 by #111111", "my.txt"));
  CHECK(write_chart(chart) == "1,,1,1\n2,2,3,3\n1,1,1,2\n");
  CHECK(made == std::vector<MadeChange>{{"merge 4 into 3", 1},
                                        {"split 3 at course 3 as 5 #000000", 2},
                                        {"merge 5 into 1", 2},
                                        {"replace 2 by #111111", 3}});
}

TEST_CASE("with a stock, new colours are named in it") {
  const Stock stock{.colours = {{.name = "colour 1", .colour = {20, 20, 20}}, {.name = "slate", .colour = {7, 8, 9}}}};
  CHECK(changed_by("replace 4 by \"slate\"", &stock).palette[4] == PaletteEntry{.colour = {7, 8, 9}, .name = "slate"});
  CHECK(changed_by("split 1 at course 1 as 5 \"slate\"", &stock).palette[5].name == "slate");
  const auto refused = [&](const std::string& text, const std::string& problem) {
    CHECK_THROWS_WITH(changed_by(text, &stock), contains("my.txt, line 1: " + problem));
  };
  refused("replace 4 by \"slat\"", "the stock has no colour \"slat\", the nearest is \"slate\"");
  refused("replace 4 by \"colour 1\"", "\"colour 1\" is colour 1 already; merge or lay that colour");
  refused("replace 1 by \"colour 1\"", "\"colour 1\" is colour 1 already; leave the line out");
  refused("replace 4 by #070809", "the colours of this plan come from a stock");
  CHECK_THROWS_WITH(changed_by("replace 4 by \"slate\""), contains("there is no stock with a colour \"slate\""));
}

TEST_CASE("a colour that the job forbids does not come in by hand") {
  const std::vector<PaletteEntry> forbidden{{.colour = {200, 30, 30}, .name = "cherry"}};
  const auto change = [&](const std::string& text, const Stock* stock = nullptr) {
    Chart<> chart = small();
    apply_changes(chart, read_colour_changes(text, "my.txt"), stock, forbidden);
  };
  const Stock stock{
      .colours = {{.name = "cherry", .colour = {200, 30, 30}}, {.name = "rose", .colour = {201, 30, 30}}}};
  CHECK_THROWS_WITH(change("replace 4 by \"cherry\"", &stock), contains("line 1: \"cherry\" is forbidden by the job"));
  CHECK_NOTHROW(change("replace 4 by \"rose\"", &stock));  // in a stock colours are forbidden by their names
  CHECK_THROWS_WITH(change("replace 4 by #c81e1e"), contains("#c81e1e is forbidden by the job"));
  CHECK_THROWS_WITH(change("split 1 at course 1 as 5 #c91e1e"), contains("like a colour that is"));
  CHECK_NOTHROW(change("replace 4 by #1e1ec8"));
}

TEST_CASE("a change that cannot be made is named by its line, and nothing is changed") {
  const auto refused = [](const std::string& line, const std::string& problem, const Chart<>& before = small()) {
    Chart<> chart = before;
    CHECK_THROWS_WITH(apply_changes(chart, read_colour_changes("lay 1 at column 1\n" + line, "my.txt")),
                      contains("my.txt, line 2: " + problem));
    CHECK(chart == before);
  };
  refused("merge 7 into 3", "colour 7 is not in the palette, which ends at 4");
  refused("merge 3 into 7", "colour 7 is not in the palette");
  refused("merge 3 into 3", "colour 3 is changed into itself");
  refused("swap 3 and 3", "colour 3 is changed into itself");
  refused("number 3 as 3", "colour 3 is changed into itself");
  refused("replace 5 by #000000", "colour 5 is not in the palette");
  refused("lay 5 at column 1", "colour 5 is not in the palette");
  refused("lay 1 at course 4", "the chart has 3 courses, not 4");
  refused("lay 1 at columns 3-5", "the chart has 4 columns, not 5");
  refused("split 4 at course 1 as 5 #000000", "there is no cell of colour 4: nothing would be split off");
  refused("split 4 at course 3 as 5 #000000", "all cells of colour 4 are there");
  refused("split 3 at course 3 as 6 #000000", "6 is not the next number; split off colour 5");
  refused("split 3 at course 9 as 5 #000000", "the chart has 3 courses, not 9");

  Chart<> locked = small();
  locked.palette.entries[1].lock = Lock::used;
  locked.palette.entries[2].lock = Lock::exact_only;
  refused("merge 2 into 1", "colour 2 is locked by the job", locked);
  refused("swap 1 and 2", "colour 2 is locked by the job", locked);
  refused("number 1 as 2", "colour 2 is locked by the job", locked);
  refused("replace 2 by #000000", "colour 2 is locked by the job", locked);
  refused("merge 1 into 3", "colour 3 is locked by the job for cells of that very colour", locked);
  apply_changes(locked, read_colour_changes("merge 1 into 2", "my.txt"));
  CHECK(tally(locked).cells[1] == 0);
}
