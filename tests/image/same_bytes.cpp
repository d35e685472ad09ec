// The same pixels from every compiler, at every level of optimisation, for any number of threads. The numbers were
// recorded once from g++ 12 at -O1; what they stand for is checked in the other tests.
#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/fingerprint.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/ground.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/image/resample.hpp"
#include "handlaid/image/tone.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

template <class P>
std::uint64_t mark(const Raster<P>& raster) {
  const auto pixels = raster.pixels();
  return fingerprint({reinterpret_cast<const char*>(pixels.data()), pixels.size_bytes()});
}

}  // namespace

TEST_CASE("stages give the same bytes in every build") {
  const auto picture = noise(200, 150, 11);
  for (const int threads : {1, 2, 4}) {
    INFO(threads);
    const Work work{.threads = threads};
    CHECK(mark(apply(Resample{.width = 61, .height = 43}, picture, work)) == 0x300b60136fa7ffe8ULL);
    CHECK(mark(apply(convert<Srgb16> | Resample{.width = 61, .height = 43}, picture, work)) == 0xa0220367713dd48dULL);
    CHECK(mark(apply(convert<Oklab>, picture, work)) == 0x3d5c37da2a4700eeULL);
    CHECK(mark(apply(convert<LabD50> | Resample{.width = 61, .height = 43}, picture, work)) == 0x7457d89595c78ee2ULL);
    CHECK(mark(apply(Tone{.brightness = 0.07, .contrast = 0.3, .saturation = -0.4}, picture, work)) ==
          0x65e9d208880aed8dULL);
    CHECK(mark(apply(over({200, 100, 50}), picture, work)) == 0xc510ca67f29746e3ULL);
    CHECK(mark(apply(clear({128, 128, 128}, 0.2), picture, work)) == 0xb38b76cb40811983ULL);
  }
}

TEST_CASE("pictures are decoded to the same bytes in every build") {
  CHECK(mark(read<Srgb8>(data_path("exif/orientation_6.jpg"))) == 0xab56c508791d06f6ULL);
  CHECK(mark(read<Srgb8>(data_path("pictures/progressive_420.jpg"))) == 0x53f9b4bddc63f70ULL);
  const std::string deep = data_path("pngsuite/basi6a16.png");
  CHECK(mark(read<Srgba16>(deep, {.use_profile = false})) == 0x4a30b4965ee7389dULL);
  CHECK(mark(read<Srgba16>(deep)) == 0x3c4e7e13431a3a35ULL);  // it is said to be in linear light
}
