// The cheapest mix of pack sizes that covers a need: an unbounded knapsack, turned round, solved exactly.
// First the packs of the best value are taken that every best mix must hold, then a table over sums does the rest.
// Least numbers of packs are the business of solve/pack_mix.
#pragma once

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <span>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// A size that can be bought any number of times, or not at all.
struct PackSize {
  /// 1…1,000,000,000.
  std::int64_t pieces = 1;
  /// In the smallest unit of money, 0…1,000,000,000.
  std::int64_t price = 0;
  /// Where any are bought, at least so many, 1…1,000,000.
  std::int64_t at_least = 1;
  friend constexpr bool operator==(const PackSize&, const PackSize&) = default;
};

/// The most sizes that one colour can be sold in.
inline constexpr std::int64_t most_pack_sizes = 64;

/// `cheapest_mix` without a look at `PackSize::at_least`; `need` is 0…1,000,000,000 and not checked again.
template <When = When::called>
std::vector<std::int64_t> cheapest_free_mix(std::int64_t need, std::span<const PackSize> sizes);

namespace detail {

/// A size on its way through the search, with its place in the caller's list.
struct MixSize {
  std::int64_t pieces = 0;
  std::int64_t price = 0;
  std::size_t place = 0;
};

/// Checks the sizes and gives them largest first, one for each number of pieces, the cheaper one.
template <When = When::called>
std::vector<MixSize> distinct_sizes(std::span<const PackSize> sizes) {
  constexpr std::int64_t most = 1'000'000'000;
  if (sizes.empty()) throw Error::bad_option("packs", "there is no pack size", "give at least one");
  if (sizes.size() > most_pack_sizes) {
    throw Error::out_of_range("packs", std::to_string(sizes.size()) + " pack sizes", "at most 64");
  }
  std::vector<MixSize> list;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (sizes[i].pieces < 1 || sizes[i].pieces > most) {
      throw Error::out_of_range("pack size", std::to_string(sizes[i].pieces), "1 to 1000000000 pieces");
    }
    if (sizes[i].price < 0 || sizes[i].price > most) {
      throw Error::out_of_range("pack price", std::to_string(sizes[i].price), "0 to 1000000000");
    }
    list.push_back({sizes[i].pieces, sizes[i].price, i});
  }
  std::sort(list.begin(), list.end(), [](const MixSize& a, const MixSize& b) {
    if (a.pieces != b.pieces) return a.pieces > b.pieces;
    if (a.price != b.price) return a.price < b.price;
    return a.place < b.place;
  });
  const auto same = [](const MixSize& a, const MixSize& b) { return a.pieces == b.pieces; };
  list.erase(std::unique(list.begin(), list.end(), same), list.end());
  return list;
}

/// The size with the least price a piece, the larger one of equals. `list` is largest first.
inline const MixSize& best_value(const std::vector<MixSize>& list) {
  const MixSize* best = &list.front();
  for (const MixSize& size : list) {
    if (size.price * best->pieces < best->price * size.pieces) best = &size;
  }
  return *best;
}

/// What a mix costs and of how many packs it is.
struct MixValue {
  std::int64_t price = 0;
  std::int64_t packs = 0;
};
template <When = When::called>
MixValue value_of(const std::vector<MixSize>& list, const std::vector<std::int64_t>& counts) {
  MixValue value;
  for (const MixSize& size : list) {
    value.price += counts[size.place] * size.price;
    value.packs += counts[size.place];
  }
  return value;
}

/// The most pieces that a best mix can have in sizes other than `best`, where `known` is the value of some mix.
/// Of one other size there are fewer than best / gcd, or as many could be changed for packs of `best` that hold the
/// same and are better. And what they cost beyond the best value, piece for piece, is at most what `known` does; where
/// that is nothing, the same goes for packs.
template <When = When::called>
std::int64_t most_in_other_sizes(std::int64_t need, const std::vector<MixSize>& list, const MixSize& best,
                                 const MixValue& known) {
  const std::int64_t price_slack = known.price * best.pieces - best.price * need;
  const std::int64_t pack_slack = known.packs * best.pieces - need;
  constexpr std::int64_t limit = std::int64_t{1} << 40;  // beyond any need it does not matter how far
  std::int64_t pieces = 0;
  std::int64_t largest = 0;
  for (const MixSize& size : list) {
    if (size.pieces == best.pieces) continue;
    largest = std::max(largest, size.pieces);
    std::int64_t count = best.pieces / std::gcd(size.pieces, best.pieces) - 1;
    const std::int64_t price_beyond = size.price * best.pieces - best.price * size.pieces;
    if (price_beyond > 0) {
      count = std::min(count, price_slack / price_beyond);
    } else if (price_slack == 0) {
      count = std::min(count, pack_slack / (best.pieces - size.pieces));
    }
    pieces = std::min(limit, pieces + (count > limit / size.pieces ? limit : count * size.pieces));
  }
  // Of as many packs as `best` has pieces, some hold a multiple of it together, whatever their sizes.
  return largest > limit / best.pieces ? pieces : std::min(pieces, (best.pieces - 1) * largest);
}

