// palette.csv: a line for each colour number, with all that was counted for it. Read back, it is the palette.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv_table.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/takeoff/pieces.hpp"

namespace handlaid {

/// How a lock is written, in the order of `Lock`.
inline constexpr std::array<const char*, 3> lock_words = {"", "used", "exact only"};

/// The text of palette.csv: number, name, colour, lock (nothing, used or exact only), cells, runs, courses, pieces,
/// spares, to try, needed. `takeoff` is of the chart that `count` is of. Throws Error where the two have different
/// cells.
template <When = When::called>
std::string write_palette(const PieceTakeoff& takeoff, const Tally& count) {
  CsvWriter csv;
  for (const char* heading :
       {"number", "name", "colour", "lock", "cells", "runs", "courses", "pieces", "spares", "to try", "needed"}) {
    csv.field(heading);
  }
  csv.end_line();
  const auto counted = [](const std::vector<std::int64_t>& list, int number) {
    const auto i = static_cast<std::size_t>(number);
    return i < list.size() ? list[i] : std::int64_t{0};
  };
  for (const PieceLine& line : takeoff.lines) {
    if (counted(count.cells, line.number) != line.cells) {
      throw Error::bad_input("palette.csv", "the count and the takeoff are not of the same chart",
                             "count the chart of the takeoff");
    }
    const PaletteEntry& entry = takeoff.palette[line.number];
    csv.field(line.number)
        .field(entry.name)
        .field(to_hex(entry.colour))
        .field(lock_words[static_cast<std::size_t>(entry.lock)]);
    csv.field(line.cells).field(counted(count.runs, line.number)).field(counted(count.courses, line.number));
    csv.field(line.pieces).field(line.spares).field(line.trials).field(line.needed()).end_line();
  }
  return std::move(csv).text();
}

/// Reads number, name, colour and, where there is such a column, lock; other columns are passed over, because they
/// are counted again from the chart. Lines may stand in any order. `file` is the name for messages.
/// Throws Error with the place for a missing column, a wrong value, or a number that is missing or there twice.
template <When = When::called>
Palette read_palette(std::string_view text, const std::string& file) {
  CsvTable table(text, file, "a table with the columns number, name, colour");
  const int number_column = table.need("number");
  const int name_column = table.need("name");
  const int colour_column = table.need("colour");
  const auto lock_column = table.find("lock");
  std::vector<int> lines(static_cast<std::size_t>(most_colours) + 1, 0);
  Palette palette;
  while (table.next()) {
    const auto number = static_cast<std::size_t>(table.whole(number_column, 1, most_colours, "1 to 999"));
    if (lines[number] > 0) {
      table.fail(number_column,
                 std::to_string(number) + " stands in line " + std::to_string(lines[number]) + " already",
                 "give each colour a number of its own");
    }
    lines[number] = table.line();
    palette.entries.resize(std::max(palette.entries.size(), number));
    PaletteEntry& entry = palette.entries[number - 1];
    entry.colour = table.colour(colour_column);
    entry.name = table.text(name_column);
    if (lock_column) {
      const std::string_view lock = table.text(*lock_column);
      std::size_t kind = 0;
      while (kind < lock_words.size() && lock != lock_words[kind]) ++kind;
      if (kind == lock_words.size()) {
        table.fail(*lock_column, quoted_in_message(lock) + " is not known", "write nothing, used or exact only");
      }
      entry.lock = static_cast<Lock>(kind);
    }
  }
  if (palette.entries.empty()) throw Error::bad_input(file, "it has no colours", "give a line for each colour");
  for (std::size_t number = 1; number <= palette.entries.size(); ++number) {
    if (lines[number] == 0) {
      throw Error::bad_input(file, "colour " + std::to_string(number) + " is missing", "number the colours from 1 on");
    }
  }
  return palette;
}

}  // namespace handlaid
