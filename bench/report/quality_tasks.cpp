// How steady palettes are: "changed cells PICTURE CHANGE FILE" writes 100 x 167 cells of a picture as PPM, as they are
// ("none") or after a change that should not matter; "palette distance P Q" compares what was fitted to them.
#include <memory>
#include <sstream>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/image/crop.hpp"
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

}  // namespace
