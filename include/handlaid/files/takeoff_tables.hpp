// takeoff.csv, strips.csv and marks.csv: what was counted and set out, for a spreadsheet or another program.
// Money and lengths are printed from whole numbers, exactly.
#pragma once

#include <string>
#include <utility>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/takeoff/board_marks.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// The text of takeoff.csv, a line for each colour that is needed: number, name, colour, cells, pieces, spares, to
/// try, needed.
inline std::string write_takeoff(const PieceTakeoff& takeoff);

/// The same with what is ordered: in hand, packs ("1 of 1000 + 2 of 50"), the articles they are ordered by, bought,
/// left over, cost and its currency. Where the shop does not sell pieces the unit stands in these headings, and what is
/// needed in it is a column more. The order must be of the takeoff: throws Error where a line of it has no colour
/// there.
inline std::string write_takeoff(const PieceTakeoff& takeoff, const Order& order);

/// The text of strips.csv, a line for each section of each strip, from the bottom course up and from the datum end on:
/// course, section, number (nothing for a gap), name, first and last column, where the section starts and ends in mm.
template <When = When::called>
std::string write_strips(const StripTakeoff& takeoff, const Palette& palette) {
  CsvWriter csv;
  for (const char* heading :
       {"course", "section", "number", "name", "first column", "last column", "cells", "start mm", "end mm"}) {
    csv.field(heading);
  }
  csv.end_line();
  const auto millimetres = [](Length length) { return number_text(length, LengthUnit::millimetres); };
  for (const Strip& strip : takeoff.strips) {
    int section_number = 0;
    for (const StripSection& section : strip.sections) {
      csv.field(strip.course).field(++section_number);
      csv.field(section.number == 0 ? "" : std::to_string(section.number));
      csv.field(section.number == 0 ? "" : palette[section.number].name);
      csv.field(section.first_column).field(section.last_column);
      csv.field(section.last_column - section.first_column + 1);
      csv.field(millimetres(section.start)).field(millimetres(section.end)).end_line();
    }
  }
  return std::move(csv).text();
}

/// The text of marks.csv: direction (across: from the board's left edge; up: from its lower edge), mark (how many
/// columns or courses lie before it), mm exactly, and inches to a thousandth.
template <When = When::called>
std::string write_marks(const BoardMarks& marks) {
  CsvWriter csv;
  csv.field("direction").field("mark").field("mm").field("in").end_line();
  const auto add = [&](const char* direction, const std::vector<Length>& list) {
    int mark = 0;
    for (const Length length : list) {
      csv.field(direction).field(mark++).field(number_text(length, LengthUnit::millimetres));
      csv.field(decimal_text((length.um() * 1000 + 12'700) / 25'400, 3)).end_line();
    }
  };
  add("across", marks.across);
  add("up", marks.up);
  return std::move(csv).text();
}

namespace detail {

template <When = When::called>
std::string takeoff_table(const PieceTakeoff& takeoff, const Order* order) {
  CsvWriter csv;
  for (const char* heading : {"number", "name", "colour", "cells", "pieces", "spares", "to try", "needed"})
    csv.field(heading);
  if (order != nullptr) {
    const std::string unit = order->unit == StockUnit::pieces ? "" : std::string(" ") + symbol(order->unit);
    if (!unit.empty()) csv.field("needed" + unit);
    csv.field("in hand" + unit).field("packs").field("articles").field("bought" + unit).field("left over" + unit);
    csv.field(order->currency.empty() ? "cost" : "cost " + order->currency);
  }
  csv.end_line();
  std::size_t ordered = 0;
  for (const PieceLine& line : takeoff.lines) {
    if (line.needed() == 0) continue;
    const PaletteEntry& entry = takeoff.palette[line.number];
    csv.field(line.number).field(entry.name).field(to_hex(entry.colour)).field(line.cells);
    csv.field(line.pieces).field(line.spares).field(line.trials).field(line.needed());
    if (order != nullptr && ordered < order->lines.size() && order->lines[ordered].number == line.number) {
      const OrderLine& bought = order->lines[ordered++];
      std::string packs;
      for (const PackCount& p : bought.packs) {
        packs += (packs.empty() ? "" : " + ") + std::to_string(p.count) + " of " + std::to_string(p.pack.pieces);
      }
      if (order->unit != StockUnit::pieces) csv.field(bought.needed);
      csv.field(bought.from_hand)
          .field(packs)
          .field(articles_text(bought))
          .field(bought.bought)
          .field(bought.left_over);
      csv.field(decimal_text(bought.cost_hundredths, 2));
    }
    csv.end_line();
  }
  if (order != nullptr && ordered != order->lines.size()) {
    throw Error::bad_input("takeoff.csv", "the order is not of this takeoff", "choose the packs of the same takeoff");
  }
  return std::move(csv).text();
}

}  // namespace detail

inline std::string write_takeoff(const PieceTakeoff& takeoff) { return detail::takeoff_table(takeoff, nullptr); }
inline std::string write_takeoff(const PieceTakeoff& takeoff, const Order& order) {
  return detail::takeoff_table(takeoff, &order);
}

}  // namespace handlaid
