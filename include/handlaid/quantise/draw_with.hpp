// A picture drawn with the colours of a palette, pixel by pixel: to dither before mapping, or to look at a palette.
#pragma once

#include <utility>

#include "handlaid/dither/ditherer.hpp"
#include "handlaid/palette/histogram.hpp"

namespace handlaid {

/// The stage that `draw_with` makes: a raster of colours without alpha in, the palette's colours out.
template <class D>
struct DrawWith {
  using is_stage = void;
  Palette palette = {};
  D ditherer = {};

  template <AnyRaster R>
    requires Colour<typename R::pixel_type>
  Raster<Srgb8> operator()(const R& picture, const Work& work = {}) const {
    using C = MeasuredSpace<typename R::pixel_type>;
    Cells<C> cells = {.lattice = {.columns = picture.width(), .rows = picture.height()},
                      .colours = {picture.width(), picture.height()},
                      .laid = {picture.width(), picture.height()}};
    for (int y = 0; y < picture.height(); ++y) {
      for (int x = 0; x < picture.width(); ++x) {
        cells.colours(x, y) = convert_colour<C>(picture.row(y)[static_cast<std::size_t>(x)]);
        cells.laid(x, y) = 1;
      }
    }
    const Raster<ColourNumber> numbers = place_palette(ditherer, cells, palette, work);
    Raster<Srgb8> drawn(picture.width(), picture.height());
    for (int y = 0; y < picture.height(); ++y) {
      for (int x = 0; x < picture.width(); ++x) drawn(x, y) = palette[numbers(x, y)].colour;
    }
    return drawn;
  }
};

/// Draws a picture with a palette.
template <Ditherer D = NoDither>
auto draw_with(Palette palette, D ditherer = {}) {
  return DrawWith<D>{std::move(palette), std::move(ditherer)};
}

}  // namespace handlaid
