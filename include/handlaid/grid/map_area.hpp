// Areas under the boxes of any lattice: averages of a picture, majorities of a chart. Under map_to.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "handlaid/core/executor.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/image/area.hpp"

namespace handlaid::detail {

/// `position` on an axis of `extent` that is divided into `parts`, in steps of 1/`unit` of a part, rounded; held within
/// the axis. Exact wherever the position is a whole step.
inline std::int64_t place_on_axis(Length position, Length extent, std::int64_t parts, std::int64_t unit) {
  const std::int64_t whole = extent.um();
  const std::int64_t at = clamp(position.um(), 0, whole);
  const std::int64_t scaled = at * parts;
  return scaled / whole * unit + (scaled % whole * unit + whole / 2) / whole;
}

inline void check_extent(const Size& extent) {
  constexpr std::int64_t longest = std::int64_t{1} << 40;  // 1,100 km in micrometres
  if (extent.width.um() < 1 || extent.height.um() < 1 || extent.width.um() > longest || extent.height.um() > longest) {
    throw Error::bad_option("lattice", "its extent is not a size", "give a width and height from 1 um to 1,000 km");
  }
}

/// Calls `emit(column, row, mean)` for the box of every cell that has a part on the panel. Edges are taken to 1/1024 of
/// a pixel, or coarser for a box so large that sums would not fit (1/8 of a pixel at 5000 x 5000).
template <Picture R, LatticeLike L, class Emit>
void average_boxes(const R& raster, const L& lattice, const Work& work, const char* step, const Emit& emit) {
  using P = PixelOf<R>;
  check_averaged(raster.width(), raster.height(), step);
  const Size extent = lattice.extent();
  check_extent(extent);
  const PixelReader<P> read(static_cast<std::int64_t>(raster.width()) * raster.height());
  const auto cell = [&](int column, int row) {
    const Box box = lattice.box(column, row);
    std::int64_t unit = 1024;
    std::int64_t left = 0, right = 0, top = 0, bottom = 0;
    for (;; unit /= 2) {
      left = place_on_axis(box.left, extent.width, raster.width(), unit);
      right = place_on_axis(box.right, extent.width, raster.width(), unit);
      top = place_on_axis(box.top, extent.height, raster.height(), unit);
      bottom = place_on_axis(box.bottom, extent.height, raster.height(), unit);
      if (right <= left || bottom <= top) return;
      if (unit == 1 || bottom - top <= largest_area / (right - left)) break;
    }
    const Cover across = Cover::of(left, right, unit);
    const Cover down = Cover::of(top, bottom, unit);
    AreaMean<P> mean;
    for (int y = down.first; y <= down.last; ++y) {
      const auto& pixels = raster.row(y);
      const std::uint64_t weight = down.weight(y);
      mean.add(read(pixels[static_cast<std::size_t>(across.first)]), across.first_weight * weight);
      if (across.last > across.first) {
        mean.add(inner_sum<P>(pixels, across, read), across.inner_weight * weight);
        mean.add(read(pixels[static_cast<std::size_t>(across.last)]), across.last_weight * weight);
      }
    }
    mean.set_area(static_cast<std::uint64_t>((right - left) * (bottom - top)));
    emit(column, row, mean);
  };
  for_each_band(lattice.row_count(), work, [&](int first, int last) {
    for (int row = first; row < last; ++row) {
      if (first == 0 && !work.progress(step, static_cast<double>(row) / last)) throw Error::stopped(step);
      for (int column = 0; column < lattice.column_count(); ++column) cell(column, row);
    }
  });
}

/// The number with the largest area; the lower one at a tie.
class Majority {
 public:
  explicit Majority(int numbers) : areas_(static_cast<std::size_t>(numbers) + 1, 0) {}

