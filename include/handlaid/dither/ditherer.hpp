// What a ditherer is: it gives each cell a number of the palette. A ditherer of your own is a struct with this call
// operator; it may take `const Work&` as a third argument.
#pragma once

#include <algorithm>
#include <concepts>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/nearest_search.hpp"

namespace handlaid {

/// Places a palette on cells of type `T`: one number for each cell, 0 where nothing is laid.
template <class D, class T = Cells<Oklab>>
concept Ditherer = AnyCells<T> && requires(const D& place, const T& cells, const Palette& palette) {
  { place(cells, palette) } -> std::same_as<Raster<ColourNumber>>;
};

namespace detail {

template <AnyCells T, Ditherer<T> D>
Raster<ColourNumber> call_ditherer(const D& place, const T& cells, const Palette& palette, const Work& work) {
  if constexpr (requires { place(cells, palette, work); }) {
    return place(cells, palette, work);
  } else {
    return place(cells, palette);
  }
}

/// First the cells of the exact-only colours, then the others with the rest of the palette: for the ditherer the cells
/// that are placed already are empty, so no error flows into them or out of them.
template <AnyCells T, Ditherer<T> D>
Raster<ColourNumber> place_around_exact(const D& place, const T& cells, const Palette& palette, const Work& work) {
  using C = MeasuredSpace<typename T::colour_type>;
  std::vector<std::pair<FixedPoint, ColourNumber>> exact;
  Palette open;
  std::vector<ColourNumber> numbers_of_open = {0};
  for (int number = 1; number <= palette.size(); ++number) {
    const PaletteEntry& entry = palette[number];
    if (entry.lock == Lock::exact_only) {
      exact.push_back({convert_colour<C>(entry.colour).fixed(), static_cast<ColourNumber>(number)});
    } else {
      open.entries.push_back(entry);
      numbers_of_open.push_back(static_cast<ColourNumber>(number));
    }
  }
  T rest = cells;
  Raster<ColourNumber> numbers(cells.columns(), cells.rows());
  bool any_left = false;
  for (int y = 0; y < cells.rows(); ++y) {
    for (int x = 0; x < cells.columns(); ++x) {
      if (cells.laid(x, y) == 0) continue;
      const FixedPoint point = convert_colour<C>(cells.colours(x, y)).fixed();
      const auto found = std::find_if(exact.begin(), exact.end(), [&](const auto& e) { return e.first == point; });
      if (found == exact.end()) {
        any_left = true;
        continue;
      }
      numbers(x, y) = found->second;
      rest.laid(x, y) = 0;
    }
  }
  if (!any_left) return numbers;
  if (open.entries.empty()) {
    throw Error::bad_option("lock", "every colour is for its very own cells only, and other cells have none",
                            "give a colour that any cell may take");
  }
  const Raster<ColourNumber> placed = call_ditherer(place, rest, open, work);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const ColourNumber number = placed.pixels()[i];
    if (number != 0) numbers.pixels()[i] = numbers_of_open[number];
  }
  return numbers;
}

}  // namespace detail

/// Calls a ditherer, with the threads and progress of the run if it takes them. Colours that are exact only go to the
/// cells of that very colour (in whole steps of its space) and to no others, whatever the ditherer.
template <AnyCells T, Ditherer<T> D>
Raster<ColourNumber> place_palette(const D& place, const T& cells, const Palette& palette, const Work& work) {
  const bool any_exact = std::any_of(palette.entries.begin(), palette.entries.end(),
                                     [](const PaletteEntry& entry) { return entry.lock == Lock::exact_only; });
  return any_exact ? detail::place_around_exact(place, cells, palette, work)
                   : detail::call_ditherer(place, cells, palette, work);
}

/// No dithering: each cell takes the nearest colour, the lower number at a tie.
struct NoDither {
  template <MeasuredCells T>
  Raster<ColourNumber> operator()(const T& cells, const Palette& palette, const Work& work = {}) const {
    const NearestColour<typename T::colour_type> nearest(palette);
    Raster<ColourNumber> numbers(cells.columns(), cells.rows());
    constexpr std::size_t worth_a_search = 5'000;
    for_each_band(cells.rows(), work, [&](int first, int end) {
      std::optional<NearestSearch> search;
      if (numbers.size() >= worth_a_search) search.emplace(nearest.points());
      for (int y = first; y < end; ++y) {
        const auto colours = cells.colours.row(y);
        const auto laid = cells.laid.row(y);
        const auto to = numbers.row(y);
        if (search) search->number_row(std::span<const typename T::colour_type>(colours), to);
        for (std::size_t x = 0; x < to.size(); ++x) {
          if (laid[x] == 0) {
            to[x] = 0;
          } else if (!search) {
            to[x] = nearest.number(colours[x]);
          }
        }
      }
    });
    return numbers;
  }
};

}  // namespace handlaid
