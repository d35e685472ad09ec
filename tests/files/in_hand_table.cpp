#include "handlaid/files/in_hand_table.hpp"

#include "files/mutations.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

const std::string mark = "0123456789abcdef";
const std::vector<std::int64_t> three{250, 0, 17};

std::vector<std::int64_t> read(const std::string& text) { return read_in_hand(text, mark, 3, "in_hand.csv"); }
std::string lines(const std::string& rest) { return "chart," + mark + "\n" + rest; }

}  // namespace

TEST_CASE("in_hand.csv has the chart's fingerprint first, then a line for each colour") {
  CHECK(write_in_hand(three, mark) == "chart,0123456789abcdef\nnumber,pieces\n1,250\n2,0\n3,17\n");
  CHECK(read(write_in_hand(three, mark)) == three);
  CHECK(read("chart;" + mark + "\r\npieces;number\r\n17;3\r\n250;1\r\n0;2\r\n") == three);
}

TEST_CASE("counts of another chart, or damaged, are refused with the place") {
  CHECK_THROWS_WITH(read("chart,77\nnumber,pieces\n"), contains("line 1, column 7: it belongs to another chart"));
  CHECK_THROWS_WITH(read("number,pieces\n1,2\n"), contains("the fingerprint of the chart is missing"));
  CHECK_THROWS_WITH(read(lines("number,pieces\n1,2\n3,4\n")), contains("colour 2 is missing"));
  CHECK_THROWS_WITH(read(lines("number,pieces\n1,2\n1,4\n")),
                    contains("line 4, column 1: number: 1 stands there twice"));
  CHECK_THROWS_WITH(read(lines("number,pieces\n4,2\n")), contains("\"4\" is out of range"));
  CHECK_THROWS_WITH(read(lines("number,pieces\n1,many\n")), contains("\"many\" is not a whole number"));
  CHECK_THROWS_WITH(read(lines("number,pieces\n1,-1\n")), contains("\"-1\""));
}

TEST_CASE("damaged counts are read or refused, never worse") {
  const int readable = handlaid_test::count_readable(write_in_hand(three, mark), 20'000, [](const std::string& text) {
    const std::vector<std::int64_t> again = read(text);
    CHECK(again.size() == 3);
  });
  CHECK(readable > 100);
  CHECK(readable < 19'900);
}