  void add(ColourNumber number, std::int64_t area) {
    if (areas_[number] == 0) seen_.push_back(number);
    areas_[number] += area;
  }
  /// The winner, 0 if nothing was added; starts again.
  ColourNumber take() {
    ColourNumber best = 0;
    std::int64_t largest = 0;
    for (const ColourNumber number : seen_) {
      const std::int64_t area = areas_[number];
      if (area > largest || (area == largest && number < best)) {
        best = number;
        largest = area;
      }
      areas_[number] = 0;
    }
    seen_.clear();
    return best;
  }

 private:
  std::vector<std::int64_t> areas_;
  std::vector<ColourNumber> seen_ = {};
};

/// Both lattices rectangular: areas in whole units, exactly.
inline void map_numbers(const Chart<Rectangular>& from, Chart<Rectangular>& to) {
  Majority majority(from.palette.size());
  const Division across(from.numbers.width(), to.numbers.width());
  const Division down(from.numbers.height(), to.numbers.height());
  for (int row = 0; row < to.numbers.height(); ++row) {
    const Cover rows = down.cover(row);
    for (int column = 0; column < to.numbers.width(); ++column) {
      const Cover columns = across.cover(column);
      for (int y = rows.first; y <= rows.last; ++y) {
        for (int x = columns.first; x <= columns.last; ++x) {
          majority.add(from.numbers(x, y), static_cast<std::int64_t>(rows.weight(y) * columns.weight(x)));
        }
      }
      to.numbers(column, row) = majority.take();
    }
  }
}

/// Any lattices: edges to 1 / 4,194,304 of the panel, each as a part of its own panel's extent.
template <LatticeLike From, LatticeLike To>
void map_numbers(const Chart<From>& from, Chart<To>& to) {
  struct Area {
    std::int64_t left, top, right, bottom;
  };
  const auto area_of = [](const auto& lattice, int column, int row) {
    constexpr std::int64_t one = std::int64_t{1} << 22;
    const Size extent = lattice.extent();
    const Box box = lattice.box(column, row);
    return Area{place_on_axis(box.left, extent.width, 1, one), place_on_axis(box.top, extent.height, 1, one),
                place_on_axis(box.right, extent.width, 1, one), place_on_axis(box.bottom, extent.height, 1, one)};
  };
  check_extent(from.lattice.extent());
  check_extent(to.lattice.extent());
  const int columns = from.numbers.width();
  const int rows = from.numbers.height();
  std::vector<Area> areas;
  areas.reserve(from.numbers.size());
  std::vector<Area> bounds;  // of each row: rows that a new cell does not touch are passed over
  for (int row = 0; row < rows; ++row) {
    Area bound{INT64_MAX, INT64_MAX, INT64_MIN, INT64_MIN};
    for (int column = 0; column < columns; ++column) {
      const Area area = area_of(from.lattice, column, row);
      areas.push_back(area);
      bound.top = std::min(bound.top, area.top);
      bound.bottom = std::max(bound.bottom, area.bottom);
    }
    bounds.push_back(bound);
  }
  Majority majority(from.palette.size());
  for (int row = 0; row < to.numbers.height(); ++row) {
    for (int column = 0; column < to.numbers.width(); ++column) {
      const Area cell = area_of(to.lattice, column, row);
      for (int y = 0; y < rows; ++y) {
        const Area& bound = bounds[static_cast<std::size_t>(y)];
        if (bound.bottom <= cell.top || bound.top >= cell.bottom) continue;
        for (int x = 0; x < columns; ++x) {
          const Area& old =
              areas[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns) + static_cast<std::size_t>(x)];
          const std::int64_t width = std::min(old.right, cell.right) - std::max(old.left, cell.left);
          const std::int64_t height = std::min(old.bottom, cell.bottom) - std::max(old.top, cell.top);
          if (width > 0 && height > 0) majority.add(from.numbers(x, y), width * height);
        }
      }
      to.numbers(column, row) = majority.take();
    }
  }
}

}  // namespace handlaid::detail
