#include "handlaid/files/changes_file.hpp"

#include "files/mutations.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

ColourChanges read(const std::string& text) { return read_colour_changes(text, "my.txt"); }
std::string written(const std::string& text) { return write_colour_changes(read(text)); }

const std::string all_kinds =
    "merge 7 into 3\n"
    "swap 2 and 5\n"
    "number 2 as 5\n"
    "split 4 at courses 1-20 columns 5-30 as 17 #a0b0c0 \"moss, \"\"deep\"\" // or so\"\n"
    "split 4 at course 3 as 18 \"slate\"\n"
    "replace 6 by \"slate\"\n"
    "replace 6 by #445566\n"
    "lay 4 at course 12 columns 3 8-11\n"
    "lay nothing at column 1\n";

}  // namespace

TEST_CASE("changes.txt comes back as it was") {
  CHECK(written(all_kinds) == all_kinds);
  const ColourChanges changes = read(all_kinds);
  REQUIRE(changes.list.size() == 9);
  CHECK(changes.list[0] == ColourChange{.kind = ChangeKind::merge, .number = 7, .other = 3, .line = 1});
  CHECK(changes.list[3] == ColourChange{.kind = ChangeKind::split,
                                        .number = 4,
                                        .other = 17,
                                        .courses = {{1, 20}},
                                        .columns = {{5, 30}},
                                        .colour = Srgb8{160, 176, 192},
                                        .name = "moss, \"deep\" // or so",
                                        .line = 4});
  CHECK(changes.list[7] ==
        ColourChange{
            .kind = ChangeKind::lay, .number = 4, .courses = {{12, 12}}, .columns = {{3, 3}, {8, 11}}, .line = 8});
  CHECK(changes.list[8].number == 0);
}

TEST_CASE("remarks, blank lines, line ends and a byte-order mark do not matter") {
  const ColourChanges changes = read("\xef\xbb\xbf// mine\r\n\r\n  merge\t7 into 3  // too alike\rswap 1 and 2");
  REQUIRE(changes.list.size() == 2);
  CHECK(changes.list[0].line == 3);
  CHECK(changes.list[1].line == 4);
}

TEST_CASE("remarks come back where they stood") {
  const std::string text =
      "// the scarf\n// too many browns\nmerge 7 into 3  // hardly to be told apart\nswap 1 and 2\n// to do: the hat\n";
  CHECK(written(text) == text);
  CHECK(written("//\n//   \nmerge 7 into 3 //no blank\n") ==
        "merge 7 into 3  // no blank\n");  // empty ones say nothing
  ColourChanges both = read("merge 7 into 3\n// to do: the hat\n");
  both.append(read("// now the hat\nswap 1 and 2\n// all done\n"));
  CHECK(write_colour_changes(both) ==
        "merge 7 into 3\n// to do: the hat\n// now the hat\nswap 1 and 2\n// all done\n");
}

TEST_CASE("a wrong line of changes.txt is named with its place and what should stand there") {
  const auto refused = [](const std::string& line, const std::string& problem) {
    CHECK_THROWS_WITH(read("// one\n" + line), contains("my.txt, line 2, column " + problem));
  };
  refused("merg 7 into 3", "1: \"merg\" is not known, the nearest is \"merge\"");
  refused("merge 7 in 3", "9: \"in\" stands where \"into\" should; write it like merge 7 into 3");
  refused("merge 7", "8: the line ends where \"into\" should stand");
  refused("merge seven into 3", "7: \"seven\" stands where a colour number from 1 to 999 should");
  refused("merge 1000 into 3", "7: \"1000\"");
  refused("merge 0 into 3", "7: \"0\"");
  refused("merge 7 into 3 4", "16: \"4\" stands where the end of the line should");
  refused("split 4 as 17 #a0b0c0", "9: \"as\" stands where \"at\" should");
  refused("split 4 at courses 20-1 as 17 #a0b0c0", "20: \"20-1\" stands where a count like 12");
  refused("split 4 at rows 1 as 17 #a0b0c0", "12: \"rows\" stands where \"courses\" or \"columns\" should");
  refused("replace 6 by slate", "14: \"slate\" stands where a colour like #a0b0c0 or a name in quotes should");
  refused("replace 6 by #44556", "14: \"#44556\"");
  refused("replace 6 by \"slate", "14: the quote that opens here is never closed");
  refused("replace 6 by \"slate\"x", "21: something follows the closing quote");
  refused("replace 6 by \"  \"", "14: \"  \" stands where a name should");
  refused("lay 4 at", "9: the line ends where \"courses\" or \"columns\" should stand");
  refused("k\xc3\xa4se", "1: ");
  CHECK_THROWS_WITH(read("// nothing\n"),
                    contains("my.txt: there is no change in it; write lines like merge 7 into 3"));
  CHECK_THROWS_WITH(read("merge 7 into 3\n\xff"), contains("line 2, column 1: there are bytes that are not UTF-8"));
}

TEST_CASE("changed cells become few lines") {
  // two equal rows of runs, one colour twice in a course, an emptied cell
  const std::vector<CellChange> cells = {{1, 4, 1, 2}, {1, 5, 1, 2}, {1, 9, 3, 2}, {2, 4, 1, 2}, {2, 5, 1, 2},
                                         {2, 9, 3, 2}, {2, 1, 3, 1}, {4, 1, 3, 1}, {4, 2, 3, 0}};
  CHECK(write_colour_changes({.list = lay_lines(cells)}) ==
        "lay 2 at courses 1-2 columns 4-5 9\n"
        "lay 1 at course 2 column 1\n"
        "lay nothing at course 4 column 2\n"
        "lay 1 at course 4 column 1\n");
  CHECK(lay_lines({}).empty());
}

TEST_CASE("a damaged changes.txt is taken or refused, and what is taken comes back") {
  const int readable = handlaid_test::count_readable(all_kinds, 4'000, [](const std::string& text) {
    const std::string once = written(text);
    if (written(once) != once) FAIL("not the same: " << text);
  });
  CHECK(readable > 100);
  CHECK(readable < 3'900);
}
