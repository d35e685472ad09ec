#include "handlaid/files/edited_chart.hpp"

#include "files/mutations.hpp"
#include "handlaid/files/chart_table.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

namespace {

const Chart<> chart = chart_of({"1.34", "2233", "1112"});

Raster<ColourNumber> read(const std::string& text) { return read_edited_chart(text, chart, "my.csv"); }
void refused(const std::string& text, const std::string& problem) {
  CHECK_THROWS_WITH(read(text), contains("my.csv" + problem));
}
/// Cells of a spreadsheet: a letter is its own text, a blank is none.
TypedCells sheet(const std::vector<std::vector<std::string>>& rows) {
  TypedCells table{.file = "my.ods"};
  for (std::size_t row = 0; row < rows.size(); ++row) {
    for (std::size_t column = 0; column < rows[row].size(); ++column) {
      if (rows[row][column].empty()) continue;
      table.cells.push_back(
          {.row = static_cast<int>(row) + 1, .column = static_cast<int>(column) + 1, .text = rows[row][column]});
    }
  }
  return table;
}

}  // namespace

TEST_CASE("what spreadsheets make of a chart is the chart") {
  CHECK(read(write_chart(chart)) == chart.numbers);
  for (const char* text : {
           "1;;3;4\n2;2;3;3\n1;1;1;2\n",                              // semicolons
           "1\t\t3\t4\r\n2\t2\t3\t3\r\n1\t1\t1\t2",                   // tabs, no end of the last line
           "\xef\xbb\xbf\"1\",\"\",\"3\",\"4\"\n2,2,3,3\n1,1,1,2\n",  // a byte-order mark and quotes
           "1,,3,4,,\n2,2,3,3,,\n1,1,1,2,,\n,,,,,\n\n",               // blank columns and lines beyond
           " 1 , , 3,4\n2,2,03,3\n1,1,1,2\n",                         // blanks around, a nought before
       }) {
    CHECK(read(text) == chart.numbers);
  }
  CHECK(read("1,2,3,4\n2,2,3,3\n1,1,1,\n")(3, 2) == 0);
}

TEST_CASE("a cell that is no colour number is named with course, column, line, and what it was") {
  const auto with = [](const std::string& cell) { return "1,,3,4\n2,2," + cell + ",3\n1,1,1,2\n"; };
  refused(with("3.0"),
          ", line 2: course 2, column 3: \"3.0\" is a decimal number; write 1 to 4, or nothing for an "
          "empty cell (it was 3)");
  refused(with("\"3,0\""), ", line 2: course 2, column 3: \"3,0\" is a decimal number");
  for (const char* date : {"03/04/2026", "2026-04-03", "3.4.2026", "4-Mar", "04. Mrz", "Mar 4", "3/4"}) {
    refused(with(date), std::string(", line 2: course 2, column 3: \"") + date +
                            "\" is a date, which the program made of what was typed");
  }
  refused(with("17"), ", line 2: course 2, column 3: 17 is not in the palette of 4");
  refused(with("0"), ", line 2: course 2, column 3: 0 is not in the palette of 4");
  refused(with("-3"), ", line 2: course 2, column 3: \"-3\" is below 1");
  refused(with("#REF!"), ", line 2: course 2, column 3: \"#REF!\" is a fault of a formula");
  refused(with("x3"), ", line 2: course 2, column 3: \"x3\" is not a colour number");
  refused(with("99999999999"), ", line 2: course 2, column 3: \"99999999999\" is not a colour number");
  refused("x,,3,4\n2,2,3,3\n1,1,1,2\n", ", line 1: course 3, column 1: ");
  refused("1,x,3,4\n2,2,3,3\n1,1,1,2\n",
          ", line 1: course 3, column 2: \"x\" is not a colour number; write 1 to 4, or nothing for an empty cell (it "
          "was empty)");
}

