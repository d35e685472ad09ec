// Transparency: laying a picture over a ground, and making a plain ground transparent.
#pragma once

#include <cstdint>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

/// A pixel laid over a ground, mixed in linear light; an opaque pixel keeps its colour bit for bit.
template <AlphaPixel P>
constexpr ColourOf<P> lay_over(const P& pixel, const ColourOf<P>& ground) {
  using C = ColourOf<P>;
  const auto opacity = static_cast<std::int64_t>(pixel.opacity());
  if (opacity == 65535) return pixel.colour;
  if (opacity == 0) return ground;
  const Light above = pixel.colour.light();
  const Light below = ground.light();
  const auto mix = [&](std::int64_t a, std::int64_t b) {
    const std::int64_t sum = a * opacity + b * (65535 - opacity);
    return (sum + (sum < 0 ? -32767 : 32767)) / 65535;
  };
  return C::from_light({mix(above.r, below.r), mix(above.g, below.g), mix(above.b, below.b)});
}

/// Lays a picture over a plain ground: the result has no alpha. A picture without alpha is passed on unchanged.
struct Over {
  using is_stage = void;
  Srgb8 ground = {255, 255, 255};

  template <Picture R>
  Raster<ColourOf<PixelOf<R>>> operator()(R&& raster, const Work& work = {}) const {
    using P = PixelOf<R>;
    using C = ColourOf<P>;
    if constexpr (!AlphaPixel<P>) {
      return detail::owned(std::forward<R>(raster));
    } else {
      const C below = C::from_light(ground.light());
      Raster<C> result(raster.width(), raster.height());
      for_each_band(raster.height(), work, [&](int first, int last) {
        for (int y = first; y < last; ++y) {
          const auto& from = raster.row(y);
          const auto to = result.row(y);
          for (std::size_t x = 0; x < to.size(); ++x) to[x] = lay_over(static_cast<const P&>(from[x]), below);
        }
      });
      return result;
    }
  }
};
constexpr Over over(const Srgb8& ground) { return {.ground = ground}; }

/// Makes a plain ground transparent: every pixel nearer than or as near as `tolerance` to `ground`, by distance in
/// Oklab (black to white is 1; 0.02 is a difference that is just seen, common practice, no source). Other pixels keep
/// their colour and alpha. The result has alpha. Throws Error for a tolerance outside 0 to 1.
struct Clear {
  using is_stage = void;
  Srgb8 ground = {255, 255, 255};
  double tolerance = 0.05;

  template <Picture R>
  Raster<WithAlpha<ColourOf<PixelOf<R>>>> operator()(R&& raster, const Work& work = {}) const {
    using P = PixelOf<R>;
    using A = WithAlpha<ColourOf<P>>;
    if (!(tolerance >= 0 && tolerance <= 1)) {
      throw Error::bad_option("tolerance", "it is not a distance in Oklab", "give a number from 0 to 1, like 0.05");
    }
    const auto steps = static_cast<std::uint32_t>(tolerance * Oklab::steps + 0.5);
    const FixedPoint wanted = Oklab::from_light(ground.light()).fixed();
    Raster<A> result(raster.width(), raster.height());
    for_each_band(raster.height(), work, [&](int first, int last) {
      for (int y = first; y < last; ++y) {
        if (first == 0 && !work.progress("clear", static_cast<double>(y) / last)) throw Error::stopped("clear");
        const auto& from = raster.row(y);
        const auto to = result.row(y);
        ColourOf<P> seen = {};  // neighbours are often alike
        bool clear = is_near(seen, wanted, steps);
        for (std::size_t x = 0; x < to.size(); ++x) {
          const P& pixel = from[x];
          if (!(colour_of(pixel) == seen)) {
            seen = colour_of(pixel);
            clear = is_near(seen, wanted, steps);
          }
          to[x] = A::from(seen, clear ? 0U : opacity_of(pixel));
        }
      }
    });
    return result;
  }

 private:
  template <class C>
  static bool is_near(const C& colour, const FixedPoint& wanted, std::uint32_t steps) {
    return squared_distance(Oklab::from_light(colour.light()).fixed(), wanted) <= steps * steps;
  }
};
constexpr Clear clear(const Srgb8& ground, double tolerance = 0.05) {
  return {.ground = ground, .tolerance = tolerance};
}

}  // namespace handlaid
