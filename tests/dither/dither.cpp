// Dithering against published examples and a second implementation.
#include "handlaid/dither/ditherer.hpp"

#include <cmath>
#include <fstream>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/dither/error_diffusion.hpp"
#include "handlaid/dither/ordered.hpp"
#include "support/catch.hpp"
#include "support/own_colour.hpp"
#include "support/pnm.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;
using outside::CodeRgb;

namespace outside {

/// The smallest ditherer: colour 1 everywhere.
struct AllOne {
  handlaid::Raster<handlaid::ColourNumber> operator()(const handlaid::Cells<handlaid::Oklab>& cells,
                                                      const handlaid::Palette&) const {
    handlaid::Raster<handlaid::ColourNumber> numbers(cells.columns(), cells.rows());
    for (auto& number : numbers.pixels()) number = 1;
    return numbers;
  }
};
struct NoPalette {
  handlaid::Raster<handlaid::ColourNumber> operator()(const handlaid::Cells<handlaid::Oklab>&) const { return {}; }
};

}  // namespace outside

static_assert(Ditherer<NoDither> && Ditherer<ErrorDiffusion> && Ditherer<BayerDither> && Ditherer<outside::AllOne>);
static_assert(Ditherer<NoDither, Cells<CodeRgb>> && !Ditherer<outside::AllOne, Cells<CodeRgb>>);
static_assert(!Ditherer<outside::NoPalette> && !Ditherer<NoDither, Cells<Srgb8>> && !Ditherer<int> &&
              !Ditherer<Palette>);
static_assert(AnyCells<Cells<Oklab>> && AnyCells<const Cells<Srgb8>&> && MeasuredCells<Cells<Oklab>>);
static_assert(!MeasuredCells<Cells<Srgb8>> && !AnyCells<Raster<Oklab>> && !AnyCells<int>);

namespace {

const Palette black_and_white = palette_of({{0, 0, 0}, {255, 255, 255}});

ErrorDiffusion in_codes(bool serpentine) { return {.serpentine = serpentine, .space = DiffuseIn::cell_space}; }

double mean_light(const Raster<ColourNumber>& numbers, const Palette& palette) {
  double sum = 0;
  for (const ColourNumber number : numbers.pixels()) sum += relative_luminance(palette[number].colour);
  return sum / static_cast<double>(numbers.size());
}

}  // namespace

TEST_CASE("Floyd-Steinberg gives the worked 4 x 4 example") {
  for (const bool serpentine : {false, true}) {
    const Table table(serpentine ? "floyd_steinberg_4x4_serpentine.csv" : "floyd_steinberg_4x4_raster.csv");
    REQUIRE(table.size() == 16);
    Raster<CodeRgb> picture(4, 4);
    for (std::size_t i = 0; i < 16; ++i) {
      const int grey = table.whole(i, "input");
      picture(table.whole(i, "column"), table.whole(i, "row")) = {grey, grey, grey};
    }
    const auto numbers = in_codes(serpentine)(cells_of(picture), black_and_white);
    for (std::size_t i = 0; i < 16; ++i) {
      INFO("row " << table.whole(i, "row") << ", column " << table.whole(i, "column"));
      CHECK(numbers(table.whole(i, "column"), table.whole(i, "row")) == (table.whole(i, "output") == 255 ? 2 : 1));
    }
  }
}

TEST_CASE("Floyd-Steinberg equals a second implementation on a picture") {
  // tests/data/record_palettes.py pulls errors from the cells before, in Python's integers.
  const auto cells = cells_of(converted<CodeRgb>(read_pnm("grey_cat.pgm")));
  for (const bool serpentine : {false, true}) {
    const auto wanted = read_pnm(serpentine ? "diffused_cat_serpentine.pgm" : "diffused_cat_raster.pgm");
    const auto numbers = in_codes(serpentine)(cells, black_and_white);
    int different = 0;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      different += (numbers.pixels()[i] == 2) != (wanted.pixels()[i].r == 255);
    }
    CHECK(different == 0);
  }
}

TEST_CASE("the kernels' weights are those published, and their sums what they should be") {
  const auto sum = [](const DiffusionKernel& kernel) {
    int total = 0;
    for (const auto& row : kernel.weights) {
      for (const int weight : row) total += weight;
    }
    return total;
  };
  CHECK(sum(floyd_steinberg) == floyd_steinberg.divisor);
  CHECK(sum(jarvis_judice_ninke) == jarvis_judice_ninke.divisor);
  CHECK(sum(atkinson) * 4 == atkinson.divisor * 3);  // three quarters are passed on
}

