// Patterns of pieces that fit on one stock length: the best by value, and all that waste little. A kerf between pieces
// is taken in by adding one to every piece and to the stock length, so that only sums are left. All in whole numbers;
// effort is counted in steps, never in time.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "handlaid/core/when_called.hpp"

namespace handlaid::detail {

/// A cutting job with the kerf taken in: sizes, longest first, and how many of each.
struct CutJob {
  std::int64_t capacity = 0;
  std::vector<std::int64_t> sizes = {};
  std::vector<std::int64_t> counts = {};

  std::size_t kinds() const { return sizes.size(); }
  std::int64_t total() const {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < kinds(); ++i) sum += sizes[i] * counts[i];
    return sum;
  }
  bool done() const {
    return std::all_of(counts.begin(), counts.end(), [](std::int64_t count) { return count == 0; });
  }
};

/// How many of each kind stand on one stock length.
using CutCounts = std::vector<std::int64_t>;

/// Steps that may still be taken.
struct CutBudget {
  std::int64_t steps = 0;
  bool take() { return --steps >= 0; }
  bool spent() const { return steps < 0; }
};

/// The pattern of the greatest value, and a value that none exceeds: the same where the search was finished.
struct BestPattern {
  CutCounts counts = {};
  std::int64_t value = 0;
  std::int64_t bound = 0;
};

/// Branch and bound over the kinds by value for their size.
template <When = When::called>
class PatternKnapsack {
 public:
  /// Values are 0…2^31.
  PatternKnapsack(const CutJob& job, const std::vector<std::int64_t>& values) : job_(job), values_(values) {
    for (std::size_t i = 0; i < job.kinds(); ++i) {
      if (values[i] > 0 && job.counts[i] > 0) order_.push_back(i);
    }
    std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
      // By quotients in 2^16 steps: exact cross products of lengths and values could overflow, and any order is right.
      return (values[a] << 16) / job.sizes[a] > (values[b] << 16) / job.sizes[b];
    });
    current_.resize(job.kinds());
  }

  BestPattern solve(CutBudget& budget) {
    best_ = {.counts = CutCounts(job_.kinds()), .value = 0, .bound = 0};
    for (const std::size_t i : order_) {  // the start, in case the steps do not last
      const std::int64_t fits = std::min(job_.counts[i], job_.capacity / job_.sizes[i]);
      best_.bound = std::max(best_.bound, fits * values_[i]);
    }
    const std::int64_t optimistic = most_beyond(0, job_.capacity);
    search(0, job_.capacity, 0, budget);
    best_.bound = budget.spent() ? optimistic : best_.value;
    return best_;
  }

 private:
  /// No more value than this can come from the kinds from `at` on: as if the best of them could be cut in parts.
  std::int64_t most_beyond(std::size_t at, std::int64_t room) const {
    std::int64_t value = 0;
    for (; at < order_.size(); ++at) {
      const std::size_t i = order_[at];
      const std::int64_t fits = room / job_.sizes[i];
      if (fits < job_.counts[i]) {
        return value + fits * values_[i] + (room - fits * job_.sizes[i]) * 1'000 / job_.sizes[i] * values_[i] / 1'000 +
               values_[i] / 1'000 + 1;
      }
      value += job_.counts[i] * values_[i];
      room -= job_.counts[i] * job_.sizes[i];
    }
    return value;
  }

  void search(std::size_t at, std::int64_t room, std::int64_t value, CutBudget& budget) {
    if (!budget.take()) return;
    if (value > best_.value) {
      best_.value = value;
      best_.counts = current_;
    }
    if (at == order_.size() || value + most_beyond(at, room) <= best_.value) return;
    const std::size_t i = order_[at];
    for (std::int64_t n = std::min(job_.counts[i], room / job_.sizes[i]); n >= 0 && !budget.spent(); --n) {
      current_[i] = n;
      search(at + 1, room - n * job_.sizes[i], value + n * values_[i], budget);
    }
    current_[i] = 0;
  }

  const CutJob& job_;
  const std::vector<std::int64_t>& values_;
  std::vector<std::size_t> order_ = {};
  CutCounts current_ = {};
  BestPattern best_ = {};
};

/// The pattern that wastes least of one stock length and has the longest piece that is left; of equals the first one
/// found with long pieces first.
template <When = When::called>
class FullestPattern {
 public:
  explicit FullestPattern(const CutJob& job) : job_(job), current_(job.kinds()), rest_(job.kinds() + 1) {
    for (std::size_t i = job.kinds(); i-- > 0;) rest_[i] = rest_[i + 1] + job.sizes[i] * job.counts[i];
  }

  CutCounts solve(CutBudget budget) {
    std::size_t longest = 0;
    while (job_.counts[longest] == 0) ++longest;
    best_room_ = job_.capacity + 1;
    current_[longest] = 1;
    search(longest, job_.capacity - job_.sizes[longest], longest, budget);
    return best_;
  }

 private:
  void search(std::size_t at, std::int64_t room, std::size_t longest, CutBudget& budget) {
    if (!budget.take() && best_room_ <= job_.capacity) return;
    if (room < best_room_) {
      best_room_ = room;
      best_ = current_;
    }
    if (best_room_ == 0 || at == job_.kinds() || room - rest_[at] >= best_room_) return;
    const std::int64_t placed = at == longest ? 1 : 0;
    const std::int64_t most = std::min(job_.counts[at] - placed, room / job_.sizes[at]);
    for (std::int64_t n = most; n >= 0 && best_room_ > 0; --n) {
      current_[at] = n + placed;
      search(at + 1, room - n * job_.sizes[at], longest, budget);
      if (budget.spent()) break;
    }
    current_[at] = placed;
  }

  const CutJob& job_;
  CutCounts current_;
  std::vector<std::int64_t> rest_;
  CutCounts best_ = {};
  std::int64_t best_room_ = 0;
};

}  // namespace handlaid::detail
