#include "handlaid/solve/check_figure.hpp"

#include <array>
#include <cstdint>
#include <vector>

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;

namespace {

using Digits = std::vector<std::uint16_t>;

CheckFigure figure_of(const Digits& row) { return check_figure(std::span<const std::uint16_t>(row)); }

// --- yardsticks ------------------------------------------------------------------------------------------------------

/// ISO/IEC 7812-1:2017, annex B: from the right every second digit, beginning with the last one, is doubled.
int luhn(const Digits& row) {
  int sum = 0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const int doubled = row[row.size() - 1 - i] * (i % 2 == 0 ? 2 : 1);
    sum += doubled / 10 + doubled % 10;
  }
  return sum % 10;
}

/// ISO/IEC 7064:2003, MOD 97-10: the row with two digits behind it is 1 modulo 97.
int mod_97_10(const Digits& row) {
  int rest = 0;
  for (const int digit : row) rest = (rest * 10 + digit) % 97;
  return (98 - rest * 100 % 97) % 97;
}

/// J. Verhoeff, "Error detecting decimal codes", Mathematical Centre Tracts 29, 1969: the dihedral group of order 10.
int verhoeff(const Digits& row) {
  const auto times = [](int a, int b) {
    if (a < 5) return b < 5 ? (a + b) % 5 : 5 + (a + b - 5) % 5;
    return b < 5 ? 5 + (a - 5 + 5 - b) % 5 : (a - b + 5) % 5;
  };
  constexpr std::array<int, 10> turn = {1, 5, 7, 6, 2, 8, 3, 0, 9, 4};
  int check = 0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    int digit = row[row.size() - 1 - i];
    for (std::size_t n = 0; n <= i; ++n) digit = turn[static_cast<std::size_t>(digit)];
    check = times(check, digit);
  }
  return check;
}

int pair(const Digits& row) {
  const CheckFigure figure = figure_of(row);
  return figure.sum * 10'007 + figure.weighted;
}

