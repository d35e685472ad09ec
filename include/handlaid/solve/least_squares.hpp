// Weighted least squares with few unknowns, equation by equation: the normal equations, solved by Cholesky's method
// (G. H. Golub, C. F. Van Loan, "Matrix Computations", 4th edition, 2013, algorithm 4.2.1).
#pragma once

#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// The x for which the sum of weight (row x - value)^2 is least. Fit for some tens of unknowns of about one size: the
/// error grows with the square of the condition of the rows.
class LeastSquares {
 public:
  explicit LeastSquares(std::size_t unknowns) : n_(unknowns), a_(unknowns * unknowns), b_(unknowns) {}

  /// Adds an equation: as many factors as unknowns; weight 0 or more.
  void add(std::span<const double> row, double value, double weight = 1) {
    for (std::size_t i = 0; i < n_; ++i) {
      const double w = weight * row[i];
      for (std::size_t j = 0; j <= i; ++j) a_[i * n_ + j] += w * row[j];
      b_[i] += w * value;
    }
  }
  /// `ridge` of 0 or more is added to the diagonal: it draws unknowns that the equations say little of towards 0.
  /// Unknowns that they say nothing of are 0.
  template <When = When::called>
  std::vector<double> solve(double ridge = 0) const {
    std::vector<double> l = a_;
    std::vector<double> x = b_;
    for (std::size_t i = 0; i < n_; ++i) l[i * n_ + i] += ridge;
    for (std::size_t i = 0; i < n_; ++i) {
      const double whole = l[i * n_ + i];
      for (std::size_t j = 0; j <= i; ++j) {
        double sum = l[i * n_ + j];
        for (std::size_t k = 0; k < j; ++k) sum -= l[i * n_ + k] * l[j * n_ + k];
        if (j < i) {
          l[i * n_ + j] = l[j * n_ + j] > 0 ? sum / l[j * n_ + j] : 0;
        } else {
          l[i * n_ + i] = sum > 1e-13 * whole ? std::sqrt(sum) : 0;
        }
      }
    }
    for (std::size_t i = 0; i < n_; ++i) {
      for (std::size_t k = 0; k < i; ++k) x[i] -= l[i * n_ + k] * x[k];
      x[i] = l[i * n_ + i] > 0 ? x[i] / l[i * n_ + i] : 0;
    }
    for (std::size_t i = n_; i-- > 0;) {
      for (std::size_t k = i + 1; k < n_; ++k) x[i] -= l[k * n_ + i] * x[k];
      x[i] = l[i * n_ + i] > 0 ? x[i] / l[i * n_ + i] : 0;
    }
    return x;
  }

 private:
  std::size_t n_ = 0;
  std::vector<double> a_ = {};
  std::vector<double> b_ = {};
};

}  // namespace handlaid
