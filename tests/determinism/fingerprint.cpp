// Prints a line `name hash` for each result that must be the same in every build and at every number of threads (the
// only argument). Pictures full of exact and near ties, so that any rounding that depends on the build shows.
#include <cstdio>
#include <cstdlib>
#include <string>

#include "handlaid.hpp"

using namespace handlaid;

namespace {

void print(const std::string& name, std::string_view bytes) {
  std::printf("%s %016llx\n", name.c_str(), static_cast<unsigned long long>(fingerprint(bytes)));
}

std::string text(const Chart<>& chart) {
  std::string all;
  for (const PaletteEntry& entry : chart.palette.entries) all += to_hex(entry.colour) + "\n";
  for (const ColourNumber number : chart.numbers.pixels()) all += std::to_string(number) + ",";
  return all;
}

/// Greys and their mirror images: each error has its opposite, so that centres lie half-way between whole steps.
Raster<Srgb8> mirrored_greys() {
  Raster<Srgb8> picture(96, 64);
  for (int y = 0; y < 64; ++y) {
    for (int x = 0; x < 96; ++x) {
      const int code = x < 48 ? x * 2 : 255 - (95 - x) * 2;
      picture(x, y) = {static_cast<std::uint8_t>(code), static_cast<std::uint8_t>(code),
                       static_cast<std::uint8_t>(y % 2 == 0 ? code : 255 - code)};
    }
  }
  return picture;
}

/// A chequer of few colours, each as often as the others: every cut and every start is a tie.
Raster<Srgb8> equal_shares() {
  Raster<Srgb8> picture(90, 60);
  for (int y = 0; y < 60; ++y) {
    for (int x = 0; x < 90; ++x) {
      const auto code = [&](int v) { return static_cast<std::uint8_t>(v % 3 * 127); };
      picture(x, y) = {code(x), code(y), code(x + y)};
    }
  }
  return picture;
}

/// Every code of two channels once: neighbours differ by the least there is.
Raster<Srgb8> all_codes() {
  Raster<Srgb8> picture(256, 256);
  for (int y = 0; y < 256; ++y) {
    for (int x = 0; x < 256; ++x) {
      picture(x, y) = {static_cast<std::uint8_t>(x), static_cast<std::uint8_t>(y), static_cast<std::uint8_t>(x ^ y)};
    }
  }
  return picture;
}

void print_charts(const std::string& name, const Raster<Srgb8>& picture, const Work& work) {
  const auto cells = apply(map_to(Rectangular{.columns = 41, .rows = 29, .pitch = 7.5 * mm}), picture, work);
  const auto one = [&](const char* what, const auto& stage) {
    print(name + "/" + what, text(apply(stage, cells, work)));
  };
  one("kmeans", quantise(KMeans{.colours = 7}));
  one("kmeans_quick", quantise(KMeans{.colours = 12, .effort = Effort::quick}));
  one("median_cut", quantise(MedianCut{.colours = 7}));
  one("floyd_steinberg", quantise(KMeans{.colours = 5}, ErrorDiffusion{.strength = 0.7}));
  one("jarvis_judice_ninke", quantise(MedianCut{.colours = 6}, ErrorDiffusion{.kernel = jarvis_judice_ninke}));
  one("atkinson_in_oklab",
      quantise(MedianCut{.colours = 6}, ErrorDiffusion{.kernel = atkinson, .space = DiffuseIn::cell_space}));
  one("bayer", quantise(MedianCut{.colours = 6}, BayerDither{}));
  one("blue_noise", quantise(MedianCut{.colours = 6}, BlueNoiseDither{}));
  one("lab", convert<LabD50> | quantise(KMeans{.colours = 9}));
  one("best_fit", quantise(MedianCut{.colours = 11, .at = CutAt::best_fit}));
  one("rules", quantise(KMeans{.colours = 10,
                               .rules = {.locked = {{.colour = {255, 255, 255}, .lock = Lock::exact_only}},
                                         .forbidden = {{.colour = {127, 127, 127}}},
                                         .least_distance = 0.07,
                                         .least_weight = 30}},
                        ErrorDiffusion{.edges = 0.5}));
  const auto chart = apply(quantise(KMeans{.colours = 4}), cells, work);
  const WholeError seen = seen_error(cells, chart, 2'500 * mm);
  print(name + "/seen", std::to_string(seen.mean_steps) + " " + std::to_string(seen.high_steps));
}

/// All codes of two channels taken to sRGB by a PNG's chunks: powers, primaries and another white, in 8 and 16 bits.
void print_profiles() {
  const std::string png = write_png(all_codes());
  const auto one = [&](const std::string& name, const std::string& chunk, const std::string& body) {
    std::string with = png.substr(0, 33);  // the signature and the header
    detail::put_png_chunk(with, chunk, body);
    // The chunk that says sRGB would come first.
    with += png.substr(33 + 12 + 1);
    const std::span<const unsigned char> bytes = {reinterpret_cast<const unsigned char*>(with.data()), with.size()};
    const auto text_of = [](const auto& raster) {
      return std::string_view(reinterpret_cast<const char*>(raster.pixels().data()), raster.pixels().size_bytes());
    };
    print("profile/" + name, text_of(read_memory<Srgb8>(bytes)));
    const auto deep = read_memory<Srgb16>(bytes);
    print("profile/" + name + "_16", text_of(deep));
  };
  one("wide", "cICP", std::string("\x0c\x0d\0\1", 4));
  one("power", "gAMA", std::string("\0\0\x8d\x2b", 4));  // 0.36139
  std::string primaries;                                 // ISO 22028-2, white D50
  for (const std::uint32_t v : {34570U, 35850U, 73470U, 26530U, 15960U, 84040U, 3660U, 10U}) {
    detail::put_big32(primaries, v);
  }
  one("white", "cHRM", primaries);
}

/// The whole of the demo, from its files to its tables.
void print_demo(const Work& work) {
  const std::string folder = std::string(HANDLAID_DEMO_DATA) + "/";
  const Job job = read_job(read_text_file(folder + "reading_corner.job"), "reading_corner.job");
  const Stock stock = read_stock(read_text_file(folder + *job.stock), *job.stock);
  const Plan plan = make_plan(job, read_file(folder + *job.picture), *job.picture, stock, work);
  print("demo/chart.csv", write_chart(plan.chart));
  print("demo/palette.csv", write_palette(plan.pieces, plan.tally));
  print("demo/takeoff.csv", write_takeoff(plan.pieces, *plan.order));
}

/// The second demo, with all that the workshop reckons: sittings, cuts, frame, hours.
void print_kitchen(const Work& work) {
  const std::string folder = std::string(HANDLAID_DEMO_DATA) + "/../kitchen/";
  const Job job = read_job(read_text_file(folder + "kitchen_shelf.job"), "kitchen_shelf.job");
  const Stock stock = read_stock(read_text_file(folder + *job.stock), *job.stock);
  const Plan plan = make_plan(job, read_file(folder + *job.picture), *job.picture, stock, work);
  const Fabrication& made = plan.fabrication;
  print("kitchen/takeoff.csv", write_takeoff(plan.pieces, *plan.order));
  const int sittings = made.schedule->ways.at(made.schedule->recommended).sittings;
  print("kitchen/batches.csv", write_batches(*plan.strips, *made.batches, sittings, plan.chart.palette));
  print("kitchen/cuts.csv", write_cuts(*made.cutting, &*made.gang));
  print("kitchen/frame.csv", write_frame(made.frame, made.sheets));
  print("kitchen/hours.csv", write_hours(made.labour, plan.chart.palette));
  Json json;
  json.open_object();
  add_fabrication(json, made);
  json.close();
  print("kitchen/fabrication", std::move(json).finish());
}

/// Searches whose answer must not hang on the machine: cutting, and a learning curve.
void print_searches() {
  Random random(21);
  std::string text;
  for (int round = 0; round < 5; ++round) {
    std::vector<LengthNeed> needs;
    for (int i = 0; i < 15; ++i) {
      needs.push_back(
          {1'000 + static_cast<std::int64_t>(random.below(3'000)), 1 + static_cast<std::int64_t>(random.below(9))});
    }
    const CutPlan plan = cut_lengths(needs, 7'777, 3);
    for (const CutPattern& pattern : plan.patterns) {
      text += std::to_string(pattern.times) + ":";
      for (const std::int64_t count : pattern.counts) text += " " + std::to_string(count);
      text += "\n";
    }
    std::vector<TimedWork> timed;
    for (int unit = 1; unit <= 12; ++unit) {
      timed.push_back({unit, 50 + unit, 400 + static_cast<std::int64_t>(random.below(200)) - 10 * unit});
    }
    const LearningCurve curve = fit_learning(timed);
    text += std::to_string(curve.percent) + " " + std::to_string(curve.first_ms) + "\n";
  }
  print("searches", text);
}

/// A board with slips in uneven light, and clear numbers: what is fitted in doubles must end in the same cells.
void print_proof() {
  Random random(5);
  Chart<> chart{.lattice = {.columns = 40, .rows = 30}, .numbers = {40, 30}};
  for (int n = 0; n < 14; ++n) {
    const auto code = [&] { return static_cast<std::uint8_t>(random.below(6) * 51); };
    chart.palette.entries.push_back({.colour = {code(), code(), code()}});
  }
  Raster<Srgb8> photo(40 * 8 + 20, 30 * 8 + 20);
  for (int y = 0; y < 30; ++y) {
    for (int x = 0; x < 40; ++x) {
      chart.numbers(x, y) = static_cast<ColourNumber>((x / 5 + y / 4 + static_cast<int>(random.below(2))) % 14 + 1);
    }
  }
  for (int y = 0; y < photo.height(); ++y) {
    for (int x = 0; x < photo.width(); ++x) {
      const int column = std::clamp((x - 10) / 8, 0, 39);
      const int row = std::clamp((y - 10) / 8, 0, 29);
      const bool slip = (column * 7 + row * 13) % 61 == 0;
      const int number = slip ? chart.numbers(column, row) % 14 + 1 : chart.numbers(column, row);
      const Light light = chart.palette[number].colour.light();
      const std::int64_t share = 1024 - x - y / 2 + static_cast<std::int64_t>(random.below(40));
      photo(x, y) = Srgb8::from_light({light.r * share / 1024, light.g * share / 1100, light.b * share / 1300});
    }
  }
  const double right = photo.width() - 10.0;
  const double low = photo.height() - 10.0;
  const Homography map = board_to_photo({{{10, low}, {10, 10}, {right, 10}, {right, low}}}, 40, 30);
  const auto seen = Straighten{.columns = 40, .rows = 30, .to_photo = map}(photo);
  print("proof", write_proof(ProofOfBoard{}(chart, seen), chart.palette));
  print("clear_numbers", text(chart | ClearNumbers{}));
  print("checks", write_checks(chart | course_checks));
}

}  // namespace

int main(int count, char** arguments) {
  const Work work = {.threads = count > 1 ? std::atoi(arguments[1]) : 1};
  print_charts("mirrored_greys", mirrored_greys(), work);
  print_charts("equal_shares", equal_shares(), work);
  print_charts("all_codes", all_codes(), work);
  print_profiles();
  print_demo(work);
  print_kitchen(work);
  print_searches();
  print_proof();
}
