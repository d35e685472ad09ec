// Made photos of boards with known slips: cells in perspective, in uneven and tinted light, with texture, blur, noise
// and JPEG compression. The same number makes the same photo everywhere but for the last bits of the light.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

#define STB_IMAGE_WRITE_STATIC
#define STB_IMAGE_WRITE_IMPLEMENTATION
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wall"
#pragma GCC diagnostic ignored "-Wextra"
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wsign-conversion"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"
#pragma GCC diagnostic ignored "-Wcast-qual"
#endif
#if __has_include(<stb/stb_image_write.h>)
#include <stb/stb_image_write.h>
#else
#include <stb_image_write.h>
#endif
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/difference.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/image/find_marks.hpp"
#include "handlaid/image/homography.hpp"
#include "handlaid/image/straighten.hpp"

namespace handlaid_test {

/// A number from `low` to `high`.
inline double between(handlaid::Random& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random.below(1 << 20)) / (1 << 20);
}
inline int whole_between(handlaid::Random& random, int low, int high) {
  return low + static_cast<int>(random.below(static_cast<std::uint64_t>(high - low + 1)));
}

/// What a photo is made of.
struct BoardMaking {
  int columns = 36;
  int rows = 30;
  int colours = 12;
  /// The least CIEDE2000 of two colours of the palette.
  double least_difference = 8;
  /// The share of cells that are wrong, about.
  double slips = 0.02;
  /// Courses from the bottom that are laid; 0: all.
  int laid_courses = 0;
  /// The board where nothing is laid.
  handlaid::Srgb8 bare = {0xcf, 0xc5, 0xb3};
  double tilt_degrees = 20;
  /// Pixels across a cell, about.
  double cell_pixels = 12;
  /// The least light on the board as a share of the most.
  double falloff = 0.5;
  /// Standard deviation of the noise of a pixel, in codes.
  double noise = 3;
  /// Of the blur, in pixels.
  double blur = 0.7;
  int jpeg_quality = 88;
  /// The tone of a piece is off by up to so much of it, and the material by so many codes.
  double texture = 0.02;
  double material_codes = 5;
  /// Space around the board for marks, in cells; `marks` draws them there.
  double margin = 2;
};

struct MadeBoard {
  handlaid::Chart<> chart = {};
  /// What stands on the board, 0 where nothing does.
  handlaid::Raster<handlaid::ColourNumber> laid = {};
  handlaid::Raster<handlaid::Srgb8> photo = {};
  handlaid::BoardCorners corners = {};
  std::vector<unsigned char> jpeg = {};
};

/// A chart in patches, with a palette of colours that differ.
inline handlaid::Chart<> made_chart(const BoardMaking& making, handlaid::Random& random) {
  using namespace handlaid;
  Chart<> chart{.lattice = {.columns = making.columns, .rows = making.rows}, .numbers = {making.columns, making.rows}};
  for (int tries = 0; chart.palette.size() < making.colours && tries < 20'000; ++tries) {
    // Every second colour is made from another one, so that near pairs are as near as they may be.
    const int size = chart.palette.size();
    const bool beside = size % 2 == 1;
    const Srgb8 from = beside ? chart.palette[whole_between(random, 1, size)].colour : Srgb8{130, 130, 130};
    const auto code = [&](std::uint8_t c) {
      const int reach = beside ? 40 : 110;
      return static_cast<std::uint8_t>(std::clamp(c + whole_between(random, -reach, reach), 15, 245));
    };
    const Srgb8 colour{code(from.r), code(from.g), code(from.b)};
    const auto lab = convert_colour<Lab<D65>>(colour);
    const bool apart = std::all_of(chart.palette.entries.begin(), chart.palette.entries.end(), [&](const auto& entry) {
      return ciede2000(lab, convert_colour<Lab<D65>>(entry.colour)) >= making.least_difference;
    });
    const bool near = ciede2000(lab, convert_colour<Lab<D65>>(from)) < making.least_difference + 3;
    if (apart && near == beside) chart.palette.entries.push_back({.colour = colour});
  }
  struct Patch {
    double x, y;
    ColourNumber number;
  };
  std::vector<Patch> patches;
  for (int i = 0; i < 4 * chart.palette.size(); ++i) {
    patches.push_back({between(random, 0, making.columns), between(random, 0, making.rows),
                       static_cast<ColourNumber>(i % chart.palette.size() + 1)});
  }
  for (int y = 0; y < making.rows; ++y) {
    for (int x = 0; x < making.columns; ++x) {
      const double u = x + between(random, -1, 1);
      const double v = y + between(random, -1, 1);
      const auto nearest = std::min_element(patches.begin(), patches.end(), [&](const Patch& p, const Patch& q) {
        return std::hypot(p.x - u, p.y - v) < std::hypot(q.x - u, q.y - v);
      });
      chart.numbers(x, y) = nearest->number;
    }
  }
  return chart;
}

