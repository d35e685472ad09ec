#include "handlaid/files/progress_table.hpp"

#include "files/mutations.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

namespace {

const Progress three{.done = {{.course = 1, .time_s = 3600}, {.course = 3, .time_s = 0}, {.course = 2, .time_s = 45}}};
const std::string mark = "0123456789abcdef";

Progress read(const std::string& text) { return read_progress(text, mark, 3, "progress.csv"); }
std::string lines(const std::string& rest) { return "chart," + mark + "\n" + rest; }

}  // namespace

TEST_CASE("progress.csv has the chart's fingerprint first, then courses and minutes") {
  CHECK(write_progress(three, mark) == "chart,0123456789abcdef\ncourse,minutes\n1,60.00\n3,\n2,0.75\n");
  CHECK(read(write_progress(three, mark)) == three);
  CHECK(read(lines("course,minutes\n")) == Progress{});
}

TEST_CASE("every whole second comes back") {
  for (std::int64_t time_s = 1; time_s < 4000; ++time_s) {
    const Progress one{.done = {{.course = 1, .time_s = time_s}}};
    CHECK(read(write_progress(one, mark)) == one);
  }
}

TEST_CASE("the fingerprint is FNV-1a of chart.csv") {
  // RFC 9923, where "a" is af63dc4c8601ec8c.
  CHECK(fingerprint("a") == 0xaf63dc4c8601ec8cULL);
  const Chart<> chart = chart_of({"1"});
  CHECK(chart_fingerprint(chart).size() == 16);
  CHECK(chart_fingerprint(chart) == chart_fingerprint(chart_of({"1"}, 5)));
  CHECK(chart_fingerprint(chart) != chart_fingerprint(chart_of({"2"})));
  CHECK(chart_fingerprint(chart_of({"12", "21"})) != chart_fingerprint(chart_of({"21", "12"})));
}

TEST_CASE("progress is the same as spreadsheets write it") {
  CHECK(read("\xef\xbb\xbf"
             "chart;" +
             mark + "\r\ncourse;minutes\r\n1;60\r\n3;\r\n2;0.75\r\n") == three);
  CHECK(read("chart," + mark + ",,\nCourse, Minutes ,note,\n1,60,slow,\n3,,,\n2,0.75,,\n") == three);
}

TEST_CASE("progress of another chart, or damaged, is refused with the place") {
  CHECK_THROWS_WITH(read(""), contains("progress.csv: it is empty"));
  CHECK_THROWS_WITH(read("course,minutes\n1,60\n"),
                    contains("line 1, column 1: the fingerprint of the chart is missing"));
  CHECK_THROWS_WITH(read("chart,fedcba9876543210\ncourse,minutes\n"),
                    contains("line 1, column 7: it belongs to another chart, \"fedcba9876543210\""));
  CHECK_THROWS_WITH(read(lines("")), contains("it is empty"));
  CHECK_THROWS_WITH(read(lines("course,minutes\n1,60\n1,50\n")),
                    contains("line 4, column 1: course: 1 stands in line 3"));
  CHECK_THROWS_WITH(read(lines("course,minutes\n4,60\n")), contains("line 3, column 1: course: \"4\" is out of range"));
  CHECK_THROWS_WITH(read(lines("course,minutes\n1,an hour\n")), contains("\"an hour\" is not an amount"));
  CHECK_THROWS_WITH(read(lines("course,minutes\n1,-5\n")), contains("\"-5\""));
  CHECK_THROWS_WITH(read(lines("course,minutes\n1,0\n")), contains("no time at all"));
  CHECK_THROWS_WITH(read(lines("course,minutes\n1,70000\n")), contains("out of range"));
  CHECK_THROWS_WITH(read(lines("course,hours\n1,1\n")), contains("no column \"minutes\""));
}

TEST_CASE("damaged progress is read or refused, never worse") {
  const int readable = handlaid_test::count_readable(write_progress(three, mark), 20'000, [](const std::string& text) {
    const Progress again = read(text);
    CHECK(laid_courses(again, 3).size() == 3);
  });
  CHECK(readable > 100);
  CHECK(readable < 19'900);
}
