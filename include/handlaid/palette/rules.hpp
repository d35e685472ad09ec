// What a maker decides before any colour is chosen: colours that must be there, colours that must not, how far apart
// colours must be and how much each must serve. Every fitter keeps to them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// Rules of a palette. Distances are in the space of the fit; in Oklab black is 1 from white.
struct PaletteRules {
  /// Colours that must be there; they take the first numbers and never move. `Lock::exact_only` keeps a colour for the
  /// cells of that very colour, any other lock lets all cells take it.
  std::vector<PaletteEntry> locked = {};
  /// Colours that must not be there. In a palette that is found, nothing comes nearer to them than `alike_distance`.
  std::vector<PaletteEntry> forbidden = {};
  /// Least distance between any two colours, 0 to 1: near twins cannot be told apart on the bench.
  double least_distance = 0;
  /// A colour that would serve less of the histogram's weight (cells, unless they have an importance) is given up, and
  /// its place is used better. Locked colours stay.
  std::uint64_t least_weight = 0;
};

/// Colours nearer than this in Oklab pass for the same at arm's length; common practice, no source.
inline constexpr double alike_distance = 0.02;

/// Throws Error unless `colours` is 1 to 999 and the rules do not contradict it or each other.
template <When = When::called>
void check_rules(int colours, const PaletteRules& rules);

namespace detail {

/// The rules of distance for one space, in squared steps.
struct Spacing {
  std::uint32_t apart = 0;
  std::uint32_t alike = 0;
  std::vector<FixedPoint> forbidden = {};

  bool binds() const { return apart > 0 || !forbidden.empty(); }

  /// Whether `point` keeps to the rules beside `others`, of which the one at `except` does not count.
  template <When = When::called>
  bool allows(const FixedPoint& point, const std::vector<FixedPoint>& others, std::size_t except) const {
    for (const FixedPoint& f : forbidden) {
      if (squared_distance(point, f) < alike) return false;
    }
    for (std::size_t i = 0; i < others.size(); ++i) {
      if (i != except && squared_distance(point, others[i]) < apart) return false;
    }
    return true;
  }
};

constexpr std::uint32_t squared_steps(double distance, int steps) {
  const auto length = static_cast<std::uint32_t>(distance * steps + 0.5);
  return length * length;
}

template <MeasuredColour C>
Spacing spacing_of(const PaletteRules& rules) {
  Spacing spacing = {.apart = squared_steps(rules.least_distance, C::steps),
                     .alike = squared_steps(alike_distance, C::steps)};
  for (const PaletteEntry& entry : rules.forbidden) {
    spacing.forbidden.push_back(convert_colour<C>(entry.colour).fixed());
  }
  return spacing;
}

}  // namespace detail

template <When>
void check_rules(int colours, const PaletteRules& rules) {
  check_colours(colours);
  const std::vector<PaletteEntry>& locked = rules.locked;
  if (static_cast<int>(locked.size()) > colours) {
    throw Error::bad_option(
        "lock",
        std::to_string(locked.size()) + " colours are locked, but only " + std::to_string(colours) + " are asked for",
        "lock fewer, or ask for more colours");
  }
  for (std::size_t i = 0; i < locked.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (locked[i].colour == locked[j].colour && locked[i].name == locked[j].name) {
        throw Error::bad_option("lock",
                                "colours " + std::to_string(j + 1) + " and " + std::to_string(i + 1) + " are the same",
                                "lock a colour once");
      }
    }
    for (const PaletteEntry& entry : rules.forbidden) {
      if (locked[i].colour == entry.colour && locked[i].name == entry.name) {
        throw Error::bad_option("lock", "colour " + std::to_string(i + 1) + " is both locked and forbidden",
                                "do one or the other");
      }
    }
  }
  if (!(rules.least_distance >= 0 && rules.least_distance <= 1)) {
    throw Error::out_of_range("least distance", std::to_string(rules.least_distance), "0 to 1");
  }
}

}  // namespace handlaid
