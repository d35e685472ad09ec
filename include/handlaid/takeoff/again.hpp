// Planning again in the middle: some courses are laid, the maker has counted what is left in hand, and some colours
// will not last. For each of those, buy more or lay a near colour in its place where it is seen least, or some of both;
// laid courses stay.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/chart_changes.hpp"
#include "handlaid/palette/nearest.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/solve/scarce_goods.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/progress.hpp"

namespace handlaid {

/// What is done about the colours that fall short. Colours that last from what is in hand have no line in the order.
struct Again {
  Order order = {};
  /// By course from the bottom, then by column.
  std::vector<CellChange> changes = {};
  /// What the changes count for in thousandths of a hundredth of the currency, by `cell_hundredths`; no money is paid.
  std::int64_t change_thousandths = 0;
  /// Money and changes of no other way are below this; their sum itself where it is proven to be the least.
  std::int64_t bound_thousandths = 0;

  std::int64_t total_thousandths() const { return order.cost_hundredths() * 1'000 + change_thousandths; }
  bool proven() const { return bound_thousandths == total_thousandths(); }
  friend bool operator==(const Again&, const Again&) = default;
};

/// Finds the change for which money and changes together are least, exactly (solve/scarce_goods): what is in hand is
/// used first; any mixture of packs and near colours is looked for, for each colour; what is left over of packs may
/// stand in for other colours, and a colour that stands in may itself be replaced elsewhere.
struct PlanAgain {
  /// Pieces a cell, 1 to 1000.
  int per_cell = 1;
  /// What one cell counts for, in hundredths of the currency, when it gets a colour at an Oklab distance of 0.1; at
  /// another distance by its square. 0 to 1 million. Common practice, no source.
  std::int64_t cell_hundredths = 100;
  /// How long to look for a proof, 1 to 1,000,000; see `ScarceGoods::most_flows`.
  int most_flows = 2'000;

