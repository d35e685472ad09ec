// What a colour type must offer to be used anywhere in the library, and colours with alpha.
// A type of your own needs `light()` and `from_light()`; to be fitted and compared also `fixed()` and `from_fixed()`.
#pragma once

#include <compare>
#include <concepts>
#include <cstdint>
#include <type_traits>

namespace handlaid {

/// The hub between colour spaces: linear light with sRGB primaries and white D65, in steps of 1/2^24 of white.
/// Out-of-gamut colours have values below 0 or above 2^24; conversions hold them within +-4 times white.
struct Light {
  std::int64_t r = 0;
  std::int64_t g = 0;
  std::int64_t b = 0;
  friend constexpr bool operator==(const Light&, const Light&) = default;
};

/// A colour as whole steps along three axes, so that comparing never depends on rounding.
/// Coordinates stay within +-16384: the squared distance of two points fits in 32 unsigned bits.
struct FixedPoint {
  std::int16_t x = 0;
  std::int16_t y = 0;
  std::int16_t z = 0;
  friend constexpr bool operator==(const FixedPoint&, const FixedPoint&) = default;
  friend constexpr auto operator<=>(const FixedPoint&, const FixedPoint&) = default;
};

/// The squared distance in squared steps.
constexpr std::uint32_t squared_distance(const FixedPoint& p, const FixedPoint& q) {
  const std::int32_t x = p.x - q.x;
  const std::int32_t y = p.y - q.y;
  const std::int32_t z = p.z - q.z;
  return static_cast<std::uint32_t>(x * x) + static_cast<std::uint32_t>(y * y) + static_cast<std::uint32_t>(z * z);
}

/// A colour that can be turned into linear light and back.
template <class C>
concept Colour = std::is_trivially_copyable_v<C> && requires(const C& colour, const Light& light) {
  { colour.light() } -> std::same_as<Light>;
  { C::from_light(light) } -> std::same_as<C>;
};

/// A colour whose distances mean something to the eye, in whole steps: what fitters and ditherers work in.
/// `C::steps` is the number of steps to one unit of the space.
template <class C>
concept MeasuredColour = Colour<C> && requires(const C& colour, const FixedPoint& point) {
  { colour.fixed() } -> std::same_as<FixedPoint>;
  { C::from_fixed(point) } -> std::same_as<C>;
  { C::steps } -> std::convertible_to<int>;
};

namespace detail {
template <class C>
struct AlphaOf {
  using type = float;
};
template <class C>
  requires requires { typename C::channel_type; }
struct AlphaOf<C> {
  using type = typename C::channel_type;
};
}  // namespace detail

/// A colour (not premultiplied) with its opacity: 0 to 1 for floating types, 0 to 255 or 65535 for integer ones.
template <Colour C>
struct WithAlpha {
  using colour_type = C;
  using alpha_type = typename detail::AlphaOf<C>::type;

  C colour = {};
  alpha_type alpha = {};

  /// From 0, transparent, to 65535, opaque. A floating alpha outside 0 to 1 is held at the end, NaN is transparent.
  constexpr std::uint32_t opacity() const {
    if constexpr (std::is_floating_point_v<alpha_type>) {
      if (!(alpha > 0)) return 0;
      return alpha >= 1 ? 65535U : static_cast<std::uint32_t>(static_cast<double>(alpha) * 65535.0 + 0.5);
    } else if constexpr (sizeof(alpha_type) == 1) {
      return alpha * 257U;
    } else {
      return alpha;
    }
  }
  static constexpr WithAlpha from(const C& colour, std::uint32_t opacity) {
    if constexpr (std::is_floating_point_v<alpha_type>) {
      return {colour, static_cast<alpha_type>(static_cast<double>(opacity) / 65535.0)};
    } else if constexpr (sizeof(alpha_type) == 1) {
      return {colour, static_cast<alpha_type>((opacity + 128U) / 257U)};
    } else {
      return {colour, static_cast<alpha_type>(opacity)};
    }
  }
  friend constexpr bool operator==(const WithAlpha&, const WithAlpha&) = default;
};

namespace detail {
template <class P>
struct PixelColour {
  using type = P;
};
template <class C>
struct PixelColour<WithAlpha<C>> {
  using type = C;
};
}  // namespace detail

/// The colour of a pixel without its alpha.
template <class P>
using ColourOf = typename detail::PixelColour<P>::type;

/// A pixel that knows its opacity.
template <class P>
concept AlphaPixel = !std::same_as<ColourOf<P>, P>;

/// What a picture is made of: a colour, with or without alpha.
template <class P>
concept Pixel = Colour<ColourOf<P>>;

/// The colour and the opacity (0 to 65535) of any pixel.
template <Pixel P>
constexpr const ColourOf<P>& colour_of(const P& pixel) {
  if constexpr (AlphaPixel<P>) {
    return pixel.colour;
  } else {
    return pixel;
  }
}
template <Pixel P>
constexpr std::uint32_t opacity_of(const P& pixel) {
  if constexpr (AlphaPixel<P>) {
    return pixel.opacity();
  } else {
    return 65535U;
  }
}

}  // namespace handlaid
