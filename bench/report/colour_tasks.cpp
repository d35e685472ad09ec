// Conversion, nearest colour, colour difference and error diffusion: ours and the plain loop.
#include <memory>
#include <span>
#include <vector>

#include "../plain.hpp"
#include "handlaid/colour/difference_rows.hpp"
#include "handlaid/colour/hex.hpp"
#include "handlaid/colour/oklab_rows.hpp"
#include "handlaid/dither/ditherer.hpp"
#include "handlaid/dither/error_diffusion.hpp"
#include "handlaid/files/text_file.hpp"
#include "inputs.hpp"
#include "tasks.hpp"

namespace {

using namespace handlaid;
using namespace handlaid_bench;

template <class C>
Cells<C> cells_of(Raster<C> colours) {
  Cells<C> cells = {
      .lattice = {.columns = colours.width(), .rows = colours.height()}, .colours = std::move(colours), .laid = {}};
  cells.laid = {cells.columns(), cells.rows()};
  for (std::uint8_t& laid : cells.laid.pixels()) laid = 1;
  return cells;
}

const AddTask to_oklab("to oklab", [](const Arguments&) -> Task {
  const auto oklab = std::make_shared<Raster<Oklab>>(megapixel().width(), megapixel().height());
  return {.run = [oklab] {
    for (int y = 0; y < oklab->height(); ++y) convert_row(megapixel().row(y), oklab->row(y));
  }};
});

const AddTask nearest("nearest", [](const Arguments& arguments) -> Task {
  const auto cells = std::make_shared<Cells<Oklab>>(cells_of(convert<Oklab>(megapixel())));
  const auto palette = palette_from_photo(std::stoi(argument(arguments, 0)));
  const auto sum = std::make_shared<int>(0);
  return {.run = [=] { *sum += NoDither{}(*cells, palette)(0, 0); }};
});

/// As many points as a panel has, prepared anew each time, as a peer's call does.
const AddTask nearest_cells("nearest cells", [](const Arguments& arguments) -> Task {
  const auto cells = std::make_shared<Cells<Oklab>>(cells_of(convert<Oklab>(photo(16'700))));
  const auto palette = palette_from_photo(std::stoi(argument(arguments, 0)));
  const auto sum = std::make_shared<int>(0);
  return {.run = [=] { *sum += NoDither{}(*cells, palette)(0, 0); }};
});

const AddTask nearest_plain("plain nearest", [](const Arguments& arguments) -> Task {
  const auto oklab = convert<Oklab>(megapixel());
  const std::vector<Oklab> points(oklab.pixels().begin(), oklab.pixels().end());
  const auto colours = oklab_of(palette_from_photo(std::stoi(argument(arguments, 0))));
  const auto numbers = std::make_shared<std::vector<ColourNumber>>(points.size());
  return {.run = [=] { plain_nearest(points, colours, *numbers); }};
});

const AddTask difference("ciede2000", [](const Arguments&) -> Task {
  std::vector<LabD65> partners;
  for (std::size_t i = 0; i < lab_pixels().size(); ++i)
    partners.push_back(lab_pixels()[partner(i, lab_pixels().size())]);
  const auto differences = std::make_shared<std::vector<float>>(partners.size());
  return {.run = [partners, differences] {
    ciede2000_row(std::span<const LabD65>(lab_pixels()), std::span<const LabD65>(partners),
                  std::span<float>(*differences));
  }};
});

/// The palette and the pixels of "diffuse", for a peer in another process: colours as words, a picture as PPM.
const AddTask diffuse_palette("diffuse palette", [](const Arguments&) -> Task {
  return {.run = [] {},
          .result =
              [] {
                std::string words;
                for (const PaletteEntry& entry : palette_from_photo(16).entries) words += to_hex(entry.colour) + " ";
                return words;
              }};
});
const AddTask diffuse_picture("write diffuse picture", [](const Arguments& arguments) -> Task {
  return {.run = [path = argument(arguments, 0)] {
    const auto& pixels = megapixel();
    std::string ppm = "P6\n" + std::to_string(pixels.width()) + " " + std::to_string(pixels.height()) + "\n255\n";
    for (const Srgb8& pixel : pixels.pixels()) {
      for (const std::uint8_t code : {pixel.r, pixel.g, pixel.b}) ppm += static_cast<char>(code);
    }
    write_text_file(path, ppm);
  }};
});

const AddTask diffuse("diffuse", [](const Arguments&) -> Task {
  const auto cells = std::make_shared<Cells<Srgb8>>(cells_of(megapixel()));
  const auto palette = palette_from_photo(16);
  const auto sum = std::make_shared<int>(0);
  return {.run = [=] { *sum += ErrorDiffusion{}(*cells, palette)(0, 0); }};
});

}  // namespace