/// The number whose colour is nearest to that of another one.
inline handlaid::ColourNumber nearest_number(const handlaid::Palette& palette, handlaid::ColourNumber number) {
  using namespace handlaid;
  int best = 0;
  double least = 1e9;
  for (int n = 1; n <= palette.size(); ++n) {
    const double apart =
        ciede2000(convert_colour<Lab<D65>>(palette[n].colour), convert_colour<Lab<D65>>(palette[number].colour));
    if (n != number && apart < least) best = n, least = apart;
  }
  return static_cast<ColourNumber>(best);
}

/// Lays the chart with slips: single wrong cells, neighbours swapped, pieces of a course shifted by one.
inline handlaid::Raster<handlaid::ColourNumber> laid_with_slips(const BoardMaking& making,
                                                                const handlaid::Chart<>& chart,
                                                                handlaid::Random& random) {
  auto laid = chart.numbers;
  const int bare_rows = making.laid_courses == 0 ? 0 : making.rows - making.laid_courses;
  const int colours = chart.palette.size();
  const auto wanted = static_cast<int>(making.slips * making.columns * (making.rows - bare_rows) + 0.5);
  for (int wrong = 0, tries = 0; wrong < wanted && tries < 10'000; ++tries) {
    const int x = whole_between(random, 0, making.columns - 1);
    const int y = whole_between(random, bare_rows, making.rows - 1);
    const std::uint64_t kind = random.below(10);
    if (kind < 7) {
      // Half of the wrong pieces are of the colour that is most easily taken for the right one.
      const auto number = kind < 4 ? nearest_number(chart.palette, chart.numbers(x, y))
                                   : static_cast<handlaid::ColourNumber>(whole_between(random, 1, colours));
      if (laid(x, y) != chart.numbers(x, y) || number == laid(x, y)) continue;
      laid(x, y) = number;
      ++wrong;
    } else if (kind < 9) {
      if (x + 1 == making.columns || laid(x, y) == laid(x + 1, y)) continue;
      std::swap(laid(x, y), laid(x + 1, y));
      wrong += 2;
    } else {
      for (int u = std::min(x + whole_between(random, 3, 8), making.columns - 1); u > x; --u) {
        laid(u, y) = laid(u - 1, y);
        wrong += laid(u, y) != chart.numbers(u, y) ? 1 : 0;
      }
    }
  }
  for (int y = 0; y < bare_rows; ++y) {
    for (int x = 0; x < making.columns; ++x) laid(x, y) = 0;
  }
  return laid;
}

/// A number about 0 with standard deviation 1: the sum of twelve even ones.
inline double bell(handlaid::Random& random) {
  double sum = -6;
  for (int i = 0; i < 12; ++i) sum += between(random, 0, 1);
  return sum;
}

/// The bytes of a JPEG file.
inline std::vector<unsigned char> jpeg_bytes(const handlaid::Raster<handlaid::Srgb8>& picture, int quality) {
  std::vector<unsigned char> bytes;
  const auto put = [](void* to, void* data, int size) {
    const auto* from = static_cast<const unsigned char*>(data);
    for (int i = 0; i < size; ++i) static_cast<std::vector<unsigned char>*>(to)->push_back(from[i]);
  };
  stbi_write_jpg_to_func(put, &bytes, picture.width(), picture.height(), 3, picture.pixels().data(), quality);
  return bytes;
}

