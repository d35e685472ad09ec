#include "handlaid/files/csv.hpp"

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using Lines = std::vector<std::vector<std::string>>;

namespace {

Lines read(std::string_view text) {
  CsvReader reader(text, "table.csv");
  Lines lines;
  std::vector<CsvField> fields;
  while (reader.next(fields)) {
    lines.emplace_back();
    for (const CsvField& field : fields) lines.back().push_back(field.text);
  }
  return lines;
}

std::string write(const Lines& lines) {
  CsvWriter csv;
  for (const auto& line : lines) {
    for (const std::string& field : line) csv.field(field);
    csv.end_line();
  }
  return std::move(csv).text();
}

}  // namespace

TEST_CASE("the examples of RFC 4180, section 2, are read as it says") {
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == Lines{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx") == Lines{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == Lines{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") == Lines{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(read("\"aaa\",\"b\"\"bb\",\"ccc\"") == Lines{{"aaa", "b\"bb", "ccc"}});
}

TEST_CASE("line ends, a byte-order mark, empty fields and lines") {
  CHECK(read("") == Lines{});
  CHECK(read("\xef\xbb\xbf"
             "a,b\n") == Lines{{"a", "b"}});
  CHECK(read("a\rb\nc\r\nd") == Lines{{"a"}, {"b"}, {"c"}, {"d"}});
  CHECK(read(",\n,,") == Lines{{"", ""}, {"", "", ""}});
  CHECK(read("a\n\nb\n") == Lines{{"a"}, {""}, {"b"}});
  CHECK(read(" a , b ") == Lines{{" a ", " b "}});
  CHECK(read("\"\",x") == Lines{{"", "x"}});
}

TEST_CASE("semicolons and tabs separate where the first line has more of them") {
  CHECK(read("a;b;c\n1,5;2;3\n") == Lines{{"a", "b", "c"}, {"1,5", "2", "3"}});
  CHECK(read("a\tb\n1\t2\n") == Lines{{"a", "b"}, {"1", "2"}});
  CHECK(read("\"a;b;c;d\",e\n1,2\n") == Lines{{"a;b;c;d", "e"}, {"1", "2"}});
  CHECK(read("a\n1;2\n") == Lines{{"a"}, {"1;2"}});
}

TEST_CASE("a field knows where it begins") {
  CsvReader reader("\xc3\xa4,b\n\"c\nd\",e", "table.csv");
  std::vector<CsvField> fields;
  REQUIRE(reader.next(fields));
  CHECK(fields[1].place.column == 3);
  REQUIRE(reader.next(fields));
  CHECK(fields[0].place.line == 2);
  CHECK(fields[1].place.line == 3);
  CHECK(fields[1].place.column == 4);
}

TEST_CASE("what is no table is refused with its place") {
  CHECK_THROWS_WITH(read("a,b\nc,\"d\n"), contains("table.csv, line 2, column 3: the quote that opens here"));
  CHECK_THROWS_WITH(read("a,b\nc,6\" felt\n"), contains("line 2, column 4: there is a quote inside a field"));
  CHECK_THROWS_WITH(read("a,\"b\" c\n"), contains("line 1, column 6: something follows"));
  CHECK_THROWS_WITH(read("a,b\n\xc3\xa4,\xe4\n"), contains("line 2, column 3: there are bytes that are not UTF-8"));
  CHECK_THROWS_WITH(read(std::string("a,b\0", 4)), contains("line 1, column 4"));
  CHECK_THROWS_WITH(read(std::string("\xff\xfe"
                                     "a\0",
                                     4)),
                    contains("line 1, column 1"));  // UTF-16
  CHECK_THROWS_WITH(read(std::string(100'001, ',')), contains("over 100000 fields"));
}

TEST_CASE("amounts are printed from whole numbers") {
  CHECK(decimal_text(0, 2) == "0.00");
  CHECK(decimal_text(5, 2) == "0.05");
  CHECK(decimal_text(-1250, 2) == "-12.50");
  CHECK(decimal_text(1'000'000'000'000, 2) == "10000000000.00");
  CHECK(decimal_text(7, 0) == "7");
}

TEST_CASE("what is written reads back the same, whatever is in the fields") {
  Random random(3);
  const std::string letters = "a,;\t\"\r\n x\xc3\xa4";
  for (int round = 0; round < 3000; ++round) {
    Lines lines;
    for (std::uint64_t line = random.below(4) + 1; line > 0; --line) {
      lines.emplace_back();
      for (std::uint64_t field = random.below(4) + 1; field > 0; --field) {
        std::string text;
        for (std::uint64_t i = random.below(5); i > 0; --i) {
          const std::size_t at = static_cast<std::size_t>(random.below(letters.size() - 1));
          text += at >= letters.size() - 2 ? "\xc3\xa4" : letters.substr(at, 1);
        }
        lines.back().push_back(text);
      }
    }
    const std::string text = write(lines);
    INFO(text);
    REQUIRE(read(text) == lines);
  }
}
