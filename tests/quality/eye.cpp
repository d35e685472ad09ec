#include "handlaid/quality/eye.hpp"

#include <cmath>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/difference.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/quality/seen_error.hpp"
#include "handlaid/quality/similarity.hpp"
#include "quality/seen_cat.hpp"
#include "support/catch.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(Accepts<SeenFrom, Cells<Oklab>> && Accepts<SeenFrom, Chart<>>);
static_assert(!Accepts<SeenFrom, Raster<Srgb8>>);

TEST_CASE("e to the minus x in whole steps is that of the mathematics library") {
  for (const double x : {0.0, 1e-6, 0.01, 0.5, 1.0, 3.3, 7.0, 13.8, 20.9}) {
    const auto steps = static_cast<std::int64_t>(x * 1073741824.0);
    CHECK_THAT(static_cast<double>(detail::fixed_exp_minus(steps)) / 1073741824.0, WithinAbs(std::exp(-x), 1e-7));
  }
  CHECK(detail::fixed_exp_minus(std::int64_t{1} << 60) == 0);
}

TEST_CASE("a uniform area stays what it is in CIELAB, from any distance and with holes") {
  // what the weights of Zhang and Wandell 1996 are scaled for
  for (const Srgb8& colour : {Srgb8{0, 0, 0}, Srgb8{255, 255, 255}, Srgb8{3, 1, 5}, Srgb8{200, 30, 90}}) {
    const auto plain = convert_colour<LabD65>(colour);
    for (const int pitches : {1, 100, 333, 3'000, 100'000}) {
      Cells<Srgb8> cells = {.lattice = {.columns = 31, .rows = 20}, .colours = {31, 20}, .laid = {31, 20}};
      for (int y = 0; y < 20; ++y) {
        for (int x = 0; x < 31; ++x) {
          cells.laid(x, y) = x * y % 7 == 3 ? 0 : 1;
          cells.colours(x, y) = cells.laid(x, y) != 0 ? colour : Srgb8{255, 0, 255};  // an empty cell never leaks
        }
      }
      const auto seen = cells | SeenFrom{.distance = cells.lattice.pitch.times(pitches)};
      double worst = 0;
      for (std::size_t i = 0; i < seen.colours.size(); ++i) {
        if (seen.laid.pixels()[i] == 0) continue;
        worst = std::max(worst, cie76(seen.colours.pixels()[i], plain));
      }
      INFO(pitches << " pitches away");
      CHECK(worst < 1e-3);
    }
  }
}

TEST_CASE("a chequer tends to the mean of its light with distance") {
  const Srgb8 one = {250, 80, 20};
  const Srgb8 other = {20, 90, 160};
  const Light p = one.light();
  const Light q = other.light();
  const auto mean = LabD65::from_light({(p.r + q.r) / 2, (p.g + q.g) / 2, (p.b + q.b) / 2});
  Cells<Srgb8> cells = {.lattice = {.columns = 40, .rows = 40}, .colours = {40, 40}, .laid = {40, 40}};
  for (int y = 0; y < 40; ++y) {
    for (int x = 0; x < 40; ++x) {
      cells.laid(x, y) = 1;
      cells.colours(x, y) = (x + y) % 2 == 0 ? one : other;
    }
  }
  double before = 1e9;
  for (const int pitches : {1'000, 2'000, 3'000, 4'000}) {
    const auto seen = cells | SeenFrom{.distance = cells.lattice.pitch.times(pitches)};
    const double off = cie76(seen.colours(20, 21), mean);
    CHECK(off < before);
    before = off;
  }
  CHECK(before < 0.01);
  // From near by it is what it is.
  const auto near = cells | SeenFrom{.distance = cells.lattice.pitch.times(1)};
  CHECK(cie76(near.colours(20, 20), convert_colour<LabD65>(one)) < 1e-3);
}

TEST_CASE("what is seen is what S-CIELAB by direct sums in double gives") {
  const Table table("seen_cells.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const SeenCat cat(table.text(row, "cells") == "hole");
    const auto seen = cat.cells | SeenFrom{.distance = cat.cells.lattice.pitch.times(table.whole(row, "pitches"))};
    const LabD65 colour = seen.colours(table.whole(row, "x"), table.whole(row, "y"));
    INFO(table.text(row, "cells") << " " << table.text(row, "pitches") << " " << table.text(row, "x"));
    CHECK_THAT(colour.L, WithinAbs(table.number(row, "L"), 0.02));
    CHECK_THAT(colour.a, WithinAbs(table.number(row, "a"), 0.05));
    CHECK_THAT(colour.b, WithinAbs(table.number(row, "b"), 0.05));
  }
}

