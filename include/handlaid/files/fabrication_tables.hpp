// frame.csv, cuts.csv and hours.csv: what the workshop needs, for a spreadsheet or another program.
// Lengths are in mm exactly, money in hundredths written with a point; every table names its columns.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/takeoff/blade_gang.hpp"
#include "handlaid/takeoff/cutting.hpp"
#include "handlaid/takeoff/frame.hpp"
#include "handlaid/takeoff/labour.hpp"
#include "handlaid/takeoff/sheet_goods.hpp"

namespace handlaid {

/// frame.csv: stock, number (which length or sheet of it, "1 to 3" where they are cut alike), part, length mm, width mm
/// (of sheets), count on each, left over mm.
template <When = When::called>
std::string write_frame(const std::optional<FrameTakeoff>& frame, const std::optional<SheetTakeoff>& sheets);

/// cuts.csv: every cut along the longest strip, by its number and its mm from the datum; beside the first ones, with a
/// gang, the blade of the first pass, where it stands, how far it is off in um, and the spacers of the gap before it
/// ("3 x 1.62 mm + 1 x 0.11 mm").
template <When = When::called>
std::string write_cuts(const CuttingTakeoff& cutting, const Gang* gang);

/// hours.csv: step, count, seconds each, hours; then each colour's share.
template <When = When::called>
std::string write_hours(const LabourTakeoff& labour, const Palette& palette);

namespace detail {

inline std::string csv_mm(Length length) { return number_text(length, LengthUnit::millimetres); }

/// Thousandths with a point.
inline std::string milli_text(std::int64_t value) { return decimal_text(value, 3); }

}  // namespace detail

template <When>
std::string write_frame(const std::optional<FrameTakeoff>& frame, const std::optional<SheetTakeoff>& sheets) {
  CsvWriter csv;
  for (const char* heading : {"stock", "number", "part", "length mm", "width mm", "count on each", "left over mm"}) {
    csv.field(heading);
  }
  csv.end_line();
  if (sheets) {
    const std::string count = sheets->sheets == 1 ? "1" : "1 to " + std::to_string(sheets->sheets);
    csv.field("sheet " + to_text(sheets->sheet, LengthUnit::millimetres)).field(count);
    csv.field(sheets->parts() == 1 ? "panel" : "part of the panel").field(detail::csv_mm(sheets->part.height));
    csv.field(detail::csv_mm(sheets->part.width)).field(static_cast<long>(sheets->layout.size())).field("").end_line();
  }
  if (!frame) return std::move(csv).text();
  std::int64_t number = 1;
  for (const CutPattern& pattern : frame->cuts.patterns) {
    const std::string which = pattern.times == 1
                                  ? std::to_string(number)
                                  : std::to_string(number) + " to " + std::to_string(number + pattern.times - 1);
    number += pattern.times;
    for (std::size_t i = 0; i < frame->parts.size(); ++i) {
      if (pattern.counts[i] == 0) continue;
      csv.field("timber " + to_text(frame->stock_length, LengthUnit::millimetres)).field(which);
      csv.field(frame->parts[i].name + (frame->parts[i].mitred ? ", mitred" : ""));
      csv.field(detail::csv_mm(frame->parts[i].length)).field(detail::csv_mm(frame->timber_width));
      csv.field(static_cast<long>(pattern.counts[i])).field(detail::csv_mm(Length::from_um(pattern.left_over)));
      csv.end_line();
    }
  }
  return std::move(csv).text();
}

template <When>
std::string write_cuts(const CuttingTakeoff& cutting, const Gang* gang) {
  CsvWriter csv;
  csv.field("cut").field("mm from the datum");
  if (gang != nullptr) csv.field("blade").field("blade stands at mm").field("off um").field("spacers before it");
  csv.end_line();
  const auto blades = gang == nullptr ? 0 : static_cast<std::int64_t>(gang->blades.size());
  for (std::int64_t i = 1; i <= std::max(cutting.cuts_on_longest, blades); ++i) {
    csv.field(static_cast<long>(i)).field(detail::csv_mm(cut_at(i, cutting.pitch, cutting.pieces_per_cell)));
    if (i <= blades) {
      const GangBlade& blade = gang->blades[static_cast<std::size_t>(i - 1)];
      std::string stack;
      for (std::size_t k = 0; k < blade.spacers.size(); ++k) {
        if (blade.spacers[k] == 0) continue;
        stack += (stack.empty() ? "" : " + ") + std::to_string(blade.spacers[k]) + " x " +
                 to_text(gang->spacers[k].thickness, LengthUnit::millimetres);
      }
      csv.field(static_cast<long>(i));
      csv.field(detail::csv_mm(cut_at(1, cutting.pitch, cutting.pieces_per_cell) + blade.stands));
      csv.field(static_cast<long>(blade.error().um())).field(stack);
    }
    csv.end_line();
  }
  return std::move(csv).text();
}

template <When>
std::string write_hours(const LabourTakeoff& labour, const Palette& palette) {
  CsvWriter csv;
  csv.field("step").field("count").field("seconds each").field("hours").end_line();
  const auto hours = [](std::int64_t seconds) { return decimal_text((seconds * 100 + 1'800) / 3'600, 2); };
  for (const LabourLine& line : labour.lines) {
    csv.field(line.step).field(line.count > 0 ? std::to_string(line.count) : "");
    csv.field(line.count > 0 ? detail::milli_text(line.each_ms) : "").field(hours(line.seconds)).end_line();
  }
  csv.field("all").field("").field("").field(hours(labour.seconds())).end_line();
  for (std::size_t n = 1; n < labour.seconds_of.size(); ++n) {
    if (labour.seconds_of[n] == 0) continue;
    const std::string& name = palette[static_cast<int>(n)].name;
    csv.field("of it colour " + std::to_string(n) + (name.empty() ? "" : ", " + name)).field("").field("");
    csv.field(hours(labour.seconds_of[n])).end_line();
  }
  return std::move(csv).text();
}

}  // namespace handlaid
