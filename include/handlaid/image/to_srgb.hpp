// Taking the samples of a picture from its own RGB to sRGB, by tables of whole numbers; colours outside of sRGB are
// held at its ends, channel by channel. A space that is as good as sRGB is told by its effect.
#pragma once

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/decoded.hpp"
#include "handlaid/image/rgb_space.hpp"

namespace handlaid::detail {

/// For each channel and 8-bit code its share of the red, green and blue light of sRGB, in steps of 1/2^24.
template <When = When::called>
struct SharesOfLight {
  struct Share {
    std::int32_t r, g, b, unused;  // four, as the processor adds four at once
  };
  Share shares[3][256] = {};
  /// Where each code starts, and one that never comes.
  std::int32_t starts[257] = {};

  explicit SharesOfLight(const RgbSpace& space) {
    for (std::size_t i = 0; i < 256; ++i) starts[i] = srgb_code_starts_table[i];
    starts[256] = INT32_MAX;
    std::int64_t light[256] = {};
    for (std::size_t c = 0; c < 3; ++c) {
      for (std::size_t code = 0; code < 256; ++code) {
        if (c == 0 || !(space.curves[c] == space.curves[c - 1])) {
          for (std::size_t i = 0; code == 0 && i < 256; ++i) {
            light[i] = space.curves[c].light(static_cast<std::int64_t>(i), 255);
          }
        }
        const auto share = [&](int row) {
          return static_cast<std::int32_t>(round_shift(space.to_linear.m[row][c] * light[code], 30));
        };
        shares[c][code] = {share(0), share(1), share(2), 0};
      }
    }
  }
  /// In place. Without a branch, as none could be foretold.
  void convert(unsigned char* pixel) const {
    const Share& p = shares[0][pixel[0]];
    const Share& q = shares[1][pixel[1]];
    const Share& s = shares[2][pixel[2]];
    const Share sum = {p.r + q.r + s.r, p.g + q.g + s.g, p.b + q.b + s.b, p.unused + q.unused + s.unused};
    pixel[0] = code(sum.r);
    pixel[1] = code(sum.g);
    pixel[2] = code(sum.b);
  }
  /// As `srgb_code_of_linear`.
  unsigned char code(std::int32_t light) const {
    light = light < 0 ? 0 : light;
    light = light < linear_white ? light : linear_white - 1;
    const std::size_t guess = srgb_code_guess_table[static_cast<std::size_t>(light >> 12)];
    return static_cast<unsigned char>(guess + (starts[guess + 1] <= light ? 1U : 0U));
  }
  /// Whether no code changes by more than one: on all greys, and on 16 x 16 x 16 colours.
  bool as_srgb() const {
    const auto kept = [&](unsigned r, unsigned g, unsigned b) {
      const unsigned before[3] = {r, g, b};
      unsigned char pixel[3] = {static_cast<unsigned char>(r), static_cast<unsigned char>(g),
                                static_cast<unsigned char>(b)};
      convert(pixel);
      for (std::size_t c = 0; c < 3; ++c) {
        if (pixel[c] > before[c] + 1 || pixel[c] + 1U < before[c]) return false;
      }
      return true;
    };
    for (unsigned v = 0; v < 256; ++v) {
      if (!kept(v, v, v)) return false;
    }
    for (unsigned v = 0; v < 4096; ++v) {
      if (!kept((v & 15U) * 17, (v >> 4U & 15U) * 17, (v >> 8U) * 17)) return false;
    }
    return true;
  }
};

/// The light of each 16-bit code.
template <class LightOf>
std::vector<std::int32_t> deep_table(const LightOf& light_of) {
  std::vector<std::int32_t> table(65536);
  for (std::size_t code = 0; code < table.size(); ++code) table[code] = static_cast<std::int32_t>(light_of(code));
  return table;
}

/// The 16-bit sRGB code whose light is nearest, the lower one at a tie, as `Srgb16::from_light` has it.
class DeepCodes {
 public:
  DeepCodes()
      : lights_(deep_table([](std::size_t code) {
          return Srgb16{static_cast<std::uint16_t>(code), 0, 0}.light().r;
        })),
        guesses_(65536) {
    std::size_t code = 0;
    for (std::size_t part = 0; part < guesses_.size(); ++part) {
      while (code < 65535 && lights_[code + 1] <= static_cast<std::int32_t>(part << 8U)) ++code;
      guesses_[part] = static_cast<std::uint16_t>(code);
    }
  }
  std::uint16_t nearest(std::int64_t light) const {
    if (light <= 0) return 0;
    if (light >= linear_white) return 65535;
    std::size_t code = guesses_[static_cast<std::size_t>(light >> 8)];
    while (lights_[code + 1] <= light) ++code;
    return static_cast<std::uint16_t>(light - lights_[code] <= lights_[code + 1] - light ? code : code + 1);
  }

 private:
  std::vector<std::int32_t> lights_;
  /// The highest code that is not lighter than each 1/65536 of light.
  std::vector<std::uint16_t> guesses_;
};

/// Takes all samples to sRGB, in place; alpha stays.
template <When = When::called>
void convert_to_srgb(Decoded& decoded, const RgbSpace& space) {
  unsigned char* const bytes = decoded.samples.get();
  const auto step = static_cast<std::size_t>(decoded.channels);
  if (decoded.sample_bytes == 1) {
    const SharesOfLight table(space);
    for (std::size_t i = 0; i < decoded.pixels(); ++i) table.convert(bytes + i * step);
    return;
  }
  std::vector<std::int32_t> light[3];
  for (std::size_t c = 0; c < 3; ++c) {
    if (c > 0 && space.curves[c] == space.curves[c - 1]) {
      light[c] = light[c - 1];
    } else {
      light[c] =
          deep_table([&](std::size_t code) { return space.curves[c].light(static_cast<std::int64_t>(code), 65535); });
    }
  }
  const DeepCodes codes;
  auto* sample = reinterpret_cast<std::uint16_t*>(bytes);
  for (std::size_t i = 0; i < decoded.pixels(); ++i, sample += step) {
    const FixedVector rgb =
        shifted(times(space.to_linear, {light[0][sample[0]], light[1][sample[1]], light[2][sample[2]]}), 30);
    sample[0] = codes.nearest(rgb.x);
    sample[1] = codes.nearest(rgb.y);
    sample[2] = codes.nearest(rgb.z);
  }
}

}  // namespace handlaid::detail
