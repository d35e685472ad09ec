// Check figures: two short numbers that tell whether a row of whole numbers was copied without a slip, and where a
// single slip stands. Two sums modulo a prime p, of the numbers c and of place times number:
//
//   sum = c1 + c2 + ... + cn,   weighted = 1 c1 + 2 c2 + ... + n cn   (mod p, numbers below p, n below p)
//
// They are the two syndromes of a shortened Reed-Solomon code of distance 3 (I. S. Reed, G. Solomon, "Polynomial codes
// over certain finite fields", Journal of the SIAM 8, 1960). Of a row of the same length
// - one wrong number d off changes `sum` by d, which is not 0 since 0 < |d| < p: always found;
// - numbers of places i and j swapped change `weighted` by (i - j)(cj - ci), a product of two factors that are not 0
//   modulo a prime: always found, neighbours or not;
// - two wrong numbers, d at place i and e at place j: both sums stay only if d + e = 0 and i d + j e = 0, so
//   (i - j) d = 0, which is not so: always found, so the share missed is 0;
// - with one wrong number, `weighted` changes by i d, so its place is i = (i d) / d modulo p.
// Three or more wrong numbers pass unseen about once in p^2. A row with one number more or fewer has another `length`.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// The figures of a row. Rows of another length have figures that cannot be compared.
struct CheckFigure {
  std::int64_t length = 0;
  int sum = 0;
  int weighted = 0;
  /// What the sums are taken by: `check_modulus(length)`.
  int modulus = 1'009;
  friend constexpr bool operator==(const CheckFigure&, const CheckFigure&) = default;
};

/// The longest row: places are told apart up to there.
inline constexpr std::int64_t longest_checked = 100'002;

/// The prime that a row of this length is checked by, the least of 1,009, 10,007 and 100,003 that is above the length.
constexpr int check_modulus(std::int64_t length) { return length < 1'009 ? 1'009 : length < 10'007 ? 10'007 : 100'003; }

/// The figures of a row of numbers from 0 to 1,008. Throws Error for a number beyond, or more than `longest_checked`.
template <class Number>
CheckFigure check_figure(std::span<const Number> row) {
  CheckFigure figure{.length = static_cast<std::int64_t>(row.size())};
  if (figure.length > longest_checked) {
    throw Error::out_of_range("row", std::to_string(row.size()) + " numbers", "at most 100002");
  }
  figure.modulus = check_modulus(figure.length);
  std::int64_t sum = 0;
  std::int64_t weighted = 0;
  std::int64_t place = 0;
  for (const Number number : row) {
    const auto value = static_cast<std::int64_t>(number);
    if (value < 0 || value > 1'008) throw Error::out_of_range("number", std::to_string(value), "0 to 1008");
    sum += value;
    weighted = (weighted + ++place * value) % figure.modulus;
  }
  figure.sum = static_cast<int>(sum % figure.modulus);
  figure.weighted = static_cast<int>(weighted);
  return figure;
}

/// A single wrong number: its place from 1, and by how much it is too large (below 0: too small).
struct SingleSlip {
  std::int64_t place = 0;
  int excess = 0;
  friend constexpr bool operator==(const SingleSlip&, const SingleSlip&) = default;
};

/// The only single wrong number that turns a row of the figures `wanted` into one of the figures `found`; none where
/// they are equal, the lengths differ, or no single number from 0 to `largest` explains it (then more than one is
/// wrong).
template <When = When::called>
std::optional<SingleSlip> locate_slip(const CheckFigure& wanted, const CheckFigure& found, int largest = 999);

/// "532-871", as it is printed and typed.
template <When = When::called>
std::string check_text(const CheckFigure& figure) {
  return std::to_string(figure.sum) + "-" + std::to_string(figure.weighted);
}

namespace detail {

/// base^exponent modulo a number below 2^17.
constexpr std::int64_t power_modulo(std::int64_t base, std::int64_t exponent, std::int64_t modulus) {
  std::int64_t result = 1;
  for (base %= modulus; exponent > 0; exponent /= 2, base = base * base % modulus) {
    if (exponent % 2 == 1) result = result * base % modulus;
  }
  return result;
}

}  // namespace detail

template <When>
std::optional<SingleSlip> locate_slip(const CheckFigure& wanted, const CheckFigure& found, int largest) {
  if (wanted.length != found.length || wanted.modulus != found.modulus) return {};
  const std::int64_t p = wanted.modulus;
  const std::int64_t off = (found.sum - wanted.sum + p) % p;
  const std::int64_t weighted = (found.weighted - wanted.weighted + p) % p;
  if (off == 0) return {};
  // Fermat: the inverse of a number is its (p - 2)nd power.
  const std::int64_t place = weighted * detail::power_modulo(off, p - 2, p) % p;
  if (place < 1 || place > wanted.length) return {};
  // Of the two that are `off` modulo p the smaller one; both are possible only where numbers reach past p / 2.
  const std::int64_t excess = off <= p - off ? off : off - p;
  if (excess > largest || -excess > largest) return {};
  return SingleSlip{place, static_cast<int>(excess)};
}

}  // namespace handlaid
