// Marking sheets of strips: a whole batch side by side at true length, so that all its strips are marked with one
// straightedge across. As one sheet a batch for a plotter or a print shop, and in tiles on A4 or Letter that are each
// laid to marks on the bench by their own coordinates.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/strip_lanes.hpp"

namespace handlaid {

/// Options of marking sheets.
struct StripSheets {
  /// From one strip to the next on the bench, 0 to 200 mm; more where the colour numbers between them need it.
  Length gap = 8 * mm;
};

/// A sheet for each batch, as large as the batch. None for a plan without strips.
/// Throws Error for a gap out of range.
template <When = When::called>
std::vector<PrintedPage> strip_sheets(const Plan& plan, const StripSheets& options = {});

/// The same in tiles on the job's paper, batch by batch, from the datum end on, the lowest strips first.
/// Throws Error for a gap out of range, and where the paper does not hold one cell of one strip.
template <When = When::called>
std::vector<PrintedPage> strip_tile_pages(const Plan& plan, const StripSheets& options = {});

namespace detail {

/// What is beside, above and below lanes: numbers of courses; the scale.
inline constexpr Length beside_lanes = 12 * mm;
inline constexpr Length strip_scale_height = 12 * mm;

/// What the sheets of a plan have in common.
struct StripSheetParts {
  const Plan& plan;
  SectionNumerals numerals;
  Length pitch;
  Length lane_pitch;
  LengthUnit unit = LengthUnit::millimetres;

