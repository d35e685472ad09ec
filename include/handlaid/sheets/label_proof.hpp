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
#include "handlaid/sheets/page_words.hpp"

namespace handlaid::detail {

/// A sentence on a label.
struct LabelLine {
  std::string text = {};
  bool bold = false;
  Srgb8 colour = look::ink;
  /// A name: it keeps to one line.
  bool may_be_cut = false;
};

/// Sentences one below the other, broken to the width, as many as fit: in the larger type where all of them do, else in
/// the smaller one.
template <When = When::called>
void add_label_lines(PrintedPage& page, const std::vector<LabelLine>& sentences, PagePoint at, Size room) {
  std::vector<LabelLine> lines;
  Length em = Length::from_um(3'600);
  for (const Length tried : {em, Length::from_um(3'100)}) {
    em = tried;
    lines.clear();
    for (const LabelLine& sentence : sentences) {
      if (sentence.may_be_cut) {
        lines.push_back(sentence);
        continue;
      }
      for (std::string& part : broken_lines(sentence.text, em, room.width, sentence.bold)) {
        lines.push_back({std::move(part), sentence.bold, sentence.colour});
      }
    }
    if (em.times(static_cast<std::int64_t>(lines.size())).times(13).divided(10) <= room.height) break;
  }
  const std::int64_t fit = std::max<std::int64_t>(room.height.count_of(em.times(13).divided(10)), 1);
  const std::int64_t count = std::min(static_cast<std::int64_t>(lines.size()), fit);
  const Length pitch = std::min(room.height.divided(std::max<std::int64_t>(count, 1)), em.times(15).divided(10));
  for (std::int64_t i = 0; i < count; ++i) {
    const LabelLine& line = lines[static_cast<std::size_t>(i)];
    page.texts.push_back({.at = {at.x, at.y + pitch.times(i) + pitch.times(8).divided(10)},
                          .text = line.text,
                          .em = em,
                          .bold = line.bold,
                          .colour = line.colour,
                          .room = room.width,
                          .may_be_cut = line.may_be_cut});
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

/// The proof: all outlines, white where a label is printed now; what to do, and which sheet
/// it is, stands in the first ones.
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

/// The sheet by its lengths, so that one like it can be bought, or plain paper cut.
template <When = When::called>
std::vector<LabelLine> sheet_lines(const LabelSheet& sheet, LengthUnit unit) {
  std::vector<LabelLine> lines{
      {std::to_string(sheet.columns) + " across, " + std::to_string(sheet.rows) + " down, each " +
       tied(number_text(sheet.label.width, unit) + " × " + to_text(sheet.label.height, unit))},
      {"margins: " + tied("left " + to_text(sheet.left, unit)) + ", " + tied("top " + to_text(sheet.top, unit))}};
  std::string apart;
  if (sheet.columns > 1) apart = to_text(sheet.pitch.width - sheet.label.width, unit) + " between columns";
  if (sheet.rows > 1 && sheet.pitch.height > sheet.label.height) {
    apart += (apart.empty() ? "" : ", ") + to_text(sheet.pitch.height - sheet.label.height, unit) + " between rows";
  }
  if (!apart.empty()) lines.push_back({apart});
  lines.push_back({"or plain paper, cut along these lines", false, look::quiet});
  return lines;
}

/// What stands in the first labels of the proof, once it is known how many pages there are.
template <When = When::called>
void add_proof_words(PrintedPage& page, const Plan& plan, const LabelSheet& sheet, const std::string& subject,
                     std::size_t pages) {
  const LabelRoom room = label_room(sheet);
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const std::vector<std::vector<LabelLine>> parts{{{subject, true},
                                                   {plan.job.title.value_or("Panel"), false, look::ink, true},
                                                   {"proof, page 1 of " + std::to_string(pages), false, look::quiet}},
                                                  {{"Print this page on plain paper, at 100 %, and hold it behind a "
                                                    "sheet of labels."},
                                                   {"White is printed, shaded is not.", false, look::quiet}},
                                                  sheet_lines(sheet, unit)};
  std::vector<std::vector<LabelLine>> labels(static_cast<std::size_t>(std::min(sheet.places(), 3)));
  for (std::size_t i = 0; i < parts.size(); ++i) {
    std::vector<LabelLine>& label = labels[std::min(i, labels.size() - 1)];
    label.insert(label.end(), parts[i].begin(), parts[i].end());
  }
  Size most = room.size;
  if (sheet.rows == 1) most.height -= 6 * mm;  // the bar
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const PagePoint at = sheet.at(static_cast<int>(i) + 1);
    add_label_lines(page, labels[i], {at.x + room.left, at.y + room.top}, most);
  }
}

}  // namespace handlaid::detail