/// Where the corners of a board come to lie: a pinhole camera looks at its middle, tilted about a line in the board.
inline handlaid::BoardCorners corners_of(const BoardMaking& making, int width, int height, handlaid::Random& random) {
  const double turn = between(random, 0, 2 * std::numbers::pi);
  const double tilt = making.tilt_degrees * std::numbers::pi / 180;
  const double roll = between(random, -0.05, 0.05);
  const double far = 1.6 * std::hypot(making.columns, making.rows);
  const double scale = making.cell_pixels * far;
  handlaid::BoardCorners corners;
  for (std::size_t i = 0; i < 4; ++i) {
    const double x = (i < 2 ? -0.5 : 0.5) * making.columns;
    const double y = (i == 0 || i == 3 ? 0.5 : -0.5) * making.rows;
    const double along = x * std::cos(turn) + y * std::sin(turn);
    const double across = -x * std::sin(turn) + y * std::cos(turn);
    const double depth = far + across * std::sin(tilt);
    const double u = along * std::cos(turn) - across * std::cos(tilt) * std::sin(turn);
    const double v = along * std::sin(turn) + across * std::cos(tilt) * std::cos(turn);
    corners[i] = {width / 2.0 + scale / depth * (u * std::cos(roll) - v * std::sin(roll)),
                  height / 2.0 + scale / depth * (u * std::sin(roll) + v * std::cos(roll))};
  }
  return corners;
}

/// Draws what is outside of the field: `(x, y)` in cells from its top left corner; gives false where the wall is seen.
using Surround = bool (*)(const BoardMaking& making, double x, double y, handlaid::LinearRgb& colour);
inline bool no_surround(const BoardMaking&, double, double, handlaid::LinearRgb&) { return false; }

/// The side of the marks of `mark_surround`, in cells.
inline constexpr double mark_cells = 3.5;

/// Four corner marks that touch the field from outside.
inline bool mark_surround(const BoardMaking& making, double x, double y, handlaid::LinearRgb& colour) {
  const bool left = x < 0;
  const bool above = y < 0;
  const double u = (left ? -x : x - making.columns) / mark_cells;
  const double v = (above ? -y : y - making.rows) / mark_cells;
  if (u < 0 || v < 0 || u > 1 || v > 1) return false;
  const double out = 200 * std::max(std::abs(u - 0.5), std::abs(v - 0.5));  // as a side in hundredths
  using Mark = handlaid::CornerMark;
  const int square = left && !above ? Mark::datum_square : Mark::square;
  const bool black = out < square || (out > Mark::hole && out < Mark::ring);
  colour = black ? handlaid::LinearRgb{0.02F, 0.02F, 0.02F} : handlaid::LinearRgb{0.85F, 0.85F, 0.83F};
  return true;
}

