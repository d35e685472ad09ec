// Error diffusion: the fast loops against the plain definition, and what its options promise.
#include "handlaid/dither/error_diffusion.hpp"

#include <cmath>
#include <cstdlib>
#include <vector>

#include "handlaid/core/random.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "support/catch.hpp"
#include "support/own_colour.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;
using outside::CodeRgb;

namespace {

/// The nearest whole number, half away from zero.
std::int64_t nearest_quotient(std::int64_t a, std::int64_t b) {
  const std::int64_t size = ((a < 0 ? -a : a) * 2 + b) / (2 * b);
  return a < 0 ? -size : size;
}
std::int64_t floor_div(std::int64_t a, std::int64_t b) { return a >= 0 ? a / b : -((-a + b - 1) / b); }

struct Plain {
  std::int64_t v[3] = {0, 0, 0};
};
Plain light_of(const Light& light) {
  const auto part = [](std::int64_t v) {
    return std::min<std::int64_t>(1 << 18, std::max<std::int64_t>(0, (v + 32) >> 6));
  };
  return {{part(light.r), part(light.g), part(light.b)}};
}
Plain point_of(const FixedPoint& p) { return {{p.x * 16, p.y * 16, p.z * 16}}; }

/// The rule of `LightBoxes`, a box at a time and without a table.
template <class C>
ColourNumber by_boxes(const Plain& wanted, const Palette& palette) {
  const int width = palette.size() > 64 ? 4 : 8;
  const auto place = [&](std::int64_t v) {
    const std::int64_t part = std::min<std::int64_t>(4095, std::max<std::int64_t>(0, floor_div(v, 64)));
    return srgb_code_of_linear(part * 4096 + 2048) / width;
  };
  const auto held = [](std::int64_t v) { return std::min<std::int64_t>(1 << 18, std::max<std::int64_t>(0, v)) * 64; };
  int box[3];
  for (int c = 0; c < 3; ++c) box[c] = place(wanted.v[c]);
  const auto middle = [&](int p) {
    const auto code = static_cast<std::size_t>(p * width + width / 2);
    return (std::int64_t{srgb_to_linear_table[code]} + srgb_to_linear_table[code - 1]) / 2;
  };
  bool any_inside = false;
  std::uint32_t least = 0;
  ColourNumber found = 0;
  for (const bool inside_only : {true, false}) {
    if (any_inside) break;
    const Light at = inside_only ? Light{held(wanted.v[0]), held(wanted.v[1]), held(wanted.v[2])}
                                 : Light{middle(box[0]), middle(box[1]), middle(box[2])};
    for (int number = 1; number <= palette.size(); ++number) {
      const Srgb8 colour = palette[number].colour;
      if (inside_only && !(colour.r / width == box[0] && colour.g / width == box[1] && colour.b / width == box[2])) {
        continue;
      }
      any_inside = any_inside || inside_only;
      const auto distance = squared_distance(C::from_light(at).fixed(), convert_colour<C>(colour).fixed());
      if (found == 0 || distance < least) {
        least = distance;
        found = static_cast<ColourNumber>(number);
      }
    }
  }
  return found;
}

/// Error diffusion as its header describes it: errors are pushed, one cell after the other.
template <class C, class Given>
Raster<ColourNumber> plainly(const ErrorDiffusion& how, const Cells<Given>& cells, const Palette& palette) {
  const bool in_light = how.space == DiffuseIn::linear_light;
  const auto amount = [&](const auto& colour) {
    return in_light ? light_of(colour.light()) : point_of(convert_colour<C>(colour).fixed());
  };
  const auto parts = [](double share) { return static_cast<std::int64_t>(share * 4096 + 0.5); };
  std::int64_t low[3];
  std::int64_t high[3];
  for (int c = 0; c < 3; ++c) {
    std::int64_t least = amount(palette[1].colour).v[c];
    std::int64_t greatest = least;
    for (const PaletteEntry& entry : palette.entries) {
      least = std::min(least, amount(entry.colour).v[c]);
      greatest = std::max(greatest, amount(entry.colour).v[c]);
    }
    low[c] = least - (greatest - least) * parts(how.reach) / 4096;
    high[c] = greatest + (greatest - least) * parts(how.reach) / 4096;
  }
  std::vector<Plain> owed(cells.colours.size());
  Raster<ColourNumber> numbers(cells.columns(), cells.rows());
  const auto index = [&](int x, int y) { return static_cast<std::size_t>(y * cells.columns() + x); };
  const auto laid = [&](int x, int y) {
    return x >= 0 && x < cells.columns() && y >= 0 && y < cells.rows() && cells.laid(x, y) != 0;
  };
  for (int y = 0; y < cells.rows(); ++y) {
    const bool backward = how.serpentine && y % 2 == 1;
    for (int i = 0; i < cells.columns(); ++i) {
      const int x = backward ? cells.columns() - 1 - i : i;
      if (!laid(x, y)) continue;
      std::int64_t taken = 4096;
      const FixedPoint own = convert_colour<C>(cells.colours(x, y)).fixed();
      std::int64_t difference = 0;
      for (const auto& [dx, dy] : {std::pair{-1, 0}, std::pair{1, 0}, std::pair{0, -1}, std::pair{0, 1}}) {
        if (!laid(x + dx, y + dy)) continue;
        const FixedPoint other = convert_colour<C>(cells.colours(x + dx, y + dy)).fixed();
        for (const int d : {other.x - own.x, other.y - own.y, other.z - own.z}) {
          difference = std::max<std::int64_t>(difference, std::abs(d));
        }
      }
      const std::int64_t full = C::steps / 8;
      taken -= parts(how.edges) * std::min(difference, full) / full;
      Plain wanted = amount(cells.colours(x, y));
      const std::int64_t whole = std::int64_t{how.kernel.divisor} * 4096 * 4096;
      for (int c = 0; c < 3; ++c) {
        wanted.v[c] += nearest_quotient(owed[index(x, y)].v[c] * parts(how.strength) * taken, whole);
      }
      ColourNumber number = 0;
      if (in_light) {
        number = by_boxes<C>(wanted, palette);
      } else {
        const auto axis = [](std::int64_t v) {
          return static_cast<std::int16_t>(
              std::min<std::int64_t>(16384, std::max<std::int64_t>(-16384, floor_div(v + 8, 16))));
        };
        number = NearestColour<C>(palette).number(FixedPoint{axis(wanted.v[0]), axis(wanted.v[1]), axis(wanted.v[2])});
      }
      numbers(x, y) = number;
      const Plain given = amount(palette[number].colour);
      for (int row = 0; row < 3; ++row) {
        for (int dx = -2; dx <= 2; ++dx) {
          const int to_x = x + (backward ? -dx : dx);
          if (!laid(to_x, y + row)) continue;
          const int weight = how.kernel.weights[static_cast<std::size_t>(row)][static_cast<std::size_t>(dx + 2)];
          for (int c = 0; c < 3; ++c) {
            const std::int64_t held = std::min(high[c], std::max(low[c], wanted.v[c]));
            owed[index(to_x, y + row)].v[c] += weight * (held - given.v[c]);
          }
        }
      }
    }
  }
  return numbers;
}

/// Part of the photo, with a hole and colours at the ends of the gamut.
template <class C>
Cells<C> hard_cells() {
  const auto photo = read_pnm("cells_cat.ppm");
  Raster<Srgb8> part(41, 37);
  Random random(5);
  for (int y = 0; y < 37; ++y) {
    for (int x = 0; x < 41; ++x) {
      part(x, y) = photo(x + 15, y + 20);
      if (x > 30) part(x, y) = {static_cast<std::uint8_t>(y * 6), 255, static_cast<std::uint8_t>(random.below(256))};
    }
  }
  auto cells = cells_of(converted<C>(part));
  for (int y = 9; y < 14; ++y) {
    for (int x = 7; x < 22; ++x) cells.laid(x, y) = 0;
  }
  return cells;
}

Palette some_palette(int colours) {
  Palette palette = MedianCut{.colours = colours}(count_colours(hard_cells<Oklab>()));
  palette.entries.push_back({.colour = {3, 2, 1}});
  palette.entries.push_back({.colour = {3, 2, 2}});  // a near twin: two colours in one box
  return palette;
}

}  // namespace

