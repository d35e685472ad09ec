// A component of your own: a fitter that picks shades of one colour, from the darkest cell to the lightest.
// A fitter is any struct that makes a palette from a histogram; nothing is registered or derived from.
#include <algorithm>
#include <cstdio>

#include "handlaid.hpp"

namespace mine {

using namespace handlaid;

/// Shades of one colour at equal steps of lightness.
struct Shades {
  Srgb8 of = {40, 90, 120};
  int colours = 8;

  Palette operator()(const Histogram<Oklab>& histogram) const {
    const auto lighter = [](const Bin& p, const Bin& q) { return p.point.x < q.point.x; };
    const auto [dark, light] = std::minmax_element(histogram.bins.begin(), histogram.bins.end(), lighter);
    FixedPoint shade = convert_colour<Oklab>(of).fixed();  // whole steps: the same result on every machine
    Palette palette;
    for (int i = 0; i < colours; ++i) {
      const int range = light->point.x - dark->point.x;
      shade.x = static_cast<std::int16_t>(dark->point.x + range * i / std::max(colours - 1, 1));
      palette.entries.push_back({.colour = convert_colour<Srgb8>(Oklab::from_fixed(shade))});
    }
    return palette;
  }
};
static_assert(Fitter<Shades>);

}  // namespace mine

int main(int argc, char** argv) {
  using namespace handlaid;
  if (argc != 3) return std::fprintf(stderr, "usage: own_component PICTURE PREVIEW.png\n"), 2;
  try {
    const auto chart = read<Srgb8>(argv[1], {.ground = Srgb8{255, 255, 255}}) | crop_to(3.0 / 4) |
                       map_to(Rectangular{.columns = 72, .rows = 96, .pitch = 11 * mm}) |
                       quantise(mine::Shades{.colours = 8}, ErrorDiffusion{.strength = 0.4});
    write_text_file(argv[2], write_png(Preview{}(chart)));
    std::printf("%d shades: %s\n", chart.palette.size(), argv[2]);
  } catch (const Error& error) {
    return std::fprintf(stderr, "own_component: %s\n", error.what()), 1;
  }
}
