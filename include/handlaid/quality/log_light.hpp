// Light as logarithms, so that a colour in another light is a sum: what the fitting of light works with. Results are
// rounded, so that the last bits of a logarithm decide nothing.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"

namespace handlaid::detail {

/// To 1/2^20, so that the last bits of a logarithm decide nothing.
inline double settled(double v) { return std::floor(v * 1048576.0 + 0.5) / 1048576.0; }

using LogLight = std::array<double, 3>;

/// Logarithms; what is darker than 1/500 of white is taken as that.
inline LogLight log_light(const LinearRgb& c) {
  const auto log = [](float v) { return settled(std::log(std::max(double{v}, 0.002))); };
  return {log(c.r), log(c.g), log(c.b)};
}
inline LinearRgb of_log(const LogLight& l) {
  const auto exp = [](double v) { return static_cast<float>(settled(std::exp(std::min(v, 2.0)))); };
  return {exp(l[0]), exp(l[1]), exp(l[2])};
}

/// The middle of a list, the lower one of two; 0 for none.
inline double median_of(std::vector<double> list) {
  if (list.empty()) return 0;
  const auto middle = list.begin() + static_cast<std::ptrdiff_t>((list.size() - 1) / 2);
  std::nth_element(list.begin(), middle, list.end());
  return *middle;
}

/// How far apart two colours are, in Oklab.
inline double apart(const Oklab& p, const Oklab& q) {
  const double l = double{p.L} - double{q.L}, a = double{p.a} - double{q.a}, b = double{p.b} - double{q.b};
  return settled(std::sqrt(l * l + a * a + b * b));
}

}  // namespace handlaid::detail
