// Fitters: exactly as many colours as asked for, locks that never move, and errors beside those of general libraries.
#include "handlaid/palette/fitter.hpp"

#include <algorithm>
#include <set>

#include "handlaid/colour/cie.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/palette/colour_tree.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "handlaid/palette/nearest_search.hpp"
#include "support/catch.hpp"
#include "support/own_colour.hpp"
#include "support/pnm.hpp"
#include "support/table.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace outside {

/// The smallest fitter: the first bin.
struct FirstColour {
  handlaid::Palette operator()(const handlaid::Histogram<handlaid::Oklab>& histogram) const {
    return handlaid::palette_of(
        {handlaid::convert_colour<handlaid::Srgb8>(handlaid::Oklab::from_fixed(histogram.bins.at(0).point))});
  }
};
struct TakesPicture {
  handlaid::Palette operator()(const handlaid::Raster<handlaid::Srgb8>&) const { return {}; }
};
struct MakesColour {
  handlaid::Srgb8 operator()(const handlaid::Histogram<handlaid::Oklab>&) const { return {}; }
};

}  // namespace outside

static_assert(Fitter<KMeans> && Fitter<MedianCut> && Fitter<Given> && Fitter<outside::FirstColour>);
static_assert(Fitter<KMeans, LabD65> && Fitter<KMeans, outside::CodeRgb> && !Fitter<outside::FirstColour, LabD65>);
static_assert(!Fitter<outside::TakesPicture> && !Fitter<outside::MakesColour> && !Fitter<Palette> && !Fitter<int>);

namespace {

double mean_squared_error(const Raster<Srgb8>& picture, const Palette& palette) {
  double sum = 0;
  for (const Srgb8& pixel : picture.pixels()) {
    const Oklab p = convert_colour<Oklab>(pixel);
    double least = 1e9;
    for (const PaletteEntry& entry : palette.entries) {
      const Oklab q = convert_colour<Oklab>(entry.colour);
      const double l = double{p.L} - double{q.L};
      const double a = double{p.a} - double{q.a};
      const double b = double{p.b} - double{q.b};
      least = std::min(least, l * l + a * a + b * b);
    }
    sum += least;
  }
  return sum / static_cast<double>(picture.size());
}

Histogram<Oklab> cat() { return count_colours(read_pnm("cells_cat.ppm")); }

}  // namespace

TEST_CASE("k-means and median cut keep up with general-purpose libraries on the same cells") {
  // Recorded by tests/data/record_palettes.py: scikit-learn's k-means in Oklab, best of ten starts; Pillow's median
  // cut.
  const Table peers("palette_peers.csv");
  const auto picture = read_pnm("cells_cat.ppm");
  const auto histogram = count_colours(picture);
  for (std::size_t i = 0; i < peers.size(); ++i) {
    const int colours = peers.whole(i, "colours");
    const double peer = peers.number(i, "mse_oklab");
    INFO(colours << " colours, " << peers.text(i, "peer") << ": " << peer);
    if (peers.text(i, "peer").rfind("scikit-learn", 0) == 0) {
      const double ours = mean_squared_error(picture, KMeans{.colours = colours}(histogram));
      INFO("k-means: " << ours);
      CHECK(ours <= 1.005 * peer);
      const double quick = mean_squared_error(picture, KMeans{.colours = colours, .effort = Effort::quick}(histogram));
      INFO("quick: " << quick);
      CHECK(quick <= 1.03 * peer);
    } else {
      const double ours = mean_squared_error(picture, MedianCut{.colours = colours}(histogram));
      INFO("median cut: " << ours);
      CHECK(ours <= peer);
    }
  }
}

