// How steady palettes are: "changed cells PICTURE CHANGE FILE" writes 100 x 167 cells of a picture as PPM, as they are
// ("none") or after a change that should not matter; "palette distance P Q" compares what was fitted to them. "seen
// ways PICTURE COLOURS PITCHES" looks at every dither from a distance; "published ciede2000 FILE" is the largest error.
#include <algorithm>
#include <cmath>
#include <memory>
#include <sstream>
#include <vector>

#include "handlaid/colour/difference_rows.hpp"
#include "handlaid/colour/hex.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/plan/quality.hpp"
#include "handlaid/quality/palette_distance.hpp"
#include "tasks.hpp"

namespace {

using namespace handlaid;
using namespace handlaid_bench;

constexpr int columns = 100;
constexpr int rows = 167;

const AddTask change_cells("changed cells", [](const Arguments& arguments) -> Task {
  const auto& whole = picture(argument(arguments, 0));
  const std::string change = argument(arguments, 1);
  return {.run = [&whole, change, path = argument(arguments, 2)] {
    auto panel = whole | crop_to(static_cast<double>(columns) / rows);
    if (change == "cropped") {
      const int x = std::max(1, panel.width() / 100);
      const int y = std::max(1, panel.height() / 100);
      panel = panel | Crop{.x = x, .y = y, .width = panel.width() - 2 * x, .height = panel.height() - 2 * y};
    }
    Rectangular lattice = {.columns = columns, .rows = rows};
    if (change == "halved") lattice = {.columns = columns / 2, .rows = rows / 2};
    if (change == "doubled") lattice = {.columns = columns * 2, .rows = rows * 2};
    const auto cells = panel | map_to(lattice);
    std::string ppm = "P6\n" + std::to_string(lattice.columns) + " " + std::to_string(lattice.rows) + "\n255\n";
    for (const Srgb8& cell : cells.colours.pixels()) {
      for (const std::uint8_t code : {cell.r, cell.g, cell.b}) ppm += static_cast<char>(code);
    }
    write_text_file(path, ppm);
  }};
});

Palette palette_from_words(const std::string& text) {
  Palette palette;
  std::istringstream words(text);
  for (std::string word; words >> word;) palette.entries.push_back({.colour = colour_from_hex(word, "palette")});
  return palette;
}

const AddTask distance("palette distance", [](const Arguments& arguments) -> Task {
  const auto one = palette_from_words(argument(arguments, 0));
  const auto other = palette_from_words(argument(arguments, 1));
  const auto found = std::make_shared<double>(0);
  return {.run = [=] { *found = palette_distance(one, other); }, .result = [found] { return std::to_string(*found); }};
});

/// The recommended way's seen error and the least of all ways', in whole steps.
const AddTask seen_ways("seen ways", [](const Arguments& arguments) -> Task {
  const auto cells = picture(argument(arguments, 0)) | map_to(Rectangular{.columns = columns, .rows = rows});
  const int colours = std::stoi(argument(arguments, 1));
  const std::int64_t pitches = std::stoi(argument(arguments, 2));
  const auto text = std::make_shared<std::string>();
  return {.run =
              [=] {
                const Cells<Oklab> measured = {cells.lattice, cells.colours | convert<Oklab>, cells.laid};
                const PanelLook look(measured, Length::from_um(cells.lattice.pitch.um() * pitches));
                const Palette palette = KMeans{.colours = colours}(count_colours(measured));
                const auto looks = look.dithers({}, palette);
                std::int64_t least = looks.front().seen.mean_steps;
                for (const DitherLook& way : looks) least = std::min<std::int64_t>(least, way.seen.mean_steps);
                *text = std::to_string(recommended(looks).seen.mean_steps) + " " + std::to_string(least);
              },
          .result = [text] { return *text; }};
});

const AddTask published("published ciede2000", [](const Arguments& arguments) -> Task {
  const auto largest = std::make_shared<double>(0);
  return {.run =
              [path = argument(arguments, 0), largest] {
                const std::string text = read_text_file(path);
                CsvReader reader(text, path);
                std::vector<CsvField> row;
                reader.next(row);  // the names of the columns
                *largest = 0;
                while (reader.next(row)) {
                  const auto number = [&](std::size_t column) { return std::stof(std::string(row.at(column).text)); };
                  const LabD65 pair[] = {{number(1), number(2), number(3)}, {number(4), number(5), number(6)}};
                  float found = 0;
                  ciede2000_row(std::span(pair, 1), std::span(pair + 1, 1), std::span(&found, 1));
                  *largest = std::max(*largest, std::abs(static_cast<double>(found) - static_cast<double>(number(7))));
                }
              },
          .result = [largest] { return std::to_string(*largest * 1e4); }};
});

}  // namespace
