// Rules of a palette: each must hold for every fitter, whatever the picture.
#include "handlaid/palette/rules.hpp"

#include <algorithm>

#include "handlaid/colour/difference.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/palette/from_stock.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "handlaid/palette/nearest.hpp"
#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

const Histogram<Oklab>& cat() {
  static const Histogram<Oklab> histogram = count_colours(read_pnm("cells_cat.ppm"));
  return histogram;
}

double least_distance(const Palette& palette) {
  double least = 9;
  for (int i = 1; i <= palette.size(); ++i) {
    for (int j = 1; j < i; ++j) {
      least = std::min(
          least, distance_oklab(convert_colour<Oklab>(palette[i].colour), convert_colour<Oklab>(palette[j].colour)));
    }
  }
  return least;
}

/// The weight of the bins that each colour serves.
std::vector<std::uint64_t> served(const Palette& palette) {
  const NearestColour<Oklab> nearest(palette);
  std::vector<std::uint64_t> weights(static_cast<std::size_t>(palette.size()), 0);
  for (const Bin& bin : cat().bins) weights[nearest.number(bin.point) - std::size_t{1}] += bin.weight;
  return weights;
}

double error(const Palette& palette) {
  const NearestColour<Oklab> nearest(palette);
  double sum = 0;
  for (const Bin& bin : cat().bins) {
    sum += static_cast<double>(bin.weight) * squared_distance(bin.point, nearest.point(nearest.number(bin.point)));
  }
  return sum;
}

Stock made_stock() {
  Random random(5);
  Stock stock;
  for (int i = 0; i < 60; ++i) {
    const auto code = [&] { return static_cast<std::uint8_t>(random.below(256)); };
    stock.colours.push_back({.name = "colour " + std::to_string(i + 1), .colour = {code(), code(), code()}});
  }
  return stock;
}

/// Every fitter with the same number of colours and rules.
std::vector<Palette> fit_all(int colours, const PaletteRules& rules) {
  return {KMeans{.colours = colours, .rules = rules}(cat()),
          KMeans{.colours = colours, .rules = rules, .effort = Effort::quick}(cat()),
          MedianCut{.colours = colours, .rules = rules}(cat()),
          MedianCut{.colours = colours, .rules = rules, .at = CutAt::mean}(cat()),
          MedianCut{.colours = colours, .rules = rules, .at = CutAt::best_fit}(cat())};
}

}  // namespace

TEST_CASE("colours keep the least distance that is asked for") {
  for (const double apart : {0.05, 0.1, 0.2}) {
    for (const Palette& palette : fit_all(16, {.least_distance = apart})) {
      INFO(apart << ": " << palette.size() << " colours");
      CHECK(least_distance(palette) >= apart - 1.0 / Oklab::steps);
      CHECK((palette.size() == 16) == palette.note.empty());
    }
    const Palette bought = FromStock{.stock = made_stock(), .colours = 16, .rules = {.least_distance = apart}}(cat());
    CHECK(least_distance(bought) >= apart - 1.0 / Oklab::steps);
  }
  // Without the rule the fitters do put colours nearer, so that the checks above can fail.
  CHECK(least_distance(KMeans{}(cat())) < 0.05);
  CHECK(least_distance(FromStock{.stock = made_stock()}(cat())) < 0.1);
  // The rule costs little where it hardly binds.
  const double free = error(KMeans{}(cat()));
  const double ruled = error(KMeans{.rules = {.least_distance = 0.05}}(cat()));
  UNSCOPED_INFO("error " << ruled / free);
  CHECK(ruled >= free * 0.999);
  CHECK(ruled < free * 1.4);
}

TEST_CASE("an impossible distance gives the colours that can be had, and says how many") {
  const Palette palette = KMeans{.rules = {.least_distance = 0.6}}(cat());
  CHECK(palette.size() >= 1);
  CHECK(palette.size() < 4);
  CHECK_THAT(palette.note, contains("Asked for 16 colours; " + std::to_string(palette.size()) + " were found"));
  CHECK_THAT(palette.note, contains("far enough"));
  CHECK_THROWS_WITH((KMeans{.rules = {.least_distance = -0.1}}(cat())), contains("0 to 1"));
  CHECK_THROWS_WITH((KMeans{.rules = {.least_distance = 1.5}}(cat())), contains("0 to 1"));
  CHECK_THROWS_WITH((KMeans{.rules = {.least_distance = std::nan("")}}(cat())), contains("0 to 1"));
}

