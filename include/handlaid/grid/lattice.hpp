// The arrangement of cells on the board. A lattice of your own is a struct that meets `LatticeLike`.
#pragma once

#include <concepts>
#include <cstdint>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"

namespace handlaid {

/// A rectangle on the panel, from its top left corner, x to the right and y down.
struct Box {
  Length left = {};
  Length top = {};
  Length right = {};
  Length bottom = {};
  friend constexpr bool operator==(const Box&, const Box&) = default;
};

/// Cells in rows: `columns() x rows()` of them, each with its box on a panel of `extent()`.
/// Row 0 is the top row here, as in a raster; makers count courses from the bottom (see `course_of_row`).
template <class L>
concept LatticeLike = std::copyable<L> && requires(const L& lattice, int column, int row) {
  { lattice.column_count() } -> std::convertible_to<int>;
  { lattice.row_count() } -> std::convertible_to<int>;
  { lattice.extent() } -> std::same_as<Size>;
  { lattice.box(column, row) } -> std::same_as<Box>;
  lattice.check();
};

/// The most columns or rows: a wall of 100 m at 1 mm.
inline constexpr int most_cells_along = 100'000;
/// The most cells of one lattice.
inline constexpr std::int64_t most_cells = 100'000'000;

/// Columns and rows at equal distances; cells need not be square.
struct Rectangular {
  int columns = 0;
  int rows = 0;
  /// Distance of neighbouring columns.
  Length pitch = Length::from_um(10'000);
  /// Distance of neighbouring courses; zero means the same as `pitch`.
  Length course_pitch = {};

  constexpr int column_count() const { return columns; }
  constexpr int row_count() const { return rows; }
  constexpr Length pitch_x() const { return pitch; }
  constexpr Length pitch_y() const { return course_pitch == Length{} ? pitch : course_pitch; }
  constexpr Size extent() const { return {pitch_x().times(columns), pitch_y().times(rows)}; }
  constexpr Box box(int column, int row) const {
    return {pitch_x().times(column), pitch_y().times(row), pitch_x().times(column + 1), pitch_y().times(row + 1)};
  }
  /// Throws Error for sizes out of range.
  void check() const {
    const auto along = [](const char* name, int count) {
      if (count < 1 || count > most_cells_along) {
        throw Error::out_of_range(name, std::to_string(count), "1 to 100000");
      }
    };
    along("columns", columns);
    along("rows", rows);
    if (static_cast<std::int64_t>(columns) * rows > most_cells) {
      throw Error::out_of_range("columns and rows", std::to_string(columns) + " x " + std::to_string(rows),
                                "at most 100 million cells");
    }
    const auto positive = [](const char* name, Length length) {
      if (length.um() < 100 || length > 10'000 * mm) {
        throw Error::out_of_range(name, std::to_string(length.um()) + " um", "0.1 mm to 10 m");
      }
    };
    positive("pitch", pitch_x());
    positive("course pitch", pitch_y());
  }
  friend constexpr bool operator==(const Rectangular&, const Rectangular&) = default;
};

/// Courses are numbered from 1 at the bottom, where laying starts.
constexpr int course_of_row(int row, int rows) { return rows - row; }
constexpr int row_of_course(int course, int rows) { return rows - course; }

}  // namespace handlaid
