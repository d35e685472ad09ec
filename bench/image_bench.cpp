// Reading, averaging and the other stages of pictures, from 0.1 to 12 megapixels; what stb_image needs beside it.
#include <benchmark/benchmark.h>

#include <map>

// As a user would have it: with everything, SIMD and all formats.
#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image.h>
#pragma GCC diagnostic pop

#include "handlaid/colour/oklab.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/ground.hpp"
#include "handlaid/image/resample.hpp"
#include "handlaid/image/tone.hpp"
#include "handlaid/image/write.hpp"
#include "photo.hpp"

using namespace handlaid;

namespace {

double pixels_of(const benchmark::State& state) { return static_cast<double>(state.range(0)) * 1000; }

const Raster<Srgb8>& picture(const benchmark::State& state) {
  static std::map<std::int64_t, Raster<Srgb8>> made;
  auto& raster = made[state.range(0)];
  if (raster.empty()) raster = handlaid_bench::photo(pixels_of(state));
  return raster;
}
const std::vector<unsigned char>& jpeg(const benchmark::State& state) {
  static std::map<std::int64_t, std::vector<unsigned char>> made;
  auto& bytes = made[state.range(0)];
  if (bytes.empty()) bytes = handlaid_bench::photo_jpeg(pixels_of(state));
  return bytes;
}

/// Megapixels a second beside the time.
void count(benchmark::State& state) {
  state.counters["MP/s"] = benchmark::Counter(pixels_of(state) / 1e6, benchmark::Counter::kIsIterationInvariantRate);
}

void stb_decodes_jpeg(benchmark::State& state) {
  const auto& bytes = jpeg(state);
  for (auto _ : state) {
    int width = 0, height = 0, channels = 0;
    unsigned char* pixels =
        stbi_load_from_memory(bytes.data(), static_cast<int>(bytes.size()), &width, &height, &channels, 3);
    benchmark::DoNotOptimize(pixels);
    stbi_image_free(pixels);
  }
  count(state);
}
void read_jpeg(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(read_memory<Srgb8>(jpeg(state)));
  count(state);
}
void read_jpeg_and_map(benchmark::State& state) {
  const Work work{.threads = static_cast<int>(state.range(1))};
  for (auto _ : state) {
    benchmark::DoNotOptimize(
        apply(map_to(Rectangular{.columns = 72, .rows = 54}), read_memory<Srgb8>(jpeg(state)), work));
  }
  count(state);
}
void stb_decodes_png(benchmark::State& state) {
  const std::string png = write_png(picture(state));
  for (auto _ : state) {
    int width = 0, height = 0, channels = 0;
    unsigned char* pixels = stbi_load_from_memory(reinterpret_cast<const unsigned char*>(png.data()),
                                                  static_cast<int>(png.size()), &width, &height, &channels, 3);
    benchmark::DoNotOptimize(pixels);
    stbi_image_free(pixels);
  }
  count(state);
}
void read_png(benchmark::State& state) {
  const std::string png = write_png(picture(state));
  for (auto _ : state) {
    benchmark::DoNotOptimize(read_memory<Srgb8>({reinterpret_cast<const unsigned char*>(png.data()), png.size()}));
  }
  count(state);
}
void write_as_png(benchmark::State& state) {
  std::size_t size = 0;
  for (auto _ : state) size = write_png(picture(state)).size();
  state.counters["bytes/pixel"] = static_cast<double>(size) / pixels_of(state);
  count(state);
}

template <class S>
void run(benchmark::State& state, const S& stage, int threads = 1) {
  const auto& raster = picture(state);
  for (auto _ : state) benchmark::DoNotOptimize(apply(stage, raster, Work{.threads = threads}));
  count(state);
}
void map_to_cells(benchmark::State& state) {
  run(state, map_to(Rectangular{.columns = 72, .rows = 54}), static_cast<int>(state.range(1)));
}
void map_to_cells_with_alpha(benchmark::State& state) {
  const auto alpha = picture(state) | convert<Srgba8>;
  for (auto _ : state) benchmark::DoNotOptimize(alpha | map_to(Rectangular{.columns = 72, .rows = 54}));
  count(state);
}
void resample_to_1000(benchmark::State& state) {
  run(state, Resample{.width = 1000, .height = 750}, static_cast<int>(state.range(1)));
}
void resample_to_nearly_the_same(benchmark::State& state) {
  run(state, Resample{.width = picture(state).width() - 1, .height = picture(state).height() - 1});
}
void turn_by_90(benchmark::State& state) {
  Raster<Srgb8> raster = picture(state);
  for (auto _ : state) raster = std::move(raster) | orient(6);
  count(state);
}
void crop(benchmark::State& state) { run(state, crop_to(3.0 / 4)); }
void convert_to_oklab(benchmark::State& state) { run(state, convert<Oklab>); }
void tone(benchmark::State& state) { run(state, Tone{.brightness = 0.1, .saturation = 0.2}); }
void clear_ground(benchmark::State& state) { run(state, clear({200, 180, 160})); }

void sizes(benchmark::internal::Benchmark* benchmark) {
  benchmark->ArgName("kilopixels")->Arg(100)->Arg(1000)->Arg(3000)->Arg(12000)->Unit(benchmark::kMillisecond);
}
void sizes_and_threads(benchmark::internal::Benchmark* benchmark) {
  benchmark->ArgNames({"kilopixels", "threads"})->ArgsProduct({{100, 1000, 3000, 12000}, {1, 2}});
  benchmark->Unit(benchmark::kMillisecond)->UseRealTime();
}
BENCHMARK(stb_decodes_jpeg)->Apply(sizes);
BENCHMARK(read_jpeg)->Apply(sizes);
BENCHMARK(read_jpeg_and_map)->Apply(sizes_and_threads);
BENCHMARK(stb_decodes_png)->Apply(sizes);
BENCHMARK(read_png)->Apply(sizes);
BENCHMARK(map_to_cells)->Apply(sizes_and_threads);
BENCHMARK(map_to_cells_with_alpha)->Apply(sizes);
BENCHMARK(resample_to_1000)->Apply(sizes_and_threads);
BENCHMARK(resample_to_nearly_the_same)->Apply(sizes);
BENCHMARK(turn_by_90)->Apply(sizes);
BENCHMARK(crop)->Apply(sizes);
BENCHMARK(convert_to_oklab)->Apply(sizes);
BENCHMARK(tone)->Apply(sizes);
BENCHMARK(clear_ground)->Apply(sizes);
BENCHMARK(write_as_png)->Apply(sizes);

}  // namespace
