// Conversion, nearest colour and CIEDE2000 beside the plain loops and other libraries, interleaved in one process.
// Prints one row for each comparison: what, ours and theirs (least and median milliseconds), how many times as fast.
// Usage: colour_ratios [REPEATS]
#include <lcms2.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <functional>
#include <opencv2/core.hpp>
#include <opencv2/flann.hpp>
#include <opencv2/imgproc.hpp>
#include <vector>

#include "handlaid/colour/difference_rows.hpp"
#include "handlaid/colour/oklab_rows.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/palette/nearest_search.hpp"
#include "photo.hpp"
#include "plain.hpp"

using namespace handlaid;

namespace {

int repeats = 15;

double milliseconds(const std::function<void()>& work) {
  const std::clock_t start = std::clock();  // the processor's time: other programs' turns do not count
  work();
  return 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

void compare(const char* what, double wanted, const std::function<void()>& ours, const std::function<void()>& theirs) {
  std::vector<double> our_times;
  std::vector<double> their_times;
  for (int i = 0; i < repeats; ++i) {
    our_times.push_back(milliseconds(ours));
    their_times.push_back(milliseconds(theirs));
  }
  std::sort(our_times.begin(), our_times.end());
  std::sort(their_times.begin(), their_times.end());
  const auto middle = static_cast<std::size_t>(repeats / 2);
  const bool noisy = our_times[middle] > 1.15 * our_times[0] || their_times[middle] > 1.15 * their_times[0];
  std::printf("%-44s %9.3f %9.3f %9.3f %9.3f %7.1f x  wanted %4.0f x%s\n", what, our_times[0], our_times[middle],
              their_times[0], their_times[middle], their_times[0] / our_times[0], wanted, noisy ? "  noisy" : "");
  std::fflush(stdout);
}

void conversions(const Raster<Srgb8>& picture) {
  std::vector<Oklab> oklab(picture.size());
  std::vector<Srgb8> codes(picture.size());
  const auto to_oklab = [&] { convert_row(picture.pixels(), std::span<Oklab>(oklab)); };
  const auto back = [&] { convert_row(std::span<const Oklab>(oklab), std::span<Srgb8>(codes)); };
  const cv::Mat eight(picture.height(), picture.width(), CV_8UC3, const_cast<Srgb8*>(picture.pixels().data()));
  cv::Mat real;
  eight.convertTo(real, CV_32F, 1 / 255.0);
  cv::Mat lab8;
  cv::Mat lab;
  cv::Mat rgb;
  compare("sRGB8 to Oklab / OpenCV Lab, 8 bit", 2, to_oklab, [&] { cv::cvtColor(eight, lab8, cv::COLOR_RGB2Lab); });
  compare("sRGB8 to Oklab / OpenCV Lab, float", 2, to_oklab, [&] { cv::cvtColor(real, lab, cv::COLOR_RGB2Lab); });
  compare("Oklab to sRGB8 / OpenCV from Lab, 8 bit", 1, back, [&] { cv::cvtColor(lab8, rgb, cv::COLOR_Lab2RGB); });
}

void nearest(const Raster<Srgb8>& picture) {
  std::vector<Oklab> oklab(picture.size());
  convert_row(picture.pixels(), std::span<Oklab>(oklab));
  std::vector<ColourNumber> numbers(oklab.size());
  for (const int k : {20, 256}) {
    Random random(3);
    std::vector<Oklab> palette;
    std::vector<FixedPoint> points;
    cv::Mat rows(k, 3, CV_32F);
    for (int i = 0; i < k; ++i) {
      palette.push_back(oklab[random.below(oklab.size())]);
      points.push_back(palette.back().fixed());
      rows.at<float>(i, 0) = palette.back().L;
      rows.at<float>(i, 1) = palette.back().a;
      rows.at<float>(i, 2) = palette.back().b;
    }
    const auto ours = [&] {
      NearestSearch search(points);
      search.number_row(std::span<const Oklab>(oklab), std::span<ColourNumber>(numbers));
    };
    compare(k == 20 ? "nearest of 20 / plain loop" : "nearest of 256 / plain loop", k == 20 ? 5 : 20, ours,
            [&] { handlaid_bench::plain_nearest(oklab, palette, numbers); });
    const cv::Mat pixels(static_cast<int>(oklab.size()), 3, CV_32F, oklab.data());
    cv::Mat indices;
    cv::Mat distances;
    compare(k == 20 ? "nearest of 20 / OpenCV FLANN" : "nearest of 256 / OpenCV FLANN", 20, ours, [&] {
      cv::flann::Index index(rows, cv::flann::KDTreeIndexParams(1));
      index.knnSearch(pixels, indices, distances, 1, cv::flann::SearchParams(32));
    });
  }
}

void differences() {
  constexpr std::size_t pairs = 100'000;
  Random random(4);
  const auto real = [&](int low, int high) {
    return static_cast<float>(low +
                              static_cast<int>(random.below(static_cast<std::uint64_t>(high - low) * 1000)) / 1000.0);
  };
  std::vector<LabD50> p;
  std::vector<LabD50> q;
  std::vector<cmsCIELab> of_p;
  std::vector<cmsCIELab> of_q;
  for (std::size_t i = 0; i < pairs; ++i) {
    p.push_back({real(0, 100), real(-80, 80), real(-80, 80)});
    q.push_back({real(0, 100), real(-80, 80), real(-80, 80)});
    of_p.push_back({double{p[i].L}, double{p[i].a}, double{p[i].b}});
    of_q.push_back({double{q[i].L}, double{q[i].a}, double{q[i].b}});
  }
  std::vector<float> row(pairs);
  std::vector<double> theirs(pairs);
  compare(
      "CIEDE2000 of 100,000 pairs / lcms2", 20,
      [&] { ciede2000_row(std::span<const LabD50>(p), std::span<const LabD50>(q), std::span<float>(row)); },
      [&] {
        for (std::size_t i = 0; i < pairs; ++i) theirs[i] = cmsCIE2000DeltaE(&of_p[i], &of_q[i], 1, 1, 1);
      });
}

}  // namespace

int main(int count, char** arguments) {
  if (count > 1) repeats = std::max(1, std::atoi(arguments[1]));
  cv::setNumThreads(1);
  const Raster<Srgb8> picture = handlaid_bench::photo(5e5);
  std::printf("%-44s %9s %9s %9s %9s\n", "ms", "ours", "median", "theirs", "median");
  conversions(picture);
  nearest(picture);
  differences();
}
