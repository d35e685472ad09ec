// What the eye makes of a panel from a distance, as a picture: the reference beside the chart.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>

#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/quality.hpp"
#include "handlaid/sheets/look.hpp"

namespace handlaid {

/// The two side by side, and how far they are apart.
struct SeenView {
  /// The reference to the left, the chart to the right, a strip of paper between; what is not laid shows the board.
  Raster<Srgb8> picture = {};
  WholeError seen = {};
};

/// Both seen from `distance`, each about `longer_side` pixels along its longer side; a cell is a whole number of
/// pixels. Throws Error where sizes differ or the distance is out of range.
template <When = When::called>
SeenView seen_view(const Cells<Oklab>& cells, const Chart<>& chart, Length distance, int longer_side = 330) {
  const Eye eye = eye_for(cells.lattice, cells.laid, distance);
  const Eye blur = eye_for(cells.lattice, cells.laid, distance, Sight::blur_only);
  const Raster<LabD65> both[] = {blur.see(cells), blur.see(chart)};
  const int width = cells.columns();
  const int height = cells.rows();
  // Cells that are not square keep their proportion as well as whole pixels can.
  const Size extent = cells.lattice.extent();
  const std::int64_t longest = std::max(extent.width, extent.height).um();
  const auto pixels = [&](Length pitch) {
    return static_cast<int>(std::max<std::int64_t>((pitch.um() * longer_side + longest / 2) / longest, 1));
  };
  const int across = pixels(cells.lattice.pitch_x());
  const int down = pixels(cells.lattice.pitch_y());
  constexpr int gap = 8;
  SeenView view = {.seen = error_of(cell_differences(eye.see(cells), eye.see(chart), cells.laid))};
  view.picture = Raster<Srgb8>(2 * width * across + gap, height * down);
  for (int y = 0; y < view.picture.height(); ++y) {
    const auto line = view.picture.row(y);
    if (y % down > 0) {
      std::copy(view.picture.row(y - 1).begin(), view.picture.row(y - 1).end(), line.begin());
      continue;
    }
    std::fill(line.begin(), line.end(), look::paper);
    for (int side = 0; side < 2; ++side) {
      auto pixel = line.begin() + side * (width * across + gap);
      for (int x = 0; x < width; ++x) {
        const bool laid = cells.laid(x, y / down) != 0;
        const Srgb8 colour = laid ? convert_colour<Srgb8>(both[side](x, y / down)) : look::board;
        pixel = std::fill_n(pixel, across, colour);
      }
    }
  }
  return view;
}

}  // namespace handlaid
