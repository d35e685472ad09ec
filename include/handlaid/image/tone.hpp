// Tone: brightness, contrast and saturation, in Oklab (B. Ottosson, "A perceptual color space for image processing",
// 2020), so that colours keep their hue.
#pragma once

#include <cstdint>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/executor.hpp"
#include "handlaid/core/pipe.hpp"
#include "handlaid/image/picture.hpp"

namespace handlaid {

/// Changes the tone of a picture, or of the colours of cells. With L from 0, black, to 1, white:
/// L becomes 0.5 + (L - 0.5) * (1 + contrast) + brightness, held within 0 to 1; a and b are multiplied by
/// 1 + saturation. So brightness 1 makes all white, contrast -1 makes all equally light, saturation -1 makes all grey.
/// Where all three are 0 everything is passed on bit for bit. Opacity never changes.
/// Throws Error for a value outside -1 to 1.
struct Tone {
  using is_stage = void;
  double brightness = 0;
  double contrast = 0;
  double saturation = 0;

  template <Picture R>
  Raster<PixelOf<R>> operator()(R&& raster, const Work& work = {}) const {
    using P = PixelOf<R>;
    using C = ColourOf<P>;
    const Steps steps = checked();
    auto result = detail::owned(std::forward<R>(raster));
    if (steps.brightness == 0 && steps.contrast == one && steps.saturation == one) return result;
    for_each_band(result.height(), work, [&](int first, int last) {
      C seen = {};  // neighbours are often alike
      C toned = tone(seen, steps);
      for (int y = first; y < last; ++y) {
        if (first == 0 && !work.progress("tone", static_cast<double>(y) / last)) throw Error::stopped("tone");
        for (P& pixel : result.row(y)) {
          if (!(colour_of(pixel) == seen)) {
            seen = colour_of(pixel);
            toned = tone(seen, steps);
          }
          if constexpr (AlphaPixel<P>) {
            pixel.colour = toned;
          } else {
            pixel = toned;
          }
        }
      }
    });
    return result;
  }

  template <HoldsColours T>
  std::remove_cvref_t<T> operator()(T&& whole, const Work& work = {}) const {
    std::remove_cvref_t<T> result = std::forward<T>(whole);
    result.colours = (*this)(std::move(result.colours), work);
    return result;
  }

 private:
  /// In steps of 1/65536.
  struct Steps {
    std::int64_t brightness, contrast, saturation;
  };
  static constexpr std::int64_t one = 65536;

  Steps checked() const {
    const auto step = [](const char* name, double value) {
      if (!(value >= -1 && value <= 1))
        throw Error::bad_option(name, "it is out of range", "give a number from -1 to 1");
      return static_cast<std::int64_t>(value * 65536.0 + (value < 0 ? -0.5 : 0.5));
    };
    return {step("brightness", brightness), one + step("contrast", contrast), one + step("saturation", saturation)};
  }

  template <class C>
  static C tone(const C& colour, const Steps& steps) {
    constexpr int bits = 24;
    constexpr std::int64_t white = std::int64_t{1} << bits;
    const auto lab = convert_colour<Oklab>(colour);
    const std::int64_t from_middle = detail::to_fixed(lab.L, bits, 4) - white / 2;
    const std::int64_t lightness =
        white / 2 + detail::round_shift(from_middle * steps.contrast, 16) + steps.brightness * (white / one);
    const auto axis = [&](float v) {
      return detail::from_fixed(detail::round_shift(detail::to_fixed(v, bits, 4) * steps.saturation, 16), bits);
    };
    return convert_colour<C>(
        Oklab{detail::from_fixed(detail::clamp(lightness, 0, white), bits), axis(lab.a), axis(lab.b)});
  }
};

}  // namespace handlaid
