// The fewest edits that make one row of numbers of another: a number changed, one too many, one missing, or two
// neighbours swapped. So a row in which one number was dropped is one slip, not a slip at every place behind it.
// The distance is that of F. Damerau, "A technique for computer detection and correction of spelling errors", CACM
// 7(3), 1964, where no place is edited twice; filled in as by R. Wagner, M. Fischer, "The string-to-string correction
// problem", Journal of the ACM 21(1), 1974.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "handlaid/core/when_called.hpp"

namespace handlaid {

enum class EditKind {
  changed,  ///< the number is another one
  extra,    ///< a number that should not be there
  missing,  ///< a number that should be there
  swapped   ///< this one and the next have changed places
};

/// One edit. Places count from 1; that of `extra` is in the row found and `wanted_place` is where it was met.
struct Edit {
  EditKind kind = EditKind::changed;
  std::int64_t found_place = 0;
  std::int64_t wanted_place = 0;
  friend constexpr bool operator==(const Edit&, const Edit&) = default;
};

/// The fewest edits, in the order of their places; of as few, changes come before swaps, these before extra and missing
/// numbers. Above `most_steps` (the product of what is left of the lengths when equal ends are taken off) rows are
/// compared place by place, and what one is longer by is extra or missing at its end.
template <class Number>
std::vector<Edit> fewest_edits(std::span<const Number> found, std::span<const Number> wanted,
                               std::int64_t most_steps = 25'000'000);

namespace detail {

template <class Number>
std::vector<Edit> edits_place_by_place(std::span<const Number> found, std::span<const Number> wanted) {
  std::vector<Edit> edits;
  for (std::size_t i = 0; i < std::max(found.size(), wanted.size()); ++i) {
    const auto place = static_cast<std::int64_t>(i) + 1;
    if (i >= found.size()) {
      edits.push_back({EditKind::missing, place, place});
    } else if (i >= wanted.size()) {
      edits.push_back({EditKind::extra, place, place});
    } else if (found[i] != wanted[i]) {
      edits.push_back({EditKind::changed, place, place});
    }
  }
  return edits;
}

}  // namespace detail

template <class Number>
std::vector<Edit> fewest_edits(std::span<const Number> found, std::span<const Number> wanted, std::int64_t most_steps) {
  std::size_t same = 0;  // at the beginning
  while (same < std::min(found.size(), wanted.size()) && found[same] == wanted[same]) ++same;
  std::size_t n = found.size() - same;
  std::size_t m = wanted.size() - same;
  while (n > 0 && m > 0 && found[same + n - 1] == wanted[same + m - 1]) --n, --m;
  if (static_cast<std::int64_t>(n) * static_cast<std::int64_t>(m) > most_steps) {
    return detail::edits_place_by_place(found, wanted);
  }
  const auto f = [&](std::size_t i) { return found[same + i - 1]; };
  const auto w = [&](std::size_t j) { return wanted[same + j - 1]; };
  std::vector<std::int32_t> cost((n + 1) * (m + 1));
  const auto at = [&](std::size_t i, std::size_t j) -> std::int32_t& { return cost[i * (m + 1) + j]; };
  const auto swapped = [&](std::size_t i, std::size_t j) {
    return i > 1 && j > 1 && f(i) == w(j - 1) && f(i - 1) == w(j) && f(i) != f(i - 1);
  };
  for (std::size_t i = 0; i <= n; ++i) {
    for (std::size_t j = 0; j <= m; ++j) {
      if (i == 0 || j == 0) {
        at(i, j) = static_cast<std::int32_t>(i + j);
        continue;
      }
      std::int32_t least = at(i - 1, j - 1) + (f(i) == w(j) ? 0 : 1);
      least = std::min({least, at(i - 1, j) + 1, at(i, j - 1) + 1});
      if (swapped(i, j)) least = std::min(least, at(i - 2, j - 2) + 1);
      at(i, j) = least;
    }
  }
  std::vector<Edit> edits;
  std::size_t i = n;
  std::size_t j = m;
  const auto add = [&](EditKind kind, std::size_t found_at, std::size_t wanted_at) {
    edits.push_back({kind, static_cast<std::int64_t>(same + found_at), static_cast<std::int64_t>(same + wanted_at)});
  };
  while (i > 0 || j > 0) {
    if (i > 0 && j > 0 && f(i) == w(j) && at(i, j) == at(i - 1, j - 1)) {
      --i, --j;
    } else if (i > 0 && j > 0 && at(i, j) == at(i - 1, j - 1) + 1 && f(i) != w(j)) {
      add(EditKind::changed, i--, j--);
    } else if (swapped(i, j) && at(i, j) == at(i - 2, j - 2) + 1) {
      add(EditKind::swapped, i - 1, j - 1);
      i -= 2, j -= 2;
    } else if (i > 0 && at(i, j) == at(i - 1, j) + 1) {
      add(EditKind::extra, i, j + 1);
      --i;
    } else {
      add(EditKind::missing, i + 1, j);
      --j;
    }
  }
  std::reverse(edits.begin(), edits.end());
  return edits;
}

}  // namespace handlaid
