// Fitters side by side on the pixels of one picture: ours, and those of other libraries that were there when this was
// built. A table of errors and times, and a contact sheet to look at.
#include <CLI/CLI.hpp>
#include <chrono>
#include <cstdio>
#include <functional>
#include <optional>

#include "../bench/peers/peers.hpp"
#include "compare/contact_sheet.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/files/output_file.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/image/write.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "handlaid/palette/nearest_search.hpp"
#include "handlaid/quality/colour_error.hpp"

using namespace handlaid;
using handlaid_bench::PeerInput;

namespace {

struct Contestant {
  std::string name = {};
  int fewest = 1;
  int most = most_colours;
  std::function<std::vector<Srgb8>(const PeerInput&, int colours)> fit = {};
};

/// Ours takes pixels, too: counting them is part of its time.
template <class F>
Contestant ours(std::string name, F fitter) {
  return {.name = std::move(name), .fit = [fitter](const PeerInput& input, int colours) {
            F fit = fitter;
            fit.colours = colours;
            std::vector<Srgb8> palette;
            for (const PaletteEntry& entry : fit(count_colours(input.codes)).entries) palette.push_back(entry.colour);
            return palette;
          }};
}

std::vector<Contestant> contestants() {
  std::vector<Contestant> all = {ours("k-means best", KMeans{}), ours("k-means quick", KMeans{.effort = Effort::quick}),
                                 ours("median cut", MedianCut{}), ours("cut at the mean", MedianCut{.at = CutAt::mean}),
                                 ours("cut at the best fit", MedianCut{.at = CutAt::best_fit})};
  for (const auto& peer : handlaid_bench::peers()) all.push_back({peer.name, peer.fewest, peer.most, peer.fit});
  return all;
}

struct Row {
  std::string fitter = {};
  int colours = 0;
  int used = 0;
  double mse_oklab = 0;
  double mse_srgb = 0;
  ColourError difference = {};
  double seconds = 1e9;
};

double squared(double value) { return value * value; }

/// Each pixel to its nearest colour in Oklab; errors are those of the codes, on both sides.
Row measure(const Cells<Srgb8>& cells, const std::vector<Srgb8>& colours, compare::Proof& proof) {
  const NearestColour<Oklab> palette(palette_of(colours));
  NearestSearch nearest(palette.points());
  Chart<> chart{.lattice = cells.lattice, .numbers = {cells.columns(), cells.rows()}, .palette = palette_of(colours)};
  proof = {.picture = {cells.columns(), cells.rows()}, .colours = colours};
  std::vector<bool> used(colours.size(), false);
  Row row;
  for (std::size_t i = 0; i < cells.colours.size(); ++i) {
    const Srgb8& code = cells.colours.pixels()[i];
    const auto point = convert_colour<Oklab>(code);
    const ColourNumber number = nearest.number(point.fixed());
    const Srgb8& colour = colours[number - std::size_t{1}];
    const auto there = convert_colour<Oklab>(colour);
    chart.numbers.pixels()[i] = number;
    proof.picture.pixels()[i] = colour;
    used[number - std::size_t{1}] = true;
    row.mse_oklab += squared(distance_oklab(point, there));
    row.mse_srgb += (squared(code.r - colour.r) + squared(code.g - colour.g) + squared(code.b - colour.b)) / 3;
  }
  row.used = static_cast<int>(std::count(used.begin(), used.end(), true));
  row.mse_oklab /= static_cast<double>(cells.colours.size());
  row.mse_srgb /= static_cast<double>(cells.colours.size());
  row.difference = colour_error(cells, chart);
  return row;
}

/// The palette, and the least time of up to nine runs.
std::vector<Srgb8> timed(const Contestant& contestant, const PeerInput& input, int colours, double& seconds) {
  std::vector<Srgb8> palette;
  double sum = 0;
  for (int run = 0; run < 9 && (run < 2 || sum < 1); ++run) {
    const auto start = std::chrono::steady_clock::now();
    palette = contestant.fit(input, colours);
    const double took = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    seconds = std::min(seconds, took);
    sum += took;
  }
  return palette;
}

std::string number(const char* format, double value) {
  char text[32];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

std::vector<std::string> fields(const Row& row) {
  return {row.fitter,
          std::to_string(row.colours),
          std::to_string(row.used),
          number("%.4e", row.mse_oklab),
          number("%.2f", row.mse_srgb),
          number("%.3f", row.difference.mean),
          number("%.3f", row.difference.high),
          number("%.5f", row.seconds)};
}

/// "8,20,64": numbers from 1 to 999, each once.
std::vector<int> read_list(const std::string& text) {
  std::vector<int> list;
  std::istringstream parts(text + ",");
  for (std::string part; std::getline(parts, part, ',');) {
    const bool plain = !part.empty() && part.size() <= 6 && part.find_first_not_of("0123456789") == part.npos;
    if (!plain) throw Error::bad_option("--colours", "\"" + text + "\" is no list of numbers", "write it like 8,20,64");
    list.push_back(std::stoi(part));
    check_colours(list.back(), "--colours");
    if (std::count(list.begin(), list.end(), list.back()) > 1) {
      throw Error::bad_option("--colours", part + " is there twice", "give each number once");
    }
  }
  return list;
}

/// "100x167".
Rectangular read_lattice(const std::string& text) {
  Rectangular lattice;
  char rest = 0;
  if (text.size() > 15 || text.find_first_not_of("0123456789x") != text.npos ||
      std::sscanf(text.c_str(), "%7dx%7d%c", &lattice.columns, &lattice.rows, &rest) != 2) {
    throw Error::bad_option("--cells", "\"" + text + "\" is no number of columns and rows", "write it like 100x167");
  }
  lattice.check();
  return lattice;
}

struct Options {
  std::string picture = {};
  std::vector<int> colours = {};
  std::optional<Rectangular> lattice = {};
  std::string csv = {};
  std::string sheet = {};
};

Options read_options(int argc, char** argv) {
  CLI::App app("Compares fitters of palettes on one picture: errors, times and a contact sheet.");
  Options options;
  std::string colours = "8,20,64";
  std::string cells;
  app.add_option("PICTURE", options.picture, "JPEG, PNG, BMP or PNM")->required();
  app.add_option("--colours", colours, "How many, as a list [8,20,64]");
  app.add_option("--cells", cells, "COLUMNSxROWS: on the cells of a panel [on every pixel]");
  app.add_option("--csv", options.csv, "Where the table is put");
  app.add_option("--picture", options.sheet, "Where the contact sheet is put, as PNG");
  app.parse(argc, argv);
  options.colours = read_list(colours);
  if (!cells.empty()) options.lattice = read_lattice(cells);
  if (!options.csv.empty() && options.csv == options.sheet) {
    throw Error::bad_option("--csv and --picture", "both name " + options.csv, "give each a file of its own");
  }
  return options;
}

Cells<Srgb8> read_cells(const Options& options) {
  auto picture = read<Srgb8>(options.picture, {.ground = Srgb8{255, 255, 255}});
  if (!options.lattice) return map_to(Rectangular{.columns = picture.width(), .rows = picture.height()})(picture);
  const Rectangular& lattice = *options.lattice;
  if (picture.width() == lattice.columns && picture.height() == lattice.rows) return map_to(lattice)(picture);
  return std::move(picture) | crop_to(static_cast<double>(lattice.columns) / lattice.rows) | map_to(lattice);
}

void compare_quantisers(const Options& options) {
  for (const std::string& out : {options.csv, options.sheet}) {
    if (!out.empty() && out == options.picture) {
      throw Error::bad_output(out, "it is the picture itself", "give another name");
    }
  }
  const Cells<Srgb8> cells = read_cells(options);
  std::optional<OutputFile> csv_file;
  std::optional<OutputFile> sheet_file;
  if (!options.csv.empty()) csv_file.emplace(options.csv);
  if (!options.sheet.empty()) sheet_file.emplace(options.sheet);

  const PeerInput input = handlaid_bench::peer_input(cells.colours);
  const std::vector<Contestant> all = contestants();
  compare::ContactSheet sheet(cells.colours, all.size(), options.colours.size());
  CsvWriter csv;
  const char* headings[] = {"fitter",   "k",           "colours used", "mse_oklab",
                            "mse_srgb", "mean_de2000", "p95_de2000",   "seconds"};
  for (const char* heading : headings) csv.field(heading);
  csv.end_line();
  std::printf("%-22s %4s %5s %11s %9s %7s %7s %9s\n", "fitter", "k", "used", "mse_oklab", "mse_srgb", "mean dE",
              "95% dE", "seconds");
  for (std::size_t k = 0; k < options.colours.size(); ++k) {
    const int colours = options.colours[k];
    sheet.name_column(k, std::to_string(colours) + (colours == 1 ? " colour" : " colours"));
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (k == 0) sheet.name_row(i, all[i].name);
      if (colours < all[i].fewest || colours > all[i].most) continue;
      double seconds = 1e9;
      compare::Proof proof;
      Row row = measure(cells, timed(all[i], input, colours, seconds), proof);
      row.fitter = all[i].name;
      row.colours = colours;
      row.seconds = seconds;
      const std::vector<std::string> texts = fields(row);
      for (const std::string& text : texts) csv.field(text);
      csv.end_line();
      std::printf("%-22s %4s %5s %11s %9s %7s %7s %9s\n", texts[0].c_str(), texts[1].c_str(), texts[2].c_str(),
                  texts[3].c_str(), texts[4].c_str(), texts[5].c_str(), texts[6].c_str(), texts[7].c_str());
      std::fflush(stdout);
      proof.text = "mean difference " + number("%.2f", row.difference.mean);
      sheet.add(i, k, proof);
    }
  }
  if (sheet_file) sheet_file->finish(write_png(sheet.picture()));
  if (csv_file) csv_file->finish(csv.text());
  if (std::fflush(stdout) != 0) throw Error::bad_output("table", "it could not be shown", "see where it was sent");
}

}  // namespace

int main(int argc, char** argv) {
  const auto fail = [](const std::string& line, int code) {
    return std::fprintf(stderr, "compare_quantisers: %s\n", line.c_str()), code;
  };
  try {
    compare_quantisers(read_options(argc, argv));
    return 0;
  } catch (const CLI::CallForHelp&) {
    std::printf(
        "usage: compare_quantisers PICTURE [--colours 8,20,64] [--cells COLUMNSxROWS] [--csv FILE] "
        "[--picture FILE]\n");
    return 0;
  } catch (const CLI::Error& error) {
    return fail(std::string(error.what()) + "; see --help", 2);
  } catch (const Error& error) {
    return fail(error.what(), error.kind() == Error::Kind::option ? 2 : 1);
  } catch (const std::exception& error) {
    return fail(error.what(), 1);
  }
}