/// Missed slips of each kind, counted over all rows of four digits.
struct Missed {
  int singles = 0;
  int swaps = 0;
  int doubles = 0;
  int of_doubles = 0;
};
template <class Check>
Missed count_missed(const Check& check) {
  const auto row_of = [](int n) {
    Digits row;
    for (const int place : {1'000, 100, 10, 1}) row.push_back(static_cast<std::uint16_t>(n / place % 10));
    return row;
  };
  std::vector<int> checks;
  for (int n = 0; n < 10'000; ++n) checks.push_back(check(row_of(n)));
  Missed missed;
  for (int n = 0; n < 10'000; ++n) {
    const Digits row = row_of(n);
    std::array<int, 4> places = {1'000, 100, 10, 1};
    for (std::size_t i = 0; i < 4; ++i) {
      for (int d = 0; d < 10; ++d) {
        if (d == row[i]) continue;
        const int one = n + (d - row[i]) * places[i];
        missed.singles += checks[static_cast<std::size_t>(one)] == checks[static_cast<std::size_t>(n)];
        for (std::size_t j = i + 1; j < 4; ++j) {
          for (int e = 0; e < 10; ++e) {
            if (e == row[j]) continue;
            const auto two = static_cast<std::size_t>(one + (e - row[j]) * places[j]);
            ++missed.of_doubles;
            missed.doubles += checks[two] == checks[static_cast<std::size_t>(n)];
          }
        }
      }
      if (i == 3 || row[i] == row[i + 1]) continue;
      const int step = row[i + 1] - row[i];
      const auto swapped = static_cast<std::size_t>(n + step * places[i] - step * places[i + 1]);
      missed.swaps += checks[swapped] == checks[static_cast<std::size_t>(n)];
    }
  }
  return missed;
}

/// How many pairs of wrong numbers in a row of `length` numbers from 0 to `largest` a check misses, of how many: for
/// each two places and each two differences, times the rows that have room for them. `missed(i, j, d, e)`.
template <class Pass>
std::pair<double, double> doubles_missed(int length, int largest, const Pass& pass) {
  double missed = 0;
  double all = 0;
  for (int i = 1; i <= length; ++i) {
    for (int j = i + 1; j <= length; ++j) {
      const double room = static_cast<double>(largest) * (largest + 1);
      all += room * room;
      for (int d = -largest; d <= largest; ++d) {
        if (d == 0) continue;
        pass(i, j, d, [&](int e) {
          if (e == 0 || e > largest || -e > largest) return;
          missed += static_cast<double>(largest + 1 - std::abs(d)) * (largest + 1 - std::abs(e));
        });
      }
    }
  }
  return {missed, all};
}

}  // namespace

TEST_CASE("check figures beside published check digits, counted over all rows of four digits") {
  const Missed by_luhn = count_missed(luhn);
  CHECK(by_luhn.singles == 0);
  CHECK(by_luhn.swaps == 3 * 2 * 100);  // 09 for 90 and 90 for 09 at three places, any other two digits
  CHECK(by_luhn.doubles > by_luhn.of_doubles / 20);

  const Missed by_verhoeff = count_missed(verhoeff);
  CHECK(by_verhoeff.singles == 0);
  CHECK(by_verhoeff.swaps == 0);
  CHECK(by_verhoeff.doubles > by_verhoeff.of_doubles / 20);

  const Missed by_97 = count_missed(mod_97_10);
  CHECK(by_97.singles == 0);
  CHECK(by_97.swaps == 0);
  CHECK(by_97.doubles > by_97.of_doubles / 200);

  const Missed ours = count_missed(pair);
  CHECK(ours.singles == 0);
  CHECK(ours.swaps == 0);
  CHECK(ours.doubles == 0);
}

TEST_CASE("the yardsticks give the published check digits") {
  CHECK((10 - luhn({7, 9, 9, 2, 7, 3, 9, 8, 7, 1})) % 10 == 3);  // ISO/IEC 7812-1, annex B
  CHECK(mod_97_10({7, 9, 4}) == 44);                             // ISO/IEC 7064, 794 becomes 79444
}

TEST_CASE("of all pairs of wrong cells in a course of 420 and 255 colours none passes both figures") {
  constexpr int p = 1'009;
  static_assert(check_modulus(420) == p);
  // Both sums stay: d + e = 0 and i d + j e = 0 modulo p. The first leaves e = -d, for |d + e| is below p.
  const auto both = doubles_missed(420, 255, [&](int i, int j, int d, const auto& count) {
    if (((i - j) * d) % p == 0) count(-d);
  });
  CHECK(both.first == 0);
  CHECK(both.second > 3e14);
  // One weighted sum alone misses about one in p: e = -i d / j modulo p.
  std::array<int, p> inverse = {};
  for (int a = 1; a < p; ++a)
    inverse[static_cast<std::size_t>(a)] = static_cast<int>(detail::power_modulo(a, p - 2, p));
  const auto weighted = doubles_missed(60, 255, [&](int i, int j, int d, const auto& count) {
    const int e = ((-i * d % p + p) % p) * inverse[static_cast<std::size_t>(j)] % p;
    count(e);
    count(e - p);
  });
  const double share = weighted.first / weighted.second;
  CHECK(share > 1.0 / 1'100);
  CHECK(share < 1.0 / 900);
}

TEST_CASE("a single wrong number is found with its place and size, whatever the length") {
  Random random(5);
  for (const std::size_t length : {1U, 7U, 400U, 1'008U, 1'009U, 12'000U}) {
    Digits row;
    for (std::size_t i = 0; i < length; ++i) row.push_back(static_cast<std::uint16_t>(random.below(256)));
    const CheckFigure wanted = figure_of(row);
    for (int n = 0; n < 200; ++n) {
      const auto place = static_cast<std::size_t>(random.below(length));
      const auto number = static_cast<std::uint16_t>(random.below(256));
      if (number == row[place]) continue;
      Digits wrong = row;
      wrong[place] = number;
      const auto slip = locate_slip(wanted, figure_of(wrong), 255);
      REQUIRE(slip.has_value());
      REQUIRE(slip->place == static_cast<std::int64_t>(place) + 1);
      REQUIRE(slip->excess == number - row[place]);
    }
  }
}

TEST_CASE("what no single wrong number explains is not blamed on one") {
  const CheckFigure wanted = figure_of({3, 1, 4, 1, 5});
  CHECK(!locate_slip(wanted, wanted));
  CHECK(!locate_slip(wanted, figure_of({3, 1, 4, 1})));        // one dropped
  CHECK(!locate_slip(wanted, figure_of({3, 1, 4, 1, 5, 5})));  // one doubled
  CHECK(!locate_slip(wanted, figure_of({1, 3, 4, 1, 5})));     // two swapped
  CHECK(figure_of({1, 3, 4, 1, 5}) != wanted);
}

TEST_CASE("figures by hand, and rows that cannot be checked") {
  // 3 + 1 + 4 + 1 + 5 = 14; 1 x 3 + 2 x 1 + 3 x 4 + 4 x 1 + 5 x 5 = 46
  CHECK(check_text(figure_of({3, 1, 4, 1, 5})) == "14-46");
  CHECK(check_text(figure_of({})) == "0-0");
  CHECK(check_text(figure_of(Digits(3, 999))) == "979-949");  // 2997 - 2 x 1009, 5994 - 5 x 1009
  CHECK(check_modulus(1'008) == 1'009);
  CHECK(check_modulus(1'009) == 10'007);
  CHECK(check_modulus(100'000) == 100'003);
  CHECK_THROWS_WITH(figure_of({1'009}), contains("0 to 1008"));
  CHECK_THROWS_WITH(figure_of(Digits(100'003)), contains("at most 100002"));
}
