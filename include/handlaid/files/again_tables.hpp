// changes.csv, order.csv and remaining.csv: what planning again says, for a spreadsheet or another program.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/takeoff/again.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/progress.hpp"

namespace handlaid {

/// The text of changes.csv, a line for each cell that gets another colour: course, column, from, to.
template <When = When::called>
std::string write_changes(const std::vector<CellChange>& changes) {
  CsvWriter csv;
  csv.field("course").field("column").field("from").field("to").end_line();
  for (const CellChange& change : changes) {
    csv.field(change.course).field(change.column).field(change.from).field(change.to).end_line();
  }
  return std::move(csv).text();
}

/// "1 of 1000 + 2 of 50", the largest packs first; empty where none is bought.
template <When = When::called>
std::string packs_text(const OrderLine& line) {
  std::string packs;
  for (const PackCount& pack : line.packs) {
    packs += (packs.empty() ? "" : " + ") + std::to_string(pack.count) + " of " + std::to_string(pack.pack.pieces);
  }
  return packs;
}

/// The text of order.csv, a line for each colour that is bought: number, name, needed, packs, articles, bought, left
/// over, cost.
template <When = When::called>
std::string write_order(const Order& order) {
  CsvWriter csv;
  for (const char* heading : {"number", "name", "needed", "packs", "articles", "bought", "left over"})
    csv.field(heading);
  csv.field(order.currency.empty() ? "cost" : "cost " + order.currency).end_line();
  for (const OrderLine& line : order.lines) {
    csv.field(line.number).field(line.name).field(std::to_string(line.needed)).field(packs_text(line));
    csv.field(articles_text(line)).field(std::to_string(line.bought)).field(std::to_string(line.left_over));
    csv.field(decimal_text(line.cost_hundredths, 2)).end_line();
  }
  return std::move(csv).text();
}

/// What is in hand once the order has come. Throws Error where the order has a colour that the count has not.
template <When = When::called>
std::vector<std::int64_t> with_order(std::vector<std::int64_t> in_hand, const Order& order) {
  for (const OrderLine& line : order.lines) {
    if (line.number < 1 || static_cast<std::size_t>(line.number) > in_hand.size()) {
      throw Error::bad_input("order, colour " + std::to_string(line.number), "it is not among those counted",
                             "count every colour of the palette");
    }
    in_hand[static_cast<std::size_t>(line.number) - 1] += line.bought;
  }
  return in_hand;
}

/// The text of remaining.csv, a line for each colour: number, name, and the pieces laid, to lay and in hand. `in_hand`
/// is in the order of the palette. Throws Error where the three are not of one palette.
template <When = When::called>
std::string write_remaining(const Remaining& rest, const Palette& palette, const std::vector<std::int64_t>& in_hand) {
  if (rest.lines.size() != palette.entries.size() || rest.lines.size() != in_hand.size()) {
    throw Error::bad_input("remaining.csv", "what remains, the palette and the count have different colours",
                           "give those of one chart");
  }
  CsvWriter csv;
  for (const char* heading : {"number", "name", "laid", "to lay", "in hand"}) csv.field(heading);
  csv.end_line();
  for (std::size_t c = 0; c < in_hand.size(); ++c) {
    csv.field(rest.lines[c].number).field(palette.entries[c].name).field(std::to_string(rest.lines[c].done));
    csv.field(std::to_string(rest.lines[c].left)).field(std::to_string(in_hand[c])).end_line();
  }
  return std::move(csv).text();
}

}  // namespace handlaid
