// Pages for the bench: the book and the templates of the demo, and of a chart of 300 x 400 cells; with their sizes.
#include <benchmark/benchmark.h>

#include "handlaid/files/job_file.hpp"
#include "handlaid/files/stock_table.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/plan/make.hpp"
#include "handlaid/sheets/all.hpp"
#ifdef HANDLAID_HAS_PDF
#include "handlaid/optional/pdf_sheets.hpp"
#endif

using namespace handlaid;

namespace {

/// The demo, and the demo's picture in 300 x 400 cells.
const Plan& plan_of(bool large) {
  static const auto make = [](bool enlarged) {
    const std::string folder = std::string(HANDLAID_DEMO_DATA) + "/";
    Job job = read_job(read_text_file(folder + "reading_corner.job"), "reading_corner.job");
    const Stock stock = read_stock(read_text_file(folder + *job.stock), *job.stock);
    if (enlarged) {
      job.columns = 300;
      job.rows = 400;
      job.board = {};
    }
    return make_plan(job, read_file(folder + *job.picture), *job.picture, stock);
  };
  static const Plan demo = make(false);
  static const Plan enlarged = make(true);
  return large ? enlarged : demo;
}

void book(benchmark::State& state) {
  const Plan& plan = plan_of(state.range(0) != 0);
  std::size_t bytes = 0;
  for (auto _ : state) bytes = bench_book(plan, detail::preview_bytes(plan, 720)).size();
  state.counters["MB"] = static_cast<double>(bytes) / 1e6;
}
BENCHMARK(book)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

#ifdef HANDLAID_HAS_PDF
void templates(benchmark::State& state) {
  const Plan& plan = plan_of(state.range(0) != 0);
  std::size_t bytes = 0;
  for (auto _ : state) {
    bytes = write_pdf(template_pages(plan), {.font = {HANDLAID_FONT, HANDLAID_BOLD_FONT}, .title = "Demo"}).size();
  }
  state.counters["MB"] = static_cast<double>(bytes) / 1e6;
}
BENCHMARK(templates)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void all_pdf_sheets(benchmark::State& state) {
  const Plan& plan = plan_of(state.range(0) != 0);
  for (auto _ : state)
    benchmark::DoNotOptimize(make_pdf_sheets(plan, {HANDLAID_FONT, HANDLAID_BOLD_FONT}).files.size());
}
BENCHMARK(all_pdf_sheets)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);
#endif

}  // namespace
