// The search for nearest colours against a plain scan.
#include <algorithm>
#include <cmath>
#include <vector>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/palette/nearest_search.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("a search box by box finds what a plain scan finds, ties and edges included") {
  Random random(8);
  for (const int count : {1, 2, 20, 256, 999}) {
    for (const std::uint64_t spread : {9U, 32769U}) {
      std::vector<FixedPoint> points;
      const auto point = [&] {
        const auto axis = [&] {
          return static_cast<std::int16_t>(static_cast<int>(random.below(spread)) * (spread == 9 ? 4096 : 1) - 16384);
        };
        return FixedPoint{axis(), axis(), axis()};
      };
      for (int i = 0; i < count; ++i) points.push_back(point());
      NearestSearch search(points);
      int different = 0;
      for (int i = 0; i < 4000; ++i) {
        const FixedPoint p = point();
        std::size_t nearest = 0;
        for (std::size_t c = 1; c < points.size(); ++c) {
          if (squared_distance(points[c], p) < squared_distance(points[nearest], p)) nearest = c;
        }
        different += search.number(p) != nearest + 1;
      }
      CHECK(different == 0);
    }
  }
}

TEST_CASE(
    "a scan finds what a plain scan finds, at the corners of the space too, and writes no more than it is asked") {
  Random random(9);
  for (const std::uint64_t spread : {2U, 3U, 32769U}) {
    const auto axis = [&] { return static_cast<std::int16_t>(random.below(spread) * (32768 / (spread - 1)) - 16384); };
    const auto point = [&] { return FixedPoint{axis(), axis(), axis()}; };
    for (const std::size_t count : {1U, 2U, 5U, 8U, 67U, 999U}) {
      std::vector<FixedPoint> colours;
      while (colours.size() < count) colours.push_back(point());
      const auto scanned = detail::scan_colours(colours);
      for (const std::size_t asked : {1U, 63U, 64U, 65U, 256U}) {
        std::vector<FixedPoint> asks;
        detail::ScanPoints points = {};
        for (std::size_t i = 0; i < asked; ++i) {
          asks.push_back(point());
          points.x[i] = asks[i].x;
          points.y[i] = asks[i].y;
          points.z[i] = asks[i].z;
        }
        std::vector<ColourNumber> numbers(asked + 1, 7777);
        detail::scan_nearest(points, asked, scanned, numbers.data());
        int different = 0;
        for (std::size_t i = 0; i < asked; ++i) {
          const auto nearer = [&](const FixedPoint& a, const FixedPoint& b) {
            return squared_distance(a, asks[i]) < squared_distance(b, asks[i]);
          };
          different += numbers[i] != std::min_element(colours.begin(), colours.end(), nearer) - colours.begin() + 1;
        }
        CHECK(different == 0);
        CHECK(numbers.back() == 7777);
      }
    }
  }
}

TEST_CASE("rows of more colours than are ever scanned get the numbers of one look-up at a time") {
  Random random(10);
  std::vector<FixedPoint> points;
  const auto axis = [&] { return static_cast<std::int16_t>(static_cast<int>(random.below(200)) * 100 - 10'000); };
  while (points.size() < 1200) points.push_back({axis(), axis(), axis()});
  std::vector<Oklab> colours;
  while (colours.size() < 1000) colours.push_back(Oklab::from_fixed({axis(), axis(), axis()}));
  NearestSearch search(points);
  std::vector<ColourNumber> numbers(colours.size());
  search.number_row(std::span<const Oklab>(colours), std::span<ColourNumber>(numbers));
  int different = 0;
  for (std::size_t i = 0; i < colours.size(); ++i) {
    const FixedPoint p = colours[i].fixed();
    const auto nearer = [&](const FixedPoint& a, const FixedPoint& b) {
      return squared_distance(a, p) < squared_distance(b, p);
    };
    different += numbers[i] != std::min_element(points.begin(), points.end(), nearer) - points.begin() + 1;
  }
  CHECK(different == 0);
}

TEST_CASE("a row gets the numbers of a plain scan, in any space, not numbers and out of gamut included") {
  const auto check = [](auto colour_at) {
    using C = decltype(colour_at(0));
    Random random(5);
    for (const std::size_t count : {std::size_t{1}, std::size_t{7}, std::size_t{20}, std::size_t{256}}) {
      Palette palette;
      for (std::size_t i = 0; i < count; ++i) {
        const auto code = [&] { return static_cast<std::uint8_t>(random.below(32) * 8); };
        palette.entries.push_back({.colour = {code(), code(), code()}});
      }
      const NearestColour<C> nearest(palette);
      NearestSearch search(nearest.points());
      std::vector<C> colours;
      for (int i = 0; i < 3000; ++i) colours.push_back(colour_at(i));
      std::vector<ColourNumber> numbers(colours.size() + 1, 7777);
      search.number_row(std::span<const C>(colours), std::span<ColourNumber>(numbers));
      int different = 0;
      for (std::size_t i = 0; i < colours.size(); ++i) different += numbers[i] != nearest.number(colours[i]);
      CHECK(different == 0);
      CHECK(numbers.back() == 7777);
    }
  };
  Random random(6);
  const auto real = [&](double low, double high) {
    return static_cast<float>(low + (high - low) * static_cast<double>(random.below(1U << 20U)) / (1U << 20U));
  };
  check([&](int i) {
    if (i % 100 == 0) return Oklab{NAN, INFINITY, -1e30F};
    return Oklab{real(-0.1, 1.1), real(-0.4, 0.4), real(-0.4, 0.4)};
  });
  check([&](int) { return LabD65{real(-5, 105), real(-130, 130), real(-130, 130)}; });
}