TEST_CASE("dithering in linear light keeps the light of a flat ground") {
  for (const int code : {40, 90, 128, 188, 230}) {
    const auto c = static_cast<std::uint8_t>(code);
    Raster<Srgb8> flat(64, 64);
    for (Srgb8& pixel : flat.pixels()) pixel = {c, c, c};
    const auto cells = cells_of(converted<Oklab>(flat));
    const double light = relative_luminance({c, c, c});
    INFO("code " << code << ", light " << light);
    // What leaves at the edges is lost: a share of about one row and two columns of 64; with the larger kernel, of
    // twice as many.
    CHECK_THAT(mean_light(ErrorDiffusion{}(cells, black_and_white), black_and_white), WithinAbs(light, 0.015));
    CHECK_THAT(mean_light(ErrorDiffusion{.kernel = jarvis_judice_ninke}(cells, black_and_white), black_and_white),
               WithinAbs(light, 0.025));
    CHECK_THAT(mean_light(BayerDither{}(cells, black_and_white), black_and_white), WithinAbs(light, 0.5 / 64 + 1e-3));
    const auto plain = NoDither{}(cells, black_and_white);
    CHECK(ErrorDiffusion{.strength = 0}(cells, black_and_white) == plain);
    CHECK(BayerDither{.strength = 0}(cells, black_and_white) == plain);
  }
}

TEST_CASE("Bayer's matrix is his") {
  // B. Bayer, ICC 1973 (from memory), equal to the recursion M2n = [4M, 4M + 2; 4M + 3, 4M + 1].
  const auto matrix = bayer_matrix<8>();
  const auto half = bayer_matrix<4>();
  std::ifstream file(std::string(HANDLAID_TEST_DATA) + "/bayer8.csv");
  for (std::size_t y = 0; y < 8; ++y) {
    for (std::size_t x = 0; x < 8; ++x) {
      int wanted = -1;
      char comma = 0;
      file >> wanted;
      if (x < 7) file >> comma;
      CHECK(matrix[y][x] == wanted);
      const int by_recursion = 4 * half[y % 4][x % 4] + (y < 4 ? (x < 4 ? 0 : 2) : (x < 4 ? 3 : 1));
      CHECK(matrix[y][x] == by_recursion);
    }
  }
}

TEST_CASE("empty cells stay empty, and take no error") {
  auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  for (int y = 20; y < 50; ++y) {
    for (int x = 10; x < 40; ++x) cells.laid(x, y) = 0;
  }
  const auto empty_is_zero = [&](const Raster<ColourNumber>& numbers) {
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      if ((numbers.pixels()[i] == 0) != (cells.laid.pixels()[i] == 0)) return false;
    }
    return true;
  };
  CHECK(empty_is_zero(NoDither{}(cells, black_and_white)));
  CHECK(empty_is_zero(ErrorDiffusion{}(cells, black_and_white)));
  CHECK(empty_is_zero(BayerDither{}(cells, black_and_white)));
}

TEST_CASE("without dithering each cell has the nearest colour, for any number of threads") {
  const auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  const Palette palette = palette_of({{20, 10, 5}, {200, 170, 140}, {120, 90, 60}, {240, 240, 230}});
  const auto one = NoDither{}(cells, palette);
  const NearestColour<Oklab> nearest(palette);
  for (std::size_t i = 0; i < one.size(); ++i) CHECK(one.pixels()[i] == nearest.number(cells.colours.pixels()[i]));
  CHECK(NoDither{}(cells, palette, {.threads = 4}) == one);
  CHECK(BayerDither{}(cells, palette, {.threads = 3}) == BayerDither{}(cells, palette));
}

TEST_CASE("strengths out of range are refused") {
  const auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  for (const double wrong : {-0.1, 1.1, std::nan("")}) {
    CHECK_THROWS_WITH(ErrorDiffusion{.strength = wrong}(cells, black_and_white), contains("dither strength"));
    CHECK_THROWS_WITH(BayerDither{.strength = wrong}(cells, black_and_white), contains("dither strength"));
  }
  CHECK_THROWS_WITH(ErrorDiffusion{.kernel = {.divisor = 0}}(cells, black_and_white), contains("divisor"));
}
