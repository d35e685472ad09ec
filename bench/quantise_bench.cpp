// Components from colour to chart, on inputs of 0.1 to 12 megapixels or on a panel's cells, so that growth is visible.
#include <benchmark/benchmark.h>

#include "handlaid/core/pipe.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/dither/error_diffusion.hpp"
#include "handlaid/dither/ordered.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "handlaid/quantise/quantise.hpp"

using namespace handlaid;

namespace {

/// A made picture with the statistics of a photo: smooth ground, edges, a little noise.
Raster<Srgb8> made_picture(int width, int height) {
  Random random(1);
  Raster<Srgb8> picture(width, height);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const auto noise = static_cast<int>(random.below(9)) - 4;
      const int shade = (x * 160 / width + y * 60 / height + ((x * 7 / width + y * 9 / height) % 2) * 30) + noise;
      const auto code = [&](int v) { return static_cast<std::uint8_t>(v < 0 ? 0 : (v > 255 ? 255 : v)); };
      picture(x, y) = {code(shade + 20), code(shade * 3 / 4 + 25), code(shade / 2 + y * 40 / height)};
    }
  }
  return picture;
}

Cells<Oklab> made_cells(int columns, int rows) {
  const auto picture = made_picture(columns, rows);
  Cells<Oklab> cells = {
      .lattice = {.columns = columns, .rows = rows}, .colours = {columns, rows}, .laid = {columns, rows}};
  for (std::size_t i = 0; i < picture.size(); ++i) {
    cells.colours.pixels()[i] = convert_colour<Oklab>(picture.pixels()[i]);
    cells.laid.pixels()[i] = 1;
  }
  return cells;
}

/// Widths of 3:2 pictures of 0.1, 1, 3 and 12 megapixels.
void picture_sizes(benchmark::internal::Benchmark* bench) {
  for (const int width : {390, 1224, 2121, 4242}) bench->Arg(width);
  bench->Unit(benchmark::kMillisecond);
}

void finish(benchmark::State& state, std::int64_t items) { state.SetItemsProcessed(state.iterations() * items); }

void convert_to_oklab(benchmark::State& state) {
  const auto picture = made_picture(static_cast<int>(state.range(0)), static_cast<int>(state.range(0)) * 2 / 3);
  for (auto _ : state) {
    float sum = 0;
    for (const Srgb8& pixel : picture.pixels()) sum += convert_colour<Oklab>(pixel).L;
    benchmark::DoNotOptimize(sum);
  }
  finish(state, static_cast<std::int64_t>(picture.size()));
}
BENCHMARK(convert_to_oklab)->Apply(picture_sizes);

void histogram_of_picture(benchmark::State& state) {
  const auto picture = made_picture(static_cast<int>(state.range(0)), static_cast<int>(state.range(0)) * 2 / 3);
  for (auto _ : state) benchmark::DoNotOptimize(count_colours(picture).bins.size());
  finish(state, static_cast<std::int64_t>(picture.size()));
}
BENCHMARK(histogram_of_picture)->Apply(picture_sizes);

template <class Fitter>
void fit_panel(benchmark::State& state, Fitter fitter) {
  const auto histogram = count_colours(made_cells(100, 167));
  fitter.colours = static_cast<int>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(fitter(histogram).size());
  finish(state, 100 * 167);
}
void palette_sizes(benchmark::internal::Benchmark* bench) {
  for (const int colours : {8, 16, 20, 64}) bench->Arg(colours);
  bench->Unit(benchmark::kMillisecond);
}
BENCHMARK_CAPTURE(fit_panel, kmeans_quick, KMeans{.effort = Effort::quick})->Apply(palette_sizes);
BENCHMARK_CAPTURE(fit_panel, kmeans_best, KMeans{})->Apply(palette_sizes);
BENCHMARK_CAPTURE(fit_panel, median_cut, MedianCut{})->Apply(palette_sizes);

template <class Ditherer>
void place(benchmark::State& state) {
  const auto cells = made_cells(static_cast<int>(state.range(0)), static_cast<int>(state.range(0)) * 2 / 3);
  const Palette palette = MedianCut{.colours = 20}(count_colours(cells));
  for (auto _ : state) benchmark::DoNotOptimize(Ditherer{}(cells, palette).size());
  finish(state, static_cast<std::int64_t>(cells.colours.size()));
}
BENCHMARK(place<NoDither>)->Apply(picture_sizes);
BENCHMARK(place<ErrorDiffusion>)->Apply(picture_sizes);
BENCHMARK(place<BayerDither>)->Apply(picture_sizes);

/// Half a megapixel with few and with many colours; sRGB codes for the ditherers that take them.
template <class Ditherer, class C>
void place_colours(benchmark::State& state) {
  const auto measured = made_cells(866, 577);
  const Palette palette = MedianCut{.colours = static_cast<int>(state.range(0))}(count_colours(measured));
  const auto picture = made_picture(866, 577);
  Cells<C> cells = {.lattice = measured.lattice, .colours = {866, 577}, .laid = measured.laid};
  for (std::size_t i = 0; i < picture.size(); ++i) {
    cells.colours.pixels()[i] = convert_colour<C>(picture.pixels()[i]);
  }
  for (auto _ : state) benchmark::DoNotOptimize(Ditherer{}(cells, palette).size());
  finish(state, static_cast<std::int64_t>(picture.size()));
}
void few_and_many(benchmark::internal::Benchmark* bench) { bench->Arg(20)->Arg(256)->Unit(benchmark::kMillisecond); }
BENCHMARK(place_colours<NoDither, Oklab>)->Apply(few_and_many);
BENCHMARK(place_colours<ErrorDiffusion, Srgb8>)->Apply(few_and_many);
BENCHMARK(place_colours<ErrorDiffusion, Oklab>)->Apply(few_and_many);
BENCHMARK(place_colours<BayerDither, Oklab>)->Apply(few_and_many);
BENCHMARK(place_colours<BlueNoiseDither, Oklab>)->Apply(few_and_many);

void tally_chart(benchmark::State& state) {
  const auto chart = made_cells(static_cast<int>(state.range(0)), static_cast<int>(state.range(0)) * 2 / 3) |
                     quantise(MedianCut{.colours = 20});
  for (auto _ : state) benchmark::DoNotOptimize((chart | tally).laid());
  finish(state, static_cast<std::int64_t>(chart.numbers.size()));
}
BENCHMARK(tally_chart)->Apply(picture_sizes);

}  // namespace
