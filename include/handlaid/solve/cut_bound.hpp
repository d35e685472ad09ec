// Lower bounds on the number of stock lengths: no way of cutting takes fewer.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/cut_patterns.hpp"

namespace handlaid::detail {

/// By the sum of the pieces, and by those too long to share a stock length: bound L2 of S. Martello, P. Toth, "Lower
/// bounds and reduction procedures for the bin packing problem", Discrete Applied Mathematics 28, 1990.
template <When = When::called>
std::int64_t bound_by_sums(const CutJob& job) {
  const std::int64_t capacity = job.capacity;
  std::int64_t best = (job.total() + capacity - 1) / capacity;
  for (std::size_t k = 0; k < job.kinds(); ++k) {
    const std::int64_t least = job.sizes[k];
    if (2 * least > capacity) continue;
    std::int64_t alone = 0;    // no piece of `least` or more fits beside
    std::int64_t half = 0;     // more than half a stock length
    std::int64_t room = 0;     // beside those
    std::int64_t smaller = 0;  // sum of the others, from `least` on
    for (std::size_t i = 0; i < job.kinds() && job.sizes[i] >= least; ++i) {
      if (job.sizes[i] > capacity - least) {
        alone += job.counts[i];
      } else if (2 * job.sizes[i] > capacity) {
        half += job.counts[i];
        room += job.counts[i] * (capacity - job.sizes[i]);
      } else {
        smaller += job.counts[i] * job.sizes[i];
      }
    }
    const std::int64_t more = smaller > room ? (smaller - room + capacity - 1) / capacity : 0;
    best = std::max(best, alone + half + more);
  }
  std::int64_t long_ones = 0;
  for (std::size_t i = 0; i < job.kinds(); ++i) long_ones += 2 * job.sizes[i] > capacity ? job.counts[i] : 0;
  return std::max(best, long_ones);
}

/// A pattern and how often a fractional plan uses it, in parts of `CutRelaxation::unit`.
struct WeightedPattern {
  CutCounts counts = {};
  std::int64_t weight = 0;
};

/// The linear relaxation by columns (P. Gilmore, R. Gomory, "A linear programming approach to the cutting-stock
/// problem", Operations Research 9, 1961), by the simplex method in fixed point. Rounding may cost it a little of the
/// bound, never its truth: each bound is proven anew from whole prices of the pieces by the pattern of greatest value
/// (A. Farley, "A note on bounding a class of linear programming problems", Operations Research 38, 1990).
template <When = When::called>
class CutRelaxation {
 public:
  static constexpr std::int64_t unit = 1 << 20;

  explicit CutRelaxation(const CutJob& job) : job_(job), kinds_(job.kinds()) {
    inverse_.assign(kinds_, std::vector<std::int64_t>(kinds_, 0));
    for (std::size_t i = 0; i < kinds_; ++i) {
      const std::int64_t fits = std::min(job.counts[i], job.capacity / job.sizes[i]);
      WeightedPattern alone{.counts = CutCounts(kinds_)};
      alone.counts[i] = fits;
      alone.weight = job.counts[i] * unit / fits;
      inverse_[i][i] = unit / fits;
      basis_.push_back(std::move(alone));
    }
  }

  /// Works until the bound is found, proves `enough`, or the budget is spent.
  template <When = When::called>
  void solve(std::int64_t enough, CutBudget& budget) {
    for (std::size_t round = 0; round < 50 * kinds_ + 100 && bound_ < enough && !budget.spent(); ++round) {
      std::vector<std::int64_t> prices(kinds_, 0);
      for (std::size_t i = 0; i < kinds_; ++i) {
        for (std::size_t j = 0; j < kinds_; ++j) prices[i] += basis_[j].counts.empty() ? 0 : inverse_[j][i];
      }
      const auto lowest = std::min_element(prices.begin(), prices.end());
      WeightedPattern entering;
      std::vector<std::int64_t> column(kinds_, 0);
      if (*lowest < -tolerance) {  // making more than is asked for pays
        const auto i = static_cast<std::size_t>(lowest - prices.begin());
        for (std::size_t j = 0; j < kinds_; ++j) column[j] = -inverse_[j][i];
      } else {
        for (std::int64_t& price : prices) price = std::max<std::int64_t>(price, 0);
        const BestPattern best = PatternKnapsack(job_, prices).solve(budget);
        prove(prices, best.bound);
        if (best.value <= unit + tolerance) return;
        entering.counts = best.counts;
        for (std::size_t j = 0; j < kinds_; ++j) {
          for (std::size_t i = 0; i < kinds_; ++i) column[j] += inverse_[j][i] * best.counts[i];
        }
      }
      if (!pivot(std::move(entering), column)) return;
    }
  }

  std::int64_t bound() const { return bound_; }
  /// The plan as it stands; surplus is left out.
  std::vector<WeightedPattern> patterns() const {
    std::vector<WeightedPattern> used;
    for (const WeightedPattern& pattern : basis_) {
      if (!pattern.counts.empty() && pattern.weight > 0) used.push_back(pattern);
    }
    return used;
  }

 private:
  static constexpr std::int64_t tolerance = 256;
  static constexpr std::int64_t largest = std::int64_t{1} << 31;  // the product of two still fits

  void prove(const std::vector<std::int64_t>& prices, std::int64_t most) {
    std::int64_t worth = 0;
    for (std::size_t i = 0; i < kinds_; ++i) worth += prices[i] * job_.counts[i];
    if (most > 0) bound_ = std::max(bound_, (worth + most - 1) / most);
  }

  /// Takes the column into the basis; false where fixed point has no more room for it.
  bool pivot(WeightedPattern entering, const std::vector<std::int64_t>& column) {
    std::size_t leaving = kinds_;
    std::int64_t least = 0;
    for (std::size_t j = 0; j < kinds_; ++j) {
      if (std::abs(column[j]) >= largest) return false;
      if (column[j] <= tolerance) continue;
      const std::int64_t ratio = basis_[j].weight / column[j] * unit + basis_[j].weight % column[j] * unit / column[j];
      if (leaving == kinds_ || ratio < least) {
        least = ratio;
        leaving = j;
      }
    }
    if (leaving == kinds_ || least >= largest * 256) return false;
    const std::int64_t at = column[leaving];
    std::vector<std::int64_t>& row = inverse_[leaving];
    for (std::int64_t& value : row) {
      value = value * unit / at;
      if (std::abs(value) >= largest) return false;
    }
    for (std::size_t j = 0; j < kinds_; ++j) {
      if (j == leaving || column[j] == 0) continue;
      for (std::size_t i = 0; i < kinds_; ++i) {
        inverse_[j][i] -= column[j] * row[i] / unit;
        if (std::abs(inverse_[j][i]) >= largest) return false;
      }
      const std::int64_t change = least / unit * column[j] + least % unit * column[j] / unit;
      basis_[j].weight = std::max<std::int64_t>(basis_[j].weight - change, 0);
    }
    entering.weight = least;
    basis_[leaving] = std::move(entering);
    return true;
  }

  const CutJob& job_;
  std::size_t kinds_;
  std::vector<WeightedPattern> basis_ = {};
  std::vector<std::vector<std::int64_t>> inverse_ = {};
  std::int64_t bound_ = 0;
};

}  // namespace handlaid::detail
