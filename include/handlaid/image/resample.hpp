// Resampling by the exact average of areas, in linear light and weighted by opacity.
// A shrunk chequer of black and white is as bright as it looks from afar: code 188, not 128.
#pragma once

#include "handlaid/core/pipe.hpp"
#include "handlaid/image/area.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

/// Makes a picture of `width` x `height` pixels of the same type; each new pixel is the mean of the area it covers.
/// Both shrinks and enlarges (then pixels stay visible as blocks). A picture of that size already is passed on bit for
/// bit. A pixel whose area is all transparent becomes a default pixel with alpha 0.
/// Throws Error for a size below 1, an empty picture, or one with more than 2^20 pixels on a side or 2^31 in all.
struct Resample {
  using is_stage = void;
  /// In pixels.
  int width = 0;
  /// In pixels.
  int height = 0;

  template <Picture R>
  Raster<PixelOf<R>> operator()(R&& raster, const Work& work = {}) const {
    using P = PixelOf<R>;
    if (width < 1 || height < 1) {
      throw Error::out_of_range("resample", detail::size_text(width, height), "a width and a height of 1 or more");
    }
    if (raster.width() == width && raster.height() == height) return detail::owned(std::forward<R>(raster));
    Raster<P> result(width, height);
    detail::average_grid(raster, width, height, work, "resample",
                         [&](int x, int y, const detail::AreaMean<P>& mean) { result(x, y) = pixel<P>(mean); });
    return result;
  }

 private:
  template <class P>
  static P pixel(const detail::AreaMean<P>& mean) {
    using C = ColourOf<P>;
    if (!mean.has_colour()) return P{};
    if constexpr (AlphaPixel<P>) {
      return P::from(C::from_light(mean.light()), mean.opacity());
    } else {
      return C::from_light(mean.light());
    }
  }
};

}  // namespace handlaid
