#include "handlaid/files/output_folder.hpp"

#include <filesystem>

#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
namespace fs = std::filesystem;

namespace {

/// A folder of its own for each test, gone afterwards.
struct Scratch {
  Scratch() {
    std::string name = (fs::temp_directory_path() / "handlaid-test-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Scratch() {
    fs::permissions(path, fs::perms::owner_all);
    fs::remove_all(path);
  }
  std::string operator/(const std::string& name) const { return path + "/" + name; }
  /// Names in it, in order.
  std::vector<std::string> names(const std::string& folder = ".") const {
    std::vector<std::string> list;
    for (const auto& entry : fs::directory_iterator(path + "/" + folder))
      list.push_back(entry.path().filename().string());
    std::sort(list.begin(), list.end());
    return list;
  }
  std::string path;
};

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("a file reads back as it was written") {
  const Scratch scratch;
  std::string bytes = "a\0b\r\n\xff";
  bytes.append(100'000, 'x');
  write_text_file(scratch / "t", bytes);
  CHECK(read_text_file(scratch / "t") == bytes);
  CHECK_THROWS_WITH(read_text_file(scratch / "t", 99'999), contains("over 99999 bytes"));
  CHECK_THROWS_WITH(read_text_file(scratch / "none"), contains("none: there is no such file or folder"));
  CHECK_THROWS_WITH(read_text_file(scratch.path), contains("it is a folder"));
  CHECK_THROWS_WITH(write_text_file(scratch / "no/t", bytes),
                    contains("no/t: there is no such file or folder (writing it)"));
}

TEST_CASE("a full disk is said so") {
  CHECK_THROWS_WITH(write_text_file("/dev/full", "x"), contains("/dev/full: the disk is full (writing it); make room"));
  CHECK_THROWS_WITH(write_text_file("/dev/full", std::string(100'000, 'x')), contains("the disk is full"));
  CHECK(fs::is_character_file("/dev/full"));  // still the device it was
}

TEST_CASE("a folder appears when it is finished, and nothing stays beside it") {
  const Scratch scratch;
  {
    OutputFolder folder(scratch / "out/");
    folder.write("chart.csv", "1,2\n");
    CHECK(scratch.names() == Names{"out.part"});
    CHECK(read_text_file(folder.file("chart.csv")) == "1,2\n");
    folder.finish();
    CHECK(scratch.names() == Names{"out"});
  }
  CHECK(scratch.names() == Names{"out"});
  CHECK(read_text_file(scratch / "out/chart.csv") == "1,2\n");
}

TEST_CASE("a folder that is not finished leaves nothing") {
  const Scratch scratch;
  {
    OutputFolder folder(scratch / "out");
    folder.write("chart.csv", "1,2\n");
  }
  CHECK(scratch.names().empty());
}

TEST_CASE("a disk that fills up leaves nothing") {
  const Scratch scratch;
  {
    OutputFolder folder(scratch / "out");
    folder.write("chart.csv", "1,2\n");
    fs::create_symlink("/dev/full", folder.file("preview.png"));
    CHECK_THROWS_WITH(folder.write("preview.png", "x"), contains("out/preview.png: the disk is full"));
  }
  CHECK(scratch.names().empty());
  CHECK(fs::is_character_file("/dev/full"));  // still the device it was
}

TEST_CASE("an empty folder is taken, one with files is refused and left alone") {
  const Scratch scratch;
  fs::create_directory(scratch / "out");
  {
    OutputFolder folder(scratch / "out");
    folder.write("chart.csv", "1\n");
    folder.finish();
  }
  CHECK(scratch.names() == Names{"out"});
  CHECK_THROWS_WITH(OutputFolder(scratch / "out"), contains("out: the folder is there and has files in it"));
  CHECK(scratch.names() == Names{"out"});
  CHECK(read_text_file(scratch / "out/chart.csv") == "1\n");
}

TEST_CASE("a folder is replaced only when the new one is finished") {
  const Scratch scratch;
  fs::create_directory(scratch / "out");
  write_text_file(scratch / "out/chart.csv", "old\n");
  write_text_file(scratch / "out/strips.csv", "old\n");
  {
    OutputFolder folder(scratch / "out", {.replace = true});
    folder.write("chart.csv", "new\n");
  }
  CHECK(read_text_file(scratch / "out/chart.csv") == "old\n");
  {
    OutputFolder folder(scratch / "out", {.replace = true, .known = {"chart.csv", "strips.csv"}});
    folder.write("chart.csv", "new\n");
    CHECK(read_text_file(scratch / "out/chart.csv") == "old\n");
    folder.finish();
  }
  CHECK(scratch.names() == Names{"out"});
  CHECK(scratch.names("out") == Names{"chart.csv"});
  CHECK(read_text_file(scratch / "out/chart.csv") == "new\n");
}

TEST_CASE("what is not of an earlier run is never replaced") {
  const Scratch scratch;
  fs::create_directories(scratch / "out/deep");
  CHECK_THROWS_WITH(OutputFolder(scratch / "out", {.replace = true}), contains("it holds \"deep\""));
  fs::remove(scratch / "out/deep");
  write_text_file(scratch / "out/notes.txt", "mine\n");
  CHECK_THROWS_WITH(OutputFolder(scratch / "out", {.replace = true, .known = {"chart.csv"}}),
                    contains("it holds \"notes.txt\", which is not of an earlier run"));
  fs::remove(scratch / "out/notes.txt");
  OutputFolder folder(scratch / "out", {.replace = true, .known = {"chart.csv"}});
  folder.write("chart.csv", "new\n");
  write_text_file(scratch / "out/late.txt", "mine\n");
  CHECK_THROWS_WITH(folder.finish(), contains("it holds \"late.txt\""));
  CHECK(read_text_file(scratch / "out/late.txt") == "mine\n");
}

TEST_CASE("what stands beside it is left alone") {
  const Scratch scratch;
  for (const char* name : {"out.part", "out.old"}) {
    fs::create_directory(scratch / name);
    write_text_file(scratch / (std::string(name) + "/mine"), "mine\n");
  }
  fs::create_directory(scratch / "out");
  write_text_file(scratch / "out/chart.csv", "old\n");
  {
    OutputFolder folder(scratch / "out", {.replace = true});
    folder.finish();
  }
  CHECK(scratch.names() == Names{"out", "out.old", "out.part"});
  CHECK(scratch.names("out").empty());
  CHECK(read_text_file(scratch / "out.part/mine") == "mine\n");
  CHECK(read_text_file(scratch / "out.old/mine") == "mine\n");
}

TEST_CASE("places where no folder can be are refused") {
  const Scratch scratch;
  write_text_file(scratch / "file", "x");
  fs::create_symlink(scratch.path, scratch / "link");
  CHECK_THROWS_WITH(OutputFolder(scratch / "file"), contains("file: it is a file"));
  CHECK_THROWS_WITH(OutputFolder(scratch / "link"), contains("link: it is a link"));
  CHECK_THROWS_WITH(OutputFolder(scratch / "no/out"),
                    contains("there is no such file or folder (making a folder beside it)"));
  CHECK_THROWS_WITH(OutputFolder(scratch / "file/out"), contains("a part of the path is no folder"));
  for (const char* path : {"", "/", ".", "..", "a/..", "a/."}) {
    CHECK_THROWS_WITH(OutputFolder(path), contains("no name of its own"));
  }
  OutputFolder folder(scratch / "out");
  for (const char* name : {"", ".", "..", "a/b", "../x"})
    CHECK_THROWS_WITH(folder.write(name, ""), contains("no plain file name"));
  if (geteuid() != 0) {  // root may write everywhere
    fs::permissions(scratch.path, fs::perms::owner_read | fs::perms::owner_exec);
    CHECK_THROWS_WITH(OutputFolder(scratch / "other"), contains("it is not allowed"));
    fs::permissions(scratch.path, fs::perms::owner_all);
  }
}
