// preview.png: the panel as it will look when it is finished, piece by piece, in soft light from the upper left.
// Whole numbers throughout, so that it is the same picture everywhere.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/sheets/look.hpp"

namespace handlaid {

namespace detail {

/// How the pieces of a cell take the light, a figure for each pixel: 256 is the colour as it is, less is shaded, more
/// is lit.
struct CellRelief {
  int width = 0;
  int height = 0;
  std::vector<int> light = {};

  /// `pieces` stand side by side. Each pixel is sampled 8 x 8 times.
  template <When = When::called>
  static CellRelief make(int width, int height, int pieces) {
    constexpr int samples = 8;
    CellRelief relief{width, height, {}};
    relief.light.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    const std::int64_t across = std::int64_t{width} * samples;
    const std::int64_t down = std::int64_t{height} * samples;
    const std::int64_t side = std::min(across, down);
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        int sum = 0;
        for (int v = 0; v < samples; ++v) {
          for (int u = 0; u < samples; ++u) {
            // distances to the edges of the piece that the sample is on, in 1/1024 of the cell's shorter side
            const std::int64_t in_piece = (std::int64_t{x} * samples + u) * pieces % across;
            const std::int64_t left = (2 * in_piece + pieces) * 512 / pieces / side;
            const std::int64_t top = (2 * (std::int64_t{y} * samples + v) + 1) * 512 / side;
            sum += at(left, top, across * 1024 / pieces / side - left, down * 1024 / side - top);
          }
        }
        relief.light.push_back((sum + samples * samples / 2) / (samples * samples));
      }
    }
    return relief;
  }

 private:
  /// A slight joint; edges towards the light are lit, those away from it shaded, with a soft fall.
  template <When = When::called>
  static int at(std::int64_t left, std::int64_t top, std::int64_t right, std::int64_t bottom) {
    constexpr std::int64_t joint = 16;
    constexpr std::int64_t soft = 260;
    if (std::min({left, top, right, bottom}) < joint) return 140;
    const auto slope = [](std::int64_t distance) {  // 1024 at the edge, 0 inside
      const std::int64_t rest = std::max<std::int64_t>(0, soft - (distance - joint)) * 1024 / soft;
      return static_cast<int>(rest * rest / 1024);
    };
    const int lit = 34 * slope(top) + 20 * slope(left);
    const int shaded = 36 * slope(bottom) + 22 * slope(right);
    return 256 + (lit - shaded) / 1024;
  }
};

constexpr Srgb8 lit(const Srgb8& colour, int light) {
  const auto channel = [&](int code) {
    return static_cast<std::uint8_t>(light <= 256 ? code * light / 256 : code + (255 - code) * (light - 256) / 256);
  };
  return {channel(colour.r), channel(colour.g), channel(colour.b)};
}

/// No two pieces are quite alike: -4 to 4, the same for the same piece always. Only where a cell is large enough to
/// show it.
constexpr int tone_of_piece(int column, int row, int piece) {
  auto mixed = static_cast<std::uint32_t>(column) * 0x9e3779b1U ^ static_cast<std::uint32_t>(row) * 0x85ebca77U ^
               static_cast<std::uint32_t>(piece) * 0xc2b2ae3dU;
  mixed ^= mixed >> 15;
  mixed *= 0x2c1b3c6dU;
  mixed ^= mixed >> 13;
  return static_cast<int>(mixed % 5U) * 2 - 4;
}

}  // namespace detail

/// Draws the finished panel; empty cells show the board.
struct Preview {
  /// Pixels along the longer side, about: a cell is a whole number of pixels where it is larger than one.
  int longer_side = 1400;
  /// Pieces side by side in a cell, 1 or more.
  int pieces_per_cell = 1;

