// What the eye still sees of cells from a distance: S-CIELAB.
// X. Zhang, B. Wandell, "A spatial extension of CIELAB for digital color image reproduction", SID Digest 1996, and
// Journal of the SID 5(1), 1997. Light is taken to three opponent axes, each is blurred by a sum of Gaussians, and what
// is left is given in CIELAB. A uniform area stays what it is.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/cie.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/quality/whole_plane.hpp"

namespace handlaid {

/// The farthest that anything is looked at from, in pitches.
inline constexpr std::int64_t most_pitches_away = 100'000;

/// Which part of the eye is looked through.
enum class Sight {
  whole,     ///< all lobes, to measure by
  blur_only  ///< for pictures: what the eye of who looks at them does by itself is left out. That is the wide negative
             ///< lobe, by which areas are set off against their surround, and the wider blur of colours than of light,
             ///< which would lend white things the colour of their ground. All axes are blurred as light is.
};

/// Looks at cells of one shape from one distance: prepared once, for as many pictures of that shape as there are.
/// Cells that are not laid, and what lies beyond the edge, count for nothing: each Gaussian is a weighted mean over
/// laid cells alone, so that no invented ground leaks in. Results are the same bits in every build.
class Eye {
 public:
  /// `laid` is 1 where a piece goes; `pitch_x` and `pitch_y` are the distances of neighbouring cells.
  /// Throws Error unless `distance` is positive and at most 100,000 pitches.
  Eye(const Raster<std::uint8_t>& laid, Length pitch_x, Length pitch_y, Length distance, Sight sight = Sight::whole);

  /// The cells as they are seen; those not laid are black. Throws Error where the size is another.
  template <AnyCells T>
  Raster<LabD65> see(const T& cells) const {
    return see_lights(cells.columns(), cells.rows(), [&](int x, int y) { return cells.colours(x, y).light(); });
  }
  /// The chart as it is seen.
  template <AnyChart C>
  Raster<LabD65> see(const C& chart) const {
    std::vector<Light> lights(1);
    for (const PaletteEntry& entry : chart.palette.entries) lights.push_back(entry.colour.light());
    return see_lights(chart.columns(), chart.courses(), [&](int x, int y) { return lights[chart.numbers(x, y)]; });
  }

  const Raster<std::uint8_t>& laid() const { return laid_; }

 private:
  /// One Gaussian, its share of the sum in steps of 1/2^16, and how much of it lies on laid cells.
  struct Lobe {
    detail::GaussianBlur blur;
    double share = 0;
    Raster<double> covered = {};
  };
  static constexpr double unit = 1 << 26;  ///< light of 1 in the planes

  template <class LightAt>
  Raster<LabD65> see_lights(int columns, int rows, const LightAt& light_at) const;
  Raster<double> filter(const Raster<double>& plane, const std::vector<Lobe>& lobes) const;

  Raster<std::uint8_t> laid_;
  std::array<std::vector<Lobe>, 3> axes_;
};

/// An eye for the cells of a lattice; cells of any lattice count as `extent / columns` by `extent / rows`.
template <LatticeLike L>
Eye eye_for(const L& lattice, const Raster<std::uint8_t>& laid, Length distance, Sight sight = Sight::whole) {
  const Size extent = lattice.extent();
  return Eye(laid, extent.width.divided(lattice.column_count()), extent.height.divided(lattice.row_count()), distance,
             sight);
}

/// The cells as seen from `distance`: `cells | SeenFrom{.distance = 2500 * mm}`.
struct SeenFrom {
  using is_stage = void;
  Length distance = 2'500 * mm;