TEST_CASE("error diffusion equals its plain definition") {
  const DiffusionKernel own = {.weights = {{{0, 0, 0, 5, -1}, {1, 2, 4, 2, 1}, {0, 0, 1, 0, 0}}}, .divisor = 19};
  for (const int colours : {2, 7, 90}) {
    const Palette palette = some_palette(colours);
    for (const DiffuseIn space : {DiffuseIn::linear_light, DiffuseIn::cell_space}) {
      const ErrorDiffusion all[] = {
          {.space = space},
          {.serpentine = false, .space = space},
          {.kernel = jarvis_judice_ninke, .space = space, .reach = 0.25},
          {.kernel = atkinson, .strength = 0.6, .space = space},
          {.kernel = own, .space = space, .reach = 4},
          {.kernel = own, .strength = 0.3, .space = space, .edges = 0.7},
      };
      for (const ErrorDiffusion& how : all) {
        INFO(colours << " colours, kernel of " << how.kernel.divisor << ", strength " << how.strength);
        CHECK(how(hard_cells<Oklab>(), palette) == plainly<Oklab>(how, hard_cells<Oklab>(), palette));
        CHECK(how(hard_cells<Srgb8>(), palette) == plainly<Oklab>(how, hard_cells<Srgb8>(), palette));
      }
    }
  }
}

