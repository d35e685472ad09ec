// The first page of a set of labels, for plain paper: held behind a sheet of labels it shows whether printer and sheet
// agree, before a sheet is spoilt.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/label_sheet.hpp"
#include "handlaid/sheets/page_parts.hpp"

namespace handlaid::detail {

/// Lines of text one below the other, as many as fit, no smaller than can be read.
struct LabelLine {
  std::string text = {};
  bool bold = false;
  Srgb8 colour = look::ink;
};

template <When = When::called>
void add_label_lines(PrintedPage& page, const std::vector<LabelLine>& lines, PagePoint at, Size room) {
  constexpr Length lowest = 4 * mm;
  const std::int64_t fit = std::max<std::int64_t>(room.height.count_of(lowest), 1);
  const std::int64_t count = std::min(static_cast<std::int64_t>(lines.size()), fit);
  const Length pitch = std::min(room.height.divided(std::max<std::int64_t>(count, 1)), 5.4 * mm);
  const Length em = std::clamp(pitch.times(7).divided(10), Length::from_um(3'100), 3.6 * mm);
  for (std::int64_t i = 0; i < count; ++i) {
    const LabelLine& line = lines[static_cast<std::size_t>(i)];
    page.texts.push_back({.at = {at.x, at.y + pitch.times(i) + pitch.times(8).divided(10)},
                          .text = line.text,
                          .em = em,
                          .bold = line.bold,
                          .colour = line.colour,
                          .room = room.width});
  }
}

/// The outline of a label, as far as a printer reaches: edges beyond the page's margin are left out, never moved.
template <When = When::called>
void add_label_outline(PrintedPage& page, const LabelSheet& sheet, PagePoint at, const Srgb8& fill) {
  const Length right = page.size.width - page_margin;
  const Length bottom = page.size.height - page_margin;
  const PagePoint end{at.x + sheet.label.width, at.y + sheet.label.height};
  const PagePoint from{std::max(at.x, page_margin), std::max(at.y, page_margin)};
  const PagePoint to{std::min(end.x, right), std::min(end.y, bottom)};
  if (from.x >= to.x || from.y >= to.y) return;
  page.boxes.push_back({from, {to.x - from.x, to.y - from.y}, true, fill});
  const Length width = Length::from_um(150);
  for (const Length x : {at.x, end.x}) {
    if (x >= page_margin && x <= right) page.lines.push_back({{x, from.y}, {x, to.y}, width, look::quiet});
  }
  for (const Length y : {at.y, end.y}) {
    if (y >= page_margin && y <= bottom) page.lines.push_back({{from.x, y}, {to.x, y}, width, look::quiet});
  }
}

/// The proof: all outlines, white where a label is printed now; what to do stands in the first two.
template <When = When::called>
PrintedPage label_proof(const Plan& plan, const LabelSheet& sheet, int first_place, std::size_t labels) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  PrintedPage page{.name = "Proof of the labels", .size = sheet.paper};
  const std::int64_t last = static_cast<std::int64_t>(labels) + first_place - 1;
  for (int place = 1; place <= sheet.places(); ++place) {
    const bool now = place >= first_place && place <= last;
    add_label_outline(page, sheet, sheet.at(place), now ? Srgb8{255, 255, 255} : look::shade);
  }
  // As long as the check bars of other pages, or in round figures what the paper has room for.
  Length bar = check_bars(Paper::a4, unit).width;
  const Length round = unit == LengthUnit::millimetres ? 10 * mm : 1 * inch;
  bar = std::min(bar, round.times((sheet.paper.width - page_margin.times(2)).count_of(round)));
  const PagePoint lowest = sheet.at(sheet.places());
  if (bar >= 50 * mm) {
    add_bar_across(page, {(sheet.paper.width - bar).divided(2), lowest.y + sheet.label.height - 4 * mm}, bar, unit);
  }
  return page;
}

/// What stands in the first labels of the proof, once it is known how many pages there are.
template <When = When::called>
void add_proof_words(PrintedPage& page, const Plan& plan, const LabelSheet& sheet, const std::string& subject,
                     std::size_t pages) {
  const LabelRoom room = label_room(sheet);
  std::vector<LabelLine> lines{{subject, true},
                               {plan.job.title.value_or("Panel")},
                               {"proof, page 1 of " + std::to_string(pages), false, look::quiet}};
  std::vector<LabelLine> how{{"Print on plain paper, at 100 %,"},
                             {"hold it behind the labels."},
                             {"White is printed, shaded is not.", false, look::quiet}};
  Size most = room.size;
  if (sheet.rows == 1) most.height -= 6 * mm;  // the bar
  const auto add = [&](const std::vector<LabelLine>& words, int place) {
    const PagePoint at = sheet.at(place);
    add_label_lines(page, words, {at.x + room.left, at.y + room.top}, most);
  };
  if (sheet.columns > 1) {
    add(how, 2);
  } else {
    lines.insert(lines.end(), how.begin(), how.end());
  }
  add(lines, 1);
}

}  // namespace handlaid::detail
