// Marking sheets of strips: a whole batch side by side at true length, so that all its strips are marked with one
// straightedge across. One sheet a batch, for a plotter or a print shop; sheets/strip_tiles has the same on small
// paper.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/page_words.hpp"
#include "handlaid/sheets/strip_lanes.hpp"

namespace handlaid {

/// Options of marking sheets.
struct StripSheets {
  /// From one strip to the next on the bench, 0 to 200 mm; more where the colour numbers between them need it.
  Length gap = 8 * mm;
};

/// A sheet for each batch, as large as the batch, its lowest course at the bottom. None for a plan without strips.
/// Throws Error for a gap out of range.
template <When = When::called>
std::vector<PrintedPage> strip_sheets(const Plan& plan, const StripSheets& options = {});

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
  /// Of the longest of these strips.
  int last_column(const std::vector<std::size_t>& strips) const {
    int last = 1;
    for (const std::size_t place : strips) last = std::max(last, strip(place).sections.back().last_column);
    return last;
  }
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

/// The strips of a batch from the lowest course up, as they lie on the sheet.
template <When = When::called>
std::vector<std::size_t> lowest_first(const Batch& batch) {
  std::vector<std::size_t> strips = batch.strips;
  std::sort(strips.begin(), strips.end());
  return strips;
}

/// "courses 1 to 12"; their numbers where they are no neighbours, "40 courses from 3 to 96" where those are many.
template <When = When::called>
std::string courses_text(const StripSheetParts& parts, const std::vector<std::size_t>& strips) {
  const int first = parts.strip(strips.front()).course;
  const int last = parts.strip(strips.back()).course;
  if (strips.size() == 1) return "course " + std::to_string(first);
  if (last - first + 1 == static_cast<int>(strips.size())) {
    return "courses " + std::to_string(first) + " to " + std::to_string(last);
  }
  if (strips.size() > 12) {
    return std::to_string(strips.size()) + " courses from " + std::to_string(first) + " to " + std::to_string(last);
  }
  std::string text = "courses";
  for (const std::size_t place : strips) {
    text += (place == strips.front() ? " " : ", ") + std::to_string(parts.strip(place).course);
  }
  return text;
}

/// How strips are marked, a sentence each, for a whole sheet and for the guide of the tiles. Folded end to end, both
/// halves of a strip get paint, the second one mirrored about the fold: its marks stand as far from its own end as
/// those of the first from theirs, so that one lane does for both.
template <When = When::called>
std::vector<std::string> marking_sentences(const StripSheetParts& parts) {
  const StripTakeoff& strips = *parts.plan.strips;
  std::vector<std::string> sentences{
      "Lay each strip on its lane, its datum end on the red line, and hold its ends down with a loop of tape under "
      "them; its "
      "marks are the lines that come out on both sides, where no paint hides them."};
  if (strips.fold == Fold::lengthwise) sentences.push_back("The dashed line is the fold.");
  if (strips.fold == Fold::end_to_end) {
    sentences.push_back(
        "A lane is one half of a strip, which is twice as long: the fold is where the lane ends, the "
        "heavy dashed line.");
    sentences.push_back(
        "For the other half turn the strip end for end, the same face up, its other end on the red "
        "line, and mark it by the same lines.");
  }
  if (strips.trim > Length{}) sentences.push_back("What is dashed beyond the last mark is cut off after mounting.");
  if (parts.numerals.small()) sentences.push_back("Numbers are small since a cell is: read them with a lens.");
  return sentences;
}

/// Sentences as one text.
template <When = When::called>
std::string in_one(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += (text.empty() ? "" : " ") + sentence;
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
  const int last = parts.last_column(strips);
  const Length length = parts.pitch.times(last);
  const Length trim = parts.plan.strips->trim;
  const Length around = page_margin + beside_lanes;
  const Length above = page_margin + head_height + strip_scale_height;
  PrintedPage page{.name = name, .size = {std::max(length + trim + around.times(2), 200 * mm), {}}};
  const StripLanes lanes{.strips = strips,
                         .first_column = 1,
                         .last_column = last,
                         .corner = {around, above + parts.height_of(strips.size()) - below_lane - 1 * mm},
                         .pitch = parts.pitch,
                         .width = parts.width(),
                         .lane_pitch = parts.lane_pitch};
  add_strip_lanes(page, parts, lanes, lanes.right() + trim);
  const Length room = page.size.width - page_margin.times(2);
  page.texts.push_back({.at = {page_margin, page_margin + 8.5 * mm},
                        .text = courses_text(parts, strips) + ", marks in " + parts.unit_word() +
                                " from the datum end; the lowest course is at the bottom",
                        .em = 3.2 * mm,
                        .colour = look::quiet,
                        .room = room - 30 * mm});
  Length y = lanes.corner.y + below_lane + strip_scale_height + 7 * mm;
  y = add_words(page, in_one(marking_sentences(parts)), {page_margin, y}, room);
  y = add_words(page, std::string(large_page_sentence) + " Then measure the bar.", {page_margin, y}, room);
  y = add_page_cautions(page, {Hazard::hand_blade}, {page_margin, y + 1.5 * mm}, room);
  const Length round = parts.unit == LengthUnit::millimetres ? 100 * mm : 4 * inch;
  const std::int64_t count = std::clamp<std::int64_t>(length.count_of(round), 1, 10);
  add_bar_across(page, {page_margin, y + 1 * mm}, round.times(count), parts.unit);
  page.size.height = y + 3 * mm + page_margin;
  return page;
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
    pages.push_back(detail::strip_sheet(parts, detail::lowest_first(batches[i]), name));
    add_page_head(pages.back(), plan.job.title.value_or("Panel"), name,
                  "page " + std::to_string(i + 1) + " of " + std::to_string(batches.size()));
  }
  return pages;
}

}  // namespace handlaid