/// Adds to `counts` the best mix for `need` pieces, by the best price and number of packs for each exact sum.
template <When = When::called>
void mix_by_table(std::int64_t need, const std::vector<MixSize>& list, std::vector<std::int64_t>& counts) {
  // A size that is enough by itself is in a best mix only by itself.
  const MixSize* alone = nullptr;
  std::vector<MixSize> small;
  for (const MixSize& size : list) {
    if (size.pieces < need) {
      small.push_back(size);
    } else if (alone == nullptr || size.price <= alone->price) {
      alone = &size;
    }
  }
  if (small.empty()) {
    ++counts[alone->place];
    return;
  }
  constexpr std::int64_t most_sums = 50'000'000;
  const std::int64_t sums = need + small.front().pieces;
  if (sums > most_sums) {
    throw Error::out_of_range("need", std::to_string(need) + " pieces in packs of such sizes", "a smaller need");
  }
  // Price, number of packs and, lowest, the place of the last size stand in one number, so that the least of two is the
  // better one. `never` stands for sums that no mix has, or whose price is beyond all reason.
  constexpr std::int64_t never = std::int64_t{1} << 61;
  constexpr std::int64_t places = most_pack_sizes;
  const std::int64_t most_packs = sums / small.back().pieces + 1;
  const auto key_of = [&](std::int64_t price) {
    return price > (never / places - 1) / most_packs - 1 ? never : (price * most_packs + 1) * places;
  };
  struct Step {
    std::size_t pieces;
    std::int64_t key;
  };
  std::vector<Step> steps;
  for (const MixSize& size : small) {
    steps.push_back(
        {static_cast<std::size_t>(size.pieces), key_of(size.price) + static_cast<std::int64_t>(steps.size())});
  }
  // Only the last sums are looked up again: they go round in a ring. Of all sums the last size is kept.
  std::size_t ring_size = 1;
  while (ring_size <= steps.front().pieces) ring_size *= 2;
  std::vector<std::int64_t> ring(ring_size, never);
  std::vector<std::uint8_t> last(static_cast<std::size_t>(sums));
  ring[0] = 0;
  std::int64_t best = alone != nullptr ? key_of(alone->price) : never;
  std::size_t best_sum = 0;  // where `alone` is best
  for (std::size_t sum = 1; sum < last.size(); ++sum) {
    std::int64_t least = never;
    for (const Step& step : steps) {
      const std::int64_t key = ring[(sum - step.pieces) & (ring_size - 1)] + step.key;
      least = key < least ? key : least;
    }
    last[sum] = static_cast<std::uint8_t>(least % places);
    least -= least % places;
    ring[sum & (ring_size - 1)] = least;
    if (static_cast<std::int64_t>(sum) >= need && least < best) {
      best = least;
      best_sum = sum;
    }
  }
  if (best == never) {
    throw Error::out_of_range("need", std::to_string(need) + " pieces at such prices", "a smaller need or price");
  }
  if (best_sum == 0) ++counts[alone->place];
  while (best_sum > 0) {
    const MixSize& size = small[last[best_sum]];
    best_sum -= static_cast<std::size_t>(size.pieces);
    ++counts[size.place];
  }
}

}  // namespace detail

template <When>
std::vector<std::int64_t> cheapest_free_mix(std::int64_t need, std::span<const PackSize> sizes) {
  std::vector<detail::MixSize> list = detail::distinct_sizes(sizes);
  std::int64_t common = 0;
  for (const detail::MixSize& size : list) common = std::gcd(common, size.pieces);
  for (detail::MixSize& size : list) size.pieces /= common;
  need = (need + common - 1) / common;

  // `others` is the most that a best mix can have in other sizes than the one of best value: so much is left to the
  // table, the rest is sure. A first guess gives a mix good enough to prove that there is no more, or not much more.
  const detail::MixSize best = detail::best_value(list);
  std::vector<std::int64_t> counts(sizes.size(), 0);
  counts[best.place] = (need + best.pieces - 1) / best.pieces;
  std::int64_t others = detail::most_in_other_sizes(need, list, best, detail::value_of(list, counts));
  std::int64_t guess = std::min(others, std::max<std::int64_t>(100 * best.pieces, 20'000));
  for (;;) {
    std::fill(counts.begin(), counts.end(), 0);
    const std::int64_t sure = need > guess ? (need - guess) / best.pieces : 0;
    counts[best.place] = sure;
    if (need > sure * best.pieces) detail::mix_by_table(need - sure * best.pieces, list, counts);
    if (guess >= others) return counts;
    others = std::min(others, detail::most_in_other_sizes(need, list, best, detail::value_of(list, counts)));
    if (guess >= others) return counts;
    guess = others;
  }
}

}  // namespace handlaid