TEST_CASE("a picture in the palette's own colours comes back as it is") {
  // Twins that differ by one code, and all greys: a search that rounds would take one for the other.
  Palette palette;
  for (int code = 0; code < 256; ++code) {
    const auto c = static_cast<std::uint8_t>(code);
    palette.entries.push_back({.colour = {c, c, c}});
    palette.entries.push_back({.colour = {c, static_cast<std::uint8_t>(code == 0 ? 1 : code - 1), c}});
  }
  Raster<Srgb8> picture(64, 64);
  Random random(3);
  for (Srgb8& pixel : picture.pixels()) pixel = palette.entries[random.below(512)].colour;
  const auto cells = cells_of(picture);
  for (const bool in_light : {true, false}) {
    const auto numbers =
        ErrorDiffusion{.space = in_light ? DiffuseIn::linear_light : DiffuseIn::cell_space}(cells, palette);
    int different = 0;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      different += palette[numbers.pixels()[i]].colour != picture.pixels()[i];
    }
    CHECK(different == 0);
  }
}

TEST_CASE("the error of a ground that cannot be mixed makes no streak on the next") {
  // Left a ground lighter than the palette, right a flat one that has its own colour: nothing there needs mixing.
  const Palette palette = palette_of({{20, 20, 20}, {100, 100, 100}, {110, 110, 110}});
  Raster<Srgb8> picture(120, 60);
  for (int y = 0; y < 60; ++y) {
    for (int x = 0; x < 120; ++x) {
      picture(x, y) = x < 60 ? Srgb8{250, 250, 250} : Srgb8{100, 100, 100};
    }
  }
  const auto cells = cells_of(converted<Oklab>(picture));
  for (const DiffuseIn space : {DiffuseIn::linear_light, DiffuseIn::cell_space}) {
    const auto spoilt = [&](double reach, int from) {
      const auto numbers = ErrorDiffusion{.serpentine = false, .space = space, .reach = reach}(cells, palette);
      int count = 0;
      for (int y = 0; y < 60; ++y) {
        for (int x = from; x < 120; ++x) count += numbers(x, y) != 2;
      }
      return count;
    };
    INFO("reach 16: " << spoilt(16, 60) << ", 1: " << spoilt(1, 60) << ", 1 beyond 8: " << spoilt(1, 68));
    CHECK(spoilt(1, 68) == 0);
    CHECK(spoilt(16, 80) > 50);
  }
}

TEST_CASE("keeping edges leaves them cleaner, and a flat ground as it was") {
  Raster<Srgb8> picture(60, 60);
  for (int y = 0; y < 60; ++y) {
    for (int x = 0; x < 60; ++x) picture(x, y) = x < 30 ? Srgb8{70, 70, 70} : Srgb8{200, 200, 200};
  }
  const auto cells = cells_of(converted<Oklab>(picture));
  const Palette palette = palette_of({{0, 0, 0}, {255, 255, 255}});
  const auto wrong_at_edge = [&](double edges) {
    const auto numbers = ErrorDiffusion{.edges = edges}(cells, palette);
    int wrong = 0;
    for (int y = 0; y < 60; ++y) wrong += (numbers(29, y) != 1) + (numbers(30, y) != 2);
    return wrong;
  };
  CHECK(wrong_at_edge(1) == 0);
  CHECK(wrong_at_edge(0) > 8);
  const auto plain = ErrorDiffusion{}(cells, palette);
  const auto kept = ErrorDiffusion{.edges = 1}(cells, palette);
  int light = 0;
  for (int y = 0; y < 60; ++y) {
    for (int x = 35; x < 60; ++x) light += (kept(x, y) == 2) - (plain(x, y) == 2);
  }
  CHECK(std::abs(light) < 60);
}

TEST_CASE("options of error diffusion out of range are refused") {
  const auto cells = hard_cells<Oklab>();
  const Palette palette = some_palette(3);
  for (const double wrong : {-0.1, 1.1, std::nan("")}) {
    CHECK_THROWS_WITH(ErrorDiffusion{.edges = wrong}(cells, palette), contains("dither edges"));
    CHECK_THROWS_WITH(ErrorDiffusion{.reach = wrong * 16}(cells, palette), contains("dither reach"));
  }
  const auto with = [](std::size_t row, std::size_t at, int weight) {
    DiffusionKernel kernel = floyd_steinberg;
    kernel.weights[row][at] = weight;
    return ErrorDiffusion{.kernel = kernel};
  };
  CHECK_THROWS_WITH(with(0, 2, 1)(cells, palette), contains("has its number already"));
  CHECK_THROWS_WITH(with(2, 2, 1)(cells, palette), contains("passes on 17 parts of 16"));
  CHECK_THROWS_WITH(with(2, 2, -1000)(cells, palette), contains("kernel weight"));
  for (const int divisor : {-1, 0, 65}) {
    CHECK_THROWS_WITH(ErrorDiffusion{.kernel = {.divisor = divisor}}(cells, palette), contains("divisor"));
  }
  CHECK_THROWS_WITH(ErrorDiffusion{}(cells, Palette{}), contains("no colours"));
}
