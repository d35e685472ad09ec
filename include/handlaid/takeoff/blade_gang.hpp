// A gang of blades on an arbor, rolled by hand: which spacers go into each gap so that every blade cuts where it
// should. Spacers are reckoned by what a caliper says of them. Nominal ones drift: washers of 1.6 mm are 1.4 to 1.8 mm
// thick (ISO 7089, M8; from memory), and thirty of them in a row can be 6 mm out. Each gap is filled from where the
// last blade really stands, so that no error is carried on. `BladeGang{…}(pitch, pieces_per_cell)`
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/square_root.hpp"
#include "handlaid/takeoff/cutting.hpp"

namespace handlaid {

/// Spacers of one measured thickness.
struct Spacer {
  Length thickness = {};
  /// How many there are.
  int count = 0;
  friend constexpr bool operator==(const Spacer&, const Spacer&) = default;
};

/// One blade on the arbor.
struct GangBlade {
  /// From the middle of the first blade to where this one should stand, and where its middle really does.
  Length wanted = {};
  Length stands = {};
  /// In the gap before it, one count for each kind of spacer; empty for the first blade.
  std::vector<int> spacers = {};
  Length error() const { return stands - wanted; }
  friend bool operator==(const GangBlade&, const GangBlade&) = default;
};

/// A gang as it is put together.
struct Gang {
  std::vector<GangBlade> blades = {};
  std::vector<Spacer> spacers = {};
  Length blade_thickness = {};
  Length largest_error = {};
  /// Why there are no more blades: the hand, the arbor, the spacers or what was asked for.
  std::string limit = {};

