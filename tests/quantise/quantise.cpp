// Any fitter with any ditherer, or a quantiser of one's own; and cells of any colour.
#include "handlaid/quantise/quantise.hpp"

#include "handlaid/colour/cie.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/dither/error_diffusion.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "handlaid/quantise/draw_with.hpp"
#include "support/catch.hpp"
#include "support/own_colour.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace outside {

/// A joint fit in the smallest form: a palette and its placing at once.
struct TwoTones {
  handlaid::Chart<> operator()(const handlaid::Cells<handlaid::Oklab>& cells) const {
    handlaid::Chart<> chart = {.lattice = cells.lattice,
                               .numbers = {cells.columns(), cells.rows()},
                               .palette = handlaid::palette_of({{0, 0, 0}, {255, 255, 255}})};
    for (int y = 0; y < cells.rows(); ++y) {
      for (int x = 0; x < cells.columns(); ++x) chart.numbers(x, y) = cells.colours(x, y).L < 0.5F ? 1 : 2;
    }
    return chart;
  }
};

/// A lattice of one's own: every second course shifted by half a pitch.
struct Shifted {
  int columns = 0;
  int rows = 0;
  int column_count() const { return columns; }
  int row_count() const { return rows; }
  handlaid::Size extent() const { return {(10 * handlaid::mm).times(columns), (10 * handlaid::mm).times(rows)}; }
  handlaid::Box box(int column, int row) const {
    const handlaid::Length left = (10 * handlaid::mm).times(column) + (5 * handlaid::mm).times(row % 2);
    return {left, (10 * handlaid::mm).times(row), left + 10 * handlaid::mm, (10 * handlaid::mm).times(row + 1)};
  }
  void check() const {}
};

}  // namespace outside

static_assert(Quantiser<FitThenPlace<KMeans, NoDither>> && Quantiser<outside::TwoTones>);
static_assert(Quantiser<FitThenPlace<MedianCut, ErrorDiffusion>, Cells<LabD65>>);
static_assert(!Quantiser<outside::TwoTones, Cells<LabD65>> && !Quantiser<KMeans> && !Quantiser<NoDither> &&
              !Quantiser<int>);
static_assert(LatticeLike<Rectangular> && LatticeLike<outside::Shifted> && !LatticeLike<Size> && !LatticeLike<int>);

TEST_CASE("sRGB cells are quantised in Oklab") {
  const auto picture = read_pnm("cells_cat.ppm");
  const auto chart = cells_of(picture) | quantise(KMeans{.colours = 16});
  chart.check();
  CHECK(chart.palette.size() == 16);
  CHECK(chart == (cells_of(converted<Oklab>(picture)) | quantise(KMeans{.colours = 16})));
  CHECK(chart == apply(quantise(KMeans{.colours = 16}), cells_of(picture), {.threads = 4}));
}

TEST_CASE("cells in a space of their own are quantised there") {
  const auto picture = read_pnm("cells_cat.ppm");
  const auto lab = cells_of(converted<LabD65>(picture)) | quantise(MedianCut{.colours = 12}, ErrorDiffusion{});
  CHECK(lab.palette.size() == 12);
  const auto codes = cells_of(converted<outside::CodeRgb>(picture)) | quantise(MedianCut{.colours = 12});
  CHECK(codes.palette.size() == 12);
  CHECK_FALSE(codes.palette == lab.palette);
}

TEST_CASE("a quantiser, a fitter or a lattice from outside fits in") {
  const auto picture = read_pnm("cells_cat.ppm");
  const auto joint = cells_of(picture) | quantise(outside::TwoTones{});
  joint.check();
  CHECK(joint.palette.size() == 2);
  const Cells<Srgb8, outside::Shifted> shifted = {
      .lattice = {72, 96}, .colours = picture, .laid = cells_of(picture).laid};
  const auto chart = shifted | quantise(KMeans{.colours = 5}, ErrorDiffusion{.strength = 0.5});
  static_assert(std::same_as<decltype(chart), const Chart<outside::Shifted>>);
  CHECK(chart.palette.size() == 5);
}

TEST_CASE("the palette of one picture can be laid on another") {
  const auto picture = read_pnm("cells_cat.ppm");
  const Palette palette = KMeans{.colours = 6}(count_colours(picture));
  const auto other = cells_of(read_pnm("grey_cat.pgm")) | quantise(Given{palette});
  CHECK(other.palette == palette);
}

TEST_CASE("a picture with nothing in it is refused") {
  auto cells = cells_of(read_pnm("cells_cat.ppm"));
  for (std::uint8_t& laid : cells.laid.pixels()) laid = 0;
  CHECK_THROWS_WITH(cells | quantise(KMeans{}), contains("transparent everywhere"));
}

TEST_CASE("a picture can be drawn with a palette before it is mapped") {
  const auto picture = read_pnm("cells_cat.ppm");
  const Palette palette = MedianCut{.colours = 4}(count_colours(picture));
  const auto drawn = picture | draw_with(palette, ErrorDiffusion{});
  CHECK(drawn.width() == picture.width());
  for (const Srgb8& pixel : drawn.pixels()) CHECK(detail::contains(palette.entries, pixel));
}
