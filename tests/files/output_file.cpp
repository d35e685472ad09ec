// A file that appears whole or not at all.
#include "handlaid/files/output_file.hpp"

#include <unistd.h>

#include <filesystem>

#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
namespace fs = std::filesystem;

namespace {

/// An empty folder for one test.
struct Place {
  fs::path folder = fs::temp_directory_path() / ("handlaid_output_file_" + std::to_string(getpid()));
  Place() {
    fs::remove_all(folder);
    fs::create_directories(folder);
  }
  ~Place() { fs::remove_all(folder); }
  std::string operator/(const char* name) const { return (folder / name).string(); }
  std::ptrdiff_t count() const { return std::distance(fs::directory_iterator(folder), fs::directory_iterator()); }
};

}  // namespace

TEST_CASE("an output file appears when it is finished, and takes the place of an older one only then") {
  const Place place;
  const std::string path = place / "table.csv";
  {
    OutputFile file(path);
    CHECK_FALSE(fs::exists(path));
    file.finish("old\n");
  }
  CHECK(read_text_file(path) == "old\n");
  {
    OutputFile file(path);
    CHECK(read_text_file(path) == "old\n");
  }
  CHECK(read_text_file(path) == "old\n");
  CHECK(place.count() == 1);
  OutputFile(path).finish("new\n");
  CHECK(read_text_file(path) == "new\n");
  CHECK(place.count() == 1);
}

TEST_CASE("an output file is refused at once where it cannot stand, and what is there stays") {
  const Place place;
  CHECK_THROWS_WITH(OutputFile(place.folder.string()), contains("it is a folder; give the name of a file"));
  CHECK_THROWS_WITH(OutputFile(place / "none/x.csv"), contains("there is no such file or folder"));
  write_text_file(place / "mine", "mine");
  fs::create_symlink(place / "mine", place / "link");
  CHECK_THROWS_WITH(OutputFile(place / "link"), contains("it is a link"));
  write_text_file(place / "x.part", "not ours");
  CHECK_THROWS_WITH(OutputFile(place / "x"), contains("is in the way"));
  CHECK(read_text_file(place / "x.part") == "not ours");
  CHECK(read_text_file(place / "mine") == "mine");
  CHECK(place.count() == 3);
}

TEST_CASE("an output file that does not fit leaves the older one") {
  REQUIRE(fs::exists("/dev/full"));
  OutputFile full("/dev/full");
  CHECK_THROWS_WITH(full.finish("x"), contains("the disk is full"));
}
