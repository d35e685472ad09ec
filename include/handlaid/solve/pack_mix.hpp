// The cheapest mix of pack sizes that covers a need, where a shop may sell a size only from a least number on.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/free_pack_mix.hpp"

namespace handlaid {

/// The most sizes of one colour that may have a least number above 1.
inline constexpr std::size_t most_least_numbers = 6;

/// How many of each size, in the order given, so that together they hold at least `need` pieces, for the least price.
/// Ties go to the fewest packs, then to the least left over, then to more of the largest size, of the second largest…;
/// of two equal sizes at one price the first is used.
/// Throws Error when there is no size or more than `most_pack_sizes`, one is out of range, `need` is not
/// 0…1,000,000,000, or the table would have over 50 million sums (sizes of many thousands without a common divisor).
template <When = When::called>
std::vector<std::int64_t> cheapest_mix(std::int64_t need, std::span<const PackSize> sizes);

namespace detail {

/// Whether mix `a` is better than mix `b`: less money, then fewer packs, then fewer pieces, then more large ones.
template <When = When::called>
bool better_mix(std::span<const PackSize> sizes, const std::vector<std::int64_t>& a,
                const std::vector<std::int64_t>& b) {
  std::int64_t price = 0;
  std::int64_t packs = 0;
  std::int64_t pieces = 0;
  std::vector<std::size_t> differing;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const std::int64_t more = a[i] - b[i];
    if (more != 0) differing.push_back(i);
    price += more * sizes[i].price;
    packs += more;
    pieces += more * sizes[i].pieces;
  }
  if (price != 0) return price < 0;
  if (packs != 0) return packs < 0;
  if (pieces != 0) return pieces < 0;
  std::stable_sort(differing.begin(), differing.end(),
                   [&](std::size_t i, std::size_t j) { return sizes[i].pieces > sizes[j].pieces; });
  return !differing.empty() && a[differing.front()] > b[differing.front()];
}

/// Tries each choice of the sizes with a least number: those chosen are bought that often, the rest is a free mix.
template <When = When::called>
std::vector<std::int64_t> mix_with_least_numbers(std::int64_t need, std::span<const PackSize> sizes,
                                                 const std::vector<std::size_t>& limited) {
  std::vector<std::int64_t> best;
  for (std::uint32_t chosen = 0; chosen < 1U << limited.size(); ++chosen) {
    std::vector<bool> left_out(sizes.size(), false);
    std::vector<std::int64_t> counts(sizes.size(), 0);
    std::int64_t rest = need;
    for (std::size_t i = 0; i < limited.size(); ++i) {
      const std::size_t place = limited[i];
      left_out[place] = (chosen >> i & 1U) == 0;
      if (left_out[place]) continue;
      counts[place] = sizes[place].at_least;
      rest -= std::min(rest, counts[place] > rest ? rest : counts[place] * sizes[place].pieces);
    }
    std::vector<PackSize> free;
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      if (left_out[i]) continue;
      free.push_back(sizes[i]);
      places.push_back(i);
    }
    if (free.empty() && rest > 0) continue;
    if (rest > 0) {
      const std::vector<std::int64_t> more = handlaid::cheapest_free_mix(rest, free);
      for (std::size_t i = 0; i < more.size(); ++i) counts[places[i]] += more[i];
    }
    if (best.empty() || better_mix(sizes, counts, best)) best = std::move(counts);
  }
  return best;
}

}  // namespace detail

template <When>
std::vector<std::int64_t> cheapest_mix(std::int64_t need, std::span<const PackSize> sizes) {
  if (need < 0 || need > 1'000'000'000) {
    throw Error::out_of_range("need", std::to_string(need), "0 to 1000000000 pieces");
  }
  std::vector<std::size_t> limited;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (sizes[i].at_least < 1 || sizes[i].at_least > 1'000'000) {
      throw Error::out_of_range("least number of packs", std::to_string(sizes[i].at_least), "1 to 1000000");
    }
    if (sizes[i].at_least > 1) limited.push_back(i);
  }
  detail::distinct_sizes(sizes);  // refuses what is out of range, even where it would not be bought
  if (limited.empty() || need == 0) return cheapest_free_mix(need, sizes);
  if (limited.size() > most_least_numbers) {
    throw Error::out_of_range("packs", std::to_string(limited.size()) + " pack sizes with a least number", "at most 6");
  }
  return detail::mix_with_least_numbers(need, sizes, limited);
}

}  // namespace handlaid
