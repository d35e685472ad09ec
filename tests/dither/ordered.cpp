// Ordered dithering: its pairs of colours against a plain search, and the blue-noise matrix against what was published.
#include "handlaid/dither/ordered.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/dither/void_and_cluster.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

static_assert(Ditherer<OrderedDither> && Ditherer<BlueNoiseDither> && !Ditherer<ThresholdMatrix>);

namespace {

ThresholdMatrix blue_noise() {
  return {.columns = 64, .rows = 64, .ranks = {blue_noise_ranks.begin(), blue_noise_ranks.end()}};
}
ThresholdMatrix bayer64() {
  ThresholdMatrix matrix = {.columns = 64, .rows = 64};
  const auto ranks = bayer_matrix<64>();
  for (const auto& row : ranks) {
    for (const int rank : row) matrix.ranks.push_back(static_cast<std::uint16_t>(rank));
  }
  return matrix;
}
/// Every rank once, in an order without order.
ThresholdMatrix white_noise() {
  ThresholdMatrix matrix = {.columns = 64, .rows = 64, .ranks = std::vector<std::uint16_t>(4096)};
  for (std::size_t i = 0; i < 4096; ++i) matrix.ranks[i] = static_cast<std::uint16_t>(i);
  Random random(11);
  for (std::size_t i = 4095; i > 0; --i) std::swap(matrix.ranks[i], matrix.ranks[random.below(i + 1)]);
  return matrix;
}

/// Power by whole rings of frequency, 1 to 45 cycles a tile, of the pattern of the `dots` lowest ranks; 1 is the mean
/// power of a pattern of as many dots without order (Ulichney's measure, from memory).
std::vector<double> ring_power(const ThresholdMatrix& matrix, int dots) {
  std::vector<double> real(4096), imaginary(4096), by_row_real(4096), by_row_imaginary(4096);
  std::vector<double> cosine(64), sine(64);
  for (std::size_t i = 0; i < 64; ++i) {
    cosine[i] = std::cos(2 * std::numbers::pi * static_cast<double>(i) / 64);
    sine[i] = std::sin(2 * std::numbers::pi * static_cast<double>(i) / 64);
  }
  const double share = dots / 4096.0;
  for (std::size_t y = 0; y < 64; ++y) {
    for (std::size_t u = 0; u < 64; ++u) {
      for (std::size_t x = 0; x < 64; ++x) {
        const double value = (matrix.ranks[y * 64 + x] < dots ? 1 : 0) - share;
        by_row_real[y * 64 + u] += value * cosine[u * x % 64];
        by_row_imaginary[y * 64 + u] -= value * sine[u * x % 64];
      }
    }
  }
  std::vector<double> power(46, 0.0);
  std::vector<int> count(46, 0);
  for (std::size_t v = 0; v < 64; ++v) {
    for (std::size_t u = 0; u < 64; ++u) {
      double re = 0;
      double im = 0;
      for (std::size_t y = 0; y < 64; ++y) {
        const double c = cosine[v * y % 64];
        const double s = sine[v * y % 64];
        re += by_row_real[y * 64 + u] * c + by_row_imaginary[y * 64 + u] * s;
        im += by_row_imaginary[y * 64 + u] * c - by_row_real[y * 64 + u] * s;
      }
      const double across = static_cast<double>(u < 32 ? u : 64 - u);
      const double down = static_cast<double>(v < 32 ? v : 64 - v);
      const auto ring = static_cast<std::size_t>(std::lround(std::sqrt(across * across + down * down)));
      if (ring == 0) continue;
      power[ring] += (re * re + im * im) / (4096 * share * (1 - share));
      ++count[ring];
    }
  }
  for (std::size_t ring = 1; ring < power.size(); ++ring) power[ring] /= count[ring];
  return power;
}

/// The mean of the rings below half of the principal frequency, sqrt(g) cycles a place for a share g up to 1/2.
double low_power(const ThresholdMatrix& matrix, int dots) {
  const double share = std::min(dots, 4096 - dots) / 4096.0;
  const auto power = ring_power(matrix, dots);
  const auto end = static_cast<std::size_t>(std::sqrt(share) * 64 / 2);
  double sum = 0;
  for (std::size_t ring = 1; ring < end; ++ring) sum += power[ring];
  return sum / static_cast<double>(end - 1);
}

}  // namespace

TEST_CASE("the committed blue-noise matrix is what void-and-cluster makes") {
  CHECK(blue_noise() == void_and_cluster(64));
  CHECK(void_and_cluster(16, 2) != void_and_cluster(16, 3));
  CHECK_THROWS_WITH(void_and_cluster(3), contains("side of the matrix"));
  CHECK_THROWS_WITH(void_and_cluster(257), contains("4 to 256"));
}

TEST_CASE("each level of a matrix has its count of places") {
  for (const ThresholdMatrix& matrix : {blue_noise(), bayer64(), void_and_cluster(5)}) {
    check_matrix(matrix);
    std::vector<int> count(matrix.ranks.size(), 0);
    for (const std::uint16_t rank : matrix.ranks) ++count[rank];
    CHECK(count == std::vector<int>(matrix.ranks.size(), 1));
  }
}