TEST_CASE("median cut makes the published rule's boxes") {
  // P. Heckbert, SIGGRAPH 1982: rule; colours chosen so that every usual variant gives these boxes (worked by hand).
  const Table table("median_cut_example.csv");
  Histogram<outside::CodeRgb> histogram;
  std::set<std::vector<int>> wanted;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const outside::CodeRgb code = {table.whole(i, "R"), table.whole(i, "G"), table.whole(i, "B")};
    histogram.bins.push_back({code.fixed(), static_cast<std::uint64_t>(table.whole(i, "count"))});
    // Means end in .5 at most; codes are rounded half up, as the palette's are.
    const auto mean = [&](const char* name) { return static_cast<int>(table.number(i, name) + 0.5); };
    wanted.insert({mean("mean_R"), mean("mean_G"), mean("mean_B")});
  }
  histogram.tidy();
  std::set<std::vector<int>> found;
  for (const PaletteEntry& entry : MedianCut{.colours = 4}(histogram).entries) {
    found.insert({entry.colour.r, entry.colour.g, entry.colour.b});
  }
  CHECK(found == wanted);
}

TEST_CASE("k-means finds the best palette of tiny pictures, by brute force over all partitions") {
  Random random(11);
  for (int round = 0; round < 60; ++round) {
    Histogram<outside::CodeRgb> histogram;
    for (int i = 0; i < 7; ++i) {
      const auto code = [&] { return static_cast<int>(random.below(256)); };
      histogram.bins.push_back({outside::CodeRgb{code(), code(), code()}.fixed(), random.below(9) + 1});
    }
    histogram.tidy();
    const std::size_t n = histogram.bins.size();
    // Every way to put the colours into two groups: squared error of both means, in doubles.
    double best = 1e300;
    for (unsigned set = 0; set < (1U << n); ++set) {
      double error = 0;
      for (unsigned side = 0; side < 2; ++side) {
        double w = 0, x = 0, y = 0, z = 0, square = 0;
        for (std::size_t i = 0; i < n; ++i) {
          if (((set >> i) & 1U) != side) continue;
          const auto weight = static_cast<double>(histogram.bins[i].weight);
          const FixedPoint& p = histogram.bins[i].point;
          w += weight, x += weight * p.x, y += weight * p.y, z += weight * p.z;
          square += weight * (double(p.x) * p.x + double(p.y) * p.y + double(p.z) * p.z);
        }
        if (w > 0) error += square - (x * x + y * y + z * z) / w;
      }
      best = std::min(best, error);
    }
    const Palette palette = KMeans{.colours = 2}(histogram);
    REQUIRE(palette.size() == 2);
    double ours = 0;
    for (const Bin& bin : histogram.bins) {
      const NearestColour<outside::CodeRgb> nearest(palette);
      ours += static_cast<double>(bin.weight) * squared_distance(bin.point, nearest.point(nearest.number(bin.point)));
    }
    // Rounding a centre to whole codes adds at most 3 * 32^2 to each squared distance.
    CHECK(ours <= best + 3072.0 * static_cast<double>(histogram.total()));
  }
}

TEST_CASE("exactly as many colours as asked for, or a line that says why fewer") {
  const auto histogram = cat();
  for (const int colours : {1, 2, 3, 7, 16, 100, 400, 999}) {
    for (const Palette& palette :
         {KMeans{.colours = colours, .effort = Effort::quick}(histogram), MedianCut{.colours = colours}(histogram)}) {
      CHECK(palette.size() == colours);
      CHECK(palette.note.empty());
      std::set<Srgb8> distinct;
      for (const PaletteEntry& entry : palette.entries) distinct.insert(entry.colour);
      CHECK(static_cast<int>(distinct.size()) == colours);
    }
  }
  Raster<Srgb8> few(9, 1);
  for (int x = 0; x < 9; ++x) few(x, 0) = Srgb8{static_cast<std::uint8_t>(x % 3 * 100), 7, 9};
  for (const Palette& palette :
       {KMeans{.colours = 16}(count_colours(few)), MedianCut{.colours = 16}(count_colours(few))}) {
    CHECK(palette.size() == 3);
    CHECK(palette.note == "Asked for 16 colours; the picture has only 3.");
    CHECK(detail::contains(palette.entries, {200, 7, 9}));
  }
}

