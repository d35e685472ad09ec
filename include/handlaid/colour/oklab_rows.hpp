// Whole rows of 8-bit sRGB to Oklab and back, several pixels at a time; each pixel as `convert_colour` would.
#pragma once

#include <array>
#include <cstddef>
#include <span>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/wide.hpp"

namespace handlaid {

namespace detail {

/// What each code of a channel gives the three cones, and a fourth that makes the sum of three one wide addition.
struct ConeShares {
  std::int32_t l, m, s, nothing;
};
inline constexpr auto cone_share_tables = [] {
  std::array<std::array<ConeShares, 256>, 3> tables{};
  for (int channel = 0; channel < 3; ++channel) {
    for (std::size_t code = 0; code < 256; ++code) {
      const auto share = [&](int cone) {
        return static_cast<std::int32_t>(cone_share(cone, channel, srgb_to_linear_table[code]));
      };
      tables[static_cast<std::size_t>(channel)][code] = {share(0), share(1), share(2), 0};
    }
  }
  return tables;
}();

/// Pixels that are in work at a time: few enough to stay in the nearest memory.
inline constexpr std::size_t row_part = 256;

/// Three coordinates of many pixels, each by itself.
template <class T>
struct RowPart {
  T x[row_part];
  T y[row_part];
  T z[row_part];
};

inline void sum_cone_shares(const Srgb8* from, std::size_t count, ConeShares* cones) {
  const auto& [red, green, blue] = cone_share_tables;
  for (std::size_t i = 0; i < count; ++i) {
    asm("");  // or compilers for later processors gather the 12 numbers one by one, several times slower
    const ConeShares& r = red[from[i].r];
    const ConeShares& g = green[from[i].g];
    const ConeShares& b = blue[from[i].b];
    cones[i] = {r.l + g.l + b.l, r.m + g.m + b.m, r.s + g.s + b.s, r.nothing + g.nothing + b.nothing};
  }
}

}  // namespace detail

/// Converts as many pixels as `from` has; `to` has at least as many.
inline void convert_row(std::span<const Srgb8> from, std::span<Oklab> to) {
  using detail::row_part;
  detail::ConeShares cones[row_part] = {};
  detail::RowPart<float> axes;
  for (std::size_t first = 0; first < from.size(); first += row_part) {
    const std::size_t count = from.size() - first < row_part ? from.size() - first : row_part;
    detail::sum_cone_shares(from.data() + first, count, cones);
    Oklab* out = to.data() + first;
    detail::run_wide([&] {
      const auto root = [](std::int32_t cone) { return detail::cone_root(static_cast<float>(cone)); };
      for (std::size_t i = 0; i < row_part; ++i) axes.x[i] = root(cones[i].l);
      for (std::size_t i = 0; i < row_part; ++i) axes.y[i] = root(cones[i].m);
      for (std::size_t i = 0; i < row_part; ++i) axes.z[i] = root(cones[i].s);
      for (std::size_t i = 0; i < row_part; ++i) {
        const detail::OklabAxes lab = detail::oklab_axes(axes.x[i], axes.y[i], axes.z[i]);
        axes.x[i] = lab.L;
        axes.y[i] = lab.a;
        axes.z[i] = lab.b;
      }
      for (std::size_t i = 0; i < count; ++i) out[i] = {axes.x[i], axes.y[i], axes.z[i]};
    });
  }
}

/// Converts as many pixels as `from` has; `to` has at least as many.
inline void convert_row(std::span<const Oklab> from, std::span<Srgb8> to) {
  using detail::row_part;
  detail::RowPart<float> axes = {};
  detail::RowPart<std::int32_t> light;
  for (std::size_t first = 0; first < from.size(); first += row_part) {
    const std::size_t count = from.size() - first < row_part ? from.size() - first : row_part;
    const Oklab* in = from.data() + first;
    for (std::size_t i = 0; i < count; ++i) {
      axes.x[i] = in[i].L;
      axes.y[i] = in[i].a;
      axes.z[i] = in[i].b;
    }
    detail::run_wide([&] {
      for (std::size_t i = 0; i < row_part; ++i) {
        const detail::LightSteps rgb = detail::light_of_oklab(axes.x[i], axes.y[i], axes.z[i]);
        light.x[i] = rgb.r;
        light.y[i] = rgb.g;
        light.z[i] = rgb.b;
      }
    });
    Srgb8* out = to.data() + first;
    for (std::size_t i = 0; i < count; ++i) out[i] = Srgb8::from_light({light.x[i], light.y[i], light.z[i]});
  }
}

}  // namespace handlaid
