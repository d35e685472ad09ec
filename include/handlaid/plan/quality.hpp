// How near a plan comes to its picture: as it is and as seen from where it hangs, by every way of placing the palette.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_values.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/plan/chosen_quantiser.hpp"
#include "handlaid/quality/palette_distance.hpp"
#include "handlaid/quality/seen_error.hpp"
#include "handlaid/quality/similarity.hpp"
#include "handlaid/quality/squared_error.hpp"
#include "handlaid/quality/worst_cells.hpp"

namespace handlaid {

/// A way of placing the palette, and what it looks like.
struct DitherLook {
  DitherChoice dither = DitherChoice::none;
  /// Runs of one colour along the courses: each is a mark, and a reach into another bin.
  std::int64_t runs = 0;
  WholeError seen = {};
  friend bool operator==(const DitherLook&, const DitherLook&) = default;
};

/// The figures of a plan. What is seen is looked at from `distance`.
struct PlanQuality {
  Length distance = {};
  SquaredError squared = {};
  WholeError seen = {};
  /// Structural similarity of what is seen, 1 for the same.
  double similarity = 0;
  /// As the cells are, and as they are seen.
  std::vector<WorstCell> worst = {};
  std::vector<WorstCell> worst_seen = {};
  /// Every way, in the order of `DitherChoice`.
  std::vector<DitherLook> dithers = {};
  /// Only where it was asked for.
  std::optional<Stability> stability = {};
  /// The cells that were looked at: all, or the middle of a large panel (see `middle_part`).
  Cells<Oklab> part = {};
};

/// Of larger panels than 500 x 500 cells the middle is looked at: what looks best there looks best.
inline constexpr int longest_looked_at = 500;

/// A dither is recommended only where it looks this much better, in percent: a smaller difference is not worth its
/// runs.
inline constexpr std::int64_t worth_a_dither_percent = 2;

/// The way that is recommended: none, unless another has a seen error of at least 2 % less; then the least, of equals
/// the first. Whole numbers decide.
template <When = When::called>
const DitherLook& recommended(const std::vector<DitherLook>& looks) {
  const auto better = [](const DitherLook& p, const DitherLook& q) { return p.seen.mean_steps < q.seen.mean_steps; };
  const DitherLook& least = *std::min_element(looks.begin(), looks.end(), better);
  const DitherLook& none = looks.front();
  return least.seen.mean_steps * 100 <= none.seen.mean_steps * (100 - worth_a_dither_percent) ? least : none;
}

namespace detail {

/// The part of a raster that is looked at.
template <class P>
Raster<P> middle_part(const Raster<P>& whole) {
  const int width = std::min(whole.width(), longest_looked_at);
  const int height = std::min(whole.height(), longest_looked_at);
  const int left = (whole.width() - width) / 2;
  const int top = (whole.height() - height) / 2;
  Raster<P> part(width, height);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) part(x, y) = whole(left + x, top + y);
  }
  return part;
}

template <When = When::called>
Rectangular middle_part(Rectangular lattice) {
  lattice.columns = std::min(lattice.columns, longest_looked_at);
  lattice.rows = std::min(lattice.rows, longest_looked_at);
  return lattice;
}

}  // namespace detail

/// The middle of cells, at most 500 along each side.
template <When = When::called>
Cells<Oklab> middle_part(const Cells<Oklab>& cells) {
  return {detail::middle_part(cells.lattice), detail::middle_part(cells.colours), detail::middle_part(cells.laid)};
}
/// The same of a chart.
template <When = When::called>
Chart<> middle_part(const Chart<>& chart) {
  return {detail::middle_part(chart.lattice), detail::middle_part(chart.numbers), chart.palette};
}

/// A panel's cells as they are seen from a distance, for charts of it to be held against.
class PanelLook {
 public:
  /// Throws Error where `distance` is out of range (see `Eye`).
  PanelLook(const Cells<Oklab>& cells, Length distance)
      : distance_(distance),
        part_(middle_part(cells)),
        eye_(eye_for(part_.lattice, part_.laid, distance)),
        reference_(eye_.see(part_)) {}

  /// Places the palette in every way and looks at each; the rest is as `job` says.
  template <When = When::called>
  std::vector<DitherLook> dithers(const Job& job, const Palette& palette, const Work& work = {}) const {
    std::vector<DitherLook> looks(choice_words<DitherChoice>.size());
    for_each_band(static_cast<int>(looks.size()), work, [&](int first, int end) {
      for (int i = first; i < end; ++i) {
        DitherLook& look = looks[static_cast<std::size_t>(i)];
        Job way = job;
        way.dither = look.dither = static_cast<DitherChoice>(i);
        const Chart<> chart = place_as_chosen(way, part_, palette);
        look.runs = (chart | tally).total_runs();
        look.seen = error_of(cell_differences(reference_, eye_.see(chart), part_.laid));
      }
    });
    return looks;
  }

  /// The figures of a chart of these cells; `dithers` and `stability` are the caller's.
  template <When = When::called>
  PlanQuality measure(const Cells<Oklab>& cells, const Chart<>& chart) const {
    PlanQuality quality = {.distance = distance_, .squared = squared_error(cells, chart)};
    quality.worst = worst_cells(cell_differences(in_lab(cells), in_lab(chart), cells.laid));
    const Chart<> part = middle_part(chart);
    const Raster<LabD65> seen = eye_.see(part);
    const Raster<std::int32_t> differences = cell_differences(reference_, seen, part_.laid);
    quality.seen = error_of(differences);
    quality.similarity = similarity(reference_, seen, part_.laid);
    quality.worst_seen = worst_cells(differences);
    const int right = (chart.columns() - part.columns()) / 2;
    const int above = (chart.courses() - part.courses()) / 2;
    for (WorstCell& cell : quality.worst_seen) {
      cell.column += right;
      cell.course += chart.courses() - part.courses() - above;
    }
    quality.part = part_;
    return quality;
  }

 private:
  template <When = When::called>
  static Raster<LabD65> in_lab(const Cells<Oklab>& cells) {
    Raster<LabD65> colours(cells.columns(), cells.rows());
    for (std::size_t i = 0; i < colours.size(); ++i) {
      colours.pixels()[i] = convert_colour<LabD65>(cells.colours.pixels()[i]);
    }
    return colours;
  }
  template <When = When::called>
  static Raster<LabD65> in_lab(const Chart<>& chart) {
    std::vector<LabD65> palette(1);
    for (const PaletteEntry& entry : chart.palette.entries) palette.push_back(convert_colour<LabD65>(entry.colour));
    Raster<LabD65> colours(chart.columns(), chart.courses());
    for (std::size_t i = 0; i < colours.size(); ++i) colours.pixels()[i] = palette[chart.numbers.pixels()[i]];
    return colours;
  }

  Length distance_;
  Cells<Oklab> part_;
  Eye eye_;
  Raster<LabD65> reference_;
};

}  // namespace handlaid
