#include "handlaid/files/fabrication_tables.hpp"

#include "handlaid/files/csv_table.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;

TEST_CASE("frame.csv lists every cut of every length") {
  const FrameTakeoff frame = Frame{}({800 * mm, 600 * mm});
  const SheetTakeoff sheets = SheetGoods{}({800 * mm, 600 * mm});
  const std::string text = write_frame(frame, sheets);
  CsvTable table(text, "frame.csv", "a table");
  const int part = table.need("part");
  const int number = table.need("number");
  const int count = table.need("count on each");
  std::int64_t rails = 0;
  std::int64_t panels = 0;
  while (table.next()) {
    const std::string which(table.text(number));
    const std::int64_t times = which.find(" to ") == which.npos ? 1 : 2;
    if (table.text(part) == "panel") panels += table.whole(count, 1, 100, "");
    if (table.text(part) == "top and bottom rail") rails += times * table.whole(count, 1, 100, "");
  }
  CHECK(panels == 1);
  CHECK(rails == 2);
  CHECK(write_frame(std::nullopt, std::nullopt) == "stock,number,part,length mm,width mm,count on each,left over mm\n");
}

TEST_CASE("cuts.csv: each cut from the datum, or each blade of the gang") {
  const auto strips = chart_of({"1122"}, 2, 7.5 * mm) | Strips{};
  const CuttingTakeoff cutting = strips | Cutting{.pieces_per_cell = 2, .pitch = 7.5 * mm};
  CHECK(write_cuts(cutting, nullptr) ==
        "cut,mm from the datum\n1,3.75\n2,7.5\n3,11.25\n4,15\n5,18.75\n6,22.5\n7,26.25\n");
  const Gang gang = BladeGang{.spacers = {{1.65 * mm, 9}, {0.1 * mm, 9}}, .most_blades = 3}(7.5 * mm, 2);
  // Gaps of 3.35 mm: 2 x 1.65 and half a shim would do; whole ones are 50 um off, this way, then the other.
  const std::string text = write_cuts(cutting, &gang);
  CsvTable table(text, "cuts.csv", "a table");
  std::int64_t cuts = 0;
  while (table.next()) {
    ++cuts;
    CHECK(table.text(table.need("blade")).empty() == (cuts > 3));
    CHECK(table.text(table.need("spacers before it")).empty() == (cuts == 1 || cuts > 3));
  }
  CHECK(cuts == 7);
  CHECK(text.find("\n1,3.75,1,3.75,0,\n") != std::string::npos);
  CHECK(text.find(" x 1.65 mm") != std::string::npos);
}

TEST_CASE("hours.csv: steps, their sum, and each colour") {
  const auto chart = chart_of({"12"}, 2);
  const LabourTakeoff labour{.lines = {{"lay pieces", 600, 6'000, 3'600}, {"prime and paint", 0, 0, 900}},
                             .seconds_of = {0, 1'800, 0}};
  CHECK(write_hours(labour, chart.palette) ==
        "step,count,seconds each,hours\nlay pieces,600,6.000,1.00\nprime and paint,,,0.25\nall,,,1.25\n"
        "\"of it colour 1, colour 1\",,,0.50\n");
}
