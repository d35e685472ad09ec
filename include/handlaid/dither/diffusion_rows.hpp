// The loops of error diffusion. A row first adds up what it is owed by the rows above, all cells at once; then only the
// error of the cell before has to be waited for. Amounts are counted from `zero`, far enough below that none is
// negative, so that a quotient always rounds the same way: down, after half a divisor was added.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <utility>
#include <vector>

#include "handlaid/dither/diffusion_kernel.hpp"
#include "handlaid/dither/light_boxes.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/palette/histogram.hpp"
#include "handlaid/palette/nearest_search.hpp"

namespace handlaid::detail {

/// Amounts of each axis; errors are differences of such.
using Amounts = std::array<std::int32_t, 3>;

/// Errors counted in light: steps of 1/2^18 of white, cells held within the gamut.
template <Colour C>
struct InLight {
  using Space = MeasuredSpace<C>;
  using Search = LightBoxes<Space>;
  static constexpr std::uint32_t least = 0;
  template <Colour D>
  static Amounts amounts(const D& colour) {
    constexpr int shift = 24 - Search::light_bits;
    const auto held = [](std::int64_t v) {
      return static_cast<std::int32_t>(clamp((v + (1 << (shift - 1))) >> shift, 0, 1 << Search::light_bits));
    };
    const Light light = colour.light();
    return {held(light.r), held(light.g), held(light.b)};
  }
};

/// Errors counted along the axes of the measured space, in sixteenths of its steps: that keeps small shares.
template <Colour C>
struct InCellSpace {
  using Space = MeasuredSpace<C>;
  static constexpr std::uint32_t least = 16384 * 16;
  template <Colour D>
  static Amounts amounts(const D& colour) {
    const FixedPoint p = convert_colour<Space>(colour).fixed();
    return {p.x * 16, p.y * 16, p.z * 16};
  }
  class Search {
   public:
    Search(const Palette&, const NearestColour<Space>& nearest, std::uint32_t zero, bool many)
        : nearest_(nearest), zero_(static_cast<std::int32_t>(zero)) {
      if (many) search_.emplace(nearest.points());
    }
    static constexpr std::uint32_t whole_zero(std::uint32_t zero) { return zero; }
    ColourNumber number(std::uint32_t x, std::uint32_t y, std::uint32_t z) {
      const auto axis = [&](std::uint32_t v) {
        const std::int32_t steps = (static_cast<std::int32_t>(v) - zero_ + 8) >> 4;
        return static_cast<std::int16_t>(std::clamp(steps, -16384, 16384));
      };
      const FixedPoint point = {axis(x), axis(y), axis(z)};
      return search_ ? search_->number(point) : nearest_.number(point);
    }

   private:
    const NearestColour<Space>& nearest_;
    std::optional<NearestSearch> search_;
    std::int32_t zero_;
  };
};

/// Options of `ErrorDiffusion` in whole numbers; shares are parts of 4096.
struct DiffusionShares {
  std::int64_t strength = 4096;
  std::int64_t edges = 0;
  std::int64_t reach = 4096;
  bool serpentine = true;
};

/// The state of a run: what the palette's colours amount to, and the errors of the last three rows.
template <class Axes, class Kernel, class T>
class DiffusionRows {
 public:
  DiffusionRows(const T& cells, const Palette& palette, const Kernel& kernel, const DiffusionShares& shares)
      : cells_(cells),
        kernel_(kernel),
        shares_(shares),
        nearest_(palette),
        zero_(hold(palette)),
        search_(palette, nearest_, zero_, cells.colours.size() >= 30'000) {
    const std::size_t width = (static_cast<std::size_t>(cells.columns()) + 4) * 3;
    for (auto& row : errors_) row.assign(width, 0);
    own_.assign(width - 12, 0);
    owed_.assign(width - 12, 0);
    taken_.assign(static_cast<std::size_t>(cells.columns()), 4096);
  }

