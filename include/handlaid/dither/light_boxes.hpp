// The colour to place for an amount of light, at the speed of a table. Light is sorted into boxes a few sRGB codes
// wide, and each box is searched once. Which colour is chosen may be off by part of a box, which does no harm where the
// error is passed on in full; but a colour of the palette is always found for itself.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "handlaid/colour/srgb_tables.hpp"
#include "handlaid/palette/nearest_search.hpp"

namespace handlaid {

/// Finds numbers for light in steps of 1/2^18 of white, measuring in the space `C`. The rule: light is held within the
/// gamut and taken to the box of its codes / 8 (with more than 64 colours: / 4). If colours of the palette lie in that
/// box, it is the nearest of them; if not, the one nearest to the middle of the box. The lower number wins a tie.
/// Not for two threads at once.
template <MeasuredColour C>
class LightBoxes {
 public:
  static constexpr int light_bits = 18;
  /// Amounts are given with `zero` (a `whole_zero`) added: none may be negative then, nor exceed white by `zero`.
  /// `many`: it will pay to prepare the search.
  LightBoxes(const Palette& palette, const NearestColour<C>& nearest, std::uint32_t zero, bool many)
      : nearest_(nearest), zero_(zero), code_bits_(palette.size() > 64 ? 2 : 3) {
    // Light in parts of 1/4096: codes lie farther apart than that, so that each is still told from the next.
    const std::size_t black = zero >> part_shift;
    spread_.assign(2 * black + 4096, 0);
    for (std::size_t part = 0; part < 4096; ++part) {
      const auto middle = static_cast<std::int64_t>((part << 12U) + (1U << 11U));
      const std::size_t place = std::size_t{srgb_code_of_linear(middle)} >> code_bits_;
      std::size_t bits = 0;
      for (unsigned bit = 0; bit < 6; ++bit) bits |= (place >> bit & 1U) << (3 * bit);
      spread_[black + part] = static_cast<std::uint16_t>(bits);
    }
    std::fill(spread_.begin() + static_cast<std::ptrdiff_t>(black + 4096), spread_.end(), spread_[black + 4095]);
    numbers_.assign(std::size_t{1} << (3 * (8 - code_bits_)), 0);
    if (many) search_.emplace(nearest.points());
    for (std::size_t i = 0; i < palette.entries.size(); ++i) {
      const Light light = palette.entries[i].colour.light();
      const auto counted = [&](std::int64_t v) { return zero_ + static_cast<std::uint32_t>(v >> (24 - light_bits)); };
      const std::size_t at = box(counted(light.r), counted(light.g), counted(light.b));
      inside_.push_back({static_cast<std::uint32_t>(at), static_cast<ColourNumber>(i + 1)});
      numbers_[at] = numbers_[at] == 0 ? static_cast<ColourNumber>(i + 1) : several;
    }
    std::sort(inside_.begin(), inside_.end());
  }

  /// The least `zero` that will do and is not below `zero`.
  static constexpr std::uint32_t whole_zero(std::uint32_t zero) {
    return (zero + (1U << part_shift) - 1) >> part_shift << part_shift;
  }

  /// The number for an amount of each primary.
  [[gnu::always_inline]] ColourNumber number(std::uint32_t r, std::uint32_t g, std::uint32_t b) {
    const std::size_t at = box(r, g, b);
    const ColourNumber found = numbers_[at];
    if (static_cast<ColourNumber>(found - 1) < most_colours) return found;
    return look(at, r, g, b);
  }

 private:
  static constexpr std::uint32_t white = std::uint32_t{1} << light_bits;
  static constexpr int part_shift = light_bits - 12;
  static constexpr ColourNumber several = 0xffff;

  /// The bits of the three places take turns, so that boxes that are near each other are so in memory.
  std::size_t box(std::uint32_t r, std::uint32_t g, std::uint32_t b) const {
    const std::uint16_t* spread = spread_.data();
    return std::size_t{spread[r >> part_shift]} << 2U | std::size_t{spread[g >> part_shift]} << 1U |
           spread[b >> part_shift];
  }

  [[gnu::noinline]] ColourNumber look(std::size_t at, std::uint32_t r, std::uint32_t g, std::uint32_t b) {
    if (numbers_[at] == 0) return numbers_[at] = search(middle(at, 2), middle(at, 1), middle(at, 0));
    const auto light = [&](std::uint32_t v) {
      return std::int64_t{v < zero_ ? 0 : std::min(v - zero_, white)} << (24 - light_bits);
    };
    const FixedPoint point = C::from_light({light(r), light(g), light(b)}).fixed();
    auto item = std::lower_bound(inside_.begin(), inside_.end(), Inside{static_cast<std::uint32_t>(at), 0});
    ColourNumber nearest = item->second;
    for (; item != inside_.end() && item->first == at; ++item) {
      if (squared_distance(point, nearest_.point(item->second)) < squared_distance(point, nearest_.point(nearest))) {
        nearest = item->second;
      }
    }
    return nearest;
  }

  /// The light half-way between the two codes in the middle of a box.
  std::int64_t middle(std::size_t at, unsigned axis) const {
    std::size_t place = 0;
    for (unsigned bit = 0; bit < 6; ++bit) place |= (at >> (3 * bit + axis) & 1U) << bit;
    const std::size_t upper = (place << code_bits_) + (std::size_t{1} << (code_bits_ - 1));
    return (std::int64_t{srgb_to_linear_table[upper - 1]} + srgb_to_linear_table[upper]) / 2;
  }
  ColourNumber search(std::int64_t r, std::int64_t g, std::int64_t b) {
    const FixedPoint point = C::from_light({r, g, b}).fixed();
    return search_ ? search_->number(point) : nearest_.number(point);
  }

  using Inside = std::pair<std::uint32_t, ColourNumber>;
  const NearestColour<C>& nearest_;
  std::optional<NearestSearch> search_ = {};
  std::uint32_t zero_;
  unsigned code_bits_;
  std::vector<std::uint16_t> spread_ = {};
  std::vector<ColourNumber> numbers_ = {};  // of each box; 0 where it was not searched yet
  std::vector<Inside> inside_ = {};         // box and number of each colour of the palette
};

}  // namespace handlaid
