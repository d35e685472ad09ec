// Cells before they have a number: one colour each, and whether anything is laid there.
#pragma once

#include <cstdint>
#include <utility>

#include "handlaid/colour/concepts.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/grid/lattice.hpp"

namespace handlaid {

/// One colour a cell of a lattice. `laid` is 1 where a piece goes and 0 where the cell stays empty; same size.
/// `importance` is how much a cell counts when colours are chosen: of the same size, or empty where all count alike.
template <Colour C, LatticeLike L = Rectangular>
struct Cells {
  using colour_type = C;
  using lattice_type = L;
  /// The same cells in another colour type.
  template <Colour D>
  using with_colour = Cells<D, L>;

  L lattice = {};
  Raster<C> colours = {};
  Raster<std::uint8_t> laid = {};
  Raster<std::uint16_t> importance = {};

  int columns() const { return colours.width(); }
  int rows() const { return colours.height(); }
};

namespace detail {
template <class T>
struct IsCells : std::false_type {};
template <class C, class L>
struct IsCells<Cells<C, L>> : std::true_type {};
}  // namespace detail

/// Cells of any colour on any lattice.
template <class T>
concept AnyCells = detail::IsCells<std::remove_cvref_t<T>>::value;

/// Cells whose colours can be compared.
template <class T>
concept MeasuredCells = AnyCells<T> && MeasuredColour<typename std::remove_cvref_t<T>::colour_type>;

}  // namespace handlaid
