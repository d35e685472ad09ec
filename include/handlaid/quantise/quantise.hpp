// From cells to a chart: a fitter makes the palette, a ditherer places it; or a quantiser of your own does both at
// once. `cells | quantise(KMeans{.colours = 16})`, `cells | quantise(MedianCut{}, ErrorDiffusion{.strength = 0.6})`
#pragma once

#include <utility>

#include "handlaid/dither/ditherer.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/palette/fitter.hpp"

namespace handlaid {

/// Makes a chart from cells of type `T`. This is what `quantise` takes.
template <class Q, class T = Cells<Oklab>>
concept Quantiser = AnyCells<T> && requires(const Q& make, const T& cells) {
  { make(cells) } -> std::same_as<Chart<typename T::lattice_type>>;
};

/// First the palette, then each cell: any fitter with any ditherer. A quantiser.
template <class F, class D>
struct FitThenPlace {
  F fitter = {};
  D ditherer = {};

  template <MeasuredCells T>
    requires(Fitter<F, typename T::colour_type> && Ditherer<D, T>)
  Chart<typename T::lattice_type> operator()(const T& cells, const Work& work = {}) const {
    const auto histogram = count_colours(cells);
    if (histogram.bins.empty() && !cells.importance.empty()) {
      throw Error::bad_option("importance", "no cell has any", "make light what matters");
    }
    if (histogram.bins.empty()) {
      throw Error::bad_input("picture", "no cell has anything to lay: it is transparent everywhere",
                             "give a picture with something in it, or a ground to lay it over");
    }
    Chart<typename T::lattice_type> chart;
    chart.lattice = cells.lattice;
    chart.palette = fit_palette(fitter, histogram, work);
    chart.numbers = place_palette(ditherer, cells, chart.palette, work);
    return chart;
  }
};

/// The stage that `quantise` makes. Cells whose colours cannot be compared, such as sRGB codes, are taken to Oklab
/// first.
template <class Q>
struct Quantise {
  using is_stage = void;
  Q quantiser = {};

  template <AnyCells T>
    requires Quantiser<Q, Cells<MeasuredSpace<typename T::colour_type>, typename T::lattice_type>>
  Chart<typename T::lattice_type> operator()(const T& cells, const Work& work = {}) const {
    if constexpr (MeasuredCells<T>) {
      return run(cells, work);
    } else {
      Cells<Oklab, typename T::lattice_type> measured = {.lattice = cells.lattice,
                                                         .colours = {cells.columns(), cells.rows()},
                                                         .laid = cells.laid,
                                                         .importance = cells.importance};
      for_each_band(cells.rows(), work, [&](int first, int end) {
        for (int y = first; y < end; ++y) {
          for (int x = 0; x < cells.columns(); ++x) {
            measured.colours(x, y) = convert_colour<Oklab>(cells.colours(x, y));
          }
        }
      });
      return run(measured, work);
    }
  }

 private:
  template <AnyCells T>
  Chart<typename T::lattice_type> run(const T& cells, const Work& work) const {
    if constexpr (requires { quantiser(cells, work); }) {
      return quantiser(cells, work);
    } else {
      return quantiser(cells);
    }
  }
};

/// A fitter with a ditherer.
template <Fitter F, Ditherer D = NoDither>
auto quantise(F fitter, D ditherer = {}) {
  return Quantise<FitThenPlace<F, D>>{{std::move(fitter), std::move(ditherer)}};
}
/// A quantiser that does both.
template <Quantiser Q>
auto quantise(Q quantiser) {
  return Quantise<Q>{std::move(quantiser)};
}

}  // namespace handlaid
