// Pictures to cells and charts to coarser charts, against resampling, hand arithmetic and brute force.
#include "handlaid/grid/map_to.hpp"

#include "handlaid/colour/oklab.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/resample.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace embedder {

using namespace handlaid;

/// Every second course is shifted by half a pitch and reaches over the panel's right edge.
struct HalfShifted {
  int columns = 1;
  int rows = 1;
  Length pitch = 10 * mm;

  int column_count() const { return columns; }
  int row_count() const { return rows; }
  Size extent() const { return {pitch.times(columns), pitch.times(rows)}; }
  Box box(int column, int row) const {
    const Length shift = row % 2 == 0 ? Length{} : pitch.divided(2);
    return {pitch.times(column) + shift, pitch.times(row), pitch.times(column + 1) + shift, pitch.times(row + 1)};
  }
  void check() const {
    if (columns < 1 || rows < 1) throw Error::bad_option("half-shifted", "no cells", "give some");
  }
  friend bool operator==(const HalfShifted&, const HalfShifted&) = default;
};

/// A rectangular lattice that is not known to be one; one cell more lies outside of the panel.
struct Plain {
  Rectangular like = {};
  int column_count() const { return like.columns + 1; }
  int row_count() const { return like.rows; }
  Size extent() const { return like.extent(); }
  Box box(int column, int row) const { return like.box(column, row); }
  void check() const { like.check(); }
  friend bool operator==(const Plain&, const Plain&) = default;
};

}  // namespace embedder

static_assert(LatticeLike<embedder::HalfShifted> && LatticeLike<embedder::Plain>);
static_assert(AcceptsWork<MapTo<Rectangular>, Raster<Srgb8>> &&
              Accepts<MapTo<embedder::HalfShifted>, RasterView<const Oklab>>);
static_assert(Accepts<MapTo<Rectangular>, Chart<>> && Accepts<MapTo<Rectangular>, const embedder::Frame&>);
static_assert(!Accepts<MapTo<Rectangular>, Raster<int>> && !Accepts<MapTo<Rectangular>, Cells<Srgb8>>);
static_assert(std::same_as<Applied<MapTo<Rectangular>, Raster<Srgba8>>, Cells<Srgb8>>);
static_assert(std::same_as<Applied<MapTo<embedder::HalfShifted>, Chart<>>, Chart<embedder::HalfShifted>>);

namespace {

Chart<> chart_of(int columns, int rows, int colours, std::uint64_t seed) {
  Chart<> chart{.lattice = {.columns = columns, .rows = rows}, .numbers = Raster<ColourNumber>(columns, rows)};
  for (int i = 0; i < colours; ++i) chart.palette.entries.push_back({.colour = {static_cast<std::uint8_t>(i), 0, 0}});
  Random random(seed);
  for (ColourNumber& number : chart.numbers.pixels()) {
    number = static_cast<ColourNumber>(random.below(static_cast<std::uint64_t>(colours) + 1));
  }
  return chart;
}

}  // namespace

TEST_CASE("cells have the colours that resampling gives") {
  const auto picture = opaque_noise(97, 61);
  const auto cells = picture | map_to(Rectangular{.columns = 12, .rows = 9});
  CHECK(cells.colours == (picture | Resample{.width = 12, .height = 9}));
  for (const std::uint8_t laid : cells.laid.pixels()) CHECK(laid == 1);
  CHECK(cells.lattice == Rectangular{.columns = 12, .rows = 9});
  CHECK((embedder::Frame(picture) | map_to(Rectangular{.columns = 12, .rows = 9})).colours == cells.colours);
  for (const int threads : {2, 4, 20}) {
    const auto again = apply(map_to(Rectangular{.columns = 12, .rows = 9}), picture, Work{.threads = threads});
    CHECK(again.colours == cells.colours);
    CHECK(again.laid == cells.laid);
  }
}

TEST_CASE("converting before or after mapping gives the same colours to 8 bits") {
  const auto picture = opaque_noise(60, 40);
  const auto lattice = map_to(Rectangular{.columns = 7, .rows = 5});
  const auto before = picture | convert<Oklab> | lattice | convert<Srgb8>;
  const auto after = picture | lattice | convert<Oklab> | convert<Srgb8>;
  for (std::size_t i = 0; i < after.colours.size(); ++i) {
    const Srgb8 p = before.colours.pixels()[i];
    const Srgb8 q = after.colours.pixels()[i];
    CHECK(std::abs(p.r - q.r) + std::abs(p.g - q.g) + std::abs(p.b - q.b) <= 1);
  }
}

