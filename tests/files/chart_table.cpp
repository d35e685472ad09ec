#include "handlaid/files/chart_table.hpp"

#include "files/mutations.hpp"
#include "handlaid/files/palette_table.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

namespace {

std::string palette_text(const Chart<>& chart) {
  const Tally count = tally(chart);
  return write_palette(Pieces{.per_cell = 2}.from_tally(count, chart.palette) | Spares{}, count);
}

Chart<> round_trip(const Chart<>& chart) { return read_chart(write_chart(chart), palette_text(chart), chart.lattice); }

Raster<ColourNumber> numbers(const std::string& text) { return read_chart_numbers(text, "chart.csv"); }

}  // namespace

TEST_CASE("chart.csv holds the numbers only, the top course first, nothing for an empty cell") {
  CHECK(write_chart(chart_of({"1.3", "223"})) == "1,,3\n2,2,3\n");
  const Raster<ColourNumber> read = numbers("1,,3\n2,2,999\n");
  CHECK(read.width() == 3);
  CHECK(read(0, 0) == 1);
  CHECK(read(1, 0) == 0);
  CHECK(read(2, 1) == 999);
}

TEST_CASE("palette.csv has a line for each colour with all that is counted") {
  Chart<> chart = chart_of({"1.3", "223"});
  chart.palette.entries[1].name = "rust, dark";
  chart.palette.entries[2].lock = Lock::exact_only;
  CHECK(palette_text(chart) ==
        "number,name,colour,lock,cells,runs,courses,pieces,spares,to try,needed\n"
        "1,colour 1,#141414,,1,1,1,2,1,0,3\n"
        "2,\"rust, dark\",#282828,,2,1,1,4,2,0,6\n"
        "3,colour 3,#3c3c3c,exact only,2,2,2,4,2,0,6\n");
}

TEST_CASE("chart.csv, palette.csv and the lattice read back as the same chart") {
  Chart<> chart = chart_of({"1.3", "223", "..."}, 5, 7.3 * mm);
  chart.palette.entries[0].name = "a \"quoted\", name";
  chart.palette.entries[1].name = "";
  chart.palette.entries[4].lock = Lock::used;
  CHECK(round_trip(chart) == chart);
  CHECK(round_trip(chart_of({"1", ".", ".", "2"})) == chart_of({"1", ".", ".", "2"}));  // one column
  CHECK(round_trip(chart_of({".", "1"})) == chart_of({".", "1"}));
  CHECK(round_trip(chart_of({"...", "..."}, 1)) == chart_of({"...", "..."}, 1));
}

TEST_CASE("a chart is the same with CRLF, semicolons, blanks and empty lines at the end") {
  const Raster<ColourNumber> plain = numbers("1,,3\n2,2,3\n");
  CHECK(numbers("1,,3\r\n2,2,3") == plain);
  CHECK(numbers("\xef\xbb\xbf"
                "1;;3\n2;2;3\n") == plain);
  CHECK(numbers(" 1,  ,003\n2,\"2\",3\n\n\n") == plain);
}

TEST_CASE("charts that are none are refused with the place") {
  CHECK_THROWS_WITH(numbers(""), contains("chart.csv: it is empty"));
  CHECK_THROWS_WITH(numbers("1,2\n1,x\n"), contains("chart.csv, line 2, column 3: \"x\" is not a colour number"));
  CHECK_THROWS_WITH(numbers("1,1000\n"), contains("line 1, column 3: \"1000\""));
  CHECK_THROWS_WITH(numbers("1,0\n"), contains("nothing for an empty cell"));
  CHECK_THROWS_WITH(numbers("1,-1\n"), contains("\"-1\""));
  CHECK_THROWS_WITH(numbers("1,2\n1,2,3\n"), contains("line 2, column 5: the line has 3 cells, the first one has 2"));
  CHECK_THROWS_WITH(numbers("1,2\n\n1,2\n"), contains("line 2, column 1: there is an empty line"));
  const std::string palette = palette_text(chart_of({"12"}));
  const Rectangular two{.columns = 2, .rows = 1};
  CHECK_THROWS_WITH(read_chart("1,3\n", palette, two), contains("course 1, column 2 has colour 3"));
  CHECK_THROWS_WITH(read_chart("1,2,2\n", palette, two), contains("3 x 1 numbers for 2 x 1 cells"));
}

TEST_CASE("palettes that are none are refused with the place") {
  const auto read = [](const std::string& text) { return read_palette(text, "palette.csv"); };
  CHECK(read("colour,name,number\n#000001,b,2\n#000000,a,1\n") ==
        Palette{.entries = {{.colour = {0, 0, 0}, .name = "a"}, {.colour = {0, 0, 1}, .name = "b"}}});
  CHECK_THROWS_WITH(read("number,name,color\n1,a,#000000\n"),
                    contains("no column \"colour\", the nearest is \"color\""));
  CHECK_THROWS_WITH(read("number,name,colour\n1,a,#000000\n1,b,#000001\n"),
                    contains("line 3, column 1: number: 1 stands in line 2"));
  CHECK_THROWS_WITH(read("number,name,colour\n2,a,#000000\n"), contains("colour 1 is missing"));
  CHECK_THROWS_WITH(read("number,name,colour\n0,a,#000000\n"), contains("out of range; give 1 to 999"));
  CHECK_THROWS_WITH(read("number,name,colour,lock\n1,a,#000000,no\n"), contains("write nothing, used or exact only"));
  CHECK_THROWS_WITH(read("number,name,colour\n"), contains("it has no colours"));
  CHECK_THROWS_WITH(read(""), contains("it is empty"));
}

TEST_CASE("a palette is not written with the count of another chart") {
  const Chart<> chart = chart_of({"12"});
  CHECK_THROWS_WITH(write_palette(chart | Pieces{}, tally(chart_of({"11"}, 2))), contains("not of the same chart"));
}

TEST_CASE("damaged charts and palettes are read or refused, never worse") {
  const Chart<> chart = chart_of({"1.3", "223", "..1", "333"}, 12);
  const std::string numbers_text = write_chart(chart);
  const int charts = handlaid_test::count_readable(numbers_text, 20'000, [](const std::string& text) {
    const Raster<ColourNumber> read = numbers(text);
    Chart<> again{.lattice = {.columns = read.width(), .rows = read.height()}, .numbers = read};
    CHECK(numbers(write_chart(again)) == read);
  });
  CHECK(charts > 100);
  CHECK(charts < 19'900);
  const int palettes = handlaid_test::count_readable(palette_text(chart), 20'000, [](const std::string& text) {
    const Palette read = read_palette(text, "palette.csv");
    CHECK(read.size() > 0);
    CHECK(read.size() <= most_colours);
  });
  CHECK(palettes > 100);
  CHECK(palettes < 19'900);
}