  const char* unit_word() const { return unit == LengthUnit::millimetres ? "mm" : "inches"; }
  Length width() const { return plan.strips->flat_width; }
  Length band() const { return numerals.band(pitch); }
  /// The height of so many lanes with what stands above and below each.
  Length height_of(std::size_t lanes) const {
    return lane_pitch.times(static_cast<std::int64_t>(lanes) - 1) + width() + band() + below_lane + 2 * mm;
  }
  const Strip& strip(std::size_t place) const { return plan.strips->strips[place]; }
};

template <When = When::called>
StripSheetParts strip_sheet_parts(const Plan& plan, const StripSheets& options) {
  if (options.gap < Length{} || options.gap > 200 * mm) {
    throw Error::out_of_range("gap of strips", to_text(options.gap, LengthUnit::millimetres), "0 to 200 mm");
  }
  const Length pitch = plan.chart.lattice.pitch_x();
  const SectionNumerals numerals = section_numerals(plan.chart.palette.size(), pitch);
  const Length gap = std::max(options.gap, numerals.band(pitch) + below_lane + 1 * mm);
  return {plan, numerals, pitch, plan.strips->flat_width + gap, plan.job.units.value_or(LengthUnit::millimetres)};
}

/// "Courses 1 to 12", or their numbers where they are no neighbours.
template <When = When::called>
std::string courses_text(const StripSheetParts& parts, const std::vector<std::size_t>& strips) {
  const int first = parts.strip(strips.front()).course;
  const int last = parts.strip(strips.back()).course;
  if (strips.size() == 1) return "course " + std::to_string(first);
  if (last - first + 1 == static_cast<int>(strips.size())) {
    return "courses " + std::to_string(first) + " to " + std::to_string(last);
  }
  std::string text = "courses";
  for (const std::size_t place : strips) {
    text += (place == strips.front() ? " " : ", ") + std::to_string(parts.strip(place).course);
  }
  return text;
}

/// What to do, in a line for the foot of a sheet.
template <When = When::called>
std::string marking_text(const StripSheetParts& parts) {
  std::string text =
      "Lay each strip on its lane, its datum end on the red line; mark it where the lines come out on "
      "both sides.";
  if (parts.plan.strips->fold == Fold::lengthwise) text += " The dashed line is the fold.";
  if (parts.plan.strips->fold == Fold::end_to_end) {
    text += " Each strip is twice as long: it is folded at the far end, and its other half marked alike.";
  }
  if (parts.plan.strips->trim > Length{}) text += " What is dashed beyond the last mark is cut off after mounting.";
  if (parts.numerals.small()) text += " Numbers are small since a cell is: read them with a lens.";
  return text;
}

/// The lanes with their numbers and scale; the numbers at the right stand at `right`.
template <When = When::called>
void add_strip_lanes(PrintedPage& page, const StripSheetParts& parts, const StripLanes& lanes, Length right) {
  add_strip_scale(page, lanes, parts.band(), parts.unit);
  for (std::size_t lane = 0; lane < lanes.strips.size(); ++lane) {
    if (parts.strip(lanes.strips[lane]).sections.back().last_column < lanes.first_column) continue;
    add_lane(page, parts.plan, lanes, lane, parts.numerals);
    add_lane_ends(page, lanes, lane, parts.strip(lanes.strips[lane]).course, right);
    if (lanes.first_column == 1) {
      const Length y = lanes.bottom_of(lane) - lanes.width.divided(2) + 3.6 * mm;
      add_datum_arrow(page, {lanes.left() - 8 * mm, y}, 6 * mm);
    }
  }
  if (lanes.first_column != 1) return;
  // the red line, over the ends of the lanes
  page.lines.push_back({{lanes.left(), lanes.top_of(lanes.strips.size() - 1) - parts.band() - 4 * mm},
                        {lanes.left(), lanes.corner.y + below_lane + 4 * mm},
                        Length::from_um(450),
                        look::accent});
}

template <When = When::called>
PrintedPage strip_sheet(const StripSheetParts& parts, const std::vector<std::size_t>& strips, const std::string& name) {
  int last = 1;
  for (const std::size_t place : strips) last = std::max(last, parts.strip(place).sections.back().last_column);
  const Length length = parts.pitch.times(last);
  const Length trim = parts.plan.strips->trim;
  const Length around = page_margin + beside_lanes;
  const Length above = page_margin + head_height + strip_scale_height;
  const Length foot = strip_scale_height + 16 * mm + page_margin;
  PrintedPage page{
      .name = name,
      .size = {std::max(length + trim + around.times(2), 200 * mm), above + parts.height_of(strips.size()) + foot}};
  const StripLanes lanes{.strips = strips,
                         .first_column = 1,
                         .last_column = last,
                         .corner = {around, page.size.height - foot - below_lane - 1 * mm},
                         .pitch = parts.pitch,
                         .width = parts.width(),
                         .lane_pitch = parts.lane_pitch};
  add_strip_lanes(page, parts, lanes, lanes.right() + trim);
  const Length bottom = page.size.height - page_margin;
  page.texts.push_back({.at = {page_margin, page_margin + 8.5 * mm},
                        .text = courses_text(parts, strips) + ", marks in " + parts.unit_word() +
                                " from the datum end; the lowest course is at the bottom",
                        .em = 3.2 * mm,
                        .colour = look::quiet,
                        .room = page.size.width - page_margin.times(2) - 30 * mm});
  page.texts.push_back({.at = {page_margin, bottom - 8 * mm},
                        .text = marking_text(parts),
                        .em = 3.2 * mm,
                        .room = page.size.width - page_margin.times(2)});
  const Length round = parts.unit == LengthUnit::millimetres ? 100 * mm : 4 * inch;
  const std::int64_t count = std::clamp<std::int64_t>(length.count_of(round), 1, 10);
  add_bar_across(page, {page_margin, bottom - 2 * mm}, round.times(count), parts.unit);
  return page;
}

/// The four corners of a tile: a cross on the mark of the bench, and where that is.
template <When = When::called>
void add_tile_corners(PrintedPage& page, const StripSheetParts& parts, const StripLanes& lanes, Length up) {
  const Length lower = lanes.corner.y;
  const Length upper = lanes.top_of(lanes.strips.size() - 1);
  for (const int line : {lanes.first_column - 1, lanes.last_column}) {
    for (const bool low : {true, false}) {
      const bool left = line != lanes.last_column;
      const Length x = lanes.x_of(line);
      const Length y = low ? lower : upper;
      const Length out = left ? x - 6 * mm : x + 6 * mm;
      const Length end = low ? lower + below_lane + 14 * mm : upper - parts.band() - 15 * mm;
      page.lines.push_back({{x, y}, {out, y}, Length::from_um(200), look::accent});
      page.lines.push_back({{x, y}, {x, end}, Length::from_um(200), look::accent});
      const Length height = low ? up : up + lower - upper;
      page.texts.push_back(
          {.at = {left ? x - 9 * mm : x + 9 * mm, low ? end + 2.6 * mm : end - 1 * mm},
           .text = mark_text(lanes.mark(line), parts.unit) + " along, " + mark_text(height, parts.unit) + " up",
           .em = 3.1 * mm,
           .anchor = left ? TextAnchor::left : TextAnchor::right,
           .bold = true,
           .colour = look::accent,
           .room = (lanes.right() - lanes.left() + 16 * mm).divided(2)});
    }
  }
}

/// As few as need be, then as equal as can be.
constexpr int shared_out(int all, int most) {
  const int count = (all + most - 1) / most;
  return (all + count - 1) / count;
}

/// How much of a batch stands on one tile.
struct TileShape {
  int columns = 1;
  int lanes = 1;
};

template <When = When::called>
TileShape strip_tile_shape(const StripSheetParts& parts, const Size& sheet, const char* paper) {
  const Length wide = sheet.width - (page_margin + beside_lanes).times(2) - parts.plan.strips->trim;
  const Length high = sheet.height - page_margin.times(2) - head_height - 19 * mm - 32 * mm;
  const Length first = parts.height_of(1);
  if (wide < parts.pitch || high < first) {
    throw Error::bad_option("paper",
                            std::string(paper) + " does not hold one cell of a strip that is " +
                                to_text(parts.width(), parts.unit) + " wide",
                            "have the marking sheets printed as whole sheets");
  }
  return {static_cast<int>(std::min<std::int64_t>(wide.count_of(parts.pitch), parts.plan.chart.columns())),
          1 + static_cast<int>((high - first).count_of(parts.lane_pitch))};
}

}  // namespace detail

template <When>
std::vector<PrintedPage> strip_sheets(const Plan& plan, const StripSheets& options) {
  std::vector<PrintedPage> pages;
  if (!plan.strips || !plan.fabrication.batches) return pages;
  const detail::StripSheetParts parts = detail::strip_sheet_parts(plan, options);
  const std::vector<Batch>& batches = plan.fabrication.batches->batches;
  for (std::size_t i = 0; i < batches.size(); ++i) {
    const std::string name = "Marking sheet of batch " + std::to_string(i + 1);
    pages.push_back(detail::strip_sheet(parts, batches[i].strips, name));
    add_page_head(pages.back(), plan.job.title.value_or("Panel"), name,
                  "page " + std::to_string(i + 1) + " of " + std::to_string(batches.size()));
  }
  return pages;
}

template <When>
std::vector<PrintedPage> strip_tile_pages(const Plan& plan, const StripSheets& options) {
  std::vector<PrintedPage> pages;
  if (!plan.strips || !plan.fabrication.batches) return pages;
  const detail::StripSheetParts parts = detail::strip_sheet_parts(plan, options);
  const Paper paper = paper_of(plan.job);
  const Size sheet = size_of(paper);
  const detail::TileShape most = detail::strip_tile_shape(parts, sheet, name_of(paper));
  std::vector<std::string> subjects;
  const std::vector<Batch>& batches = plan.fabrication.batches->batches;
  for (std::size_t i = 0; i < batches.size(); ++i) {
    const std::vector<std::size_t>& strips = batches[i].strips;
    int last = 1;
    for (const std::size_t place : strips) last = std::max(last, parts.strip(place).sections.back().last_column);
    const auto count = static_cast<int>(strips.size());
    const int columns = detail::shared_out(last, most.columns);
    const int rows = detail::shared_out(count, most.lanes);
    for (int low = 0; low < count; low += rows) {
      for (int first = 1; first <= last; first += columns) {
        StripLanes lanes{.first_column = first,
                         .last_column = std::min(first + columns - 1, last),
                         .pitch = parts.pitch,
                         .width = parts.width(),
                         .lane_pitch = parts.lane_pitch,
                         .ends_named = false};
        for (int k = low; k < std::min(low + rows, count); ++k)
          lanes.strips.push_back(strips[static_cast<std::size_t>(k)]);
        lanes.corner = {
            page_margin + detail::beside_lanes,
            page_margin + head_height + 19 * mm + parts.height_of(lanes.strips.size()) - detail::below_lane - 1 * mm};
        PrintedPage page{.name = "Marking tile " + std::to_string(pages.size() + 1), .size = sheet};
        detail::add_strip_lanes(page, parts, lanes,
                                lanes.right() + (lanes.last_column == last ? plan.strips->trim : Length{}));
        detail::add_tile_corners(page, parts, lanes, parts.lane_pitch.times(low));
        const Length foot = sheet.height - page_margin;
        const Length room = sheet.width - page_margin.times(2);
        page.texts.push_back({.at = {page_margin, page_margin + 8.5 * mm},
                              .text = "columns " + std::to_string(first) + " to " + std::to_string(lanes.last_column) +
                                      ", " + detail::courses_text(parts, lanes.strips) + ", corners in " +
                                      parts.unit_word() + " from the datum corner of the batch",
                              .em = 3.2 * mm,
                              .colour = look::quiet,
                              .room = room - 30 * mm});
        page.texts.push_back({.at = {page_margin, foot - 11 * mm},
                              .text = "Lay each tile by its own corners on marks of the bench, never against the last "
                                      "tile: paper moves, and errors add up.",
                              .em = 3.1 * mm,
                              .room = room});
        page.texts.push_back(
            {.at = {page_margin, foot - 6.8 * mm}, .text = detail::marking_text(parts), .em = 3.1 * mm, .room = room});
        add_bar_across(page, {page_margin, foot - 2 * mm}, check_bars(paper, parts.unit).width, parts.unit);
        pages.push_back(std::move(page));
        subjects.push_back("Marking tile of batch " + std::to_string(i + 1));
      }
    }
  }
  for (std::size_t i = 0; i < pages.size(); ++i) {
    add_page_head(pages[i], plan.job.title.value_or("Panel"), subjects[i],
                  "page " + std::to_string(i + 1) + " of " + std::to_string(pages.size()));
  }
  return pages;
}

}  // namespace handlaid
