// The words of a job name the components that they should.
#include "handlaid/plan/chosen_quantiser.hpp"

#include "support/catch.hpp"
#include "support/pnm.hpp"

using namespace handlaid;
using namespace handlaid_test;

TEST_CASE("each dither of a job is the one that it names") {
  const auto cells = cells_of(converted<Oklab>(read_pnm("cells_cat.ppm")));
  const auto chosen = [&](DitherChoice dither) {
    return quantise_as_chosen(
        Job{.colours = 5, .fitter = FitterChoice::median_cut, .dither = dither, .dither_strength = 0.5}, cells, {});
  };
  const Palette palette = chosen(DitherChoice::none).palette;
  CHECK(chosen(DitherChoice::none).numbers == NoDither{}(cells, palette));
  CHECK(chosen(DitherChoice::diffuse_floyd_steinberg).numbers == ErrorDiffusion{.strength = 0.5}(cells, palette));
  CHECK(chosen(DitherChoice::diffuse_jarvis_judice_ninke).numbers ==
        ErrorDiffusion{.kernel = jarvis_judice_ninke, .strength = 0.5}(cells, palette));
  CHECK(chosen(DitherChoice::diffuse_atkinson).numbers ==
        ErrorDiffusion{.kernel = atkinson, .strength = 0.5}(cells, palette));
  CHECK(chosen(DitherChoice::ordered_bayer).numbers == BayerDither{.strength = 0.5}(cells, palette));
  CHECK(chosen(DitherChoice::ordered_blue_noise).numbers == BlueNoiseDither{.strength = 0.5}(cells, palette));
}
