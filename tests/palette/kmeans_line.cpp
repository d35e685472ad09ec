// K-means of colours on a line beside the optimum, which dynamic programming finds exactly there (every group is a
// stretch of neighbours: W. Fisher, "On grouping for maximum homogeneity", JASA 53, 1958).
#include <algorithm>
#include <vector>

#include "handlaid/core/random.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/nearest.hpp"
#include "support/catch.hpp"
#include "support/own_colour.hpp"

using namespace handlaid;

namespace {

/// The least squared error of `groups` stretches of the bins.
double least_error(const std::vector<Bin>& bins, std::size_t groups) {
  const std::size_t n = bins.size();
  std::vector<double> weight(n + 1), sum(n + 1), square(n + 1);
  for (std::size_t i = 0; i < n; ++i) {
    const auto w = static_cast<double>(bins[i].weight);
    weight[i + 1] = weight[i] + w;
    sum[i + 1] = sum[i] + w * bins[i].point.x;
    square[i + 1] = square[i] + w * bins[i].point.x * bins[i].point.x;
  }
  const auto stretch = [&](std::size_t first, std::size_t end) {
    const double s = sum[end] - sum[first];
    return square[end] - square[first] - s * s / (weight[end] - weight[first]);
  };
  std::vector<double> best(n + 1, 1e300);
  best[0] = 0;
  for (std::size_t group = 0; group < groups; ++group) {
    std::vector<double> next(n + 1, 1e300);
    for (std::size_t end = 1; end <= n; ++end) {
      for (std::size_t first = 0; first < end; ++first) {
        if (best[first] < 1e299) next[end] = std::min(next[end], best[first] + stretch(first, end));
      }
    }
    best = next;
  }
  return best[n];
}

}  // namespace

TEST_CASE("k-means on a line comes within 2 % of the optimum of dynamic programming") {
  Random random(17);
  double worst = 1;
  for (int round = 0; round < 12; ++round) {
    Histogram<outside::CodeRgb> histogram;
    for (int code = 0; code < 256; ++code) {
      // Three heaps and some noise, another each round.
      const auto heap = [&](int middle) { return 40 - std::min(40, std::abs(code - middle)); };
      const int weight =
          heap(40 + 5 * round) + heap(120) * round / 4 + heap(215 - round) + static_cast<int>(random.below(6));
      if (weight > 0)
        histogram.bins.push_back({outside::CodeRgb{code, 0, 0}.fixed(), static_cast<std::uint64_t>(weight)});
    }
    for (const int colours : {2, 3, 5, 8, 12}) {
      const Palette palette = KMeans{.colours = colours}(histogram);
      const NearestColour<outside::CodeRgb> nearest(palette);
      double ours = 0;
      for (const Bin& bin : histogram.bins) {
        ours += static_cast<double>(bin.weight) * squared_distance(bin.point, nearest.point(nearest.number(bin.point)));
      }
      // Centres are whole codes, at most 32 steps off.
      const double least = least_error(histogram.bins, static_cast<std::size_t>(colours));
      worst = std::max(worst, (ours - 1024.0 * static_cast<double>(histogram.total())) / least);
      INFO("round " << round << ", " << colours << " colours: " << ours / least);
      CHECK(ours >= least * 0.999999);
      CHECK(ours <= least * 1.02 + 1024.0 * static_cast<double>(histogram.total()));
    }
  }
  INFO("worst " << worst);
  CHECK(worst < 1.02);
}
