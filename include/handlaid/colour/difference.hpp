// Colour differences for reports: CIE76, CIE94, CIEDE2000 on CIELAB, and the distance in Oklab.
// Reported figures only: they come from the mathematics library and may differ in their last bit between builds.
#pragma once

#include <cmath>
#include <numbers>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/oklab.hpp"

namespace handlaid {

namespace detail {
constexpr double squared(double v) { return v * v; }
}  // namespace detail

/// Distance in Oklab; black to white is 1.
inline double distance_oklab(const Oklab& p, const Oklab& q) {
  using detail::squared;
  return std::sqrt(squared(double{p.L} - double{q.L}) + squared(double{p.a} - double{q.a}) +
                   squared(double{p.b} - double{q.b}));
}

/// CIE 1976 colour difference (CIE 15:2004).
template <class White>
double cie76(const Lab<White>& p, const Lab<White>& q) {
  using detail::squared;
  return std::sqrt(squared(double{p.L} - double{q.L}) + squared(double{p.a} - double{q.a}) +
                   squared(double{p.b} - double{q.b}));
}

/// CIE 1994 colour difference, graphic arts weights (CIE 116:1995). Not symmetric: `reference` sets the weights.
template <class White>
double cie94(const Lab<White>& reference, const Lab<White>& sample) {
  using detail::squared;
  const double chroma1 = std::hypot(double{reference.a}, double{reference.b});
  const double chroma2 = std::hypot(double{sample.a}, double{sample.b});
  const double lightness = double{reference.L} - double{sample.L};
  const double chroma = chroma1 - chroma2;
  const double hue2 = squared(double{reference.a} - double{sample.a}) +
                      squared(double{reference.b} - double{sample.b}) - squared(chroma);
  const double hue = hue2 > 0 ? hue2 : 0;
  return std::sqrt(squared(lightness) + squared(chroma / (1 + 0.045 * chroma1)) + hue / squared(1 + 0.015 * chroma1));
}

/// CIEDE2000 colour difference (CIE 142-2001), after G. Sharma, W. Wu, E. Dalal, "The CIEDE2000 color-difference
/// formula: implementation notes, supplementary test data, and mathematical observations", Color Research and
/// Application 30(1), 2005. Weights 1.
template <class White>
double ciede2000(const Lab<White>& p, const Lab<White>& q) {
  using detail::squared;
  constexpr double degree = std::numbers::pi / 180;
  const auto seventh = [](double c) {
    const double power = std::pow(c, 7);
    return std::sqrt(power / (power + 6103515625.0));  // 25^7
  };
  const double mean_chroma = (std::hypot(double{p.a}, double{p.b}) + std::hypot(double{q.a}, double{q.b})) / 2;
  const double stretch = 1.5 - 0.5 * seventh(mean_chroma);
  const double a1 = stretch * double{p.a};
  const double a2 = stretch * double{q.a};
  const double c1 = std::hypot(a1, double{p.b});
  const double c2 = std::hypot(a2, double{q.b});
  const auto hue = [](double a, double b) {
    if (a == 0 && b == 0) return 0.0;
    const double h = std::atan2(b, a) / degree;
    return h < 0 ? h + 360 : h;
  };
  const double h1 = hue(a1, double{p.b});
  const double h2 = hue(a2, double{q.b});

  const bool grey = c1 * c2 == 0;
  double turn = h2 - h1;
  if (grey) turn = 0;
  if (turn > 180) turn -= 360;
  if (turn < -180) turn += 360;
  const double delta_l = double{q.L} - double{p.L};
  const double delta_c = c2 - c1;
  const double delta_h = 2 * std::sqrt(c1 * c2) * std::sin(turn / 2 * degree);

  const double l = (double{p.L} + double{q.L}) / 2;
  const double c = (c1 + c2) / 2;
  double h = h1 + h2;
  if (!grey) {
    if (std::abs(h1 - h2) > 180) h += h < 360 ? 360 : -360;
    h /= 2;
  }
  const double t = 1 - 0.17 * std::cos((h - 30) * degree) + 0.24 * std::cos(2 * h * degree) +
                   0.32 * std::cos((3 * h + 6) * degree) - 0.20 * std::cos((4 * h - 63) * degree);
  const double s_l = 1 + 0.015 * squared(l - 50) / std::sqrt(20 + squared(l - 50));
  const double s_c = 1 + 0.045 * c;
  const double s_h = 1 + 0.015 * c * t;
  const double rotation = -std::sin(2 * 30 * degree * std::exp(-squared((h - 275) / 25))) * 2 * seventh(c);
  return std::sqrt(squared(delta_l / s_l) + squared(delta_c / s_c) + squared(delta_h / s_h) +
                   rotation * (delta_c / s_c) * (delta_h / s_h));
}

}  // namespace handlaid