  Raster<ColourNumber> run() {
    Raster<ColourNumber> numbers(cells_.columns(), cells_.rows());
    for (int y = 0; y < cells_.rows(); ++y) {
      const bool backward = shares_.serpentine && y % 2 == 1;
      const bool whole = shares_.strength == 4096 && shares_.edges == 0;
      gather(y);
      if (whole) {
        backward ? place<true, -1>(y, numbers.row(y)) : place<true, 1>(y, numbers.row(y));
      } else {
        if (shares_.edges > 0) find_edges(y);
        backward ? place<false, -1>(y, numbers.row(y)) : place<false, 1>(y, numbers.row(y));
      }
      std::swap(errors_[2], errors_[1]);
      std::swap(errors_[1], errors_[0]);
    }
    return numbers;
  }

 private:
  struct Wanted {
    std::int32_t v[3];
    std::int32_t unused;
  };

  /// Sets what may be asked for on each axis, and returns how far below 0 amounts are counted from.
  std::uint32_t hold(const Palette& palette) {
    Amounts least = {};
    Amounts greatest = {};
    for (const PaletteEntry& entry : palette.entries) {
      const Amounts a = Axes::amounts(entry.colour);
      if (wanted_.empty()) least = greatest = a;
      for (std::size_t c = 0; c < 3; ++c) {
        least[c] = std::min(least[c], a[c]);
        greatest[c] = std::max(greatest[c], a[c]);
      }
      wanted_.push_back({{a[0], a[1], a[2]}, 0});
    }
    std::int64_t owed = 0;
    for (std::size_t c = 0; c < 3; ++c) {
      const std::int64_t beyond = (greatest[c] - least[c]) * shares_.reach / 4096;
      owed = std::max(owed, beyond + greatest[c] - least[c]);
      low_[c] = static_cast<std::int32_t>(least[c] - beyond);
      high_[c] = static_cast<std::int32_t>(greatest[c] + beyond);
    }
    const std::uint32_t zero = Axes::Search::whole_zero(static_cast<std::uint32_t>(owed) + Axes::least + 1);
    for (std::size_t c = 0; c < 3; ++c) {
      low_[c] += static_cast<std::int32_t>(zero);
      high_[c] += static_cast<std::int32_t>(zero);
    }
    for (Wanted& wanted : wanted_) {
      for (std::int32_t& v : wanted.v) v += static_cast<std::int32_t>(zero);
    }
    return zero;
  }

  /// The cells' own amounts of row `y`, and what each is owed by the rows above, times the divisor.
  void gather(int y) {
    const auto colours = cells_.colours.row(y);
    for (std::size_t x = 0; x < colours.size(); ++x) {
      const Amounts a = Axes::amounts(colours[x]);
      for (std::size_t c = 0; c < 3; ++c) own_[x * 3 + c] = a[c];
    }
    const std::int32_t* from[10];
    for (std::size_t tap = 0; tap < 10; ++tap) {
      const int row = static_cast<int>(tap / 5) + 1;
      const bool was_backward = shares_.serpentine && (y - row) % 2 != 0;
      // The cell dx to the right of a giver has it dx to its left; a row from right to left gives the other way.
      from[tap] = errors_[tap / 5].data() + 3 * (was_backward ? tap % 5 : 4 - tap % 5);
    }
    add_taps(from, std::make_index_sequence<10>{});
  }
  template <std::size_t... Tap>
  void add_taps(const std::int32_t* const (&from)[10], std::index_sequence<Tap...>) {
    const std::int32_t weights[10] = {kernel_.weight(Tap / 5 + 1, Tap % 5)...};
    for (std::size_t j = 0; j < owed_.size(); ++j) {
      owed_[j] = (0 + ... + (weights[Tap] == 0 ? 0 : weights[Tap] * from[Tap][j]));
    }
  }

