// Cells with a given number keep it, under every ditherer, and touch no other.
#include "handlaid/dither/given_numbers.hpp"

#include "handlaid/dither/error_diffusion.hpp"
#include "handlaid/dither/ordered.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(Ditherer<GivenNumbers<NoDither>> && Ditherer<GivenNumbers<ErrorDiffusion>>);
static_assert(!Ditherer<GivenNumbers<int>> && !Ditherer<GivenNumbers<NoDither>, Cells<Srgb8>>);

namespace {

template <class D>
void check_kept(const D& ditherer) {
  auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  for (int y = 0; y < 30; ++y) cells.laid(5, y) = 0;
  Palette palette = MedianCut{.colours = 6}(count_colours(cells));
  palette.entries[2].lock = Lock::exact_only;
  Raster<ColourNumber> given(cells.columns(), cells.rows());
  auto without = cells;
  for (int y = 30; y < 40; ++y) {
    for (int x = 20; x < 31; ++x) {
      given(x, y) = static_cast<ColourNumber>(1 + (x + y) % 6);
      without.laid(x, y) = 0;
    }
  }
  const auto numbers = keep_numbers(given, ditherer)(cells, palette);
  const auto around = place_palette(ditherer, without, palette, {});
  int wrong = 0;
  int exact = 0;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const bool is_given = given.pixels()[i] != 0;
    wrong += numbers.pixels()[i] != (is_given ? given : around).pixels()[i];
    wrong += (numbers.pixels()[i] == 0) != (cells.laid.pixels()[i] == 0);
    const bool own = cells.colours.pixels()[i].fixed() == convert_colour<Oklab>(palette[3].colour).fixed();
    exact += !is_given && !own && numbers.pixels()[i] == 3;
  }
  CHECK(wrong == 0);
  CHECK(exact == 0);  // a colour for its very own cells is mixed into no other
}

}  // namespace

TEST_CASE("given numbers stay, under every ditherer") {
  check_kept(NoDither{});
  check_kept(ErrorDiffusion{});
  check_kept(ErrorDiffusion{.strength = 0.5, .space = DiffuseIn::cell_space, .edges = 0.5});
  check_kept(BayerDither{});
  check_kept(BlueNoiseDither{});
}

TEST_CASE("given numbers that make no sense are refused") {
  auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  const Palette palette = palette_of({{0, 0, 0}, {255, 255, 255}});
  CHECK_THROWS_WITH(keep_numbers(Raster<ColourNumber>(3, 4))(cells, palette), contains("3 x 4 do not fit 72 x 96"));
  CHECK_THROWS_WITH(keep_numbers({})(cells, palette), contains("given numbers"));
  Raster<ColourNumber> given(72, 96);
  given(4, 6) = 3;
  CHECK_THROWS_WITH(keep_numbers(given)(cells, palette), contains("column 5, row 7 from the top"));
  given(4, 6) = 2;
  cells.laid(4, 6) = 0;
  CHECK_THROWS_WITH(keep_numbers(given)(cells, palette), contains("nothing is laid there"));
}