TEST_CASE("blue noise has no energy at low frequencies") {
  // R. Ulichney, Proc. SPIE 1913, 1993: little below the principal frequency, a peak there, no structure above it.
  for (const int dots : {128, 410, 1024, 2048, 3072, 3686}) {
    const double share = std::min(dots, 4096 - dots) / 4096.0;
    const auto principal = static_cast<std::size_t>(std::lround(std::sqrt(share) * 64));
    INFO(dots << " dots: blue " << low_power(blue_noise(), dots) << ", white " << low_power(white_noise(), dots));
    CHECK(low_power(blue_noise(), dots) < 0.15);
    CHECK(low_power(white_noise(), dots) > 0.7);
    const auto blue = ring_power(blue_noise(), dots);
    CHECK(*std::max_element(blue.begin(), blue.end()) < 5);
    double about = 0;
    for (std::size_t ring = principal - 2; ring <= std::min(principal + 2, blue.size() - 1); ++ring)
      about = std::max(about, blue[ring]);
    CHECK(about > 1.2);
  }
  // Bayer's has as little, but all of its energy in a few lines: that is the grid one sees.
  const auto bayer = ring_power(bayer64(), 410);
  CHECK(*std::max_element(bayer.begin(), bayer.end()) > 10);
}

TEST_CASE("an ordered dither mixes the pair that a plain search finds") {
  const auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  for (const int colours : {1, 2, 9, 80}) {
    const Palette palette = MedianCut{.colours = colours}(count_colours(cells));
    const NearestColour<Oklab> nearest(palette);
    detail::MixingPartner partners(nearest.points());
    int different = 0;
    for (const Oklab& colour : cells.colours.pixels()) {
      const FixedPoint point = colour.fixed();
      const ColourNumber from = nearest.number(point);
      const auto wanted = detail::difference(nearest.point(from), point);
      ColourNumber partner = from;
      std::int64_t best = INT64_MIN;
      for (int i = 1; i <= palette.size(); ++i) {
        const auto along = detail::difference(nearest.point(from), nearest.point(static_cast<ColourNumber>(i)));
        if (along.dot(along) == 0 || along.dot(wanted) <= 0) continue;
        const std::int64_t part = along.dot(wanted);
        const std::int64_t score = 5 * (part * part / along.dot(along)) - part;  // rest + scatter / 4, the other way
        if (score > best) {
          best = score;
          partner = static_cast<ColourNumber>(i);
        }
      }
      different += partners.number(from, point) != partner;
    }
    INFO(colours << " colours");
    CHECK(different == 0);
  }
}

TEST_CASE("every ordered dither keeps the light of a flat ground, to one place of its matrix") {
  const Palette black_and_white = palette_of({{0, 0, 0}, {255, 255, 255}});
  for (const int code : {12, 40, 128, 188, 250}) {
    const auto c = static_cast<std::uint8_t>(code);
    Raster<Srgb8> flat(64, 64);
    for (Srgb8& pixel : flat.pixels()) pixel = {c, c, c};
    const auto cells = cells_of(converted<Oklab>(flat));
    const auto light = [&](const auto& dither) {
      double sum = 0;
      const auto numbers = dither(cells, black_and_white);
      for (const ColourNumber number : numbers.pixels()) sum += number == 2 ? 1 : 0;
      return sum / 4096;
    };
    const double wanted = relative_luminance({c, c, c});
    CHECK_THAT(light(BayerDither{}), WithinAbs(wanted, 0.51 / 64));
    CHECK_THAT(light(BlueNoiseDither{}), WithinAbs(wanted, 0.51 / 4096 + 1e-4));
    CHECK_THAT(light(OrderedDither{.matrix = {.columns = 2, .rows = 1, .ranks = {0, 1}}}), WithinAbs(wanted, 0.26));
    CHECK(BlueNoiseDither{.strength = 0}(cells, black_and_white) == NoDither{}(cells, black_and_white));
  }
}

TEST_CASE("ordered dithers agree where they share a matrix, for any number of threads, and leave empty cells") {
  auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  for (int y = 20; y < 50; ++y) cells.laid(30, y) = 0;
  const Palette palette = MedianCut{.colours = 7}(count_colours(cells));
  CHECK(OrderedDither{.matrix = blue_noise()}(cells, palette) == BlueNoiseDither{}(cells, palette));
  ThresholdMatrix eight = {.columns = 8, .rows = 8};
  for (const auto& row : bayer_matrix<8>()) {
    for (const int rank : row) eight.ranks.push_back(static_cast<std::uint16_t>(rank));
  }
  CHECK(OrderedDither{.matrix = eight}(cells, palette) == BayerDither{}(cells, palette));
  const auto numbers = BlueNoiseDither{}(cells, palette);
  CHECK(BlueNoiseDither{}(cells, palette, {.threads = 3}) == numbers);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    CHECK((numbers.pixels()[i] == 0) == (cells.laid.pixels()[i] == 0));
  }
}

TEST_CASE("a matrix that is none is refused, and so is a strength out of range") {
  const auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  const Palette palette = palette_of({{0, 0, 0}, {255, 255, 255}});
  const auto use = [&](ThresholdMatrix matrix) { OrderedDither{.matrix = std::move(matrix)}(cells, palette); };
  CHECK_THROWS_WITH(use({}), contains("threshold matrix"));
  CHECK_THROWS_WITH(use({.columns = 257, .rows = 256}), contains("1 to 65536 places"));
  CHECK_THROWS_WITH(use({.columns = 2, .rows = 2, .ranks = {0, 1, 2}}), contains("have 3 ranks"));
  CHECK_THROWS_WITH(use({.columns = 2, .rows = 1, .ranks = {0, 2}}), contains("0 to 1"));
  for (const double wrong : {-0.1, 1.1, std::nan("")}) {
    CHECK_THROWS_WITH(BlueNoiseDither{.strength = wrong}(cells, palette), contains("dither strength"));
  }
}
