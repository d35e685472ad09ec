// What the stages of this room take: rows of pixels, owned, borrowed or an embedder's own.
#pragma once

#include <concepts>
#include <cstdint>
#include <string>
#include <type_traits>
#include <utility>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/core/raster.hpp"

namespace handlaid {

/// The pixel type of any raster, as it is forwarded to a stage.
template <class R>
using PixelOf = typename std::remove_cvref_t<R>::pixel_type;

/// Rows of anything: what can be cropped and turned.
template <class R>
concept Rows = AnyRaster<std::remove_cvref_t<R>>;

/// Rows of pixels whose colour is known: what can be averaged and converted.
template <class R>
concept Picture = Rows<R> && Pixel<PixelOf<R>>;

/// A raster that is given away: its memory is used again.
template <class R>
concept GivenAway = Rows<R> && std::same_as<R, Raster<PixelOf<R>>>;

/// Colours that belong to something larger, like the cells of a lattice: a stage that works pixel by pixel takes them
/// too and leaves the rest as it is. `with_colour<C>` is the same thing in another colour type.
template <class T>
concept HoldsColours = requires(std::remove_cvref_t<T>& whole) {
  typename std::remove_cvref_t<T>::colour_type;
  typename std::remove_cvref_t<T>::template with_colour<typename std::remove_cvref_t<T>::colour_type>;
  whole.lattice;
  whole.laid;
  requires Picture<decltype(whole.colours)>;
};

namespace detail {

template <class R>
inline constexpr bool is_view = false;
template <class P>
inline constexpr bool is_view<RasterView<P>> = true;

/// A raster of one's own with the same pixels; no copy where it was given away.
template <Rows R>
Raster<PixelOf<R>> owned(R&& raster) {
  if constexpr (GivenAway<R> || std::same_as<std::remove_cvref_t<R>, Raster<PixelOf<R>>>) {
    return std::forward<R>(raster);
  } else {
    Raster<PixelOf<R>> copy(raster.width(), raster.height());
    for (int y = 0; y < raster.height(); ++y) {
      const auto& from = raster.row(y);
      const auto to = copy.row(y);
      for (std::size_t x = 0; x < to.size(); ++x) to[x] = from[x];
    }
    return copy;
  }
}

/// "640 x 480", for messages.
inline std::string size_text(std::int64_t width, std::int64_t height) {
  return std::to_string(width) + " x " + std::to_string(height);
}

}  // namespace detail
}  // namespace handlaid
