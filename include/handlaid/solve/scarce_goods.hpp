// Goods that fall short: for each, any mixture of buying packs and letting other goods stand in, at the least total,
// exactly. Branch and bound (A. Land, A. Doig, An Automatic Method of Solving Discrete Programming Problems,
// Econometrica 28(3), 1960): what packs cost is bounded from below by a convex line, whose best answer is one flow of
// least cost; where packs truly cost more, the number bought is split in two.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <queue>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/solve/min_cost_flow.hpp"
#include "handlaid/solve/pack_mix.hpp"
#include "handlaid/solve/pack_steps.hpp"

namespace handlaid {

/// One good, with places that ask for it. Each place takes `per_place` units of one good.
struct ScarceGood {
  /// Units in hand, 0 to 10^9.
  std::int64_t in_hand = 0;
  /// Places that ask for it, 0 to 10^8: no more can be given another good.
  std::int64_t places = 0;
  /// Whether it can be given to places that ask for another good.
  bool stands_in = true;
  /// Empty where it cannot be bought.
  std::vector<PackSize> packs = {};
};

struct ScarceGoods {
  std::vector<ScarceGood> goods = {};
  /// 1 to 1000.
  std::int64_t per_place = 1;
  /// At `from * goods + to`: what it counts for when a place of `from` is given `to`, in thousandths of the unit of
  /// money, 0 to 10^12.
  std::vector<std::int64_t> change_thousandths = {};
  /// The search ends after so many flows, 1 to 1,000,000, with a bound in the place of a proof.
  int most_flows = 2'000;
};

/// Places of one good that are given another.
struct GoodsChange {
  std::size_t from = 0;
  std::size_t to = 0;
  std::int64_t places = 0;
  friend constexpr bool operator==(const GoodsChange&, const GoodsChange&) = default;
};

struct GoodsPlan {
  /// Units of each good that must be bought; the packs are `cheapest_mix` of it.
  std::vector<std::int64_t> to_buy = {};
  /// By `from`, then by `to`.
  std::vector<GoodsChange> changes = {};
  /// Money and changes, in thousandths of the unit of money.
  std::int64_t total_thousandths = 0;
  /// No plan can be below; the total itself where it is proven to be the least.
  std::int64_t bound_thousandths = 0;

  bool proven() const { return bound_thousandths == total_thousandths; }
  friend bool operator==(const GoodsPlan&, const GoodsPlan&) = default;
};

/// The plan of the least total; nothing where the goods cannot be had: what cannot be bought asks for more than all
/// others have over. The same plan in every build. Throws Error for numbers out of range.
template <When = When::called>
std::optional<GoodsPlan> cheapest_goods(const ScarceGoods& problem);

namespace detail {

/// A part of the search: so many places' worth of each good are bought, from `least` to `most`.
struct GoodsNode {
  std::int64_t bound = 0;
  std::int64_t made = 0;  ///< the how-manieth it was, for ties
  std::vector<std::int64_t> least = {};
  std::vector<std::int64_t> most = {};
  std::vector<std::int64_t> bought = {};                           ///< in its best flow
  friend bool operator<(const GoodsNode& a, const GoodsNode& b) {  // the smallest bound comes out of a queue first
    return a.bound != b.bound ? a.bound > b.bound : a.made > b.made;
  }
};

template <When = When::called>
class GoodsSearch {
 public:
  explicit GoodsSearch(const ScarceGoods& problem) : problem_(problem), count_(problem.goods.size()) {
    check();
    for (const ScarceGood& good : problem.goods) {
      const std::int64_t over = good.in_hand - good.places * problem.per_place;
      // Whole places' worth that are over, rounded down, and the units beside them.
      const std::int64_t whole =
          over >= 0 ? over / problem.per_place : -((problem.per_place - 1 - over) / problem.per_place);
      over_.push_back(whole);
      steps_.emplace_back(good.packs, problem.per_place, over - whole * problem.per_place);
      wanted_ += std::max<std::int64_t>(-whole, 0);
    }
  }

  std::optional<GoodsPlan> run() {
    add_moves();
    std::priority_queue<GoodsNode> open;
    GoodsNode root{.least = std::vector<std::int64_t>(count_, 0), .most = {}};
    for (const ScarceGood& good : problem_.goods) root.most.push_back(good.packs.empty() ? 0 : wanted_);
    add(open, std::move(root));
    while (best_ && !open.empty() && open.top().bound < best_->total_thousandths) {
      const GoodsNode node = open.top();
      if (made_ + 2 > problem_.most_flows) break;
      open.pop();
      split(open, node);
    }
    if (!best_) return {};
    best_->bound_thousandths = best_->total_thousandths;
    if (!open.empty()) best_->bound_thousandths = std::min(best_->bound_thousandths, open.top().bound);
    return best_;
  }

 private:
  /// All arcs but those of buying: what is over, what is short, and places that change.
  void add_moves() {
    for (std::size_t g = 0; g < count_; ++g) {
      const int in = static_cast<int>(g);
      if (over_[g] > 0) moves_.push_back({in, sink(), over_[g], 0});
      if (over_[g] < 0) moves_.push_back({source(), in, -over_[g], 0});
      const std::int64_t places = problem_.goods[g].places;
      if (places == 0) continue;
      const int out = static_cast<int>(count_ + g);
      moves_.push_back({in, out, places, 0});
      for (std::size_t to = 0; to < count_; ++to) {
        if (to == g || !problem_.goods[to].stands_in) continue;
        moves_.push_back({out, static_cast<int>(to), places, problem_.change_thousandths[g * count_ + to]});
      }
    }
  }

