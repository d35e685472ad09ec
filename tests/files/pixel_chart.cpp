#include "handlaid/files/pixel_chart.hpp"

#include "handlaid/image/read.hpp"
#include "handlaid/image/write.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

namespace {

Raster<ColourNumber> read(const Raster<Srgba8>& pixels, const Chart<>& was) {
  return read_chart_pixels(pixels, was, "my.png");
}

}  // namespace

TEST_CASE("a chart comes back from its picture of one pixel a cell") {
  const Chart<> chart = chart_of({"1.34", "2233"});
  const std::string png = write_png(chart_pixels(chart));
  const std::vector<unsigned char> bytes(png.begin(), png.end());
  Raster<Srgba8> pixels = read_memory<Srgba8>(bytes);
  CHECK(read(pixels, chart) == chart.numbers);
  pixels(1, 0) = {chart.palette[2].colour, 255};
  pixels(0, 1) = {};
  const Raster<ColourNumber> edited = read(pixels, chart);
  CHECK(edited(1, 0) == 2);
  CHECK(edited(0, 1) == 0);
}

TEST_CASE("of colours that look the same a cell keeps its own") {
  Chart<> chart = chart_of({"123"});
  chart.palette.entries[2].colour = chart.palette.entries[1].colour;
  Raster<Srgba8> pixels = chart_pixels(chart);
  CHECK(read(pixels, chart) == chart.numbers);
  pixels(0, 0) = pixels(1, 0);
  CHECK(read(pixels, chart)(0, 0) == 2);
}

TEST_CASE("a picture of another size and soft edges are refused with what they are") {
  const Chart<> chart = chart_of({"1.34", "2233"});
  CHECK_THROWS_WITH(read(Raster<Srgba8>(8, 4), chart), contains("my.png: it has 8 x 4 pixels, the chart 4 x 2 cells"));
  Raster<Srgba8> pixels = chart_pixels(chart);
  pixels(3, 0) = {{1, 2, 3}, 255};
  CHECK_THROWS_WITH(read(pixels, chart),
                    contains("1 pixel is no colour of the palette: course 2 column 4 #010203; paint with"));
  pixels(0, 1).alpha = 128;
  CHECK_THROWS_WITH(read(pixels, chart), contains("2 pixels are no colour of the palette: course 1 column 1 #282828 "
                                                  "half transparent; course 2 column 4 #010203;"));
  const Chart<> wide = chart_of({std::string(30, '1')});
  Raster<Srgba8> grey(30, 1);
  for (Srgba8& pixel : grey.pixels()) pixel = {{9, 9, 9}, 255};
  CHECK_THROWS_WITH(read(grey, wide),
                    contains("30 pixels are no colour") && contains("column 20 #090909; and 10 more"));
}
