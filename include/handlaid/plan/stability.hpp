// How much a plan's palette would change with the picture hardly changed: a palette that jumps is a chance hit.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>

#include "handlaid/core/work.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/ground.hpp"
#include "handlaid/image/tone.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/plan/chosen_quantiser.hpp"
#include "handlaid/plan/shape.hpp"
#include "handlaid/quality/palette_distance.hpp"

namespace handlaid {

/// The tone that a job asks for.
inline Tone tone_of(const Job& job) {
  const auto share = [](std::optional<int> percent) { return percent.value_or(0) / 100.0; };
  return {.brightness = share(job.brightness), .contrast = share(job.contrast), .saturation = share(job.saturation)};
}

namespace detail {

/// Cells of a part of the picture as the job would lay them, without a word about what has no effect there.
template <Picture R>
Cells<Oklab> laid_anew(const Job& job, const Rectangular& lattice, const R& part, const Work& work) {
  const auto lay = [&](const auto& picture) {
    if constexpr (AlphaPixel<PixelOf<decltype(picture)>>) {
      if (job.ground) return apply(over(*job.ground) | map_to(lattice) | convert<Oklab> | tone_of(job), picture, work);
    }
    return apply(map_to(lattice) | convert<Oklab> | tone_of(job), picture, work);
  };
  if (!job.clear_colour) return lay(part);
  return lay(apply(clear(*job.clear_colour, job.clear_tolerance.value_or(0.05)), part, work));
}

}  // namespace detail

/// Fits the palette of a complete job again, with a colour fewer and more, to a picture cropped by a hundredth, and
/// with half and twice as many cells along each side. `part` is what of the picture became `cells`.
template <Picture R>
Stability plan_stability(const Job& job, const Cells<Oklab>& cells, const R& part, const std::optional<Stock>& stock,
                         const Work& work = {}) {
  const auto cells_of = [&](CellsChange change) {
    Rectangular lattice = cells.lattice;
    switch (change) {
      case CellsChange::cropped: {
        const int across = part.width() / 100;
        const int down = part.height() / 100;
        return detail::laid_anew(
            job, lattice,
            part | Crop{.x = across, .y = down, .width = part.width() - 2 * across, .height = part.height() - 2 * down},
            work);
      }
      case CellsChange::halved:
        lattice.columns = std::max(lattice.columns / 2, 1);
        lattice.rows = std::max(lattice.rows / 2, 1);
        return detail::laid_anew(job, lattice, part, work);
      case CellsChange::doubled:
        lattice.columns *= 2;
        lattice.rows *= 2;
        return detail::laid_anew(job, lattice, part, work);
      case CellsChange::none:
        break;
    }
    return cells;
  };
  return detail::with_fitter(job, stock, [&](const auto& fitter) {
    const auto fitter_of = [&](int colours) {
      auto other = fitter;
      other.colours = colours;
      return other;
    };
    const int most = stock ? static_cast<int>(stock->colours.size()) : most_colours;
    return palette_stability(fitter.colours, fitter_of, cells_of, work,
                             std::max(static_cast<int>(job.locks.size() + job.exact_locks.size()), 1), most);
  });
}

}  // namespace handlaid