  template <AnyCells T>
  Cells<LabD65, typename T::lattice_type> operator()(const T& cells) const {
    return {cells.lattice, eye_for(cells.lattice, cells.laid, distance).see(cells), cells.laid};
  }
  template <AnyChart C>
  Cells<LabD65, typename C::lattice_type> operator()(const C& chart) const {
    Raster<std::uint8_t> laid(chart.columns(), chart.courses());
    for (int y = 0; y < chart.courses(); ++y) {
      for (int x = 0; x < chart.columns(); ++x) laid(x, y) = chart.numbers(x, y) == 0 ? 0 : 1;
    }
    Raster<LabD65> colours = eye_for(chart.lattice, laid, distance).see(chart);
    return {chart.lattice, std::move(colours), std::move(laid)};
  }
};

namespace detail {

/// From linear sRGB to the opponent axes (black-white, red-green, blue-yellow) of Zhang and Wandell 1996: their
/// matrix from XYZ, 0.279 0.72 -0.107 / -0.449 0.29 -0.077 / 0.086 -0.59 0.501, times that of sRGB. And back.
inline constexpr FixedMatrix to_opponent = {{{285756063, 646306390, 671643},  //
                                             {-134224733, 40442142, -143085865},
                                             {-86242349, -355916450, 482149508}}};
inline constexpr FixedMatrix from_opponent = {{{-886857714, -8800309754, -2610402495},
                                               {2174471645, 3889595862, 1151273015},
                                               {1446533749, 1297132428, 2774142135}}};

/// Spreads in 1/10,000 degree, and shares of the sum in 1/65,536, from the weights 0.921 0.105 -0.108, 0.531 0.330,
/// 0.488 0.371 that are scaled to add up to 1. A lobe is exp(-r^2/s^2): sigma is s divided by the root of 2.
struct LobeShape {
  std::int64_t spread = 0;
  double share = 0;
};
using AxisLobes = std::array<LobeShape, 3>;
inline constexpr std::array<AxisLobes, 3> lobe_shapes = {{{{{283, 65750}, {1330, 7496}, {43360, -7710}}},  //
                                                          {{{392, 40418}, {4940, 25118}, {}}},
                                                          {{{536, 37231}, {3860, 28305}, {}}}}};
/// Those of light without the negative one, scaled to add up to 1.
inline constexpr AxisLobes blur_lobes = {{{283, 58829}, {1330, 6707}, {}}};

/// The variance of a lobe in steps of 1/2^16 of a squared cell.
template <When = When::called>
std::int64_t lobe_variance(std::int64_t spread, Length pitch, Length distance) {
  // tan(1 degree) is 0.01745506: cells to a degree in steps of 1/2^16
  const std::int64_t cells =
      distance.um() / 1'000 * 1'143'935 / pitch.um() + distance.um() % 1'000 * 1'143'935 / (pitch.um() * 1'000);
  const std::int64_t s = spread * cells / 10'000;
  return (s * s) >> 17;
}

}  // namespace detail

inline Eye::Eye(const Raster<std::uint8_t>& laid, Length pitch_x, Length pitch_y, Length distance, Sight sight)
    : laid_(laid) {
  const auto farthest = std::min(pitch_x, pitch_y).times(most_pitches_away);
  if (pitch_x.um() < 1 || pitch_y.um() < 1) throw Error::bad_option("pitch", "it is not positive", "give a length");
  if (distance.um() < 1 || distance > farthest || distance > 100'000'000 * mm) {
    throw Error::out_of_range("viewing distance", std::to_string(distance.um() / 1'000) + " mm",
                              "above 0 and at most 100,000 pitches");
  }
  Raster<double> mask(laid.width(), laid.height());
  for (std::size_t i = 0; i < mask.size(); ++i) mask.pixels()[i] = laid.pixels()[i] != 0 ? unit : 0.0;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const detail::AxisLobes& lobes = sight == Sight::blur_only ? detail::blur_lobes : detail::lobe_shapes[axis];
    for (const detail::LobeShape& shape : lobes) {
      if (shape.spread == 0) continue;
      Lobe lobe = {.blur = {laid.width(), laid.height(), detail::lobe_variance(shape.spread, pitch_x, distance),
                            detail::lobe_variance(shape.spread, pitch_y, distance)},
                   .share = shape.share};
      if (!lobe.blur.leaves_all()) lobe.covered = lobe.blur(mask);
      axes_[axis].push_back(std::move(lobe));
    }
  }
}

inline Raster<double> Eye::filter(const Raster<double>& plane, const std::vector<Lobe>& lobes) const {
  Raster<double> sum(plane.width(), plane.height());
  for (const Lobe& lobe : lobes) {
    if (lobe.covered.empty()) {
      for (std::size_t i = 0; i < sum.size(); ++i) sum.pixels()[i] += lobe.share * plane.pixels()[i];
      continue;
    }
    const Raster<double> blurred = lobe.blur(plane);
    for (std::size_t i = 0; i < sum.size(); ++i) {
      const double covered = lobe.covered.pixels()[i];
      // A quotient is rounded by itself, and the sum of whole numbers is exact.
      const double mean = covered > 0 ? detail::whole(blurred.pixels()[i] / covered * unit) : 0.0;
      sum.pixels()[i] += lobe.share * mean;
    }
  }
  for (double& value : sum.pixels()) value = detail::whole(value * (1.0 / 65536.0));
  return sum;
}

template <class LightAt>
Raster<LabD65> Eye::see_lights(int columns, int rows, const LightAt& light_at) const {
  if (columns != laid_.width() || rows != laid_.height()) {
    throw Error::bad_input("eye", "it was made for cells of another size", "make one for these cells");
  }
  std::array<Raster<double>, 3> planes;
  for (Raster<double>& plane : planes) plane = Raster<double>(columns, rows);
  for (int y = 0; y < rows; ++y) {
    for (int x = 0; x < columns; ++x) {
      if (laid_(x, y) == 0) continue;
      const Light light = light_at(x, y);
      const auto axes = detail::shifted(detail::times(detail::to_opponent, {light.r, light.g, light.b}), 28);
      planes[0](x, y) = static_cast<double>(axes.x);
      planes[1](x, y) = static_cast<double>(axes.y);
      planes[2](x, y) = static_cast<double>(axes.z);
    }
  }
  for (std::size_t axis = 0; axis < 3; ++axis) planes[axis] = filter(planes[axis], axes_[axis]);
  Raster<LabD65> seen(columns, rows);
  for (int y = 0; y < rows; ++y) {
    for (int x = 0; x < columns; ++x) {
      if (laid_(x, y) == 0) continue;
      const auto axis = [&](std::size_t i) { return static_cast<std::int64_t>(planes[i](x, y)); };
      const auto light = detail::shifted(detail::times(detail::from_opponent, {axis(0), axis(1), axis(2)}), 32);
      seen(x, y) = LabD65::from_light({light.x, light.y, light.z});
    }
  }
  return seen;
}

}  // namespace handlaid
