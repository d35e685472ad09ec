// libimagequant at its default speed and at its slowest.
#include <libimagequant.h>

#include <memory>
#include <stdexcept>

#include "peers.hpp"

namespace {

using namespace handlaid;

template <class T, void (*destroy)(T*)>
struct Destroy {
  void operator()(T* it) const { destroy(it); }
};
template <class T, void (*destroy)(T*)>
using Owned = std::unique_ptr<T, Destroy<T, destroy>>;

/// `speed` is 1 (slowest, best) to 10; 0 leaves the default.
std::vector<Srgb8> fit(const handlaid_bench::PeerInput& input, int colours, int speed) {
  std::vector<liq_color> pixels;
  for (const Srgb8& code : input.codes.pixels()) pixels.push_back({code.r, code.g, code.b, 255});
  const Owned<liq_attr, liq_attr_destroy> options(liq_attr_create());
  liq_set_max_colors(options.get(), colours);
  if (speed > 0) liq_set_speed(options.get(), speed);
  const Owned<liq_image, liq_image_destroy> image(
      liq_image_create_rgba(options.get(), pixels.data(), input.codes.width(), input.codes.height(), 0));
  liq_result* made = nullptr;
  if (!image || liq_image_quantize(image.get(), options.get(), &made) != LIQ_OK) {
    throw std::runtime_error("libimagequant gave no palette");
  }
  const Owned<liq_result, liq_result_destroy> result(made);
  const liq_palette* const found = liq_get_palette(result.get());
  std::vector<Srgb8> palette;
  for (unsigned i = 0; i < found->count; ++i) {
    palette.push_back({found->entries[i].r, found->entries[i].g, found->entries[i].b});
  }
  return palette;
}

const handlaid_bench::AddPeer default_speed(
    {.name = "libimagequant", .fewest = 2, .most = 256, .fit = [](const auto& input, int colours) {
       return fit(input, colours, 0);
     }});
const handlaid_bench::AddPeer slowest({.name = "libimagequant slowest",
                                       .fewest = 2,
                                       .most = 256,
                                       .fit = [](const auto& input, int colours) { return fit(input, colours, 1); }});

}  // namespace
