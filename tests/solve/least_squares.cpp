#include "handlaid/solve/least_squares.hpp"

#include <Eigen/Dense>
#include <array>

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::WithinAbs;

TEST_CASE("a straight line by hand") {
  // Through (0, 1), (1, 3), (2, 5) and (3, 10): slope 29/10, at 0 4/10.
  LeastSquares line(2);
  const double values[] = {1, 3, 5, 10};
  for (int x = 0; x < 4; ++x) line.add(std::array{1.0, static_cast<double>(x)}, values[x]);
  const auto found = line.solve();
  CHECK_THAT(found[0], WithinAbs(0.4, 1e-12));
  CHECK_THAT(found[1], WithinAbs(2.9, 1e-12));
}

TEST_CASE("random equations with weights give what Eigen gives") {
  Random random(4);
  const auto part = [&] { return static_cast<double>(random.below(2001)) / 1000 - 1; };
  Eigen::MatrixXd rows(60, 8);
  Eigen::VectorXd values(60);
  LeastSquares ours(8);
  for (int i = 0; i < 60; ++i) {
    std::array<double, 8> row = {};
    for (double& v : row) v = part();
    const double value = part();
    const double weight = part() + 1;
    ours.add(row, value, weight);
    for (int j = 0; j < 8; ++j) rows(i, j) = row[static_cast<std::size_t>(j)] * std::sqrt(weight);
    values(i) = value * std::sqrt(weight);
  }
  const Eigen::VectorXd theirs = rows.colPivHouseholderQr().solve(values);
  const auto found = ours.solve();
  for (int j = 0; j < 8; ++j) CHECK_THAT(found[static_cast<std::size_t>(j)], WithinAbs(theirs(j), 1e-10));
}

TEST_CASE("what no equation speaks of is 0") {
  LeastSquares none(3);
  none.add(std::array{1.0, 0.0, 1.0}, 6);
  const auto found = none.solve();
  CHECK_THAT(found[0] + found[2], WithinAbs(6, 1e-12));
  CHECK(found[1] == 0);
  CHECK_THAT(none.solve(1)[0], WithinAbs(2, 1e-12));  // by symmetry x = y, and 2x + y = 6
}
