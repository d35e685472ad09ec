#include "handlaid/files/typed_course.hpp"

#include "files/mutations.hpp"
#include "handlaid/files/checks_table.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

TEST_CASE("a course is read as it is typed") {
  using Cells = std::vector<ColourNumber>;
  CHECK(read_typed_course("3x5 4 2x7") == Cells{5, 5, 5, 4, 7, 7});
  CHECK(read_typed_course(" 3 x 5\t4 , 2*7 ") == Cells{5, 5, 5, 4, 7, 7});
  CHECK(read_typed_course("2 × 5, 1X999") == Cells{5, 5, 999});
  CHECK(read_typed_course("2\u00a0×\u00a05").size() == 2);  // copied from the book
  CHECK(read_typed_course("1,,2,") == Cells{1, 0, 2, 0});   // a line of chart.csv
  CHECK(read_typed_course("- 2xempty 0 1") == Cells{0, 0, 0, 0, 1});
}

TEST_CASE("what is no course is refused with the word in fault") {
  CHECK_THROWS_WITH(read_typed_course(""), contains("nothing is typed"));
  CHECK_THROWS_WITH(read_typed_course("3x5 red"), contains("\"red\" is no colour number"));
  CHECK_THROWS_WITH(read_typed_course("3x5 1000"), contains("\"1000\" is no colour number"));
  CHECK_THROWS_WITH(read_typed_course("3x"), contains("no colour at its end"));
  CHECK_THROWS_WITH(read_typed_course("x3"), contains("no count"));
  CHECK_THROWS_WITH(read_typed_course("0x3"), contains("no count"));
  CHECK_THROWS_WITH(read_typed_course("100001x3"), contains("no count"));
  CHECK_THROWS_WITH(read_typed_course("60000x3 60000x3"), contains("more than 100000"));
}

TEST_CASE("a damaged line is taken or refused, never anything else") {
  CHECK(handlaid_test::count_readable("3x5 4,2 x 7; - 12*3 empty", 2'000, [](const std::string& text) {
          for (const ColourNumber number : read_typed_course(text)) REQUIRE(number <= most_colours);
        }) > 100);
}

TEST_CASE("checks.csv by hand") {
  Chart<> chart{.lattice = {.columns = 3, .rows = 1}, .numbers = {3, 1}, .palette = palette_of({{}, {}})};
  chart.numbers(0, 0) = chart.numbers(1, 0) = 2;
  CHECK(write_checks(chart | course_checks) == "course,columns,cells,runs,check sum,check weighted\n1,3,2,2,4,6\n");
}
