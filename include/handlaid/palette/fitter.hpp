// What a fitter is: it makes a palette from a histogram. A fitter of your own is a struct with this call operator.
#pragma once

#include <concepts>

#include "handlaid/core/work.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// Makes a palette from colours of the space `C`.
template <class F, class C = Oklab>
concept Fitter = requires(const F& fit, const Histogram<C>& histogram) {
  { fit(histogram) } -> std::same_as<Palette>;
};

/// Calls a fitter, with the threads and progress of the run if it takes them.
template <MeasuredColour C, Fitter<C> F>
Palette fit_palette(const F& fit, const Histogram<C>& histogram, const Work& work) {
  if constexpr (requires { fit(histogram, work); }) {
    return fit(histogram, work);
  } else {
    return fit(histogram);
  }
}

/// The palette that was given, whatever the picture: numbers stay as they are.
struct Given {
  Palette palette = {};
  template <MeasuredColour C>
  Palette operator()(const Histogram<C>&) const {
    return palette;
  }
};

}  // namespace handlaid
