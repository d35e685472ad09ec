// Palettes from what a shop stocks.
#include "handlaid/palette/from_stock.hpp"

#include "handlaid/core/random.hpp"
#include "handlaid/palette/fitter.hpp"
#include "handlaid/palette/nearest.hpp"
#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(Fitter<FromStock>);

namespace {

Stock made_stock(int count) {
  Random random(4);
  Stock stock;
  for (int i = 0; i < count; ++i) {
    const auto code = [&] { return static_cast<std::uint8_t>(random.below(256)); };
    stock.colours.push_back({.name = "colour " + std::to_string(i), .colour = {code(), code(), code()}});
  }
  return stock;
}

std::uint64_t error_of(const Histogram<Oklab>& histogram, const Palette& palette) {
  const NearestColour<Oklab> nearest(palette);
  std::uint64_t error = 0;
  for (const Bin& bin : histogram.bins) {
    error += bin.weight * squared_distance(bin.point, nearest.point(nearest.number(bin.point)));
  }
  return error;
}

}  // namespace

TEST_CASE("stocked colours are chosen together, better than the nearest one by one") {
  const auto histogram = count_colours(read_pnm("cells_cat.ppm"));
  const Stock stock = made_stock(60);
  const Palette chosen = FromStock{.stock = stock, .colours = 5}(histogram);
  REQUIRE(chosen.size() == 5);
  for (const PaletteEntry& entry : chosen.entries) {
    REQUIRE(stock.find(entry.name) != nullptr);
    CHECK(stock.find(entry.name)->colour == entry.colour);
  }
  // One by one: the five that most cells are nearest to.
  const NearestColour<Oklab> all(palette_of(stock));
  std::vector<std::pair<std::uint64_t, int>> votes(60);
  for (int i = 0; i < 60; ++i) votes[static_cast<std::size_t>(i)] = {0, i};
  for (const Bin& bin : histogram.bins) votes[all.number(bin.point) - 1U].first += bin.weight;
  std::sort(votes.rbegin(), votes.rend());
  Palette by_votes;
  for (std::size_t i = 0; i < 5; ++i) {
    by_votes.entries.push_back({.colour = stock.colours[static_cast<std::size_t>(votes[i].second)].colour});
  }
  CHECK(error_of(histogram, chosen) < error_of(histogram, by_votes));
}

TEST_CASE("locked stock comes first, a small stock is used up and said") {
  const auto histogram = count_colours(read_pnm("cells_cat.ppm"));
  const Stock stock = made_stock(9);
  const Palette palette =
      FromStock{.stock = stock,
                .colours = 5,
                .rules = {.locked = {{.name = "colour 7"}, {.colour = stock.colours[2].colour}}}}(histogram);
  REQUIRE(palette.size() == 5);
  CHECK(palette[1].name == "colour 7");
  CHECK(palette[2].name == "colour 2");
  CHECK(palette[2].lock == Lock::used);
  const Palette all = FromStock{.stock = stock, .colours = 16}(histogram);
  CHECK(all.size() == 9);
  CHECK(all.note == "Asked for 16 colours; the stock has only 9.");
  CHECK_THROWS_WITH((FromStock{.stock = stock, .rules = {.locked = {{.name = "no such"}}}}(histogram)),
                    contains("\"no such\""));
  CHECK_THROWS_WITH(FromStock{}(histogram), contains("stock"));
  CHECK_THROWS_WITH((FromStock{.stock = stock}(Histogram<Oklab>{})), contains("no colours to fit"));
}