  /// From the outside of the first blade to the outside of the last one.
  Length width() const { return blades.empty() ? Length{} : blades.back().stands + blade_thickness; }
  /// Passes along a strip with so many cuts: the first blade of a pass runs in the last cut of the one before, so that
  /// each pass is guided by the cut that stands already, and one blade of each pass but the first cuts nothing.
  std::int64_t passes(std::int64_t cuts) const {
    const auto count = static_cast<std::int64_t>(blades.size());
    if (cuts <= 0 || count == 0) return 0;
    if (count == 1) return cuts;
    return cuts <= count ? 1 : 1 + (cuts - count + count - 2) / (count - 1);
  }
  /// How many cuts so many passes could make.
  std::int64_t reach(std::int64_t passes) const {
    const auto count = static_cast<std::int64_t>(blades.size());
    if (passes <= 0 || count == 0) return 0;
    return count == 1 ? passes : count + (passes - 1) * (count - 1);
  }
  friend bool operator==(const Gang&, const Gang&) = default;
};

/// How far a round blade cuts behind and before its lowest point at the upper face of what it is pressed into: half the
/// chord of its rim, the root of depth times (diameter - depth).
template <When = When::called>
Length cut_behind(Length diameter, Length depth) {
  if (depth <= Length{} || depth >= diameter || diameter > 10'000 * mm) return {};
  return Length::from_um(static_cast<std::int64_t>(nearest_square_root(
      static_cast<std::uint64_t>(depth.um()) * static_cast<std::uint64_t>((diameter - depth).um()))));
}

/// Options of a gang.
struct BladeGang {
  /// Of one blade, as measured; 0.01…20 mm. 0.4 mm is usual for rotary blades: common practice, no source.
  Length blade_thickness = Length::from_um(400);
  /// Across a blade, for the order; 45 mm is usual for rotary blades: common practice, no source.
  Length blade_diameter = 45 * mm;
  /// What there is to fill the gaps with, at most 8 kinds of at most 1,000 pieces, each 0.01…100 mm thick. Empty: no
  /// gang.
  std::vector<Spacer> spacers = {};
  /// Room on the arbor for blades and spacers.
  Length arbor_length = 60 * mm;
  /// Blades at most; 2…64.
  int most_blades = 8;
  /// Force for one blade, and of a hand that rolls steadily, in newtons: common practice, no source; try it.
  double newtons_a_blade = 12;
  double newtons_of_hand = 100;
  friend bool operator==(const BladeGang&, const BladeGang&) = default;

  /// Throws Error for numbers out of range, blades as thick as a piece is wide, and spacers that cannot fill a gap to
  /// within half a millimetre.
  template <When = When::called>
  Gang operator()(Length pitch, int pieces_per_cell) const;
};

namespace detail {

/// A blade that stands further off is left out.
inline constexpr Length largest_gang_error = Length::from_um(500);

/// Every thickness that a stack of spacers can have, to the micrometre, with the stack of fewest spacers.
template <When = When::called>
class SpacerStacks {
 public:
  SpacerStacks(const std::vector<Spacer>& spacers, Length longest) : spacers_(spacers) {
    const auto sums = static_cast<std::size_t>(longest.um()) + 1;
    fewest_.assign(sums, none);
    fewest_[0] = 0;
    used_.assign(sums * spacers.size(), 0);
    for (std::size_t kind = 0; kind < spacers.size(); ++kind) {
      const auto thick = static_cast<std::size_t>(spacers[kind].thickness.um());
      for (std::size_t sum = thick; sum < sums; ++sum) {
        const std::uint16_t before = fewest_[sum - thick];
        const std::uint16_t used = used_[(sum - thick) * spacers.size() + kind];
        if (before == none || used >= spacers[kind].count || before + 1 >= fewest_[sum]) continue;
        fewest_[sum] = static_cast<std::uint16_t>(before + 1);
        for (std::size_t k = 0; k < spacers.size(); ++k) {
          used_[sum * spacers.size() + k] = used_[(sum - thick) * spacers.size() + k];
        }
        used_[sum * spacers.size() + kind] = static_cast<std::uint16_t>(used + 1);
      }
    }
  }
  /// The stack of fewest spacers that is at most `tolerance` from `wanted`, the nearest of equals, the thinner one of
  /// those; where there is none, the nearest of all.
  std::vector<int> near(Length wanted, Length tolerance, Length& thickness) const {
    const auto size = static_cast<std::int64_t>(fewest_.size());
    std::int64_t best = -1;
    std::uint16_t best_count = none;
    for (std::int64_t off = 0; off < size && (off <= tolerance.um() || best < 0); ++off) {
      for (const std::int64_t sum : {wanted.um() - off, wanted.um() + off}) {
        if (sum < 0 || sum >= size || fewest_[static_cast<std::size_t>(sum)] >= best_count) continue;
        best = sum;
        best_count = fewest_[static_cast<std::size_t>(sum)];
      }
    }
    if (best < 0) return {};
    thickness = Length::from_um(best);
    const auto first = used_.begin() + best * static_cast<std::int64_t>(spacers_.size());
    return {first, first + static_cast<std::int64_t>(spacers_.size())};
  }

 private:
  static constexpr std::uint16_t none = 65'535;
  const std::vector<Spacer>& spacers_;
  std::vector<std::uint16_t> fewest_ = {};
  std::vector<std::uint16_t> used_ = {};
};

template <When = When::called>
void check_gang(const BladeGang& options, Length piece) {
  const auto text = [](Length length) { return to_text(length, LengthUnit::millimetres); };
  if (options.blade_thickness < Length::from_um(10) || options.blade_thickness > 20 * mm) {
    throw Error::out_of_range("blade-thickness", text(options.blade_thickness), "0.01 mm to 20 mm");
  }
  if (options.blade_thickness >= piece) {
    throw Error::bad_option(
        "blade-thickness",
        text(options.blade_thickness) + " leaves no room between cuts that are " + text(piece) + " apart",
        "take blades under " + text(piece) + ", or fewer pieces a cell");
  }
  if (options.arbor_length <= Length{} || options.arbor_length > 1'000 * mm) {
    throw Error::out_of_range("arbor-length", text(options.arbor_length), "above 0 and at most 1 m");
  }
  if (options.most_blades < 2 || options.most_blades > 64) {
    throw Error::out_of_range("most-blades", std::to_string(options.most_blades), "2 to 64 blades");
  }
  if (!(options.newtons_a_blade >= 0.1 && options.newtons_a_blade <= 10'000 && options.newtons_of_hand >= 0.1 &&
        options.newtons_of_hand <= 10'000)) {
    throw Error::out_of_range("force", "the value given", "0.1 to 10000 N");
  }
  if (options.spacers.empty() || options.spacers.size() > 8) {
    throw Error::out_of_range("spacer", std::to_string(options.spacers.size()) + " kinds", "1 to 8 kinds of spacers");
  }
  for (const Spacer& spacer : options.spacers) {
    if (spacer.thickness < Length::from_um(10) || spacer.thickness > 100 * mm || spacer.count < 1 ||
        spacer.count > 1'000) {
      throw Error::out_of_range("spacer", std::to_string(spacer.count) + " of " + text(spacer.thickness),
                                "1 to 1000 of 0.01 mm to 100 mm");
    }
  }
}

/// Fills gap after gap from where the last blade stands, each to within the tolerance with as few spacers as can be.
template <When = When::called>
Gang fill_gaps(const BladeGang& options, Length pitch, int pieces_per_cell, int by_hand, Length tolerance) {
  Gang gang{.blades = {{}}, .spacers = options.spacers, .blade_thickness = options.blade_thickness};
  std::vector<Spacer> left = options.spacers;
  for (int i = 1;; ++i) {
    gang.limit = "the number that was asked for";
    if (i == options.most_blades) break;
    gang.limit = "the force of the hand";
    if (i == by_hand) break;
    const Length wanted = cut_at(i, pitch, pieces_per_cell);
    gang.limit = "the length of the arbor";
    if (wanted + options.blade_thickness > options.arbor_length) break;
    const Length last = gang.blades.back().stands;
    const Length gap = wanted - last - options.blade_thickness;
    gang.limit = "the spacers";
    if (gap <= Length{}) break;
    Length stack;
    std::vector<int> taken = SpacerStacks(left, gap.times(2)).near(gap, tolerance, stack);
    GangBlade blade{.wanted = wanted, .stands = last + stack + options.blade_thickness, .spacers = std::move(taken)};
    const Length error = blade.error() < Length{} ? blade.error().times(-1) : blade.error();
    if (error > largest_gang_error) break;
    for (std::size_t k = 0; k < left.size(); ++k) left[k].count -= blade.spacers[k];
    gang.largest_error = std::max(gang.largest_error, error);
    gang.blades.push_back(std::move(blade));
  }
  return gang;
}

}  // namespace detail

template <When>
Gang BladeGang::operator()(Length pitch, int pieces_per_cell) const {
  const Length piece = pitch.divided(pieces_per_cell);
  detail::check_gang(*this, piece);
  const auto text = [](Length length) { return to_text(length, LengthUnit::millimetres); };
  if (piece + blade_thickness > arbor_length) {
    throw Error::bad_option(
        "arbor-length",
        text(arbor_length) + " is less than the " + text(piece + blade_thickness) +
            " of two blades and the gap between them",
        "take an arbor of " + text(piece + blade_thickness) + " or longer, or cut with knife and guide");
  }
  const auto by_hand = static_cast<int>(newtons_of_hand / newtons_a_blade);
  if (by_hand < 2) {
    const auto newtons = [](double force) {  // rounded up to a tenth
      const auto tenths = (static_cast<std::int64_t>(force * 160.0) + 15) / 16;
      return std::to_string(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10)) + " N";
    };
    throw Error::bad_option(
        "newtons-of-hand",
        newtons(newtons_of_hand) + " are the force for fewer than two blades of " + newtons(newtons_a_blade) + " each",
        "it takes " + newtons(newtons_a_blade * 2) + "; take thinner blades, or cut with knife and guide");
  }
  // A fine tolerance may use up the thin spacers before the last gap: what serves all gaps best is tried out.
  Gang best;
  for (const std::int64_t um : {5, 10, 20, 30, 50, 75, 100, 150, 200, 300, 500}) {
    Gang gang = detail::fill_gaps(*this, pitch, pieces_per_cell, by_hand, Length::from_um(um));
    if (gang.blades.size() > best.blades.size() ||
        (gang.blades.size() == best.blades.size() && gang.largest_error < best.largest_error)) {
      best = std::move(gang);
    }
  }
  if (best.blades.size() < 2) {
    const std::string gap = text(piece - blade_thickness);
    throw Error::bad_option("spacer",
                            "no stack of them comes within " + text(detail::largest_gang_error) + " of the gap of " +
                                gap + " between two blades",
                            "add spacers or thin shims that make " + gap + " together, or cut with knife and guide");
  }
  return best;
}

}  // namespace handlaid
