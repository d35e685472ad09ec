// The stage that turns every pixel into another colour type: `raster | convert<Oklab>`.
#pragma once

#include <span>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab_rows.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

namespace detail {
template <class To, class From>
struct Converted {
  using type = To;
};
template <Colour To, AlphaPixel From>
  requires(!AlphaPixel<To>)
struct Converted<To, From> {
  using type = WithAlpha<To>;
};
}  // namespace detail

/// What `convert<To>` makes of a pixel `From`: alpha is kept, so that a colour becomes `WithAlpha<To>` if `From` has
/// it.
template <Pixel To, Pixel From>
using ConvertedPixel = typename detail::Converted<To, From>::type;

/// One pixel in another type. A pixel without alpha is opaque.
template <Pixel To, Pixel From>
constexpr ConvertedPixel<To, From> convert_pixel(const From& from) {
  using P = ConvertedPixel<To, From>;
  if constexpr (std::same_as<P, From>) {
    return from;
  } else if constexpr (AlphaPixel<P>) {
    return P::from(convert_colour<ColourOf<P>>(colour_of(from)), opacity_of(from));
  } else {
    return convert_colour<P>(from);
  }
}

/// Converts pixels, or the colours of cells, to `To`, by way of linear light; alpha is kept as it is (to lay it over a
/// ground, use `over`). The same type is passed on unchanged.
template <Pixel To>
struct Convert {
  using is_stage = void;

  template <Picture R>
  Raster<ConvertedPixel<To, PixelOf<R>>> operator()(R&& raster, const Work& work = {}) const {
    using P = ConvertedPixel<To, PixelOf<R>>;
    if constexpr (std::same_as<P, PixelOf<R>>) {
      return detail::owned(std::forward<R>(raster));
    } else {
      Raster<P> result(raster.width(), raster.height());
      for_each_band(raster.height(), work, [&](int first, int last) {
        for (int y = first; y < last; ++y) {
          if (first == 0 && !work.progress("convert", static_cast<double>(y) / last)) throw Error::stopped("convert");
          const auto& from = raster.row(y);
          const auto to = result.row(y);
          if constexpr (requires { convert_row(std::span<const PixelOf<R>>(from), to); }) {
            convert_row(std::span<const PixelOf<R>>(from), to);
          } else {
            for (std::size_t x = 0; x < to.size(); ++x)
              to[x] = convert_pixel<To>(static_cast<const PixelOf<R>&>(from[x]));
          }
        }
      });
      return result;
    }
  }

  template <HoldsColours T>
    requires Colour<To>
  auto operator()(T&& whole, const Work& work = {}) const {
    using Result = typename std::remove_cvref_t<T>::template with_colour<To>;
    // Members of a value that was given away are given away as well.
    return Result{.lattice = std::forward<T>(whole).lattice,
                  .colours = (*this)(std::forward<T>(whole).colours, work),
                  .laid = std::forward<T>(whole).laid,
                  .importance = std::forward<T>(whole).importance};
  }
};

template <Pixel To>
inline constexpr Convert<To> convert = {};

}  // namespace handlaid