inline MadeBoard made_board(const BoardMaking& making, std::uint64_t seed, Surround surround = no_surround) {
  using namespace handlaid;
  Random random(seed);
  MadeBoard made{.chart = made_chart(making, random)};
  made.laid = laid_with_slips(making, made.chart, random);
  const auto side = [&](int cells) {
    return static_cast<int>((cells + 2 * making.margin) * making.cell_pixels * 1.25);
  };
  const int width = side(making.columns);
  const int height = side(making.rows);
  made.corners = corners_of(making, width, height, random);
  const Homography to_board = board_to_photo(made.corners, making.columns, making.rows).inverse();

  std::vector<LinearRgb> materials;  // 0 is the board
  const auto off = [&](std::uint8_t code) {
    const double v = code + between(random, -making.material_codes, making.material_codes);
    return static_cast<std::uint8_t>(std::clamp(v, 0.0, 255.0));
  };
  const auto material = [&](const Srgb8& c) { return convert_colour<LinearRgb>(Srgb8{off(c.r), off(c.g), off(c.b)}); };
  materials.push_back(material(making.bare));
  for (const PaletteEntry& entry : made.chart.palette.entries) materials.push_back(material(entry.colour));
  Raster<float> tone(making.columns, making.rows);
  for (float& t : tone.pixels()) t = static_cast<float>(1 + between(random, -making.texture, making.texture));

  // A lamp far off at one side (its light falls along a line) or near the board (with the square of the distance), and
  // a lens that darkens corners; together no darker than about `falloff`.
  const double from = between(random, 0, 2 * std::numbers::pi);
  const double lens = between(random, 0, 0.3) * (1 - making.falloff);
  const double cast[3] = {between(random, 0.8, 1.1), between(random, 0.9, 1.05), between(random, 0.75, 1.1)};
  const double low = std::min(0.99, making.falloff / (1 - lens));
  const bool far = random.below(2) == 0;
  const double above = 8 * low / (1 - low);     // the height of the near lamp, squared; it is over one corner or side
  const auto light = [&](double u, double v) {  // -1 to 1 over the board
    const double along = std::clamp((u * std::cos(from) + v * std::sin(from)) / std::numbers::sqrt2, -1.2, 1.2);
    const double du = u + std::numbers::sqrt2 * std::cos(from);
    const double dv = v + std::numbers::sqrt2 * std::sin(from);
    const double lamp = far ? (1 + low) / 2 + (1 - low) / 2 * along : above / (above + du * du + dv * dv);
    return lamp * (1 - lens * std::min((u * u + v * v) / 2, 1.5));
  };
  const LinearRgb wall{0.35F, 0.33F, 0.30F};
  std::vector<double> codes(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      double sum[3] = {};
      for (const double v : {0.25, 0.75}) {
        for (const double u : {0.25, 0.75}) {
          const PlanePoint p = to_board({x + u, y + v});
          LinearRgb colour = wall;
          double shade = 1;
          if (p.x >= 0 && p.y >= 0 && p.x < making.columns && p.y < making.rows) {
            const int cx = static_cast<int>(p.x);
            const int cy = static_cast<int>(p.y);
            colour = materials[made.laid(cx, cy)];
            const double fx = p.x - cx;
            const double fy = p.y - cy;
            // a joint at the edges, and a piece that is lighter at its upper left
            shade = std::min({fx, fy, 1 - fx, 1 - fy}) < 0.05 ? 0.6 : 1 + 0.08 * (1 - fx - fy);
            shade *= double{tone(cx, cy)};
          } else {
            surround(making, p.x, p.y, colour);
          }
          const double lit = light(2 * p.x / making.columns - 1, 2 * p.y / making.rows - 1) * shade;
          sum[0] += lit * cast[0] * double{colour.r};
          sum[1] += lit * cast[1] * double{colour.g};
          sum[2] += lit * cast[2] * double{colour.b};
        }
      }
      for (std::size_t c = 0; c < 3; ++c) {
        codes[(static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)) * 3 + c] =
            std::clamp(sum[c] / 4, 0.0, 1.0);
      }
    }
  }
  // Blur in linear light, along and across; then codes with noise.
  std::vector<double> weights;
  for (int i = -2; i <= 2; ++i)
    weights.push_back(making.blur > 0 ? std::exp(-i * i / (2 * making.blur * making.blur)) : i == 0);
  double total = 0;
  for (const double w : weights) total += w;
  for (const bool across : {true, false}) {
    auto blurred = codes;
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        double sum[3] = {};
        for (int i = -2; i <= 2; ++i) {
          const int u = std::clamp(across ? x + i : x, 0, width - 1);
          const int v = std::clamp(across ? y : y + i, 0, height - 1);
          const std::size_t at =
              (static_cast<std::size_t>(v) * static_cast<std::size_t>(width) + static_cast<std::size_t>(u)) * 3;
          for (std::size_t c = 0; c < 3; ++c) sum[c] += weights[static_cast<std::size_t>(i + 2)] * codes[at + c];
        }
        const std::size_t at =
            (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)) * 3;
        for (std::size_t c = 0; c < 3; ++c) blurred[at + c] = sum[c] / total;
      }
    }
    codes.swap(blurred);
  }
  Raster<Srgb8> photo(width, height);
  for (std::size_t i = 0; i < photo.size(); ++i) {
    const auto code = [&](std::size_t c) {
      const auto steps = static_cast<std::int64_t>(codes[3 * i + c] * static_cast<double>(linear_white));
      const double noisy = srgb_code_of_linear(steps) + making.noise * bell(random);
      return static_cast<std::uint8_t>(std::clamp(noisy + 0.5, 0.0, 255.0));
    };
    photo.pixels()[i] = {code(0), code(1), code(2)};
  }
  made.jpeg = jpeg_bytes(photo, making.jpeg_quality);
  made.photo = std::move(photo);
  return made;
}

/// The making of photo `index` of a series that goes through sizes, palettes, tilts, light, noise and compression.
inline BoardMaking making_of(int index) {
  handlaid::Random random(1'000 + static_cast<std::uint64_t>(index));
  BoardMaking making;
  making.columns = whole_between(random, 20, 44);
  making.rows = whole_between(random, 20, 44);
  making.colours = whole_between(random, 4, 20);
  making.slips = between(random, 0.005, 0.03);
  making.tilt_degrees = between(random, 0, 30);
  making.cell_pixels = between(random, 6, 14);
  making.falloff = between(random, 0.5, 1);
  making.noise = between(random, 1, 6);
  making.blur = between(random, 0.3, 1);
  making.jpeg_quality = whole_between(random, 75, 95);
  making.laid_courses = index % 5 == 4 ? whole_between(random, making.rows / 2, making.rows - 1) : 0;
  return making;
}

}  // namespace handlaid_test