TEST_CASE("locked colours keep their numbers and their codes") {
  const auto histogram = cat();
  const std::vector<PaletteEntry> locked = {{.colour = {255, 0, 0}, .name = "poppy"}, {.colour = {1, 2, 3}}};
  for (const Palette& palette : {KMeans{.colours = 9, .rules = {.locked = locked}}(histogram),
                                 MedianCut{.colours = 9, .rules = {.locked = locked}}(histogram)}) {
    REQUIRE(palette.size() == 9);
    CHECK(palette[1].colour == Srgb8{255, 0, 0});
    CHECK(palette[1].name == "poppy");
    CHECK(palette[1].lock == Lock::used);
    CHECK(palette[2].colour == Srgb8{1, 2, 3});
    CHECK(palette[3].lock == Lock::none);
    // The others follow from dark to light.
    for (int n = 4; n <= 9; ++n) {
      CHECK(convert_colour<Oklab>(palette[n].colour).L >= convert_colour<Oklab>(palette[n - 1].colour).L);
    }
  }
  const Palette all = KMeans{.colours = 2, .rules = {.locked = locked}}(histogram);
  CHECK(all.size() == 2);
  CHECK(Given{all}(histogram) == all);
}

TEST_CASE("what cannot be fitted is refused") {
  const auto histogram = cat();
  for (const int wrong : {0, -1, 1000}) {
    CHECK_THROWS_WITH(KMeans{.colours = wrong}(histogram), contains("colours: " + std::to_string(wrong)));
    CHECK_THROWS_WITH(MedianCut{.colours = wrong}(histogram), contains("1 to 999"));
  }
  const std::vector<PaletteEntry> twice = {{.colour = {1, 2, 3}}, {.colour = {1, 2, 3}}};
  CHECK_THROWS_WITH((KMeans{.colours = 4, .rules = {.locked = twice}}(histogram)),
                    contains("colours 1 and 2 are the same"));
  CHECK_THROWS_WITH((MedianCut{.colours = 1, .rules = {.locked = twice}}(histogram)), contains("2 colours are locked"));
  CHECK_THROWS_WITH(KMeans{}(Histogram<Oklab>{}), contains("no colours to fit"));
  CHECK_THROWS_WITH(MedianCut{}(Histogram<Oklab>{}), contains("no colours to fit"));
  CHECK_THROWS_WITH(NearestColour<Oklab>(Palette{}), contains("palette"));
}

TEST_CASE("weights count: a heavy colour pulls, and threads never matter") {
  Raster<Srgb8> two(2, 1);
  two(1, 0) = {255, 255, 255};
  Raster<std::uint16_t> importance(2, 1);
  importance(0, 0) = 1;
  importance(1, 0) = 65535;
  const auto weighted = CountColours{.importance = importance}(two);
  CHECK(weighted.total() == 65536);
  CHECK(KMeans{.colours = 1}(weighted)[1].colour == Srgb8{255, 255, 255});
  const auto histogram = cat();
  const Palette one = KMeans{.colours = 20}(histogram);
  for (const int threads : {2, 3, 4}) CHECK(KMeans{.colours = 20}(histogram, {.threads = threads}) == one);
  Histogram<Oklab> heavy = histogram;
  for (Bin& bin : heavy.bins) bin.weight <<= 40;  // sums of squares would overflow if weights were not brought down
  CHECK(mean_squared_error(read_pnm("cells_cat.ppm"), KMeans{.colours = 20}(heavy)) <
        1.1 * mean_squared_error(read_pnm("cells_cat.ppm"), one));
}

TEST_CASE("histograms of parts add up to that of the whole") {
  const auto picture = read_pnm("cells_cat.ppm");
  Raster<Srgb8> top(picture.width(), 40);
  Raster<Srgb8> rest(picture.width(), picture.height() - 40);
  for (int y = 0; y < picture.height(); ++y) {
    for (int x = 0; x < picture.width(); ++x) (y < 40 ? top(x, y) : rest(x, y - 40)) = picture(x, y);
  }
  CHECK(count_colours(top) + count_colours(rest) == count_colours(picture));
  CHECK(count_colours(picture).total() == picture.size());
  // Counting sRGB codes first, and counting colours one by one, is the same.
  CHECK(count_colours(converted<Oklab>(picture)) == count_colours(picture));
  CHECK_THROWS_WITH((CountColours{.importance = {3, 3}}(picture)), contains("importance"));
}

