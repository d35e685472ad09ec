// Values that no maker means, given to every word of a job.
#include <array>
#include <string>

#include "handlaid/files/job_file.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

/// What a job with this value comes to: read and written as the same, or one line that names place and word.
void either_way(const JobField& field, const std::string& value, const std::string& method) {
  const bool own = std::string_view(field.word) == "method" || method.empty();
  const std::string text = (own ? "" : "method = " + method + "\n") + field.word + " = " + value + "\n";
  CAPTURE(text);
  try {
    const Job job = read_job(text, "my.job");
    const std::string written = write_job(job);
    CHECK(read_job(written, "plan.job") == job);
    CHECK(write_job(read_job(written, "plan.job")) == written);
    CHECK(read_job(write_job(job, {.defaults = true}), "plan.job") == job);
  } catch (const Error& error) {
    const std::string line = error.what();
    CHECK_THAT(line, contains("my.job, line ") && contains("; "));
    CHECK(line.find_first_of("\r\n") == line.npos);
    CHECK(line.size() < 400);
    CHECK(error.kind() == Error::Kind::input);
  }
}

}  // namespace

TEST_CASE("every word takes a nasty value or refuses it in one line") {
  const std::array values = {
      "",
      "nan",
      "inf",
      "-1",
      "-0",
      "+1",
      "0",
      "0.0",
      "00000000000000000001",
      "1e999",
      "1e-3",
      "9999999999999",
      "99999999999999999999999999999999",
      "999999999",
      "-999999999999",
      "0.00000000000000001",
      "0.0000000001",
      "999999.999999999",
      "x",
      "\"x\"",
      "1 x",
      "1 x 1",
      "x 1",
      "1 mm x",
      "0 mm x 0",
      "1 mm x 1 mm x 1 mm",
      "0 x 0 mm",
      "999999999 mm",
      "1/0 in",
      "1/999999999 in",
      "1 1/2",
      "1,5",
      "1 %%",
      "0 %",
      "999999999 %",
      "-100 %",
      "0x10",
      "1:0",
      "#",
      "#gggggg",
      "= =",
      ":",
      "\xc3\xa4\xe2\x82\xac\xf0\x9f\x90\x88",
      "\xff\xfe",
      "\xc2",
      "\xe2\x80\xae mm",
      "\t1\t",
      "1\0271",
  };
  for (const JobField& field : job_fields()) {
    for (const char* value : values) {
      for (const char* method : {"", "strips", "pieces"}) either_way(field, value, method);
    }
    either_way(field,
               std::string("1\0"
                           "1",
                           3),
               "");
    either_way(field, std::string(100'000, '9'), "");
    either_way(field, std::string(100'000, ' ') + "1", "");
  }
}

TEST_CASE("what a tool, a way of hanging or a lot has no use for is refused") {
  const auto refused = [](const std::string& text, const std::string& message) {
    CHECK_THROWS_WITH(read_job(text, "my.job"), contains(message));
  };
  refused("method = strips\nmost-blades = 6\n", "my.job, line 2: most-blades: it has no effect without a spacer");
  refused("method = strips\nblade-thickness = 12 mm\n", "my.job, line 2: blade-thickness: it has no effect");
  refused("shop = ours\n", "my.job, line 1: shop: it has no effect without a stock");
  refused("wire-rise = 90 mm\n", "my.job, line 1: wire-rise: it has no effect without a wire; give hanging = wire");
  refused("hanging = hooks\nwire-span = 90 mm\n", "my.job, line 2: wire-span: it has no effect without a wire");
  refused("hanging = wire\nhanging-points = 3\n", "my.job, line 2: hanging-points: it has no effect with a wire");
  refused("lot = rust A 17\n", "my.job, line 1: lot: \"rust A 17\" is not a colour and its lot");
  refused("lot = : A 17\n", "is not a colour and its lot");
  CHECK_NOTHROW(read_job("method = strips\nspacer = 1 mm x 9\nmost-blades = 6\n", ""));
  CHECK_NOTHROW(read_job("hanging = wire\nwire-rise = 90 mm\nlot = rust: A 17: 3\n", ""));
}
