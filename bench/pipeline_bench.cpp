// The whole job, from the bytes of a JPEG to the bytes of every sheet, beside what stb_image needs only to decode it;
// 0.1 to 12 megapixels. And the demo, from its files to its sheets.
#include <benchmark/benchmark.h>

#include <map>

#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#include <stb_image.h>
#pragma GCC diagnostic pop

#include "handlaid/files/job_file.hpp"
#include "handlaid/files/stock_table.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/plan/make.hpp"
#include "handlaid/sheets/all.hpp"
#include "photo.hpp"

using namespace handlaid;

namespace {

const std::vector<unsigned char>& jpeg(const benchmark::State& state) {
  static std::map<std::int64_t, std::vector<unsigned char>> made;
  auto& bytes = made[state.range(0)];
  if (bytes.empty()) bytes = handlaid_bench::photo_jpeg(static_cast<double>(state.range(0)) * 1000);
  return bytes;
}

/// Kilopixels.
void sizes(benchmark::internal::Benchmark* bench) {
  for (const int kilopixels : {100, 1000, 3000, 12000}) bench->Arg(kilopixels);
  bench->Unit(benchmark::kMillisecond);
}

void stb_decodes(benchmark::State& state) {
  const auto& bytes = jpeg(state);
  for (auto _ : state) {
    int width = 0;
    int height = 0;
    int channels = 0;
    unsigned char* pixels =
        stbi_load_from_memory(bytes.data(), static_cast<int>(bytes.size()), &width, &height, &channels, 3);
    benchmark::DoNotOptimize(pixels);
    stbi_image_free(pixels);
  }
}
BENCHMARK(stb_decodes)->Apply(sizes);

void plan(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(make_plan(Job{.picture = "photo.jpg"}, jpeg(state)).tally.laid());
}
BENCHMARK(plan)->Apply(sizes);

void plan_and_all_sheets(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(make_sheets(make_plan(Job{.picture = "photo.jpg"}, jpeg(state))).size());
  }
}
BENCHMARK(plan_and_all_sheets)->Apply(sizes);

void demo(benchmark::State& state) {
  const std::string folder = std::string(HANDLAID_DEMO_DATA) + "/";
  for (auto _ : state) {
    const Job job = read_job(read_text_file(folder + "reading_corner.job"), "reading_corner.job");
    const Stock stock = read_stock(read_text_file(folder + *job.stock), *job.stock);
    benchmark::DoNotOptimize(make_sheets(make_plan(job, read_file(folder + *job.picture), *job.picture, stock)).size());
  }
}
BENCHMARK(demo)->Unit(benchmark::kMillisecond);

}  // namespace