TEST_CASE("nothing comes near a forbidden colour") {
  const Palette free = KMeans{}(cat());
  // Forbid what would have been chosen.
  PaletteRules rules;
  for (const int number : {2, 7, 11}) rules.forbidden.push_back(free[number]);
  for (const Palette& palette : fit_all(16, rules)) {
    CHECK(palette.size() == 16);
    for (const PaletteEntry& entry : palette.entries) {
      for (const PaletteEntry& forbidden : rules.forbidden) {
        const double distance =
            distance_oklab(convert_colour<Oklab>(entry.colour), convert_colour<Oklab>(forbidden.colour));
        CHECK(distance >= alike_distance - 1.0 / Oklab::steps);
      }
    }
  }
  const Stock stock = made_stock();
  const Palette all = FromStock{.stock = stock}(cat());
  const Palette without = FromStock{.stock = stock, .rules = {.forbidden = {{.name = all[3].name}}}}(cat());
  CHECK(without.size() == 16);
  for (const PaletteEntry& entry : without.entries) CHECK(entry.name != all[3].name);

  const PaletteRules both = {.locked = {{.colour = {1, 2, 3}}}, .forbidden = {{.colour = {1, 2, 3}}}};
  CHECK_THROWS_WITH((KMeans{.rules = both}(cat())), contains("both locked and forbidden"));
  CHECK_THROWS_WITH((FromStock{.stock = stock, .rules = {.forbidden = {{.name = "no such"}}}}(cat())),
                    contains("forbid: the stock has no colour \"no such\""));
}

TEST_CASE("a colour that serves too little is given up and its place used better") {
  const auto least = [](const Palette& palette) {
    const auto weights = served(palette);
    return *std::min_element(weights.begin(), weights.end());
  };
  const Palette free = KMeans{.colours = 24}(cat());
  REQUIRE(least(free) < 60);
  for (const Palette& palette : fit_all(24, {.least_weight = 60})) {
    CHECK(least(palette) >= 60);
    CHECK(palette.size() >= 23);
  }
  CHECK(error(KMeans{.colours = 24, .rules = {.least_weight = 60}}(cat())) < error(free) * 1.25);
  const Palette bought = FromStock{.stock = made_stock(), .colours = 20, .rules = {.least_weight = 60}}(cat());
  CHECK(least(bought) >= 60);
  // More than there is: one colour stays impossible, none is invented.
  const Palette none = KMeans{.rules = {.least_weight = 1'000'000}}(cat());
  CHECK(none.size() == 0);
  CHECK_THAT(none.note, contains("none too rare"));
}

TEST_CASE("exact-only colours serve their own cells and leave the others a full palette") {
  // The commonest colour of the picture, and one that it does not have.
  const auto most = std::max_element(cat().bins.begin(), cat().bins.end(),
                                     [](const Bin& a, const Bin& b) { return a.weight < b.weight; });
  const auto common = convert_colour<Srgb8>(Oklab::from_fixed(most->point));
  const PaletteRules rules = {
      .locked = {{.colour = common, .lock = Lock::exact_only}, {.colour = {255, 0, 255}, .lock = Lock::exact_only}}};
  for (const Palette& palette : fit_all(12, rules)) {
    CHECK(palette.size() == 12);
    CHECK(palette[1].lock == Lock::exact_only);
    CHECK(palette[1].colour == common);
    CHECK(palette[2].lock == Lock::exact_only);
    for (int number = 3; number <= 12; ++number) CHECK(palette[number].lock == Lock::none);
  }
}

TEST_CASE("rules that contradict each other are refused") {
  const std::vector<PaletteEntry> twice = {{.colour = {1, 2, 3}}, {.colour = {1, 2, 3}, .lock = Lock::exact_only}};
  CHECK_THROWS_WITH((KMeans{.rules = {.locked = twice}}(cat())), contains("are the same"));
  CHECK_THROWS_WITH(
      (MedianCut{.colours = 1, .rules = {.locked = {{.colour = {1, 2, 3}}, {.colour = {3, 2, 1}}}}}(cat())),
      contains("2 colours are locked"));
}

TEST_CASE("cutting at the best fit leaves less error than the median, as published") {
  // X. Wu, Graphics Gems II, 1991: his splitting leaves about a third of median cut's squared error on average; how
  // much depends on space and picture, that it is less does not.
  for (const int colours : {4, 8, 20, 64}) {
    const double median = error(MedianCut{.colours = colours}(cat()));
    const double mean = error(MedianCut{.colours = colours, .at = CutAt::mean}(cat()));
    const double best = error(MedianCut{.colours = colours, .at = CutAt::best_fit}(cat()));
    INFO(colours << " colours: median 1, mean " << mean / median << ", best fit " << best / median);
    CHECK(best < 0.9 * median);
    CHECK(best < mean);
  }
}