TEST_CASE("a chequer is 188 in every cell, on any lattice") {
  const auto picture = chequer(240, 120);
  const auto check = [](const auto& cells) {
    for (const Srgb8& colour : cells.colours.pixels()) {
      CHECK(std::abs(colour.r - 188) <= 1);
      CHECK(colour.g == colour.r);
    }
  };
  check(picture | map_to(Rectangular{.columns = 24, .rows = 12}));
  check(picture | map_to(Rectangular{.columns = 7, .rows = 5, .pitch = 3 * mm, .course_pitch = 7 * mm}));
  check(picture | map_to(embedder::HalfShifted{.columns = 24, .rows = 12}));
  check(picture | map_to(embedder::HalfShifted{.columns = 20, .rows = 6, .pitch = Length::from_um(9'973)}));
}

TEST_CASE("a picture of one pixel a cell passes through bit for bit") {
  auto picture = opaque_noise(13, 8);
  const auto same = picture;
  CHECK((picture | map_to(Rectangular{.columns = 13, .rows = 8})).colours == same);
  CHECK((picture.view() | map_to(Rectangular{.columns = 13, .rows = 8, .pitch = 7 * mm})).colours == same);
  CHECK((picture | map_to(embedder::HalfShifted{.columns = 13, .rows = 8})).colours == same);
  const Srgb8* memory = picture.pixels().data();
  const auto moved = std::move(picture) | map_to(Rectangular{.columns = 13, .rows = 8});
  CHECK(moved.colours.pixels().data() == memory);
  const auto alpha = noise(13, 8);
  const auto cells = alpha | map_to(Rectangular{.columns = 13, .rows = 8});
  for (std::size_t i = 0; i < alpha.size(); ++i) {
    CHECK(cells.colours.pixels()[i] == alpha.pixels()[i].colour);
    CHECK(cells.laid.pixels()[i] == (alpha.pixels()[i].alpha >= 128 ? 1 : 0));
  }
}

TEST_CASE("a cell is laid where enough of it is opaque: exactly half is enough") {
  // 4 x 1 cells of 2 x 2 pixels with 0, 1, 2, 4 opaque ones.
  Raster<Srgba8> picture(8, 2);
  const int opaque[4] = {0, 1, 2, 4};
  for (int cell = 0; cell < 4; ++cell) {
    for (int i = 0; i < opaque[cell]; ++i) picture(2 * cell + i % 2, i / 2) = {{40, 50, 60}, 255};
  }
  const auto laid = [&](double least) {
    const auto cells = picture | map_to(Rectangular{.columns = 4, .rows = 1}, {.least_cover = least});
    std::string text;
    for (int x = 0; x < 4; ++x) {
      text += cells.laid(x, 0) != 0 ? '1' : '0';
      if (cells.laid(x, 0) != 0) CHECK(cells.colours(x, 0) == Srgb8{40, 50, 60});
    }
    return text;
  };
  CHECK(laid(0.5) == "0011");
  CHECK(laid(0.51) == "0001");
  CHECK(laid(1) == "0001");
  CHECK(laid(0.25) == "0111");
  CHECK(laid(1e-9) == "0111");
  for (const double wrong : {0.0, -1.0, 1.1, std::nan("")}) CHECK_THROWS_WITH(laid(wrong), contains("least cover: "));
  const auto none = Raster<Srgba8>(8, 2) | map_to(Rectangular{.columns = 4, .rows = 1});
  for (const std::uint8_t cell : none.laid.pixels()) CHECK(cell == 0);
}

TEST_CASE("another lattice averages under its boxes, and lays nothing outside of the panel") {
  const auto picture = opaque_noise(70, 45);
  const Rectangular like{.columns = 10, .rows = 9, .pitch = 8 * mm};
  const auto expected = picture | map_to(like);
  const auto cells = picture | map_to(embedder::Plain{.like = like});
  for (int y = 0; y < 9; ++y) {
    for (int x = 0; x < 10; ++x) CHECK(cells.colours(x, y) == expected.colours(x, y));  // whole pixels: no rounding
    CHECK(cells.laid(10, y) == 0);
  }
  // Half-shifted: by cropping. 8 columns of 10 pixels, so a shifted box starts at 5; the last is cut off at its half.
  const auto wide = opaque_noise(80, 20, 3);
  const auto shifted = wide | map_to(embedder::HalfShifted{.columns = 8, .rows = 2});
  for (int x = 0; x < 8; ++x) {
    const auto mean = [&](const Crop& crop) { return (wide | crop | Resample{.width = 1, .height = 1})(0, 0); };
    CHECK(shifted.colours(x, 0) == mean({.x = 10 * x, .y = 0, .width = 10, .height = 10}));
    CHECK(shifted.colours(x, 1) == mean({.x = 10 * x + 5, .y = 10, .width = x == 7 ? 5 : 10, .height = 10}));
  }
  for (const int threads : {2, 3}) {
    CHECK(apply(map_to(embedder::HalfShifted{.columns = 8, .rows = 2}), wide, Work{.threads = threads}).colours ==
          shifted.colours);
  }
}

TEST_CASE("a box over the whole of a large picture does not pass the limits of its sums") {
  Raster<Srgba16> picture(5000, 4000);
  for (Srgba16& pixel : picture.pixels()) pixel = {{65535, 65535, 65535}, 65535};
  const auto cells = picture | map_to(embedder::Plain{.like = {.columns = 1, .rows = 1}});
  CHECK(cells.colours(0, 0) == Srgb16{65535, 65535, 65535});
  CHECK(cells.laid(0, 0) == 1);
}

TEST_CASE("a lattice that makes no sense is refused before anything else") {
  const auto picture = opaque_noise(8, 8);
  CHECK_THROWS_WITH(picture | map_to(Rectangular{}), contains("columns: 0 is out of range"));
  CHECK_THROWS_WITH(picture | map_to(Rectangular{.columns = 1'000'000, .rows = 1}), contains("columns: 1000000"));
  CHECK_THROWS_WITH(picture | map_to(embedder::HalfShifted{.columns = 0}), contains("half-shifted: no cells"));
  CHECK_THROWS_WITH(Raster<Srgb8>() | map_to(Rectangular{.columns = 2, .rows = 2}), contains("no pixels"));
  CHECK_THROWS_WITH(chart_of(4, 4, 3, 1) | map_to(Rectangular{}), contains("columns: 0 is out of range"));
}

TEST_CASE("a strange picture still becomes cells") {
  CHECK((opaque_noise(1, 1) | map_to(Rectangular{.columns = 5, .rows = 4})).colours(4, 3) == opaque_noise(1, 1)(0, 0));
  const auto line = opaque_noise(1, 10'000) | map_to(Rectangular{.columns = 3, .rows = 7});
  CHECK(line.colours(0, 3) == line.colours(2, 3));
}

TEST_CASE("a chart is mapped to a coarser one by the larger area, the lower number at a tie") {
  Chart<> chart{
      .lattice = {.columns = 6, .rows = 2}, .numbers = Raster<ColourNumber>(6, 2), .palette = palette_of({{}, {}, {}})};
  const ColourNumber numbers[12] = {1, 1, 3, 2, 0, 0,  //
                                    2, 1, 2, 3, 0, 1};
  std::copy(std::begin(numbers), std::end(numbers), chart.numbers.pixels().begin());
  const auto coarse = chart | map_to(Rectangular{.columns = 3, .rows = 1});
  CHECK(coarse.numbers(0, 0) == 1);
  CHECK(coarse.numbers(1, 0) == 2);
  CHECK(coarse.numbers(2, 0) == 0);
  CHECK(coarse.palette == chart.palette);
  CHECK((chart | map_to(chart.lattice)).numbers == chart.numbers);
}

// Every cell of both charts is cut into parts that lie in one cell of each.
TEST_CASE("majorities are what counting parts gives, on known and on other lattices") {
  for (const auto& [columns, rows] :
       {std::pair(5, 4), std::pair(3, 7), std::pair(10, 1), std::pair(12, 9), std::pair(17, 3)}) {
    const auto chart = chart_of(10, 9, 3, static_cast<std::uint64_t>(columns));
    const auto coarse = chart | map_to(Rectangular{.columns = columns, .rows = rows});
    const auto plain = chart | map_to(embedder::Plain{.like = {.columns = columns, .rows = rows}});
    for (int y = 0; y < rows; ++y) {
      for (int x = 0; x < columns; ++x) {
        int counts[4] = {0, 0, 0, 0};
        for (int v = 0; v < 9; ++v) {
          for (int u = 0; u < 10; ++u) ++counts[chart.numbers((x * 10 + u) / columns, (y * 9 + v) / rows)];
        }
        const auto most = std::max_element(std::begin(counts), std::end(counts)) - std::begin(counts);
        CHECK(coarse.numbers(x, y) == most);
        // Edges of thirds and the like are rounded there, so only a clear majority must be met.
        std::sort(std::begin(counts), std::end(counts));
        if (counts[3] > counts[2]) CHECK(plain.numbers(x, y) == most);
      }
      CHECK(plain.numbers(columns, y) == 0);
    }
  }
}
