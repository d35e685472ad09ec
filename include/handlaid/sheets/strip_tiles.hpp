// Marking sheets of strips in tiles on A4 or Letter: each is laid to marks on the bench by its own coordinates, never
// against the last one.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/page_guide.hpp"
#include "handlaid/sheets/strip_sheets.hpp"

namespace handlaid {

/// The marking sheets in tiles on the job's paper, batch by batch, from the datum end on, the lowest strips first;
/// before them a page that says how. Throws Error for a gap out of range, and where the paper does not hold one cell of
/// one strip.
template <When = When::called>
std::vector<PrintedPage> strip_tile_pages(const Plan& plan, const StripSheets& options = {});

/// How many tiles that is, counted without drawing any: a large panel of wide strips may have thousands. 0 for a plan
/// without strips; throws the same errors.
template <When = When::called>
std::int64_t strip_tile_count(const Plan& plan, const StripSheets& options = {});

namespace detail {

/// The four corners of a tile: a cross on the mark of the bench, and where that is.
template <When = When::called>
void add_tile_corners(PrintedPage& page, const StripSheetParts& parts, const StripLanes& lanes, Length up) {
  const Length lower = lanes.corner.y;
  const Length upper = lanes.top_of(lanes.strips.size() - 1);
  const auto place = [&](int line, Length height) {
    return mark_text(lanes.mark(line), parts.unit) + " along, " + mark_text(height, parts.unit) + " up";
  };
  // The left margin is cut off along the left corners, so their places stand right of them. On a tile that is too
  // narrow for two places side by side, the right one stands further out.
  const Length em = Length::from_um(3'100);
  const Length both = text_width(place(lanes.first_column - 1, up + lower - upper), em, true) +
                      text_width(place(lanes.last_column, up + lower - upper), em, true);
  const bool beside = lanes.right() - lanes.left() + 7 * mm < both;
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
      page.texts.push_back({.at = {left     ? x + 1 * mm
                                   : beside ? x + 1 * mm
                                            : x + 9 * mm,
                                   low ? end + 2.6 * mm : end - 1 * mm},
                            .text = place(line, height),
                            .em = em,
                            .anchor = left || beside ? TextAnchor::left : TextAnchor::right,
                            .bold = true,
                            .colour = look::accent});
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
  const Length high =
      sheet.height - page_margin.times(2) - head_height - 19 * mm - (parts.numerals.small() ? 37 * mm : 32 * mm);
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

/// What is to be known of the lanes on one tile, for its foot: no word of what is on others.
template <When = When::called>
std::string tile_text(const StripSheetParts& parts, const StripLanes& lanes, int last_column) {
  const StripTakeoff& strips = *parts.plan.strips;
  std::string text = "Lay the tile by its own corners, never against the last one. ";
  if (lanes.first_column > 1) text = "Cut off the left margin, from red cross to red cross. " + text;
  text += lanes.first_column == 1 ? "Datum ends on the red line." : "Datum ends at 0 of the bench.";
  if (strips.fold == Fold::lengthwise) text += " Dashed along: the fold.";
  if (lanes.last_column == last_column) {
    if (strips.fold == Fold::end_to_end) text += " Heavy dashes: the fold; turn the strip for its other half.";
    if (strips.trim > Length{}) text += " Dashed beyond the last mark: cut off after mounting.";
  }
  if (parts.numerals.small()) text += " Numbers are small since a cell is: read them with a lens.";
  return text;
}

/// The page before the tiles. `first_pages` has the page each batch begins on, and one more for the end.
template <When = When::called>
PrintedPage tile_guide(const StripSheetParts& parts, const std::vector<int>& first_pages) {
  PageGuide guide{
      .name = "How to use the marking tiles",
      .steps =
          {"Mark the bench for a batch: the corners of its tiles, each along and up from one datum corner, as they "
           "stand in red on the tiles. Tiles of another row begin a page higher, and that gap is meant.",
           "Of each tile but the first ones, with the red line, cut off the left margin along a rule from its upper to "
           "its lower red cross: it would hide the end of the tile before.",
           "Lay each tile with its four red crosses on those marks and tape it down, never against the last tile: "
           "paper moves with the weather, and errors add up."},
      .hazards = {Hazard::hand_blade}};
  guide.steps.push_back(in_one(marking_sentences(parts)));
  GuidePage made = guide_page(parts.plan, guide);
  // in columns, as many batches as there is room for
  const Length top = made.foot + 6 * mm;
  const Length pitch = 5 * mm;
  const Length foot = made.page.size.height - page_margin - 8 * mm;
  const auto rows = static_cast<std::size_t>(std::max<std::int64_t>((foot - top).count_of(pitch), 1));
  for (std::size_t i = 0; i < std::min(first_pages.size() - 1, rows * 3); ++i) {
    const int last = first_pages[i + 1] - 1;
    const std::string pages = first_pages[i] == last
                                  ? "page " + std::to_string(last)
                                  : "pages " + std::to_string(first_pages[i]) + " to " + std::to_string(last);
    made.page.texts.push_back({.at = {page_margin + (60 * mm).times(static_cast<std::int64_t>(i / rows)),
                                      top + pitch.times(static_cast<std::int64_t>(i % rows))},
                               .text = "Batch " + std::to_string(i + 1) + ": " + pages,
                               .em = WordStyle{}.em,
                               .room = 58 * mm});
  }
  return std::move(made.page);
}

}  // namespace detail

template <When>
std::int64_t strip_tile_count(const Plan& plan, const StripSheets& options) {
  if (!plan.strips || !plan.fabrication.batches) return 0;
  const detail::StripSheetParts parts = detail::strip_sheet_parts(plan, options);
  const Paper paper = paper_of(plan.job);
  const detail::TileShape most = detail::strip_tile_shape(parts, size_of(paper), name_of(paper));
  std::int64_t tiles = 0;
  for (const Batch& batch : plan.fabrication.batches->batches) {
    const int columns = parts.last_column(batch.strips);
    const auto count = static_cast<int>(batch.strips.size());
    tiles += std::int64_t{(columns + most.columns - 1) / most.columns} * ((count + most.lanes - 1) / most.lanes);
  }
  return tiles;
}

template <When>
std::vector<PrintedPage> strip_tile_pages(const Plan& plan, const StripSheets& options) {
  std::vector<PrintedPage> pages;
  if (!plan.strips || !plan.fabrication.batches) return pages;
  const detail::StripSheetParts parts = detail::strip_sheet_parts(plan, options);
  const Paper paper = paper_of(plan.job);
  const Size sheet = size_of(paper);
  const detail::TileShape most = detail::strip_tile_shape(parts, sheet, name_of(paper));
  pages.push_back({});  // the guide, once it is known where each batch begins
  std::vector<std::string> subjects{"Marking tiles"};
  std::vector<int> first_pages;
  const std::vector<Batch>& batches = plan.fabrication.batches->batches;
  for (std::size_t i = 0; i < batches.size(); ++i) {
    const std::vector<std::size_t> strips = detail::lowest_first(batches[i]);
    first_pages.push_back(static_cast<int>(pages.size()) + 1);
    const int last = parts.last_column(strips);
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
        PrintedPage page{.name = "Marking tile " + std::to_string(pages.size()), .size = sheet};
        detail::add_strip_lanes(page, parts, lanes,
                                lanes.right() + (lanes.last_column == last ? plan.strips->trim : Length{}));
        detail::add_tile_corners(page, parts, lanes, sheet.height.times(low / rows));
        const Length foot = sheet.height - page_margin;
        const Length room = sheet.width - page_margin.times(2);
        page.texts.push_back({.at = {page_margin, page_margin + 8.5 * mm},
                              .text = "columns " + std::to_string(first) + " to " + std::to_string(lanes.last_column) +
                                      ", " + detail::courses_text(parts, lanes.strips) + ", corners in " +
                                      parts.unit_word() + " from the datum corner of the batch",
                              .em = 3.2 * mm,
                              .colour = look::quiet,
                              .room = room - 30 * mm});
        const std::string words = detail::tile_text(parts, lanes, last);
        const auto lines = static_cast<std::int64_t>(broken_lines(words, WordStyle{}.em, room).size());
        add_words(page, words, {page_margin, foot - 6.5 * mm - line_height(WordStyle{}.em).times(lines - 1)}, room);
        add_bar_across(page, {page_margin, foot - 2 * mm}, check_bars(paper, parts.unit).width, parts.unit);
        pages.push_back(std::move(page));
        subjects.push_back("Marking tile of batch " + std::to_string(i + 1));
      }
    }
  }
  first_pages.push_back(static_cast<int>(pages.size()) + 1);
  pages.front() = detail::tile_guide(parts, first_pages);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    add_page_head(pages[i], plan.job.title.value_or("Panel"), subjects[i],
                  "page " + std::to_string(i + 1) + " of " + std::to_string(pages.size()));
  }
  return pages;
}

}  // namespace handlaid
