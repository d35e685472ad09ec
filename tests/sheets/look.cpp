#include "handlaid/sheets/look.hpp"

#include "handlaid/colour/contrast.hpp"
#include "support/catch.hpp"

using namespace handlaid;

// W3C, Web Content Accessibility Guidelines 2.2: 1.4.3 text 4.5 : 1, 1.4.11 lines that mean something 3 : 1
TEST_CASE("text reads on every ground of the pages") {
  for (const Srgb8& ground : {look::paper, look::shade, Srgb8{255, 255, 255}}) {
    for (const Srgb8& text : {look::ink, look::quiet, look::accent}) {
      INFO(to_hex(text) << " on " << to_hex(ground));
      CHECK(contrast_ratio(text, ground) >= 4.5);
    }
  }
}

TEST_CASE("a numeral reads on every swatch there can be") {
  double least = 21;
  for (int r = 0; r < 256; r += 5) {
    for (int g = 0; g < 256; g += 5) {
      for (int b = 0; b < 256; b += 5) {
        const Srgb8 swatch{static_cast<std::uint8_t>(r), static_cast<std::uint8_t>(g), static_cast<std::uint8_t>(b)};
        least = std::min(least, contrast_ratio(numeral_colour(swatch), swatch));
      }
    }
  }
  CHECK(least >= 4.5);
}
