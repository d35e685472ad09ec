// Palettes of general-purpose libraries, for comparison. Each peer is one file beside this one, which CMake adds to a
// program where the library was found; it puts itself on the list.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/raster.hpp"

namespace handlaid_bench {

/// The same pixels in the forms that the libraries take, made beforehand, so that only their own work is timed.
struct PeerInput {
  handlaid::Raster<handlaid::Srgb8> codes = {};
  /// L, a, b of each pixel.
  std::vector<float> oklab = {};
};

inline PeerInput peer_input(handlaid::Raster<handlaid::Srgb8> codes) {
  PeerInput input = {.codes = std::move(codes)};
  for (const handlaid::Srgb8& code : input.codes.pixels()) {
    const auto colour = handlaid::convert_colour<handlaid::Oklab>(code);
    input.oklab.insert(input.oklab.end(), {colour.L, colour.a, colour.b});
  }
  return input;
}

struct Peer {
  std::string name = {};
  /// The numbers of colours that it can make.
  int fewest = 1;
  int most = 999;
  /// The palette of at most `colours` colours, rounded to codes.
  std::function<std::vector<handlaid::Srgb8>(const PeerInput& input, int colours)> fit = {};
};

inline std::vector<Peer>& peers() {
  static std::vector<Peer> all;
  return all;
}

/// Puts a peer on the list: `const AddPeer name({…});` in its file.
struct AddPeer {
  explicit AddPeer(Peer peer) { peers().push_back(std::move(peer)); }
};

}  // namespace handlaid_bench
