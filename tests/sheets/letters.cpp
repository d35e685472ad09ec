// Words as dots, for pictures.
#include "handlaid/sheets/letters.hpp"

#include <set>

#include "support/catch.hpp"

using namespace handlaid;

namespace {

std::size_t dots_of(const Raster<Srgb8>& picture) {
  std::size_t count = 0;
  for (const Srgb8& pixel : picture.pixels()) count += pixel == Srgb8{255, 255, 255} ? 1U : 0U;
  return count;
}

}  // namespace

TEST_CASE("every letter and digit is drawn, and no two alike but O and 0") {
  std::set<std::array<std::uint8_t, 7>> all(letter_dots.begin(), letter_dots.end());
  CHECK(all.size() == 26);
  for (const auto& digit : digit_dots) all.insert(digit);
  CHECK(all.size() == 35);
  CHECK(all.count({}) == 0);
}

TEST_CASE("a word keeps to its width, in capitals, and digits look as they do alone") {
  Raster<Srgb8> word(letters_width("Wu 20", 2), digits_height(2));
  draw_letters(word, "Wu 20", 0, 0, 2, {255, 255, 255});
  CHECK(dots_of(word) > 0);
  Raster<Srgb8> room(word.width() + 40, word.height() + 40);
  draw_letters(room, "WU 20", 20, 20, 2, {255, 255, 255});
  CHECK(dots_of(room) == dots_of(word));  // nothing of it was cut off
  Raster<Srgb8> digits(digits_width(20, 2), digits_height(2));
  draw_digits(digits, 20, 0, 0, 2, {255, 255, 255});
  Raster<Srgb8> same(digits.width(), digits.height());
  draw_letters(same, "20", 0, 0, 2, {255, 255, 255});
  CHECK(same == digits);
  draw_letters(same, "edge", -3, -3, 2, {255, 255, 255});  // what is outside is left out
  CHECK(letters_width("", 2) == 0);
}