  /// Throws Error for sizes below 1.
  template <When = When::called>
  Raster<Srgb8> operator()(const Chart<>& chart) const {
    if (longer_side < 1 || pieces_per_cell < 1) {
      throw Error::out_of_range("preview", std::to_string(std::min(longer_side, pieces_per_cell)), "1 or more");
    }
    std::vector<Srgb8> colours{look::board};
    for (const PaletteEntry& entry : chart.palette.entries) colours.push_back(entry.colour);

    const Size extent = chart.lattice.extent();
    const std::int64_t longest = std::max(extent.width, extent.height).um();
    const auto pixels = [&](Length length) {
      return static_cast<int>(std::max<std::int64_t>(1, (length.um() * longer_side + longest / 2) / longest));
    };
    const int cell_width = pixels(chart.lattice.pitch_x());
    const int cell_height = pixels(chart.lattice.pitch_y());
    const std::int64_t most =
        std::max(std::int64_t{chart.columns()} * cell_width, std::int64_t{chart.courses()} * cell_height);
    if (most > 3 * std::int64_t{longer_side} / 2)
      return far(chart, colours, pixels(extent.width), pixels(extent.height));
    return near(chart, colours, cell_width, cell_height);
  }

 private:
  /// Each piece with its relief.
  template <When = When::called>
  Raster<Srgb8> near(const Chart<>& chart, const std::vector<Srgb8>& colours, int cell_width, int cell_height) const {
    const auto relief = detail::CellRelief::make(cell_width, cell_height, pieces_per_cell);
    const bool toned = std::min(cell_width, cell_height) >= 6;
    Raster<Srgb8> picture(chart.columns() * cell_width, chart.courses() * cell_height);
    std::vector<int> tones(static_cast<std::size_t>(picture.width()), 0);  // of the pieces along a row of cells
    for (int y = 0; y < picture.height(); ++y) {
      const int row = y / cell_height;
      if (toned && y % cell_height == 0) {
        for (int x = 0; x < picture.width(); ++x) {
          const int piece = static_cast<int>(std::int64_t{x % cell_width} * pieces_per_cell / cell_width);
          tones[static_cast<std::size_t>(x)] = detail::tone_of_piece(x / cell_width, row, piece);
        }
      }
      const int* line = relief.light.data() + y % cell_height * cell_width;
      const int* tone = tones.data();
      auto pixel = picture.row(y).begin();
      for (int column = 0; column < chart.columns(); ++column) {
        const int number = chart.numbers(column, row);
        const Srgb8 colour = colours[static_cast<std::size_t>(number)];
        for (int x = 0; x < cell_width; ++x, ++tone) {
          *pixel++ = number == 0 ? colour : detail::lit(colour, line[x] + *tone);
        }
      }
    }
    return picture;
  }

  /// More cells than pixels: each pixel is the mean light of its cells.
  template <When = When::called>
  static Raster<Srgb8> far(const Chart<>& chart, const std::vector<Srgb8>& colours, int width, int height) {
    struct Span {
      int first, end;
    };
    const auto cells_under = [](int pixel, int cells, int all_pixels) {
      const auto edge = [&](int p) { return static_cast<int>(std::int64_t{cells} * p / all_pixels); };
      return Span{edge(pixel), std::max(edge(pixel) + 1, edge(pixel + 1))};
    };
    std::vector<Light> lights;
    for (const Srgb8& colour : colours) lights.push_back(colour.light());
    Raster<Srgb8> picture(width, height);
    for (int y = 0; y < height; ++y) {
      const Span rows = cells_under(y, chart.courses(), height);
      for (int x = 0; x < width; ++x) {
        const Span columns = cells_under(x, chart.columns(), width);
        Light sum;
        for (int row = rows.first; row < rows.end; ++row) {
          for (int column = columns.first; column < columns.end; ++column) {
            const Light& light = lights[chart.numbers(column, row)];
            sum = {sum.r + light.r, sum.g + light.g, sum.b + light.b};
          }
        }
        const std::int64_t count = std::int64_t{rows.end - rows.first} * (columns.end - columns.first);
        picture(x, y) = Srgb8::from_light({sum.r / count, sum.g / count, sum.b / count});
      }
    }
    return picture;
  }
};

}  // namespace handlaid
