// From a picture to cells, and from a chart to a coarser chart: `picture | map_to(lattice)`.
// A cell gets the exact average of the area under its box, in linear light and weighted by opacity.
#pragma once

#include "handlaid/core/pipe.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/grid/map_area.hpp"
#include "handlaid/image/area.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

struct MapOptions {
  /// A cell is laid where its mean opacity is at least this: above 0, up to 1.
  double least_cover = 0.5;
};

/// Lays a lattice over a picture or a chart. The panel's extent covers the whole of it, so crop to the panel's aspect
/// first.
///
/// Picture to `Cells<ColourOf<P>, L>`: the mean colour of the area under each box, and whether enough of it is opaque.
/// A picture of one pixel a cell passes through bit for bit.
/// Chart to `Chart<L>`: the number with the largest area under each box, the lower one at a tie; an empty cell counts
/// as number 0. The palette stays as it is. A box that reaches over the panel's edge counts for its part inside; one
/// wholly outside is not laid. Throws Error for a lattice that does not pass its own check, a `least_cover` out of
/// range, an empty picture, or one with more than 2^20 pixels on a side.
template <LatticeLike L>
struct MapTo {
  using is_stage = void;
  L lattice = {};
  MapOptions options = {};

  template <Picture R>
  Cells<ColourOf<PixelOf<R>>, L> operator()(R&& raster, const Work& work = {}) const {
    using P = PixelOf<R>;
    using C = ColourOf<P>;
    lattice.check();
    const std::uint64_t least = least_cover();
    const int columns = lattice.column_count();
    const int rows = lattice.row_count();
    Cells<C, L> cells{.lattice = lattice, .colours = {}, .laid = Raster<std::uint8_t>(columns, rows)};
    if (raster.width() == columns && raster.height() == rows) {
      pass(std::forward<R>(raster), cells, least);
      return cells;
    }
    cells.colours = Raster<C>(columns, rows);
    const auto set = [&](int column, int row, const detail::AreaMean<P>& mean) {
      if (!mean.covers(least)) return;
      cells.colours(column, row) = C::from_light(mean.light());
      cells.laid(column, row) = 1;
    };
    if constexpr (std::same_as<L, Rectangular>) {
      detail::average_grid(raster, columns, rows, work, "map", set);
    } else {
      detail::average_boxes(raster, lattice, work, "map", set);
    }
    return cells;
  }

  template <AnyChart C>
  Chart<L> operator()(const C& chart) const {
    lattice.check();
    chart.check();
    Chart<L> result{.lattice = lattice,
                    .numbers = Raster<ColourNumber>(lattice.column_count(), lattice.row_count()),
                    .palette = chart.palette};
    detail::map_numbers(chart, result);
    return result;
  }

 private:
  /// In steps of 1/65536.
  std::uint64_t least_cover() const {
    if (!(options.least_cover > 0 && options.least_cover <= 1)) {
      throw Error::bad_option("least cover", "it is not a part of a cell", "give a number above 0, up to 1");
    }
    const auto steps = static_cast<std::uint64_t>(options.least_cover * 65536.0 + 0.5);
    return steps < 1 ? 1 : steps;
  }

  template <class R, class C>
  static void pass(R&& raster, Cells<C, L>& cells, std::uint64_t least) {
    using P = PixelOf<R>;
    for (int y = 0; y < raster.height(); ++y) {
      const auto& from = raster.row(y);
      const auto laid = cells.laid.row(y);
      for (std::size_t x = 0; x < laid.size(); ++x) {
        const std::uint64_t opacity = opacity_of(static_cast<const P&>(from[x]));
        laid[x] = opacity > 0 && opacity * 65536U >= least * 65535U ? 1 : 0;
      }
    }
    if constexpr (std::same_as<P, C>) {
      cells.colours = detail::owned(std::forward<R>(raster));
    } else {
      cells.colours = Raster<C>(raster.width(), raster.height());
      for (int y = 0; y < raster.height(); ++y) {
        const auto& from = raster.row(y);
        const auto to = cells.colours.row(y);
        for (std::size_t x = 0; x < to.size(); ++x) to[x] = colour_of(static_cast<const P&>(from[x]));
      }
    }
  }
};

/// Lays `lattice` over what comes in; `map_to(lattice, {.least_cover = 0.3})` keeps cells that are mostly transparent.
template <LatticeLike L>
MapTo<L> map_to(L lattice, MapOptions options = {}) {
  return {.lattice = std::move(lattice), .options = options};
}

}  // namespace handlaid
