// Planning again in the middle: some courses are laid, the maker has counted what is left in hand, and some colours
// will not last. For each of those, buy more or lay a near colour in its place where it is seen least; laid courses
// stay.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/palette/nearest.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/solve/min_cost_flow.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/progress.hpp"

namespace handlaid {

/// A cell that gets another colour.
struct CellChange {
  int course = 0;
  /// From 1.
  int column = 0;
  int from = 0;
  int to = 0;
  friend constexpr bool operator==(const CellChange&, const CellChange&) = default;
};

/// What is done about the colours that fall short. Colours that last from what is in hand have no line in the order.
struct Again {
  Order order = {};
  /// By course from the bottom, then by column.
  std::vector<CellChange> changes = {};
  /// What the changes count for in hundredths of the currency, by `cell_hundredths`; no money is paid.
  std::int64_t change_hundredths = 0;
  friend bool operator==(const Again&, const Again&) = default;
};

/// Finds the cheapest change in which each short colour is either bought or replaced, whole: which is decided by
/// turning one colour over at a time while the sum of money and changes falls; which colours replace it, by a flow of
/// least cost. A mixture of both for one colour is not looked for, so a cheaper change may exist.
struct PlanAgain {
  /// Pieces a cell, 1 to 1000.
  int per_cell = 1;
  /// What one cell counts for, in hundredths of the currency, when it gets a colour at an Oklab distance of 0.1; at
  /// another distance by its square. 0 to 1 million. Common practice, no source.
  std::int64_t cell_hundredths = 100;

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

/// What falls short and what is over, in cells, by colour from 0 on.
struct Shortage {
  std::vector<std::int64_t> short_pieces = {};
  std::vector<std::int64_t> short_cells = {};
  std::vector<std::int64_t> spare_cells = {};
};

/// One way: what is bought, and how many cells go from a colour to another.
struct WayOn {
  std::vector<OrderLine> lines = {};
  std::vector<std::tuple<std::size_t, std::size_t, std::int64_t>> moved = {};
  std::int64_t money = 0;
  std::int64_t changes = 0;
};

/// The way where the colours marked `bought` are bought; nothing where that cannot be done.
template <When = When::called>
std::optional<WayOn> way_on(const Shortage& shortage, const std::vector<bool>& bought, const Palette& palette,
                            const Stock& stock, const NearestColour<Oklab>& nearest, std::int64_t cell_hundredths) {
  const std::size_t colours = bought.size();
  const int source = static_cast<int>(2 * colours);
  WayOn way;
  std::vector<FlowArc> arcs;
  std::int64_t wanted = 0;
  for (std::size_t c = 0; c < colours; ++c) {
    arcs.push_back({static_cast<int>(colours + c), source + 1, shortage.spare_cells[c], 0});
    if (shortage.short_cells[c] == 0) continue;
    if (bought[c]) {
      const StockColour* item = stock.find(palette.entries[c].name);
      if (palette.entries[c].name.empty() || item == nullptr || item->packs.empty()) return {};
      OrderLine line{.number = static_cast<int>(c) + 1, .name = item->name, .needed = shortage.short_pieces[c]};
      buy(line, *item, stock.unit);
      way.money += line.cost_hundredths;
      way.lines.push_back(std::move(line));
      continue;
    }
    wanted += shortage.short_cells[c];
    arcs.push_back({source, static_cast<int>(c), shortage.short_cells[c], 0});
  }
  const std::size_t first = arcs.size();
  for (std::size_t c = 0; c < colours; ++c) {
    for (std::size_t d = 0; d < colours && !bought[c] && shortage.short_cells[c] > 0; ++d) {
      if (shortage.spare_cells[d] == 0) continue;
      const std::int64_t apart = squared_distance(nearest.points()[c], nearest.points()[d]);
      arcs.push_back({static_cast<int>(c), static_cast<int>(colours + d), shortage.short_cells[c], apart});
    }
  }
  if (wanted == 0) return way;
  const Flow flow = min_cost_flow(source + 2, arcs, source, source + 1, wanted);
  if (flow.amount < wanted) return {};
  for (std::size_t i = first; i < arcs.size(); ++i) {
    if (flow.carried[i] == 0) continue;
    way.moved.emplace_back(arcs[i].from, static_cast<std::size_t>(arcs[i].to) - colours, flow.carried[i]);
  }
  way.changes =
      flow.cost / squared_tenth * cell_hundredths + flow.cost % squared_tenth * cell_hundredths / squared_tenth;
  return way;
}

/// Turns one colour over at a time, in the order of the numbers, while that is cheaper.
template <When = When::called>
WayOn cheapest_way_on(const Shortage& shortage, const Palette& palette, const Stock& stock,
                      std::int64_t cell_hundredths) {
  const NearestColour<Oklab> nearest(palette);
  const auto sum = [](const std::optional<WayOn>& way) { return way->money + way->changes; };
  std::vector<bool> bought(shortage.short_cells.size(), false);
  // To begin with, all that can be bought is.
  for (std::size_t c = 0; c < bought.size(); ++c) {
    const StockColour* item = stock.find(palette.entries[c].name);
    bought[c] = shortage.short_cells[c] > 0 && item != nullptr && !item->packs.empty();
  }
  std::optional<WayOn> best = way_on(shortage, bought, palette, stock, nearest, cell_hundredths);
  for (bool better = best.has_value(); better;) {
    better = false;
    for (std::size_t c = 0; c < bought.size(); ++c) {
      if (shortage.short_cells[c] == 0) continue;
      bought[c] = !bought[c];
      std::optional<WayOn> other = way_on(shortage, bought, palette, stock, nearest, cell_hundredths);
      if (other && sum(other) < sum(best)) {
        best = std::move(other);
        better = true;
      } else {
        bought[c] = !bought[c];
      }
    }
  }
  if (best) return *std::move(best);
  // What cannot be bought asks for more than all other colours have over.
  std::string culprits;
  for (std::size_t c = 0; c < bought.size(); ++c) {
    if (shortage.short_cells[c] == 0 || bought[c]) continue;
    culprits += (culprits.empty() ? "" : ", ") + std::to_string(c + 1) + " (" +
                std::to_string(shortage.short_pieces[c]) + " pieces short)";
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
  detail::Shortage shortage;
  for (std::size_t c = 0; c < in_hand.size(); ++c) {
    if (in_hand[c] < 0 || in_hand[c] > 1'000'000'000) {
      throw Error::bad_input("left in hand, colour " + std::to_string(c + 1),
                             std::to_string(in_hand[c]) + " pieces are out of range", "give 0 to 1000000000 pieces");
    }
    const std::int64_t over = in_hand[c] - rest.lines[c].left;
    const bool may_replace = chart.palette.entries[c].lock != Lock::exact_only;
    shortage.short_pieces.push_back(std::max<std::int64_t>(-over, 0));
    shortage.short_cells.push_back((shortage.short_pieces.back() + per_cell - 1) / per_cell);
    shortage.spare_cells.push_back(may_replace ? std::max<std::int64_t>(over, 0) / per_cell : 0);
  }
  Again again{.order = {.currency = stock.currency, .unit = stock.unit}};
  if (std::all_of(shortage.short_cells.begin(), shortage.short_cells.end(), [](auto cells) { return cells == 0; })) {
    return again;
  }
  detail::WayOn way = detail::cheapest_way_on(shortage, chart.palette, stock, cell_hundredths);
  again.order.lines = std::move(way.lines);
  again.change_hundredths = way.changes;
  const std::vector<bool> laid = laid_courses(progress, chart.courses());
  std::vector<CellChange> cells;
  std::size_t used = 0;
  int listed = 0;
  for (const auto& [from, to, count] : way.moved) {  // in the order of `from`
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
