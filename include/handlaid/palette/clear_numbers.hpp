// How easily two numbers are taken for each other on paper, and two colours in the hand. Where both are likely at once
// a slip is laid and not seen; so colours that look alike should have numbers that do not. That shared curves (6 and
// 9), shared strokes (1 and 7) and openness (2 and 7) are what makes digits look alike is what P. M. Garrett et al.,
// "The cost of errors: confusion analysis and the mental representation of familiar and unfamiliar digits", found;
// exchanged neighbours, and digits left out or doubled, are among the kinds of slips that J. Verhoeff, "Error detecting
// decimal codes", Mathematical Centre Tracts 29, 1969, counted. The figures themselves are ours: common practice, no
// source.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/palette.hpp"

namespace handlaid {

/// How easily a digit is taken for another in print or handwriting, 0 to 100; 10 for two that have nothing in common.
constexpr int digit_confusion(int a, int b) {
  if (a == b) return 0;
  constexpr std::array<std::array<int, 3>, 21> pairs = {
      {{6, 9, 90}, {1, 7, 90}, {3, 8, 80}, {5, 6, 70}, {6, 8, 60}, {0, 6, 60}, {3, 5, 60},
       {4, 9, 60}, {8, 9, 50}, {0, 8, 50}, {2, 7, 50}, {0, 9, 40}, {5, 8, 40}, {1, 4, 40},
       {5, 9, 40}, {3, 9, 40}, {7, 9, 40}, {2, 3, 30}, {4, 7, 30}, {2, 5, 30}, {2, 8, 20}}};
  for (const auto& [p, q, likely] : pairs) {
    if ((a == p && b == q) || (a == q && b == p)) return likely;
  }
  return 10;
}

/// How easily a number is taken for another, 0 to 100, both 1 to 999: one digit misread (as `digit_confusion`), several
/// (the product of their shares), digits exchanged as 12 and 21 (60), the paper upside down as 16 and 91 (70), a digit
/// left out or added as 7 and 17 (30). Of several ways the likeliest counts.
template <When = When::called>
int numeral_confusion(int a, int b);

/// How much alike two colours look, 1,000 for the same one: half of it at a distance of 0.06 in Oklab, about five steps
/// of CIEDE2000, and falling with the square beyond.
constexpr std::int64_t colour_likeness(const FixedPoint& a, const FixedPoint& b) {
  constexpr std::int64_t half = std::int64_t{983} * 983;  // 0.06 x 16,384, squared
  return 1'000 * half / (half + squared_distance(a, b));
}

namespace detail {

/// The number as it reads upside down, empty where it is none.
template <When = When::called>
std::string upside_down(const std::string& number) {
  std::string turned;
  for (std::size_t i = number.size(); i-- > 0;) {
    constexpr std::array<char, 10> turn = {'0', '1', ' ', ' ', ' ', ' ', '9', ' ', '8', '6'};
    const char digit = turn[static_cast<std::size_t>(number[i] - '0')];
    if (digit == ' ') return {};
    turned += digit;
  }
  return turned;
}

/// Whether the longer one without one of its digits is the shorter one.
template <When = When::called>
bool one_digit_more(const std::string& longer, const std::string& shorter) {
  if (longer.size() != shorter.size() + 1) return false;
  for (std::size_t i = 0; i < longer.size(); ++i) {
    std::string rest = longer;
    rest.erase(i, 1);
    if (rest == shorter) return true;
  }
  return false;
}

}  // namespace detail

template <When>
int numeral_confusion(int a, int b) {
  if (a == b) return 0;
  const std::string p = std::to_string(a);
  const std::string q = std::to_string(b);
  int likely = 0;
  if (p.size() == q.size()) {
    int share = 100;
    for (std::size_t i = 0; i < p.size(); ++i) {
      if (p[i] != q[i]) share = share * digit_confusion(p[i] - '0', q[i] - '0') / 100;
    }
    likely = share;
    for (std::size_t i = 1; i < p.size(); ++i) {
      std::string exchanged = p;
      std::swap(exchanged[i - 1], exchanged[i]);
      if (exchanged == q) likely = std::max(likely, 60);
    }
    if (detail::upside_down(p) == q) likely = std::max(likely, p.size() == 1 ? 90 : 70);
  }
  if (detail::one_digit_more(p, q) || detail::one_digit_more(q, p)) likely = std::max(likely, 30);
  return likely;
}

}  // namespace handlaid
