// What is not a picture, or not one that is read: named in one line, with what to do.
#include "handlaid/image/read.hpp"

#include <unistd.h>

#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

std::string refusal(const Bytes& bytes) {
  try {
    read_memory(bytes, {}, "cat.jpg");
  } catch (const Error& error) {
    CHECK(error.kind() == Error::Kind::input);
    return error.what();
  }
  return "it was read";
}

}  // namespace

TEST_CASE("formats that are not read are named by their first bytes, whatever the file is called") {
  const auto named = [](const std::string& file, const std::string& format) {
    INFO(file);
    const std::string line = refusal(load("pictures/other." + file));
    CHECK_THAT(line, contains("cat.jpg: it is " + format));
    CHECK_THAT(line, contains("save it as PNG or JPEG"));
  };
  named("gif", "a GIF picture");
  named("tiff", "a TIFF");
  named("webp", "a WebP picture");
  named("psd", "a layered PSD picture");
  named("jp2", "a JPEG 2000 picture");
  named("ico", "an icon");
  named("exr", "an OpenEXR picture");
  named("hdr", "a Radiance HDR picture");
}

// First bytes as in the formats' definitions: ISO/IEC 14496-12 file types, 18181 (JPEG XL), and the others' own.
TEST_CASE("formats for which no file is at hand are named as well") {
  using namespace std::string_literals;
  const std::pair<std::string, std::string> cases[] = {
      {"\0\0\0\x18"s + "ftypheic\0\0\0\0mif1heic"s, "an HEIC picture"},
      {"\0\0\0\x1c"s + "ftypavif\0\0\0\0"s, "an AVIF picture"},
      {"\0\0\0\x0cJXL \r\n\x87\n"s, "a JPEG XL picture"},
      {"\xff\x0a\x10\x20"s, "a JPEG XL picture"},
      {"\0\0\0\x20"s + "ftypisom"s, "a film"},
      {"%PDF-1.4\n"s, "a PDF document"},
      {"PK\3\4"s, "a ZIP archive"},
      {"II*\0\x10\0\0\0CR"s, "a TIFF or camera raw picture"},
  };
  for (const auto& [start, format] : cases) {
    INFO(format);
    CHECK_THAT(refusal(bytes_of(start)), contains("it is " + format + ", which is not read"));
  }
  CHECK_THAT(refusal(bytes_of("<?xml version=\"1.0\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"/>")),
             contains("it is an SVG drawing") && contains("export it as PNG"));
  CHECK_THAT(refusal(bytes_of("<!DOCTYPE html><html></html>")), contains("it is a web page"));
  CHECK_THAT(refusal(bytes_of("Dear reader,\nthis is a letter.\n")), contains("it is text, not a picture"));
  CHECK_THAT(refusal(bytes_of(std::string(100, '\0'))), contains("no picture that is known here"));
  CHECK_THAT(refusal({}), contains("it is empty"));
}

TEST_CASE("every short beginning of anything is refused in one line") {
  for (const char* start : {"\xff\xd8\xff\xe1", "\x89PNG\r\n\x1a\n", "BM", "P6 ", "P1 ", "GIF89a", "RIFF"}) {
    const Bytes all = bytes_of(start);
    for (std::size_t length = 0; length <= all.size(); ++length) {
      const std::string line = refusal(Bytes(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(length)));
      CHECK(line.find('\n') == std::string::npos);
      CHECK_THAT(line, contains("cat.jpg: "));
    }
  }
}

TEST_CASE("paths that lead to no picture say why") {
  CHECK_THROWS_WITH(read(data_path("none.jpg")), contains("none.jpg: there is no such file"));
  CHECK_THROWS_WITH(read(data_path("")), contains("it is a folder"));
  CHECK_THROWS_WITH(read(data_path("README.md/x")), contains("it cannot be read"));
  CHECK_THROWS_WITH(read(data_path("packs.csv")), contains("packs.csv: it is text"));
  if (geteuid() != 0) {  // root may read everything
    CHECK_THROWS_WITH(read("/etc/shadow"), contains("may not be read"));
  }
  CHECK(read_file(data_path("pictures/mono.pbm")) == load("pictures/mono.pbm"));
  CHECK_THROWS_WITH(read_file(data_path("pictures/mono.pbm"), 123), contains("limit of 123 bytes"));
  CHECK_NOTHROW(read_file(data_path("pictures/mono.pbm"), 124));
}

// A device has no length; the kernel gives zeros from this one for ever.
TEST_CASE("a file without an end is stopped at the limit") {
  CHECK_THROWS_WITH(read_file("/dev/zero", 3'000'000), contains("limit of 3000000 bytes"));
}