  /// The best flow where buying goes along these lines; what is bought goes to `bought`. Keeps the plan that the flow
  /// stands for if it is the best one yet. Nothing where the goods cannot be had.
  std::optional<std::int64_t> flow_cost(const std::vector<PackLine>& lines, const std::vector<std::int64_t>& most,
                                        std::vector<std::int64_t>& bought) {
    std::vector<FlowArc> arcs;
    for (std::size_t g = 0; g < count_; ++g) {
      arcs.push_back({static_cast<int>(g), sink(), lines[g].free, 0});
      arcs.push_back({static_cast<int>(g), sink(), most[g] - lines[g].free, lines[g].each});
    }
    arcs.insert(arcs.end(), moves_.begin(), moves_.end());
    ++made_;
    const Flow flow = min_cost_flow(sink() + 1, arcs, source(), sink(), wanted_);
    if (flow.amount < wanted_) return {};
    GoodsPlan plan;
    bought.clear();
    for (std::size_t g = 0; g < count_; ++g) {
      bought.push_back(flow.carried[2 * g] + flow.carried[2 * g + 1]);
      plan.to_buy.push_back(steps_[g].units(bought.back()));
      plan.total_thousandths += steps_[g].price(bought.back());
    }
    for (std::size_t i = 2 * count_; i < arcs.size(); ++i) {
      const auto from = static_cast<std::size_t>(arcs[i].from);
      if (flow.carried[i] == 0 || from < count_ || from >= 2 * count_) continue;
      plan.changes.push_back({from - count_, static_cast<std::size_t>(arcs[i].to), flow.carried[i]});
      plan.total_thousandths += flow.carried[i] * arcs[i].cost;
    }
    if (!best_ || plan.total_thousandths < best_->total_thousandths) best_ = std::move(plan);
    return flow.cost;
  }

  /// Finds the best flow of a part and puts the part in the queue.
  void add(std::priority_queue<GoodsNode>& open, GoodsNode node) {
    std::vector<PackLine> lines;
    for (std::size_t g = 0; g < count_; ++g) {
      lines.push_back(steps_[g].line(node.least[g], node.most[g]));
      node.bound += steps_[g].price(node.least[g]);
    }
    const std::optional<std::int64_t> cost = flow_cost(lines, node.most, node.bought);
    if (!cost) return;
    node.bound += *cost;
    node.made = made_;
    if (node.bound < best_->total_thousandths) open.push(std::move(node));
  }

  /// Splits a part at the good whose packs cost most beyond what the flow says, at the first number of that price.
  void split(std::priority_queue<GoodsNode>& open, const GoodsNode& node) {
    std::size_t widest = 0;
    std::int64_t gap = -1;
    for (std::size_t g = 0; g < count_; ++g) {
      if (node.bought[g] <= node.least[g]) continue;
      const PackLine line = steps_[g].line(node.least[g], node.most[g]);
      const std::int64_t said =
          steps_[g].price(node.least[g]) + std::max<std::int64_t>(node.bought[g] - line.free, 0) * line.each;
      const std::int64_t beyond = steps_[g].price(node.bought[g]) - said;
      if (beyond <= gap) continue;
      gap = beyond;
      widest = g;
    }
    const std::int64_t price = steps_[widest].price(node.bought[widest]);
    std::int64_t below = node.least[widest];
    std::int64_t first = node.bought[widest];
    while (first - below > 1) {
      const std::int64_t middle = below + (first - below) / 2;
      (steps_[widest].price(middle) == price ? first : below) = middle;
    }
    GoodsNode lower{.least = node.least, .most = node.most};
    GoodsNode upper = lower;
    lower.most[widest] = first - 1;
    upper.least[widest] = first;
    add(open, std::move(lower));
    add(open, std::move(upper));
  }

  int source() const { return static_cast<int>(2 * count_); }
  int sink() const { return source() + 1; }

  void check() const {
    if (problem_.per_place < 1 || problem_.per_place > 1'000) {
      throw Error::out_of_range("per place", std::to_string(problem_.per_place), "1 to 1000");
    }
    if (problem_.most_flows < 1 || problem_.most_flows > 1'000'000) {
      throw Error::out_of_range("most flows", std::to_string(problem_.most_flows), "1 to 1000000");
    }
    if (problem_.change_thousandths.size() != count_ * count_) {
      throw Error::bad_option("changes", "they are not one for each pair of goods", "give goods × goods of them");
    }
    for (const ScarceGood& good : problem_.goods) {
      if (good.in_hand < 0 || good.in_hand > 1'000'000'000 || good.places < 0 || good.places > 100'000'000) {
        throw Error::bad_option("goods",
                                "there are " + std::to_string(good.in_hand) + " units in hand for " +
                                    std::to_string(good.places) + " places",
                                "give 0 to 10^9 units and 0 to 10^8 places");
      }
      if (!good.packs.empty()) cheapest_mix(0, good.packs);  // refuses packs out of range
    }
  }

  const ScarceGoods& problem_;
  std::size_t count_ = 0;
  std::vector<std::int64_t> over_ = {};
  std::int64_t wanted_ = 0;
  std::vector<PackSteps<>> steps_ = {};
  std::vector<FlowArc> moves_ = {};
  std::int64_t made_ = 0;
  std::optional<GoodsPlan> best_ = {};
};

}  // namespace detail

template <When>
std::optional<GoodsPlan> cheapest_goods(const ScarceGoods& problem) {
  return detail::GoodsSearch(problem).run();
}

}  // namespace handlaid
