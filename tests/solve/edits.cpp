#include "handlaid/solve/edits.hpp"

#include <string>
#include <string_view>

#include "handlaid/core/random.hpp"
#include "handlaid/files/plain_text.hpp"
#include "support/catch.hpp"

using namespace handlaid;

namespace {

std::vector<Edit> edits(std::string_view found, std::string_view wanted, std::int64_t most = 25'000'000) {
  return fewest_edits(std::span<const char>(found.data(), found.size()),
                      std::span<const char>(wanted.data(), wanted.size()), most);
}

/// Makes of `found` what it should be, by the edits alone.
std::string mended(std::string_view found, std::string_view wanted, const std::vector<Edit>& list) {
  std::string text;
  std::size_t at = 0;
  for (const Edit& edit : list) {
    const auto f = static_cast<std::size_t>(edit.found_place) - 1;
    const auto w = static_cast<std::size_t>(edit.wanted_place) - 1;
    while (at < f) text += found[at++];
    if (edit.kind == EditKind::swapped) {
      text += found[at + 1];
      text += found[at];
      at += 2;
    } else {
      if (edit.kind != EditKind::missing) ++at;
      if (edit.kind != EditKind::extra) text += wanted[w];
    }
  }
  while (at < found.size()) text += found[at++];
  return text;
}

}  // namespace

TEST_CASE("edits of published words") {
  CHECK(edits("kitten", "sitting").size() == 3);  // Wagner and Fischer's distance, a common example
  CHECK(edits("ca", "abc").size() == 3);          // where no place is edited twice
  CHECK(edits("same", "same").empty());
}

TEST_CASE("each kind of slip is named at its place") {
  CHECK(edits("abXdef", "abcdef") == std::vector<Edit>{{EditKind::changed, 3, 3}});
  CHECK(edits("abdef", "abcdef") == std::vector<Edit>{{EditKind::missing, 3, 3}});
  CHECK(edits("abcXdef", "abcdef") == std::vector<Edit>{{EditKind::extra, 4, 4}});
  CHECK(edits("abdcef", "abcdef") == std::vector<Edit>{{EditKind::swapped, 3, 3}});
  // a piece of the row shifted by one: two slips, not one at every place
  CHECK(edits("abdefgXhi", "abcdefghi") == std::vector<Edit>{{EditKind::missing, 3, 3}, {EditKind::extra, 7, 8}});
}

TEST_CASE("edits are as few as the distance of words, and mend any row") {
  Random random(3);
  for (int n = 0; n < 500; ++n) {
    std::string found;
    std::string wanted;
    for (auto left = random.below(12); left > 0; --left) found += static_cast<char>('a' + random.below(3));
    for (auto left = random.below(12); left > 0; --left) wanted += static_cast<char>('a' + random.below(3));
    const auto list = edits(found, wanted);
    REQUIRE(list.size() == letters_between(found, wanted));
    REQUIRE(mended(found, wanted, list) == wanted);
  }
}

TEST_CASE("rows too long for the search are compared place by place") {
  CHECK(edits("bcd", "abcd", 2).size() == 1);  // the equal end costs nothing
  CHECK(edits("xbcy", "abcdz", 2) ==
        std::vector<Edit>{{EditKind::changed, 1, 1}, {EditKind::changed, 4, 4}, {EditKind::missing, 5, 5}});
}