TEST_CASE("transparent pixels and empty cells are never counted") {
  Raster<Srgba8> picture(3, 1);
  picture(0, 0) = {{10, 20, 30}, 255};
  picture(1, 0) = {{200, 0, 0}, 0};
  picture(2, 0) = {{10, 20, 30}, 128};
  CHECK(count_colours(picture).total() == 2);
  CHECK(count_colours(picture).bins.size() == 1);
  auto cells = cells_of(read_pnm("cells_cat.ppm"));
  cells.laid(0, 0) = 0;
  CHECK(count_colours(cells).total() == 72 * 96 - 1);
}

TEST_CASE("the nearest colour is that of a plain search, ties to the lower number") {
  Random random(3);
  std::vector<Srgb8> colours;
  for (int i = 0; i < 60; ++i) {
    const auto code = [&] { return static_cast<std::uint8_t>(random.below(4) * 85); };
    colours.push_back({code(), code(), code()});  // few distinct codes: full of exact ties
  }
  const Palette palette = palette_of(colours);
  const NearestColour<outside::CodeRgb> nearest(palette);
  NearestSearch search(nearest.points());
  for (int i = 0; i < 5000; ++i) {
    const auto code = [&] { return static_cast<int>(random.below(256)); };
    const outside::CodeRgb colour = {code(), code(), code()};
    long least = 1L << 60;
    int number = 0;
    for (int n = 1; n <= palette.size(); ++n) {
      const Srgb8& c = palette[n].colour;
      const long d = (c.r - colour.r) * (c.r - colour.r) + (c.g - colour.g) * (c.g - colour.g) +
                     (c.b - colour.b) * (c.b - colour.b);
      if (d < least) least = d, number = n;
    }
    CHECK(nearest.number(colour) == number);
    CHECK(search.number(colour.fixed()) == number);
  }
}

TEST_CASE("the tree of boxes and scans share out exactly as a plain loop does, ties included") {
  Random random(21);
  for (int round = 0; round < 40; ++round) {
    // Few distinct coordinates: full of exact ties between centres.
    const std::uint64_t spread = round % 2 == 0 ? 5 : 4000;
    const auto point = [&] {
      const auto axis = [&] { return static_cast<std::int16_t>(random.below(spread) * 4); };
      return FixedPoint{axis(), axis(), axis()};
    };
    std::vector<Bin> bins;
    for (int i = 0; i < 500; ++i) bins.push_back({point(), random.below(50) + 1});
    std::vector<FixedPoint> centres;
    for (int i = 0; i < 1 + round; ++i) centres.push_back(point());
    const ColourTree tree(bins);
    std::vector<Share> shares;
    std::vector<std::uint16_t> labels;
    tree.share(centres, shares);
    tree.label(centres, labels);
    const detail::BinScan scan(tree.bins());
    std::vector<Share> scanned;
    scan.share(centres, scanned);
    std::vector<Share> wanted(centres.size());
    int mislabelled = 0;
    std::uint64_t error = 0;
    for (std::size_t i = 0; i < tree.bins().size(); ++i) {
      std::size_t nearest = 0;
      for (std::size_t c = 1; c < centres.size(); ++c) {
        if (squared_distance(centres[c], tree.bins()[i].point) <
            squared_distance(centres[nearest], tree.bins()[i].point)) {
          nearest = c;
        }
      }
      wanted[nearest].add(tree.bins()[i]);
      mislabelled += labels[i] != nearest;
      error += tree.bins()[i].weight * squared_distance(centres[nearest], tree.bins()[i].point);
    }
    CHECK(mislabelled == 0);
    std::uint64_t shared_error = 0;
    std::uint64_t squares = 0;
    for (std::size_t c = 0; c < centres.size(); ++c) {
      CHECK(shares[c].weight == wanted[c].weight);
      CHECK(shares[c].x == wanted[c].x);
      CHECK(shares[c].squares == wanted[c].squares);
      CHECK(scanned[c].weight == wanted[c].weight);
      CHECK(scanned[c].x == wanted[c].x);
      CHECK(scanned[c].y == wanted[c].y);
      CHECK(scanned[c].z == wanted[c].z);
      squares += wanted[c].squares;
      shared_error += shares[c].error(centres[c]);
    }
    CHECK(shared_error == error);
    CHECK(scan.squares() == squares);
  }
}