TEST_CASE("seen error and similarity are those of an independent S-CIELAB and of scikit-image") {
  const Table table("seen_errors.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const SeenCat cat(table.text(row, "cells") == "hole");
    const Length distance = cat.cells.lattice.pitch.times(table.whole(row, "pitches"));
    const WholeError error = seen_error(cat.cells, cat.chart, distance);
    INFO(table.text(row, "cells") << " " << table.text(row, "pitches"));
    CHECK_THAT(error.mean(), WithinAbs(table.number(row, "mean"), 0.005));
    CHECK_THAT(error.high(), WithinAbs(table.number(row, "high"), 0.02));
    if (table.text(row, "similarity").empty()) continue;
    const Eye eye = eye_for(cat.cells.lattice, cat.cells.laid, distance);
    CHECK_THAT(similarity(eye.see(cat.cells), eye.see(cat.chart), cat.cells.laid),
               WithinAbs(table.number(row, "similarity"), 0.001));
  }
}

TEST_CASE("for pictures the surround is left out: between the darkest and the lightest cell nothing new is seen") {
  const SeenCat cat(false);
  const auto seen = eye_for(cat.cells.lattice, cat.cells.laid, 10'000 * mm, Sight::blur_only).see(cat.cells);
  float darkest = 100;
  float lightest = 0;
  for (const Srgb8& cell : cat.cells.colours.pixels()) {
    darkest = std::min(darkest, convert_colour<LabD65>(cell).L);
    lightest = std::max(lightest, convert_colour<LabD65>(cell).L);
  }
  for (const LabD65& colour : seen.pixels()) {
    // The axes are not quite those of lightness, and each is blurred by itself: some units are lost.
    if (colour.L < darkest - 12 || colour.L > lightest + 12) FAIL("L is " << colour.L);
  }
  const Srgb8 plain = {90, 30, 200};
  Cells<Srgb8> uniform = cat.cells;
  for (Srgb8& cell : uniform.colours.pixels()) cell = plain;
  const auto same = eye_for(uniform.lattice, uniform.laid, 10'000 * mm, Sight::blur_only).see(uniform);
  CHECK(cie76(same(40, 50), convert_colour<LabD65>(plain)) < 1e-3);
}

TEST_CASE("for pictures colours are blurred no wider than light: white on red never turns green, nor red over white") {
  Cells<Srgb8> cells{.lattice = {.columns = 30, .rows = 30, .pitch = 10 * mm},
                     .colours = Raster<Srgb8>(30, 30),
                     .laid = Raster<std::uint8_t>(30, 30)};
  for (int y = 0; y < 30; ++y) {
    for (int x = 0; x < 30; ++x) {
      cells.laid(x, y) = 1;
      cells.colours(x, y) = x / 5 == 3 && y / 5 > 1 ? Srgb8{255, 255, 255} : Srgb8{200, 30, 30};
    }
  }
  const auto seen = eye_for(cells.lattice, cells.laid, 20'000 * mm, Sight::blur_only).see(cells);
  for (const LabD65& colour : seen.pixels()) {
    // Any mixture of the two has as much green as blue, and no more red than white.
    const Srgb8 code = convert_colour<Srgb8>(colour);
    if (code.g > code.b + 1 || code.b > code.g + 1 || code.r < 199 || code.g < 29) {
      FAIL(int{code.r} << " " << int{code.g} << " " << int{code.b});
    }
  }
  CHECK(seen.size() == 900);
}

TEST_CASE("what cannot be looked at is refused") {
  const Raster<std::uint8_t> laid(3, 2);
  CHECK_THROWS_WITH(Eye(laid, 10 * mm, 10 * mm, Length{}), contains("viewing distance"));
  CHECK_THROWS_WITH(Eye(laid, 1 * mm, 10 * mm, 100'001 * mm), contains("at most 100,000 pitches"));
  CHECK_THROWS_WITH(Eye(laid, Length{}, 10 * mm, 1'000 * mm), contains("pitch"));
  const SeenCat cat(false);
  CHECK_THROWS_WITH(Eye(laid, 10 * mm, 10 * mm, 1'000 * mm).see(cat.cells), contains("another size"));
}

TEST_CASE("similarity of small and empty pictures") {
  Raster<LabD65> one(4, 3);
  Raster<LabD65> other(4, 3);
  Raster<std::uint8_t> laid(4, 3);
  CHECK(similarity(one, other, laid) == 1);
  for (std::size_t i = 0; i < laid.size(); ++i) {
    laid.pixels()[i] = 1;
    one.pixels()[i].L = i % 2 == 0 ? 20.0F : 80.0F;
    other.pixels()[i].L = i % 2 == 0 ? 80.0F : 20.0F;
  }
  CHECK_THAT(similarity(one, one, laid), WithinAbs(1, 1e-9));
  CHECK(similarity(one, other, laid) < 0);  // by definition: the covariance is negative
  CHECK_THROWS_WITH(similarity(one, Raster<LabD65>(4, 4), laid), contains("differ in size"));
}