  template <bool Whole, int Step>
  void place(int y, std::span<ColourNumber> numbers) {
    const int columns = cells_.columns();
    const std::uint8_t* laid = cells_.laid.row(y).data();
    const std::int32_t* own = own_.data();
    const std::int32_t* owed = owed_.data();
    std::int32_t* errors = errors_[2].data() + 6;
    const int next = kernel_.weight(0, 3);
    const int second = kernel_.weight(0, 4);
    const Wanted* palette = wanted_.data();
    const Amounts low = low_;
    const Amounts high = high_;
    std::int32_t last[3] = {0, 0, 0};
    std::int32_t before[3] = {0, 0, 0};
    for (int i = 0; i < columns; ++i) {
      const std::ptrdiff_t x = Step > 0 ? i : columns - 1 - i;
      std::int32_t* const error = errors + x * 3;
      if (laid[x] == 0) {
        for (std::size_t c = 0; c < 3; ++c) {
          before[c] = last[c];
          error[c] = last[c] = 0;
        }
        continue;
      }
      std::uint32_t amount[3];
      for (std::size_t c = 0; c < 3; ++c) {
        const std::ptrdiff_t j = x * 3 + static_cast<std::ptrdiff_t>(c);
        const std::int32_t due = owed[j] + next * last[c] + second * before[c];
        amount[c] = static_cast<std::uint32_t>(own[j]) + (Whole ? wholly(due) : partly(due, x));
      }
      const ColourNumber number = search_.number(amount[0], amount[1], amount[2]);
      numbers[static_cast<std::size_t>(x)] = number;
      const Wanted& wanted = palette[number - std::size_t{1}];
      for (std::size_t c = 0; c < 3; ++c) {
        const auto held = std::clamp(static_cast<std::int32_t>(amount[c]), low[c], high[c]);
        before[c] = last[c];
        error[c] = last[c] = held - wanted.v[c];
      }
    }
  }

  /// `due / divisor` to the nearest, half away from zero, plus `zero`.
  std::uint32_t wholly(std::int32_t due) const {
    const std::uint32_t divisor = kernel_.divisor();
    const std::int32_t half_down = divisor % 2 == 0 ? due >> 31 : 0;
    return static_cast<std::uint32_t>(due + half_down + static_cast<std::int32_t>(zero_ * divisor + divisor / 2)) /
           divisor;
  }
  /// The same of the part of `due` that the cell takes up.
  std::uint32_t partly(std::int32_t due, std::ptrdiff_t x) const {
    const std::int64_t parts = std::int64_t{kernel_.divisor()} * 4096 * 4096;
    const std::int64_t share = due * shares_.strength * taken_[static_cast<std::size_t>(x)];
    return static_cast<std::uint32_t>((share + (share < 0 ? -1 : 0) + parts * zero_ + parts / 2) / parts);
  }

  /// How much each cell of row `y` takes up of what it is owed, in parts of 4096.
  void find_edges(int y) {
    using Space = typename Axes::Space;
    constexpr std::int64_t full = Space::steps / 8;
    const auto point = [&](int x, int row) { return convert_colour<Space>(cells_.colours(x, row)).fixed(); };
    for (int x = 0; x < cells_.columns(); ++x) {
      const FixedPoint own = point(x, y);
      std::int64_t difference = 0;
      const auto look = [&](int other_x, int other_y) {
        if (other_x < 0 || other_x >= cells_.columns() || other_y < 0 || other_y >= cells_.rows()) return;
        if (cells_.laid(other_x, other_y) == 0) return;
        const FixedPoint other = point(other_x, other_y);
        difference = std::max<std::int64_t>(
            {difference, std::abs(other.x - own.x), std::abs(other.y - own.y), std::abs(other.z - own.z)});
      };
      look(x - 1, y);
      look(x + 1, y);
      look(x, y - 1);
      look(x, y + 1);
      taken_[static_cast<std::size_t>(x)] = 4096 - shares_.edges * std::min(difference, full) / full;
    }
  }

  const T& cells_;
  const Kernel kernel_;
  const DiffusionShares shares_;
  const NearestColour<typename Axes::Space> nearest_;
  std::vector<Wanted> wanted_;
  Amounts low_ = {};
  Amounts high_ = {};
  std::uint32_t zero_;
  typename Axes::Search search_;
  std::array<std::vector<std::int32_t>, 3> errors_;  // of the row above, the one before, and this one
  std::vector<std::int32_t> own_;
  std::vector<std::int32_t> owed_;
  std::vector<std::int64_t> taken_;
};

}  // namespace handlaid::detail
