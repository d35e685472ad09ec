// Labels on bought sheets of labels: one a colour for its box, and one a strip, so that no strip is mounted in the
// wrong place or the wrong way round. `colour_label_pages(plan, {.sheet = labels_63_by_38, .first_place = 5})`
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/colour_words.hpp"
#include "handlaid/sheets/label_proof.hpp"
#include "handlaid/sheets/label_sheet.hpp"
#include "handlaid/sheets/strip_lanes.hpp"

namespace handlaid {

/// Options of labels.
struct Labels {
  /// Without: 63.5 x 38.1 mm on A4, 66.7 x 25.4 mm on Letter, whichever is the job's paper.
  std::optional<LabelSheet> sheet = {};
  /// Of a sheet that was begun before: the first label that is still there, from 1 along the rows.
  int first_place = 1;
};

/// A label for the box of each colour that is laid: number on its colour, name, pieces, packs. The first page is a
/// proof for plain paper, with every label's outline; then come the pages for the sheets. Throws Error for a sheet that
/// cannot be, and a first place that is not on it.
template <When = When::called>
std::vector<PrintedPage> colour_label_pages(const Plan& plan, const Labels& options = {});

/// A label for each strip, batch by batch: course, batch, colours in their order, and at the lower left a filled square
/// with an arrow to the datum end. Proof and errors as with colours; none for a plan without strips.
template <When = When::called>
std::vector<PrintedPage> strip_label_pages(const Plan& plan, const Labels& options = {});

namespace detail {

/// Pages of labels: the proof, then `count` labels that `draw(page, i, corner)` fills.
template <class Draw>
std::vector<PrintedPage> label_pages(const Plan& plan, const LabelSheet& sheet, int first_place,
                                     const std::string& subject, std::size_t count, Draw draw) {
  std::vector<PrintedPage> pages;
  if (count == 0) return pages;
  pages.push_back(label_proof(plan, sheet, first_place, count));
  const auto places = static_cast<std::size_t>(sheet.places());
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t place = i + static_cast<std::size_t>(first_place) - 1;
    if (i == 0 || place % places == 0) {
      pages.push_back({.name = subject + " " + std::to_string(pages.size()), .size = sheet.paper});
    }
    draw(pages.back(), i, sheet.at(static_cast<int>(place % places) + 1));
  }
  add_proof_words(pages.front(), plan, sheet, subject, pages.size());
  // A head only where the margin above the labels has room for it.
  for (std::size_t i = 1; i < pages.size() && sheet.top >= page_margin + 4.5 * mm; ++i) {
    pages[i].texts.push_back({.at = {page_margin, page_margin + 3 * mm},
                              .text = subject + ", page " + std::to_string(i + 1) + " of " +
                                      std::to_string(pages.size()) + ": " + plan.job.title.value_or("Panel"),
                              .em = Length::from_um(3'100),
                              .colour = look::quiet,
                              .room = sheet.paper.width - page_margin.times(2),
                              .may_be_cut = true});
  }
  return pages;
}

/// The sheet of the options, checked.
template <When = When::called>
LabelSheet checked_label_sheet(const Plan& plan, const Labels& options) {
  const LabelSheet sheet = options.sheet.value_or(label_sheet_of(paper_of(plan.job)));
  sheet.check();
  if (options.first_place < 1 || options.first_place > sheet.places()) {
    throw Error::out_of_range("first place", std::to_string(options.first_place),
                              "1 to " + std::to_string(sheet.places()) + ", counted along the rows of the sheet");
  }
  return sheet;
}

template <When = When::called>
void add_colour_label(PrintedPage& page, const Plan& plan, const PieceLine& line, PagePoint at, const LabelRoom& room) {
  const PaletteEntry& entry = plan.chart.palette[line.number];
  const Length left = at.x + room.left;
  const Length top = at.y + room.top;
  const Length side = std::min(room.size.height, room.size.width.divided(4));
  page.boxes.push_back({{left, top}, {side, room.size.height}, true, entry.colour});
  page.texts.push_back({.at = {left + side.divided(2), top + room.size.height.divided(2)},
                        .text = std::to_string(line.number),
                        .em = std::min({12 * mm, room.size.height.times(6).divided(10),
                                        side.times(900).divided(std::int64_t{700} * digits_of(line.number))}),
                        .anchor = TextAnchor::middle,
                        .centred = true,
                        .bold = true,
                        .colour = numeral_colour(entry.colour)});
  std::vector<LabelLine> lines;
  // a low label has five lines: a name is one of them, and what belongs together runs on
  const bool low = room.size.height < 26 * mm;
  const NameLines name = low ? NameLines{entry.name, {}} : name_lines(entry.name, 20);
  if (!name.first.empty()) lines.push_back({name.first, true, look::ink, true});
  if (!name.second.empty()) lines.push_back({name.second, true, look::ink, true});
  for (const std::vector<std::string>& words : {need_lines(plan, line), pack_lines(plan, line.number)}) {
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (low && i > 0) {
        lines.back().text += ", " + words[i];
      } else {
        lines.push_back({words[i]});
      }
    }
  }
  lines.push_back({plan.job.title.value_or("Panel"), false, look::quiet, true});
  const Length apart = 3 * mm;
  add_label_lines(page, lines, {left + side + apart, top}, {room.size.width - side - apart, room.size.height});
}

/// The colours of a strip from its datum end, a gap as a dash, in lines of at most `most` digits; what does not fit
/// into so many lines is an ellipsis.
template <When = When::called>
std::vector<std::string> colour_lines(const Strip& strip, std::size_t most, std::size_t lines) {
  std::vector<std::string> text(1);
  std::size_t width = 0;
  for (const StripSection& section : strip.sections) {
    const std::string word = section.number == 0 ? "-" : std::to_string(section.number);
    std::string& line = text.back();
    // Two spaces are as wide as a digit; the last line keeps room for the ellipsis.
    const std::size_t room = text.size() == lines ? std::max<std::size_t>(most, 3) - 3 : most;
    if (line.empty() || width + 1 + word.size() <= room) {
      width += (line.empty() ? 0 : 1) + word.size();
      line += (line.empty() ? "" : "  ") + word;
    } else if (text.size() < lines) {
      text.push_back(word);
      width = word.size();
    } else {
      line += " …";
      break;
    }
  }
  return text;
}

template <When = When::called>
void add_strip_label(PrintedPage& page, const Strip& strip, std::size_t batch, PagePoint at, const LabelRoom& room) {
  const Length left = at.x + room.left;
  const Length right = at.x + room.right();
  const Length top = at.y + room.top;
  const Length foot = at.y + room.bottom();
  const Length big = std::clamp(room.size.height.divided(5), Length::from_um(3'100), 6 * mm);
  const auto text = [&](const std::string& content, PagePoint where, Length em, TextAnchor anchor, bool bold,
                        const Srgb8& colour, Length space) {
    page.texts.push_back(
        {.at = where, .text = content, .em = em, .anchor = anchor, .bold = bold, .colour = colour, .room = space});
  };
  const Length em = Length::from_um(3'100);
  const Length half = room.size.width.divided(2);
  const Length head = big.times(8).divided(10);
  text("course " + std::to_string(strip.course), {left, top + head}, big, TextAnchor::left, true, look::ink,
       room.size.width.times(2).divided(3));
  text("batch " + std::to_string(batch), {right, top + head}, em, TextAnchor::right, false, look::quiet,
       room.size.width.times(3).divided(10));
  // The datum end: no half turn and no mirror keeps a square and an arrow at the lower left.
  const Length side = 3 * mm;
  page.boxes.push_back({{left, foot - side}, {side, side}, true, look::accent});
  const Length y = foot - side.divided(2);
  const PagePoint tip{left + side + 1 * mm, y};
  add_datum_arrow(page, tip, 6 * mm);
  text("datum end", {tip.x + 7 * mm, foot - 0.4 * mm}, em, TextAnchor::left, true, look::accent,
       std::max(half - 8 * mm, 2 * mm));
  text("far end " + std::to_string(strip.sections.back().number), {right, foot - 0.4 * mm}, em, TextAnchor::right,
       false, look::quiet, half - 4 * mm);

  const Length begin = top + head + 1.2 * mm;
  const Length pitch = 4 * mm;
  const Length high = foot - side - begin;
  if (high < pitch) return;
  const auto most = static_cast<std::size_t>(room.size.width.count_of(em.times(640).divided(1000)));
  Length line_foot = begin + pitch;
  for (const std::string& line : colour_lines(strip, most, static_cast<std::size_t>(high.count_of(pitch)))) {
    text(line, {left, line_foot - 0.8 * mm}, em, TextAnchor::left, false, look::ink, room.size.width);
    line_foot += pitch;
  }
}

}  // namespace detail

template <When>
std::vector<PrintedPage> colour_label_pages(const Plan& plan, const Labels& options) {
  const LabelSheet sheet = detail::checked_label_sheet(plan, options);
  std::vector<const PieceLine*> lines;
  for (const PieceLine& line : plan.pieces.lines) {
    if (line.cells > 0) lines.push_back(&line);
  }
  const detail::LabelRoom room = detail::label_room(sheet);
  return detail::label_pages(plan, sheet, options.first_place, "Labels of colours", lines.size(),
                             [&](PrintedPage& page, std::size_t i, PagePoint at) {
                               detail::add_colour_label(page, plan, *lines[i], at, room);
                             });
}

template <When>
std::vector<PrintedPage> strip_label_pages(const Plan& plan, const Labels& options) {
  const LabelSheet sheet = detail::checked_label_sheet(plan, options);
  struct StripPlace {
    std::size_t strip = 0;
    std::size_t batch = 0;
  };
  std::vector<StripPlace> places;
  if (plan.strips && plan.fabrication.batches) {
    const std::vector<Batch>& batches = plan.fabrication.batches->batches;
    for (std::size_t batch = 0; batch < batches.size(); ++batch) {
      for (const std::size_t strip : batches[batch].strips) places.push_back({strip, batch + 1});
    }
  }
  const detail::LabelRoom room = detail::label_room(sheet);
  return detail::label_pages(plan, sheet, options.first_place, "Labels of strips", places.size(),
                             [&](PrintedPage& page, std::size_t i, PagePoint at) {
                               detail::add_strip_label(page, plan.strips->strips[places[i].strip], places[i].batch, at,
                                                       room);
                             });
}

}  // namespace handlaid
