// Palettes: "fit FITTER PICTURE COLOURS", for ours and for the peers by their names; the result is the palette.
#include <functional>
#include <memory>

#include "../peers/peers.hpp"
#include "handlaid/colour/hex.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "tasks.hpp"

namespace {

using namespace handlaid;
using namespace handlaid_bench;

using Fit = std::function<std::vector<Srgb8>()>;

/// From the pixels to the palette, counting included.
template <class F>
Fit ours(const Raster<Srgb8>& pixels, F fitter) {
  return [&pixels, fitter] {
    std::vector<Srgb8> palette;
    for (const PaletteEntry& entry : fitter(count_colours(pixels)).entries) palette.push_back(entry.colour);
    return palette;
  };
}

Fit fit_of(const std::string& name, const Raster<Srgb8>& pixels, int colours) {
  if (name == "best") return ours(pixels, KMeans{.colours = colours});
  if (name == "quick") return ours(pixels, KMeans{.colours = colours, .effort = Effort::quick});
  if (name == "median cut") return ours(pixels, MedianCut{.colours = colours});
  if (name == "mean cut") return ours(pixels, MedianCut{.colours = colours, .at = CutAt::mean});
  if (name == "best-fit cut") return ours(pixels, MedianCut{.colours = colours, .at = CutAt::best_fit});
  for (const Peer& peer : peers()) {
    if (peer.name != name) continue;
    const auto input = std::make_shared<PeerInput>(peer_input(pixels));
    return [input, colours, fit = peer.fit] { return fit(*input, colours); };
  }
  return {};
}

const AddTask fit("fit", [](const Arguments& arguments) -> Task {
  const Fit made = fit_of(argument(arguments, 0), picture(argument(arguments, 1)), std::stoi(argument(arguments, 2)));
  if (!made) return {};
  const auto palette = std::make_shared<std::vector<Srgb8>>();
  return {.run = [made, palette] { *palette = made(); },
          .result =
              [palette] {
                std::string text;
                for (const Srgb8& colour : *palette) text += (text.empty() ? "" : " ") + to_hex(colour);
                return text;
              }};
});

}  // namespace
