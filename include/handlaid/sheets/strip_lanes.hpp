// The lanes of strips on a marking sheet: each strip at its true width and length, its marks reaching out above and
// below, its colour numbers above it, so that they are seen while the strip lies on the sheet.
// Shared by the sheets of whole batches and their tiles.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/page_parts.hpp"

namespace handlaid {

/// Lanes on a page: which strips, which columns, and where. Places along a strip are differences of its marks, so that
/// a mark stands on the sheet where it stands on the strip.
struct StripLanes {
  /// Places in `StripTakeoff::strips`, the lowest lane first.
  std::vector<std::size_t> strips = {};
  int first_column = 1;
  int last_column = 1;
  /// The lower left corner of the lowest lane, at the mark of the first column.
  PagePoint corner = {};
  Length pitch = {};
  /// Of a lane, and from one lane to the next.
  Length width = {};
  Length lane_pitch = {};
  /// Whether the scale names the first and the last line too; the corners of a tile do that.
  bool ends_named = true;

  constexpr Length mark(int line) const { return pitch.times(line); }
  /// Of the line right of column `line`, 0 the datum end.
  constexpr Length x_of(int line) const { return corner.x + mark(line) - mark(first_column - 1); }
  constexpr Length left() const { return corner.x; }
  constexpr Length right() const { return x_of(last_column); }
  /// The lower edge of a lane, from 0, and its upper one.
  constexpr Length bottom_of(std::size_t lane) const {
    return corner.y - lane_pitch.times(static_cast<std::int64_t>(lane));
  }
  constexpr Length top_of(std::size_t lane) const { return bottom_of(lane) - width; }
};

/// How numbers stand above the sections of a strip.
struct SectionNumerals {
  /// 3.1 mm makes digits 2.2 mm high; less only where a cell is narrower than such a digit is high.
  Length em = Length::from_um(3'100);
  int digits = 1;

  /// The room a number takes lying, and standing on its end; thousandths of an em with a little air.
  constexpr Length lying() const { return em.times(640 * digits).divided(1000) + Length::from_um(500); }
  constexpr Length standing() const { return em.times(720).divided(1000) + Length::from_um(500); }
  constexpr bool small() const { return em < Length::from_um(3'100); }
  /// Whether some number of a section of one cell must stand on its end.
  constexpr bool turned(Length pitch) const { return pitch < lying(); }
  /// The height of the numbers above a lane.
  constexpr Length band(Length pitch) const {
    return (turned(pitch) ? std::max(lying(), standing()) : standing()) + 1 * mm;
  }
};

/// For the numbers of a palette and cells of that pitch.
inline SectionNumerals section_numerals(int colours, Length pitch) {
  SectionNumerals numerals{.digits = detail::digits_of(colours)};
  if (pitch < numerals.standing()) {
    numerals.em = std::max((pitch - pitch.divided(8)).times(1000).divided(720), Length::from_um(300));
  }
  return numerals;
}

namespace detail {

/// How far marks run on below a lane, into the gap.
inline constexpr Length below_lane = 2 * mm;
/// How far the line of a fold across a strip comes out on both sides, so that it is marked like the others.
inline constexpr Length fold_beyond_lane = 2 * mm;

/// The part of a section between two lines each ten cells: a number in it is crossed by none of them.
struct NumberPlace {
  int first = 0;
  int last = 0;
  constexpr int cells() const { return last - first + 1; }
};

/// Where the number of a section stands: in each full ten of it, else in its widest part, the first of equals.
template <When = When::called>
std::vector<NumberPlace> number_places(int first, int last) {
  std::vector<NumberPlace> full;
  NumberPlace widest{first, first - 1};
  for (int from = first; from <= last;) {
    const NumberPlace part{from, std::min(last, (from - 1) / 10 * 10 + 10)};
    if (part.cells() == 10) full.push_back(part);
    if (part.cells() > widest.cells()) widest = part;
    from = part.last + 1;
  }
  if (full.empty()) full.push_back(widest);
  return full;
}

/// A section's boundary: across the lane, through the numbers above and into the gap below.
template <When = When::called>
void add_boundary(PrintedPage& page, const StripLanes& lanes, std::size_t lane, int line, Length band) {
  const Length x = lanes.x_of(line);
  page.lines.push_back({{x, lanes.bottom_of(lane) + below_lane}, {x, lanes.top_of(lane) - band}, Length::from_um(350)});
}

/// Whether a section ends with that column.
template <When = When::called>
bool ends_section(const Strip& strip, int column) {
  for (const StripSection& section : strip.sections) {
    if (section.last_column == column) return true;
  }
  return false;
}

/// A lane of a strip that reaches the first column.
template <When = When::called>
void add_lane(PrintedPage& page, const Plan& plan, const StripLanes& lanes, std::size_t lane,
              const SectionNumerals& numerals) {
  const Strip& strip = plan.strips->strips[lanes.strips[lane]];
  const Length band = numerals.band(lanes.pitch);
  const Length top = lanes.top_of(lane);
  const int end = strip.sections.back().last_column;
  for (const StripSection& section : strip.sections) {
    const int first = std::max(section.first_column, lanes.first_column);
    const int last = std::min(section.last_column, lanes.last_column);
    if (first > last) continue;
    const Length x = lanes.x_of(first - 1);
    const Length wide = lanes.x_of(last) - x;
    if (section.number != 0 && plan.job.print.tint) {
      page.boxes.push_back({{x, top}, {wide, lanes.width}, true, plan.chart.palette[section.number].colour});
    }
    if (section.number == 0) page.boxes.push_back({{x, top}, {wide, lanes.width}, true, look::shade});
    // not where a page begins in the middle of a section
    if (first == section.first_column) add_boundary(page, lanes, lane, first - 1, band);
    if (section.number == 0) continue;
    for (const NumberPlace& place : number_places(first, last)) {
      const Length left = lanes.x_of(place.first - 1);
      const Length right = lanes.x_of(place.last);
      const bool lies = right - left >= numerals.lying();
      page.texts.push_back({.at = {(left + right).divided(2), top - band.divided(2)},
                            .text = std::to_string(section.number),
                            .em = numerals.em,
                            .anchor = TextAnchor::middle,
                            .centred = true,
                            .bold = true,
                            .quarter_turns = lies ? 0 : 1});
    }
  }
  const int last = std::min(end, lanes.last_column);
  // the end of a section that the next one begins at is drawn with that; on a page that ends there, now
  if (ends_section(strip, last)) add_boundary(page, lanes, lane, last, band);
  const Length right = lanes.x_of(last);
  page.boxes.push_back({{lanes.left(), top}, {right - lanes.left(), lanes.width}, false, {}, Length::from_um(150)});
  const StripTakeoff& strips = *plan.strips;
  if (strips.fold == Fold::lengthwise) {
    const Length y = top + lanes.width.divided(2);
    const Length far = last == end ? right + strips.trim : right;
    page.lines.push_back({{lanes.left(), y}, {far, y}, Length::from_um(120), look::quiet, 2 * mm});
  }
  if (last == end && strips.trim > Length{}) {
    const Length far = right + strips.trim;
    for (const Length y : {top, lanes.bottom_of(lane)}) {
      page.lines.push_back({{right, y}, {far, y}, Length::from_um(120), look::quiet, 1 * mm});
    }
    page.lines.push_back({{far, top}, {far, lanes.bottom_of(lane)}, Length::from_um(120), look::quiet, 1 * mm});
  }
  // Folded end to end, the middle of the material lies where the lane ends.
  if (last == end && strips.fold == Fold::end_to_end) {
    const Length fold = right + strips.trim;
    page.lines.push_back({{fold, top - fold_beyond_lane},
                          {fold, lanes.bottom_of(lane) + fold_beyond_lane},
                          Length::from_um(350),
                          look::quiet,
                          2 * mm});
  }
}

/// The line each ten cells across all lanes, thin so that none is taken for a boundary, a tick for each column above
/// and below them, and the marks at the tens.
template <When = When::called>
void add_strip_scale(PrintedPage& page, const StripLanes& lanes, Length band, LengthUnit unit) {
  const Length above = lanes.top_of(lanes.strips.size() - 1) - band - 1 * mm;
  const Length below = lanes.corner.y + below_lane + 1 * mm;
  const Length em = Length::from_um(3'100);
  for (int line = lanes.first_column - 1; line <= lanes.last_column; ++line) {
    const Length x = lanes.x_of(line);
    const bool ten = line % 10 == 0;
    const bool end = line == lanes.first_column - 1 || line == lanes.last_column;
    if (ten) {
      page.lines.push_back({{x, above - 3 * mm}, {x, below + 3 * mm}, Length::from_um(120), look::quiet});
    } else {
      const Length tick = line % 5 == 0 ? 2.5 * mm : 1.5 * mm;
      page.lines.push_back({{x, above}, {x, above - tick}, Length::from_um(120), look::quiet});
      page.lines.push_back({{x, below}, {x, below + tick}, Length::from_um(120), look::quiet});
    }
    if (!ten || (end && !lanes.ends_named)) continue;
    const Length room = lanes.pitch.times(10) - 1 * mm;
    const auto text = [&](const std::string& content, Length y, bool bold) {
      page.texts.push_back({.at = {x, y},
                            .text = content,
                            .em = em,
                            .anchor = TextAnchor::middle,
                            .centred = true,
                            .bold = bold,
                            .colour = line == 0 ? look::accent
                                      : bold    ? look::ink
                                                : look::quiet,
                            .room = room});
    };
    const std::string number = std::to_string(line);
    const std::string mark = mark_text(lanes.mark(line), unit);
    text(number, above - 8.6 * mm, true);
    text(mark, above - 5 * mm, false);
    text(number, below + 5 * mm, true);
    text(mark, below + 8.6 * mm, false);
  }
}

/// The number of a lane's course at both sides, an arrow to the datum end under the left one.
template <When = When::called>
void add_lane_ends(PrintedPage& page, const StripLanes& lanes, std::size_t lane, int course, Length right) {
  const Length y = lanes.bottom_of(lane) - lanes.width.divided(2);
  const auto text = [&](Length x, TextAnchor anchor, Length room) {
    page.texts.push_back({.at = {x, y},
                          .text = std::to_string(course),
                          .em = 4.2 * mm,
                          .anchor = anchor,
                          .centred = true,
                          .bold = true,
                          .room = room});
  };
  text(lanes.left() - 2 * mm, TextAnchor::right, 9 * mm);
  text(right + 2 * mm, TextAnchor::left, 9 * mm);
}

/// An arrow to the left of `length`, its point at `tip`.
template <When = When::called>
void add_datum_arrow(PrintedPage& page, PagePoint tip, Length length, const Srgb8& colour = look::accent) {
  const Length head = 1.6 * mm;
  const Length width = Length::from_um(350);
  page.lines.push_back({tip, {tip.x + length, tip.y}, width, colour});
  page.lines.push_back({tip, {tip.x + head, tip.y - head.divided(2)}, width, colour});
  page.lines.push_back({tip, {tip.x + head, tip.y + head.divided(2)}, width, colour});
}

}  // namespace detail

}  // namespace handlaid