TEST_CASE("lines and columns too many or too few are named") {
  refused("1,,3,4\n1,1,1,2\n", ": it has 2 lines for 3 courses: one is missing, perhaps course 2, from where on it");
  refused("1,,3,4\n2,2,3,3\n1,1,1,2\n1,1,1,1\n", ", line 4: \"1\" stands below the 3 courses");
  refused("1,,3,4,1\n2,2,3,3,2\n1,1,1,2,3\n", ", line 1: course 3, column 5: \"1\" stands beyond the 4 columns");
  refused("1,,3\n2,2,3\n1,1,1\n", ": it has 3 columns of cells, the chart 4");
  refused("1,,3,4\n2,2,3\n1,1,1,2\n", ", line 2: course 2 has 3 cells, the chart 4 columns");
  refused("1,,3,4\n\n1,1,1,2\n", ", line 2: course 2 has 1 cell, the chart 4 columns");
  refused("", ": there is nothing in it");
  refused(",,,\n", ": there is nothing in it");
  refused("\xff", ", line 1, column 1: there are bytes that are not UTF-8");

  // what was empty before may lack
  const Chart<> open = chart_of({"12.", "..."});
  CHECK(read_edited_chart("1,2\n", open, "my.csv") == open.numbers);
  CHECK(read_edited_chart("1,2,\n\n", open, "my.csv") == open.numbers);
}

TEST_CASE("cells of a spreadsheet are read without or with the numbers around them") {
  const TypedCells plain = sheet({{"1", "", "3", "4"}, {"2", "2", "3", "3"}, {"1", "1", "1", "2"}});
  CHECK(read_edited_chart(plain, chart) == chart.numbers);
  const auto framed = [](const std::string& cell, const std::string& column = "3", const std::string& course = "2") {
    return sheet({{"course", "1", "2", column, "4", "course"},
                  {"3", "1", "", "3", "4", "3"},
                  {course, "2", "2", cell, "3", "2"},
                  {"1", "1", "1", "1", "2", "1"},
                  {"course", "1", "2", "3", "4", "course"}});
  };
  CHECK(read_edited_chart(framed("3"), chart) == chart.numbers);
  CHECK(read_edited_chart(framed("4"), chart)(2, 1) == 4);
  CHECK(read_edited_chart(framed(""), chart)(2, 1) == 0);
  CHECK_THROWS_WITH(read_edited_chart(framed("9"), chart),
                    contains("my.ods, cell D3: course 2, column 3: 9 is not in the palette of 4"));
  CHECK_THROWS_WITH(read_edited_chart(framed("3", "2"), chart),
                    contains("my.ods, cell D1: \"2\" stands where column 3 should"));
  CHECK_THROWS_WITH(read_edited_chart(framed("3", "3", ""), chart),
                    contains("my.ods, cell A3: nothing stands where course 2 should"));
  TypedCells date = framed("45000");
  for (TypedCell& cell : date.cells) cell.is_date = cell.text == "45000";
  CHECK_THROWS_WITH(read_edited_chart(date, chart), contains("cell D3: course 2, column 3: \"45000\" is a date"));
  CHECK_THROWS_WITH(read_edited_chart(sheet({{"1", "", "3", "4"}, {"1", "1", "1", "2"}}), chart),
                    contains("one is missing, perhaps course 2"));
}

TEST_CASE("columns of a spreadsheet have letters") {
  CHECK(column_letters(1) == "A");
  CHECK(column_letters(26) == "Z");
  CHECK(column_letters(27) == "AA");
  CHECK(column_letters(702) == "ZZ");
  CHECK(column_letters(703) == "AAA");
  CHECK(column_letters(16'384) == "XFD");
}

TEST_CASE("a damaged edited chart is taken or refused") {
  const int readable = handlaid_test::count_readable(write_chart(chart), 4'000, [](const std::string& text) {
    Chart<> edited = chart;
    edited.numbers = read(text);
    edited.check();
  });
  CHECK(readable > 100);
  CHECK(readable < 3'900);
}
