#include "handlaid/sheets/base64.hpp"

#include "support/catch.hpp"

// RFC 4648, section 10
TEST_CASE("base64 meets the vectors of RFC 4648") {
  using handlaid::base64;
  CHECK(base64("").empty());
  CHECK(base64("f") == "Zg==");
  CHECK(base64("fo") == "Zm8=");
  CHECK(base64("foo") == "Zm9v");
  CHECK(base64("foob") == "Zm9vYg==");
  CHECK(base64("fooba") == "Zm9vYmE=");
  CHECK(base64("foobar") == "Zm9vYmFy");
  CHECK(base64("\xff\xfe\xfd") == "//79");
}
