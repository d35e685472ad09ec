#include "handlaid/files/takeoff_tables.hpp"

#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

TEST_CASE("takeoff.csv has a line for each colour that is needed") {
  const PieceTakeoff takeoff = chart_of({"1133", "1.33"}, 3) | Pieces{.per_cell = 2} | Spares{.loss = 0};
  CHECK(write_takeoff(takeoff) ==
        "number,name,colour,cells,pieces,spares,to try,needed\n"
        "1,colour 1,#141414,3,6,0,0,6\n"
        "3,colour 3,#3c3c3c,4,8,0,0,8\n");
  const Stock stock{.colours = {{.name = "colour 1", .packs = {{5, 120, 1, "A-5"}, {2, 60, 1, "A-2"}}, .in_hand = 0},
                                {.name = "colour 3", .packs = {{5, 105}}, .in_hand = 9}},
                    .currency = "EUR"};
  const Order order = takeoff | choose_packs(stock);
  CHECK(write_takeoff(takeoff, order) ==
        "number,name,colour,cells,pieces,spares,to try,needed,in hand,packs,articles,bought,left over,cost EUR\n"
        "1,colour 1,#141414,3,6,0,0,6,0,1 of 5 + 1 of 2,A-5 + A-2,7,1,1.80\n"
        "3,colour 3,#3c3c3c,4,8,0,0,8,8,,,0,0,0.00\n");
  CHECK_THROWS_WITH(write_takeoff(chart_of({"22"}) | Pieces{}, order), contains("not of this takeoff"));
}

TEST_CASE("strips.csv has a line for each section, gaps without a number") {
  const Chart<> chart = chart_of({"1133", "1.22"}, 3, 12.7 * mm);
  CHECK(write_strips(chart | Strips{}, chart.palette) ==
        "course,section,number,name,first column,last column,cells,start mm,end mm\n"
        "1,1,1,colour 1,1,1,1,0,12.7\n"
        "1,2,,,2,2,1,12.7,25.4\n"
        "1,3,2,colour 2,3,4,2,25.4,50.8\n"
        "2,1,1,colour 1,1,2,2,0,25.4\n"
        "2,2,3,colour 3,3,4,2,25.4,50.8\n");
}

TEST_CASE("marks.csv has every mark in mm, exactly, and in inches") {
  const BoardMarks marks = Rectangular{.columns = 2, .rows = 1, .pitch = 7.3 * mm} | BoardMarking{};
  CHECK(write_marks(marks) ==
        "direction,mark,mm,in\n"
        "across,0,0,0.000\n"
        "across,1,7.3,0.287\n"
        "across,2,14.6,0.575\n"
        "up,0,0,0.000\n"
        "up,1,7.3,0.287\n");
}
