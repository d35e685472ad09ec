#include "handlaid/solve/binomial.hpp"

#include <cmath>
#include <limits>

#include "support/catch.hpp"
#include "support/table.hpp"

using handlaid::binomial_quantile;
using handlaid::Error;
using handlaid::fewest_to_start;
using handlaid_test::contains;
using handlaid_test::Table;

TEST_CASE("quantiles of the binomial distribution equal scipy's") {
  const Table table("binomial.csv");  // scipy.stats.binom.ppf
  for (std::size_t row = 0; row < table.size(); ++row) {
    INFO("row " << row + 2);
    CHECK(binomial_quantile(table.whole(row, "n"), table.number(row, "p"), table.number(row, "confidence")) ==
          table.whole(row, "quantile"));
  }
}

TEST_CASE("a confidence just below a cumulative probability of the textbooks gives its x, just above the next") {
  const Table table("binomial_table.csv");  // standard statistics tables
  for (std::size_t row = 0; row < table.size(); ++row) {
    INFO("row " << row + 2);
    const int n = table.whole(row, "n");
    const double p = table.number(row, "p");
    const int x = table.whole(row, "x");
    const double cumulative = table.number(row, "cdf_exact");
    const double step = cumulative * 1e-4;
    CHECK(binomial_quantile(n, p, cumulative - step) == x);
    CHECK(binomial_quantile(n, p, cumulative + step) == x + 1);
    CHECK(std::abs(table.number(row, "cdf_4dp_textbook") - cumulative) < 5.1e-5);
    CHECK(std::abs(static_cast<double>(handlaid::chance_of_at_most(x, n, p)) / 1e9 - cumulative) < 2e-9);
  }
}

TEST_CASE("the fewest to start with equal scipy's") {
  const Table table("binomial_start.csv");  // scipy.stats.binom, each row confirmed by an integer programme
  for (std::size_t row = 0; row < table.size(); ++row) {
    INFO("row " << row + 2);
    CHECK(fewest_to_start(table.whole(row, "needed"), table.number(row, "loss"), table.number(row, "confidence")) ==
          table.whole(row, "start_with"));
  }
}

TEST_CASE("the fewest to start with is where the binomial quantile says so, and one less is not enough") {
  for (const std::int64_t needed : {1, 2, 5, 17, 100, 999, 16'700, 1'000'000, 10'000'000}) {
    for (const double loss : {0.001, 0.03, 0.2, 0.5, 0.9}) {
      for (const double confidence : {0.1, 0.5001, 0.9, 0.99, 0.999'999}) {
        INFO(needed << " needed, loss " << loss << ", confidence " << confidence);
        const std::int64_t start = fewest_to_start(needed, loss, confidence);
        CHECK(binomial_quantile(start, loss, confidence) <= start - needed);
        if (start > needed) CHECK(binomial_quantile(start - 1, loss, confidence) > start - 1 - needed);
      }
    }
  }
}

TEST_CASE("ties count as met") {
  CHECK(binomial_quantile(1, 0.1, 0.9) == 0);                                                  // P(X <= 0) = 0.9
  CHECK(binomial_quantile(2, 0.1, 0.81) == 0);                                                 // 0.9^2
  CHECK(binomial_quantile(3, 0.2, 0.512) == 0);                                                // 0.8^3
  CHECK(binomial_quantile(2, 0.5, 0.75) == 1);                                                 // 3 / 4
  CHECK(binomial_quantile(10, 0.5, 0.623046875) == 5);                                         // 638 / 1024
  for (int odd = 1; odd < 2000; odd += 2) CHECK(binomial_quantile(odd, 0.5, 0.5) == odd / 2);  // by symmetry
  CHECK(fewest_to_start(1, 0.1, 0.9) == 1);
  CHECK(fewest_to_start(1, 0.1, 0.99) == 2);
  CHECK(fewest_to_start(1, 0.1, 0.999) == 3);
  CHECK(fewest_to_start(1, 0.5, 0.984375) == 6);  // 1 - 2^-6
}

TEST_CASE("nothing asked for, nothing lost, all lost") {
  CHECK(binomial_quantile(0, 0.5, 0.9) == 0);
  CHECK(binomial_quantile(10, 0, 0.9) == 0);
  CHECK(binomial_quantile(10, 1, 0.9) == 10);
  CHECK(fewest_to_start(0, 0.5, 0.9) == 0);
  CHECK(fewest_to_start(10, 0, 0.9) == 10);
}

TEST_CASE("values out of range are refused by name") {
  const double not_a_number = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_WITH(fewest_to_start(-1, 0.1, 0.9), contains("needed: -1"));
  CHECK_THROWS_WITH(fewest_to_start(10'000'001, 0.1, 0.9), contains("0 to 10000000"));
  CHECK_THROWS_WITH(fewest_to_start(1, 1.0, 0.9), contains("loss"));
  CHECK_THROWS_WITH(fewest_to_start(1, -0.01, 0.9), contains("loss"));
  CHECK_THROWS_WITH(fewest_to_start(1, not_a_number, 0.9), contains("loss: not a number"));
  CHECK_THROWS_WITH(fewest_to_start(1, 0.1, 1.0), contains("confidence"));
  CHECK_THROWS_WITH(fewest_to_start(1, 0.1, 0.0), contains("confidence: 0"));
  CHECK_THROWS_WITH(fewest_to_start(1, 0.1, not_a_number), contains("confidence: not a number"));
  CHECK_THROWS_AS(binomial_quantile(2'000'000'000, 0.1, 0.9), Error);
  CHECK_THROWS_AS(binomial_quantile(1, 1.1, 0.9), Error);
}
