#include "handlaid/files/plain_text.hpp"

#include "support/catch.hpp"

using namespace handlaid;

TEST_CASE("well-formed UTF-8 is text, other bytes are none, from the first wrong one on") {
  // Unicode 15, table 3-7: the edges of well-formed sequences.
  for (const std::string good : {"", "felt", "a\tb\r\nc", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf",
                                 "\xee\x80\x80", "\xef\xbf\xbf", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf"}) {
    CHECK(first_not_text(good) == good.size());
    CHECK(first_not_text(good + "x") == good.size() + 1);
  }
  for (const std::string bad :
       {"\x80", "\xbf", "\xc0\x80", "\xc1\xbf", "\xc2", "\xc2\x7f", "\xe0\x9f\xbf", "\xed\xa0\x80", "\xe1\x80",
        "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff", "\x01", "\x7f"}) {
    CHECK(first_not_text(bad) == 0);
    CHECK(first_not_text("ab" + bad + "c") == 2);
  }
  CHECK(first_not_text(std::string("a\0b", 3)) == 1);
}

TEST_CASE("places count lines of any ending, and characters, not bytes") {
  const auto after = [](std::string_view text) {
    TextPlace place;
    place.pass(text);
    return std::pair(place.line, place.column);
  };
  CHECK(after("") == std::pair(1, 1));
  CHECK(after("abc") == std::pair(1, 4));
  CHECK(after("a\nb") == std::pair(2, 2));
  CHECK(after("a\r\nb\rc") == std::pair(3, 2));
  CHECK(after("\xc3\xa4\xe2\x82\xac") == std::pair(1, 3));
}

TEST_CASE("the nearest word is the one that was meant") {
  const std::vector<std::string> words{"name", "colour", "pieces", "price", "in hand"};
  CHECK(nearest_word("color", words) == "colour");
  CHECK(nearest_word("pirce", words) == "price");
  CHECK(nearest_word("peices", words) == "pieces");
  CHECK(nearest_word("", {}) == "");
  CHECK(letters_between("kitten", "sitting") == 3);  // the usual example
  CHECK(letters_between("ab", "ba") == 1);
  CHECK(letters_between("", "abc") == 3);
}

TEST_CASE("a text in a message is one line, and short") {
  CHECK(quoted_in_message("moss") == "\"moss\"");
  CHECK(quoted_in_message("a\nb\tc") == "\"a b c\"");
  const std::string shown = quoted_in_message(std::string(39, 'x') + "\xc3\xa4" + std::string(100, 'y'));
  CHECK(shown == "\"" + std::string(39, 'x') + "...\"");
  CHECK(first_not_text(shown) == shown.size());
}
