// From any colour to any other, by way of linear light.
#pragma once

#include "handlaid/colour/concepts.hpp"

namespace handlaid {

/// The same colour in another space; the same object where the type is the same. Whole numbers decide every rounding,
/// so the result is the same in every build. Out-of-gamut colours are held at the end of integer channels.
template <Colour To, Colour From>
constexpr To convert_colour(const From& from) {
  if constexpr (std::same_as<To, From>) {
    return from;
  } else {
    return To::from_light(from.light());
  }
}

}  // namespace handlaid