  /// `in_hand` holds the pieces of each colour counted now, in the order of the palette. Throws Error where the counts
  /// are not those of the palette, and naming the colour that can neither be bought nor replaced.
  template <AnyChart C>
  Again operator()(const C& chart, const Progress& progress, const std::vector<std::int64_t>& in_hand,
                   const Stock& stock) const;
};

/// The chart with its changes made. Throws Error for a change that is not of this chart.
template <AnyChart C>
C changed(C chart, const std::vector<CellChange>& changes) {
  for (const CellChange& change : changes) {
    const bool inside = change.course >= 1 && change.course <= chart.courses() && change.column >= 1 &&
                        change.column <= chart.columns() && change.to >= 1 && change.to <= chart.palette.size();
    const int row = inside ? row_of_course(change.course, chart.courses()) : 0;
    if (!inside || chart.numbers(change.column - 1, row) != change.from) {
      throw Error::bad_input(
          "change of course " + std::to_string(change.course) + ", column " + std::to_string(change.column),
          "it is not of this chart", "plan again from the chart itself");
    }
    chart.numbers(change.column - 1, row) = static_cast<ColourNumber>(change.to);
  }
  return chart;
}

namespace detail {

/// The squared steps of an Oklab distance of 0.1: (16384 / 10)^2.
inline constexpr std::int64_t squared_tenth = 2'684'355;

/// The colours as goods: what is in hand, the cells that are not laid, and what the shop sells.
template <When = When::called>
ScarceGoods goods_of(const Remaining& rest, const std::vector<std::int64_t>& in_hand, const Palette& palette,
                     const Stock& stock, const PlanAgain& options) {
  ScarceGoods problem{.per_place = options.per_cell, .most_flows = options.most_flows};
  const NearestColour<Oklab> nearest(palette);
  for (std::size_t c = 0; c < in_hand.size(); ++c) {
    const PaletteEntry& entry = palette.entries[c];
    ScarceGood good{.in_hand = in_hand[c],
                    .places = rest.lines[c].left / options.per_cell,
                    .stands_in = entry.lock != Lock::exact_only};
    const StockColour* item = entry.name.empty() ? nullptr : stock.find(entry.name);
    if (item != nullptr) good.packs = pack_sizes(*item);
    problem.goods.push_back(std::move(good));
    for (std::size_t d = 0; d < in_hand.size(); ++d) {
      const std::int64_t apart = squared_distance(nearest.points()[c], nearest.points()[d]);
      problem.change_thousandths.push_back((apart / squared_tenth * options.cell_hundredths +
                                            apart % squared_tenth * options.cell_hundredths / squared_tenth) *
                                               1'000 +
                                           apart % squared_tenth * options.cell_hundredths % squared_tenth * 1'000 /
                                               squared_tenth);
    }
  }
  return problem;
}

/// Says which colours cannot be had.
template <When = When::called>
[[noreturn]] void refuse_short(const ScarceGoods& problem) {
  std::string culprits;
  for (std::size_t c = 0; c < problem.goods.size(); ++c) {
    const ScarceGood& good = problem.goods[c];
    const std::int64_t lacks = good.places * problem.per_place - good.in_hand;
    if (lacks <= 0 || !good.packs.empty()) continue;
    culprits += (culprits.empty() ? "" : ", ") + std::to_string(c + 1) + " (" + std::to_string(lacks) +
                (lacks == 1 ? " piece" : " pieces") + " short)";
  }
  throw Error::bad_input("colour " + culprits, "no pack is on sale, and too little is left of other colours",
                         "add a pack to the stock, or count again what is in hand");
}

/// The cells of a colour in courses that are not laid: those that stand alone in their course first, then ends of runs,
/// then the inside of runs; each from the bottom and the left.
template <AnyChart C>
std::vector<CellChange> cells_to_change(const C& chart, const std::vector<bool>& laid, int number) {
  std::vector<CellChange> kinds[3];
  for (int course = 1; course <= chart.courses(); ++course) {
    if (laid[static_cast<std::size_t>(course) - 1]) continue;
    for_each_run(chart, course, [&](const Run& run) {
      if (run.number != number) return;
      for (int column = run.first; column <= run.last; ++column) {
        const int alike = (column > run.first ? 1 : 0) + (column < run.last ? 1 : 0);
        kinds[alike].push_back({.course = course, .column = column, .from = number});
      }
    });
  }
  for (int kind = 1; kind < 3; ++kind) kinds[0].insert(kinds[0].end(), kinds[kind].begin(), kinds[kind].end());
  return std::move(kinds[0]);
}

}  // namespace detail

template <AnyChart C>
Again PlanAgain::operator()(const C& chart, const Progress& progress, const std::vector<std::int64_t>& in_hand,
                            const Stock& stock) const {
  const Remaining rest = remaining(chart, progress, per_cell);
  if (in_hand.size() != rest.lines.size()) {
    throw Error::bad_input(
        "left in hand",
        "it has " + std::to_string(in_hand.size()) + " colours, the palette has " + std::to_string(rest.lines.size()),
        "count every colour of the palette");
  }
  if (cell_hundredths < 0 || cell_hundredths > 1'000'000) {
    throw Error::out_of_range("cell-hundredths", std::to_string(cell_hundredths), "0 to 1000000");
  }
  if (stock.unit != StockUnit::pieces) {
    throw Error::bad_input("stock", std::string("it is measured in ") + symbol(stock.unit), "give a stock of pieces");
  }
  for (std::size_t c = 0; c < in_hand.size(); ++c) {
    if (in_hand[c] < 0 || in_hand[c] > 1'000'000'000) {
      throw Error::bad_input("left in hand, colour " + std::to_string(c + 1),
                             std::to_string(in_hand[c]) + " pieces are out of range", "give 0 to 1000000000 pieces");
    }
  }
  const ScarceGoods problem = detail::goods_of(rest, in_hand, chart.palette, stock, *this);
  const std::optional<GoodsPlan> way = cheapest_goods(problem);
  if (!way) detail::refuse_short(problem);
  Again again{.order = {.currency = stock.currency, .unit = stock.unit}};
  for (std::size_t c = 0; c < in_hand.size(); ++c) {
    if (way->to_buy[c] == 0) continue;
    const StockColour& item = *stock.find(chart.palette.entries[c].name);
    OrderLine line{.number = static_cast<int>(c) + 1, .name = item.name, .needed = way->to_buy[c]};
    detail::buy(line, item, stock.unit);
    again.order.lines.push_back(std::move(line));
  }
  for (const GoodsChange& change : way->changes) {
    again.change_thousandths += change.places * problem.change_thousandths[change.from * in_hand.size() + change.to];
  }
  again.bound_thousandths = way->bound_thousandths;
  const std::vector<bool> laid = laid_courses(progress, chart.courses());
  std::vector<CellChange> cells;
  std::size_t used = 0;
  int listed = 0;
  for (const auto& [from, to, count] : way->changes) {  // in the order of `from`
    const int number = static_cast<int>(from) + 1;
    if (listed != number) {
      cells = detail::cells_to_change(chart, laid, number);
      used = 0;
      listed = number;
    }
    for (std::int64_t i = 0; i < count; ++i) {
      again.changes.push_back(cells.at(used++));
      again.changes.back().to = static_cast<int>(to) + 1;
    }
  }
  std::sort(again.changes.begin(), again.changes.end(), [](const CellChange& a, const CellChange& b) {
    return std::pair(a.course, a.column) < std::pair(b.course, b.column);
  });
  return again;
}

}  // namespace handlaid
