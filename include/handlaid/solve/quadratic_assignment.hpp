// Places for things so that those with much to do with each other lie at little cost: the quadratic assignment problem
// (T. C. Koopmans, M. Beckmann, "Assignment problems and the location of economic activities", Econometrica 25, 1957).
// Exact for few things; for many the best exchanges of two are made until none helps, from several starts (R. E.
// Burkard, F. Rendl, "A thermodynamically motivated simulation procedure for combinatorial optimization problems",
// European Journal of Operational Research 17, 1984, has the change of cost by an exchange).
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/random.hpp"
#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// A symmetric table of whole numbers, 0 or more, with nothing on its diagonal.
class PairTable {
 public:
  explicit PairTable(std::size_t size) : size_(size), values_(size * size) {}
  std::size_t size() const { return size_; }
  std::int64_t operator()(std::size_t a, std::size_t b) const { return values_[a * size_ + b]; }
  void set(std::size_t a, std::size_t b, std::int64_t value) {
    if (a != b) values_[a * size_ + b] = values_[b * size_ + a] = value;
  }

 private:
  std::size_t size_ = 0;
  std::vector<std::int64_t> values_ = {};
};

/// Which place each thing has, and what that costs: the sum over all pairs of traffic times cost between their places.
struct PlacesFound {
  std::vector<std::size_t> places = {};
  std::int64_t cost = 0;
  /// Whether no other places are cheaper.
  bool proven = false;
  friend bool operator==(const PlacesFound&, const PlacesFound&) = default;
};

/// How long is searched, in steps and not in time: the same answer on every machine.
struct PlacesEffort {
  /// Up to so many things that may move all ways are tried, less those that cannot be cheaper.
  std::size_t exact_up_to = 9;
  /// Looks at one other thing while an exchange is weighed up.
  std::int64_t steps = 100'000'000;
  /// Starts of the exchanges, the first from where things are.
  int starts = 12;
};

/// Places for all things, none dearer than where they are (thing i at place i); of as cheap ones the first found.
/// Things whose `fixed` is set stay; `fixed` is empty where all may move. Sums must stay below 2^63.
/// Throws Error where the tables and the list are not of one size.
template <When = When::called>
PlacesFound cheapest_places(const PairTable& traffic, const PairTable& cost, const std::vector<bool>& fixed = {},
                            const PlacesEffort& effort = {});

namespace detail {

template <When = When::called>
class PlacesSearch {
 public:
  PlacesSearch(const PairTable& traffic, const PairTable& cost, const std::vector<bool>& fixed)
      : traffic_(traffic), cost_(cost), n_(traffic.size()) {
    for (std::size_t i = 0; i < n_; ++i) {
      best_.places.push_back(i);
      (!fixed.empty() && fixed[i] ? still_ : free_).push_back(i);
    }
    best_.cost = total(best_.places);
  }

  template <When = When::called>
  PlacesFound solve(const PlacesEffort& effort) {
    if (free_.size() <= effort.exact_up_to) {
      places_ = best_.places;
      taken_.assign(n_, false);
      for (const std::size_t i : still_) taken_[i] = true;
      std::int64_t cost = 0;
      for (std::size_t i = 0; i < still_.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) cost += at(still_[i], still_[j]);
      }
      place(0, cost);
      best_.proven = true;
      return best_;
    }
    left_ = effort.steps;
    Random random(1);
    for (int start = 0; start < effort.starts && left_ > 0; ++start) {
      places_ = best_.places;
      if (start > 0) {  // the best so far with a quarter of it stirred
        for (std::size_t n = 0; n < free_.size() / 8 + 2; ++n) {
          const std::size_t a = free_[static_cast<std::size_t>(random.below(free_.size()))];
          std::swap(places_[a], places_[free_[static_cast<std::size_t>(random.below(free_.size()))]]);
        }
      }
      exchange();
    }
    return best_;
  }

 private:
  std::int64_t at(std::size_t a, std::size_t b) const { return traffic_(a, b) * cost_(places_[a], places_[b]); }
  std::int64_t total(const std::vector<std::size_t>& places) const {
    std::int64_t sum = 0;
    for (std::size_t a = 0; a < n_; ++a) {
      for (std::size_t b = 0; b < a; ++b) sum += traffic_(a, b) * cost_(places[a], places[b]);
    }
    return sum;
  }

  /// Every way to place the free things from number `depth` on; `cost` is of those that have their place.
  template <When = When::called>
  void place(std::size_t depth, std::int64_t cost) {
    if (cost >= best_.cost) return;
    if (depth == free_.size()) {
      best_.cost = cost;
      best_.places = places_;
      return;
    }
    const std::size_t thing = free_[depth];
    for (const std::size_t where : free_) {
      if (taken_[where]) continue;
      taken_[where] = true;
      places_[thing] = where;
      std::int64_t more = cost;
      for (const std::size_t other : still_) more += at(thing, other);
      for (std::size_t i = 0; i < depth; ++i) more += at(thing, free_[i]);
      place(depth + 1, more);
      taken_[where] = false;
    }
  }

  /// What an exchange of two adds to the cost.
  std::int64_t change(std::size_t a, std::size_t b) const {
    const std::size_t p = places_[a];
    const std::size_t q = places_[b];
    std::int64_t sum = 0;
    for (std::size_t c = 0; c < n_; ++c) {
      if (c == a || c == b) continue;
      sum += (traffic_(a, c) - traffic_(b, c)) * (cost_(q, places_[c]) - cost_(p, places_[c]));
    }
    return sum;
  }

  template <When = When::called>
  void exchange() {
    std::int64_t cost = total(places_);
    for (bool better = true; better;) {
      better = false;
      for (std::size_t i = 0; i < free_.size(); ++i) {
        for (std::size_t j = i + 1; j < free_.size(); ++j) {
          left_ -= static_cast<std::int64_t>(n_);
          if (left_ < 0) break;
          const std::int64_t added = change(free_[i], free_[j]);
          if (added >= 0) continue;
          std::swap(places_[free_[i]], places_[free_[j]]);
          cost += added;
          better = true;
        }
      }
    }
    if (cost < best_.cost) best_ = {.places = places_, .cost = cost};
  }

  const PairTable& traffic_;
  const PairTable& cost_;
  std::size_t n_ = 0;
  std::vector<std::size_t> free_ = {};
  std::vector<std::size_t> still_ = {};
  std::vector<std::size_t> places_ = {};
  std::vector<bool> taken_ = {};
  std::int64_t left_ = 0;
  PlacesFound best_ = {};
};

}  // namespace detail

template <When>
PlacesFound cheapest_places(const PairTable& traffic, const PairTable& cost, const std::vector<bool>& fixed,
                            const PlacesEffort& effort) {
  if (traffic.size() != cost.size() || (!fixed.empty() && fixed.size() != cost.size())) {
    throw Error::bad_option("places", "the tables are not of one size", "give a row for each thing and place");
  }
  return detail::PlacesSearch(traffic, cost, fixed).solve(effort);
}

}  // namespace handlaid
