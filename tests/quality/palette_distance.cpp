#include "handlaid/quality/palette_distance.hpp"

#include "handlaid/palette/median_cut.hpp"
#include "quality/seen_cat.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("the distance of palettes is the modified Hausdorff distance of Dubuisson and Jain 1994") {
  const Palette one = palette_of({{0, 0, 0}, {255, 255, 255}});
  const Palette turned = palette_of({{255, 255, 255}, {0, 0, 0}});
  const Palette black = palette_of({{0, 0, 0}});
  CHECK(palette_distance(one, turned) == 0);
  // one way 0, the other way the mean of 0 and 100, which is black to white in CIEDE2000
  CHECK_THAT(palette_distance(black, one), WithinAbs(50, 0.01));
  CHECK_THAT(palette_distance(one, black), WithinAbs(50, 0.01));
  CHECK_THROWS_WITH(palette_distance(one, {}), contains("no colours"));
}

TEST_CASE("stability compares with the palettes of changed pictures, and of one colour fewer and more") {
  const SeenCat cat(false);
  std::vector<CellsChange> asked;
  std::vector<int> counts;
  const auto cells_of = [&](CellsChange change) {
    asked.push_back(change);
    Cells<Oklab> cells = {.lattice = cat.cells.lattice, .colours = {72, 96}, .laid = cat.cells.laid};
    for (std::size_t i = 0; i < cells.colours.size(); ++i) {
      const Srgb8 colour = change == CellsChange::halved ? Srgb8{9, 9, 9} : cat.cells.colours.pixels()[i];
      cells.colours.pixels()[i] = convert_colour<Oklab>(colour);
    }
    return cells;
  };
  const auto fitter_of = [&](int colours) {
    counts.push_back(colours);
    return MedianCut{.colours = colours};
  };
  const Stability stable = palette_stability(6, fitter_of, cells_of);
  CHECK(stable.cropped == 0);  // the very same cells
  CHECK(stable.doubled == 0);
  CHECK(stable.halved > 10);  // all black
  CHECK(stable.one_colour_fewer > 0);
  CHECK(stable.one_colour_more > 0);
  CHECK(std::count(counts.begin(), counts.end(), 5) == 1);
  CHECK(std::count(counts.begin(), counts.end(), 7) == 1);
  CHECK(std::count(counts.begin(), counts.end(), 6) == 4);
  CHECK(asked.size() == 4);
  CHECK(palette_stability(6, fitter_of, cells_of, {}, 6, 6).one_colour_more == 0);
}
