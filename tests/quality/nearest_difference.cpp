// The nearest colour by CIEDE2000 equals a full scan with the formula, near ties and equals included.
#include "handlaid/quality/nearest_difference.hpp"

#include "handlaid/colour/difference.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/dither/ditherer.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(Ditherer<PlaceByDifference> && Ditherer<PlaceByDifference, Cells<Srgb8>>);

namespace {

ColourNumber by_full_scan(const Palette& palette, const LabD65& colour) {
  std::int64_t least = INT64_MAX;
  ColourNumber nearest = 0;
  for (int number = 1; number <= palette.size(); ++number) {
    const std::int64_t difference = whole_ciede2000(colour, convert_colour<LabD65>(palette[number].colour));
    if (difference < least) {
      least = difference;
      nearest = static_cast<ColourNumber>(number);
    }
  }
  return nearest;
}

}  // namespace

TEST_CASE("the nearest colour by CIEDE2000 is that of a full scan") {
  Random random(3);
  const auto code = [&](std::uint64_t span, int start) {
    return static_cast<std::uint8_t>(start + static_cast<int>(random.below(span)));
  };
  for (const int colours : {1, 2, 7, 20, 256, 999}) {
    for (const bool alike : {false, true}) {  // alike: many ties, and greys of one lightness beside tinted ones
      Palette palette;
      for (int i = 0; i < colours; ++i) {
        palette.entries.push_back({.colour = alike ? Srgb8{code(6, 120), code(6, 120), code(6, 120)}
                                                   : Srgb8{code(256, 0), code(256, 0), code(256, 0)}});
      }
      const NearestByDifference nearest(palette);
      int different = 0;
      for (int i = 0; i < 500; ++i) {
        const auto colour = convert_colour<LabD65>(i % 2 == 0 ? Srgb8{code(256, 0), code(256, 0), code(256, 0)}
                                                              : Srgb8{code(8, 119), code(8, 119), code(8, 119)});
        different += nearest.number(colour) != by_full_scan(palette, colour);
      }
      INFO(colours << " colours" << (alike ? ", alike" : ""));
      CHECK(different == 0);
    }
  }
  CHECK_THROWS_WITH(NearestByDifference(Palette{}), contains("it has no colours"));
}

TEST_CASE("placed by CIEDE2000, the mean CIEDE2000 is less than placed by Oklab") {
  const auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  const Palette palette = MedianCut{.colours = 20}(count_colours(cells));
  const auto mean = [&](const Raster<ColourNumber>& numbers) {
    double sum = 0;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      sum += ciede2000(convert_colour<LabD65>(cells.colours.pixels()[i]),
                       convert_colour<LabD65>(palette[numbers.pixels()[i]].colour));
    }
    return sum / static_cast<double>(numbers.size());
  };
  const auto numbers = place_palette(PlaceByDifference{}, cells, palette, {});
  CHECK(numbers == place_palette(PlaceByDifference{}, cells, palette, Work{.threads = 3}));
  CHECK(mean(numbers) < mean(place_palette(NoDither{}, cells, palette, {})));
}
