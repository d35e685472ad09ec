// The chart: lattice, colour numbers and palette. The plan of the picture.
#pragma once

#include <string>
#include <type_traits>

#include "handlaid/core/error.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// A number in each cell. `numbers` has the top row first; 0 is an empty cell.
template <LatticeLike L = Rectangular>
struct Chart {
  using lattice_type = L;

  L lattice = {};
  Raster<ColourNumber> numbers = {};
  Palette palette = {};

  int columns() const { return numbers.width(); }
  /// Courses from the bottom, 1 to `courses()`.
  int courses() const { return numbers.height(); }
  /// The cells of a course, from the left.
  std::span<const ColourNumber> course(int number) const { return numbers.row(row_of_course(number, courses())); }

  /// Throws Error unless the sizes agree and every number is in the palette. `where` names the chart.
  void check(const std::string& where = "chart") const {
    lattice.check();
    if (numbers.width() != lattice.column_count() || numbers.height() != lattice.row_count()) {
      throw Error::bad_input(where,
                             "it has " + std::to_string(numbers.width()) + " x " + std::to_string(numbers.height()) +
                                 " numbers for " + std::to_string(lattice.column_count()) + " x " +
                                 std::to_string(lattice.row_count()) + " cells",
                             "give one number for each cell");
    }
    for (int row = 0; row < numbers.height(); ++row) {
      for (int column = 0; column < numbers.width(); ++column) {
        const int number = numbers(column, row);
        if (number > palette.size()) {
          throw Error::bad_input(where,
                                 "course " + std::to_string(course_of_row(row, courses())) + ", column " +
                                     std::to_string(column + 1) + " has colour " + std::to_string(number) +
                                     ", the palette ends at " + std::to_string(palette.size()),
                                 "use a number of the palette, or nothing for an empty cell");
        }
      }
    }
  }
  friend bool operator==(const Chart&, const Chart&) = default;
};

namespace detail {
template <class T>
struct IsChart : std::false_type {};
template <class L>
struct IsChart<Chart<L>> : std::true_type {};
}  // namespace detail

/// A chart on any lattice.
template <class T>
concept AnyChart = detail::IsChart<std::remove_cvref_t<T>>::value;

}  // namespace handlaid
