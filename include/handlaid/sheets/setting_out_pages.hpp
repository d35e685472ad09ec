// Setting out, to carry to the bench: the board with its datum, field and lines, the checks for square corners, and all
// marks of both directions as tables.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/colour_words.hpp"
#include "handlaid/sheets/page_words.hpp"

namespace handlaid {

/// The pages, on the job's paper, in its units: first the drawing with the checks, then the tables.
template <When = When::called>
std::vector<PrintedPage> setting_out_pages(const Plan& plan);

namespace detail {

/// The board in a drawing: `largest` is the room it may take, `foot` its lower left corner on the page.
struct BoardDrawing {
  const BoardMarks& marks;
  PagePoint foot = {};
  Size largest = {};

  /// To scale, from the datum, rounded once: a share of the board's longer side as compared with the room.
  Length scaled(Length length) const {
    const bool wide = marks.board.width.um() * largest.height.um() > marks.board.height.um() * largest.width.um();
    const Length room = wide ? largest.width : largest.height;
    const Length side = wide ? marks.board.width : marks.board.height;
    return Length::from_um((length.um() * room.um() + side.um() / 2) / side.um());
  }
  Length x_of(Length mark) const { return foot.x + scaled(mark); }
  Length y_of(Length mark) const { return foot.y - scaled(mark); }
};

/// Every how many lines a number stands where they are `pitch` apart in the drawing and need `needed`.
inline int number_step(Length pitch, Length needed) {
  for (const int step : {5, 10, 20, 50, 100, 200, 500}) {
    if (pitch.times(step) >= needed) return step;
  }
  return 1'000;
}

template <When = When::called>
void add_board_lines(PrintedPage& page, const BoardDrawing& board) {
  const BoardMarks& marks = board.marks;
  const Length left = board.x_of(marks.across.front());
  const Length right = board.x_of(marks.across.back());
  const Length bottom = board.y_of(marks.up.front());
  const Length top = board.y_of(marks.up.back());
  const Length em = 3.1 * mm;
  const auto number = [&](int line, PagePoint at, TextAnchor anchor) {
    page.texts.push_back({.at = at,
                          .text = std::to_string(line),
                          .em = em,
                          .anchor = anchor,
                          .centred = true,
                          .bold = line % 10 == 0,
                          .colour = line % 10 == 0 ? look::ink : look::quiet});
  };
  for (const bool upright : {true, false}) {
    const std::vector<Length>& list = upright ? marks.across : marks.up;
    const int count = static_cast<int>(list.size()) - 1;
    const Length pitch = board.scaled(list.back() - list.front()).divided(count);
    const int step = number_step(pitch, upright ? em.times(digits_of(count)) : em.times(15).divided(10));
    for (int line = 0; line <= count; line += 5) {
      const Length mark = list[static_cast<std::size_t>(line)];
      const bool ten = line % 10 == 0;
      if (ten || pitch.times(5) >= 1.5 * mm) {
        const Length width = Length::from_um(ten ? 200 : 100);
        const Srgb8 colour = ten ? look::quiet : look::rule;
        if (upright) page.lines.push_back({{board.x_of(mark), bottom}, {board.x_of(mark), top}, width, colour});
        if (!upright) page.lines.push_back({{left, board.y_of(mark)}, {right, board.y_of(mark)}, width, colour});
      }
      if (line % step != 0) continue;
      if (upright) number(line, {board.x_of(mark), board.foot.y + 5 * mm}, TextAnchor::middle);
      if (!upright) number(line, {board.foot.x - 3.8 * mm, board.y_of(mark)}, TextAnchor::right);
    }
  }
  const auto line = [&](PagePoint from, PagePoint to, Length width, const Srgb8& colour, Length dash = {}) {
    page.lines.push_back({from, to, width, colour, dash});
  };
  const Length dash = Length::from_um(1'500);
  line({left, bottom}, {right, top}, Length::from_um(200), look::quiet, dash);
  line({left, top}, {right, bottom}, Length::from_um(200), look::quiet, dash);
  page.boxes.push_back({{left, top}, {right - left, bottom - top}, false, {}, Length::from_um(400)});
}

template <When = When::called>
void add_board_drawing(PrintedPage& page, const BoardDrawing& board, LengthUnit unit) {
  const Size size{board.scaled(board.marks.board.width), board.scaled(board.marks.board.height)};
  page.boxes.push_back(
      {{board.foot.x, board.foot.y - size.height}, size, true, {255, 255, 255}, Length::from_um(300), look::quiet});
  add_board_lines(page, board);
  const Length side = 3 * mm;
  page.boxes.push_back({{board.foot.x - side, board.foot.y}, {side, side}, true, look::accent});
  page.texts.push_back({.at = {board.foot.x - side, board.foot.y + 11.5 * mm},
                        .text = "datum corner",
                        .em = 3.2 * mm,
                        .bold = true,
                        .colour = look::accent});
  const std::string in_unit = std::string(" ") + symbol(unit);
  page.texts.push_back({.at = {board.foot.x + size.width.divided(2), board.foot.y - size.height - 2 * mm},
                        .text = mark_text(board.marks.board.width, unit) + in_unit,
                        .em = 3.2 * mm,
                        .anchor = TextAnchor::middle,
                        .colour = look::quiet});
  page.texts.push_back({.at = {board.foot.x + size.width + 7.5 * mm, board.foot.y - size.height.divided(2)},
                        .text = mark_text(board.marks.board.height, unit) + in_unit,
                        .em = 3.2 * mm,
                        .anchor = TextAnchor::middle,
                        .colour = look::quiet,
                        .quarter_turns = 1});
}

/// What to do and to check: a subject and a sentence each.
struct SettingOutWord {
  std::string subject = {};
  std::string sentence = {};
};

template <When = When::called>
std::vector<SettingOutWord> setting_out_words(const Plan& plan, LengthUnit unit) {
  const BoardMarks& marks = plan.marks;
  const SettingOutChecks& checks = plan.fabrication.checks;
  const auto length = [&](Length value) {
    return mark_text(value, unit) + " " + symbol(unit) +
           (unit == LengthUnit::inches ? " (" + decimal_inch_text(value) + ")" : "");
  };
  std::vector<SettingOutWord> words{
      {"Marks", "Each from the datum edge, tape held still; never one cell added to the last."},
      {"Field", std::max(marks.margin_x, marks.margin_y) < Length::from_um(100)  // less is a rounding of the pitch
                    ? "It takes the whole board."
                    : "It begins " + length(marks.margin_x) + " from the left edge and " + length(marks.margin_y) +
                          " from the bottom edge."},
      {"Diagonals", "Both " + length(marks.diagonal) + ". If they differ, move the top marks sideways, towards the"}};
  const double lean = 1'000.0 / static_cast<double>(std::max<std::int64_t>(checks.diagonals_for_1_mm_sideways.um(), 1));
  words.push_back(
      {"", "upper end of the shorter one, by " + reported_text(lean) + " times the difference, and measure again."});
  if (checks.triangle > Length{}) {
    words.push_back({"3-4-5", length(checks.triangle.times(3)) + " to the right and " +
                                  length(checks.triangle.times(4)) + " up the field: between the two ends " +
                                  length(checks.triangle.times(5)) + "."});
  }
  words.push_back({"Rods", "At least " + length(checks.pole_across) + " for the columns, " + length(checks.pole_up) +
                               " for the courses."});
  const std::string read = unit == LengthUnit::millimetres ? "a tenth of a millimetre" : "a sixteenth of an inch";
  if (checks.largest_error == Length{}) {
    words.push_back({"Rounding", "Marks are read to " + read + ": all stand on it exactly."});
  } else {
    words.push_back({"Rounding", "Marks are read to " + read + ", each rounded once: errors do not add up."});
    words.push_back(
        {"", "None is further from its place than " + to_text(checks.largest_error, LengthUnit::millimetres) + "."});
  }
  words.push_back({"Tools", decides_sentence});
  return words;
}

/// A table of marks on one page or several: ten lines a row, the mark of line 37 in row 30, column + 7.
class MarksTable {
 public:
  MarksTable(Paper paper, LengthUnit unit) : paper_(paper), unit_(unit) {}

  template <When = When::called>
  void add(std::vector<PrintedPage>& pages, const std::vector<Length>& marks, const std::string& caption) {
    const Length high = row_height();
    const int count = static_cast<int>(marks.size());
    for (int first = 0; first < count; first += 10) {
      // a heading never stands alone at the foot
      const Length needed = first == 0 ? high.times(2) + 18 * mm : high;
      if (pages.empty() || y_ == Length{} || y_ + needed > foot()) {
        begin_page(pages);
        add_heading(pages.back(), caption + (first == 0 ? "" : ", continued"));
      } else if (first == 0) {
        y_ += 8 * mm;
        add_heading(pages.back(), caption);
      }
      add_row(pages.back(), marks, first);
      y_ += high;
    }
  }

 private:
  Length row_height() const { return unit_ == LengthUnit::inches ? 9 * mm : 5.6 * mm; }
  Length foot() const { return size_of(paper_).height - page_margin - 10 * mm; }
  /// The right end of a column of figures, 0 for the number of the line.
  Length column(int i) const {
    const Length wide = size_of(paper_).width - page_margin.times(2) - 12 * mm;
    return page_margin + 12 * mm + wide.times(i).divided(10);
  }
  template <When = When::called>
  void begin_page(std::vector<PrintedPage>& pages) {
    PrintedPage page{.name = "Marks " + std::to_string(pages.size()), .size = size_of(paper_)};
    add_bar_across(page, {page_margin, page.size.height - page_margin - 2 * mm}, check_bars(paper_, unit_).width,
                   unit_);
    pages.push_back(std::move(page));
    y_ = page_margin + head_height + 8 * mm;
  }
  template <When = When::called>
  void add_heading(PrintedPage& page, const std::string& caption) {
    const Length right = page.size.width - page_margin;
    page.texts.push_back({.at = {page_margin, y_}, .text = caption, .em = 3.6 * mm, .bold = true});
    y_ += 6 * mm;
    for (int i = 0; i <= 10; ++i) {
      page.texts.push_back({.at = {column(i), y_},
                            .text = i == 0 ? "line" : "+" + std::to_string(i - 1),
                            .em = 3.1 * mm,
                            .anchor = TextAnchor::right,
                            .bold = true,
                            .colour = look::quiet});
    }
    page.lines.push_back({{page_margin, y_ + 1.6 * mm}, {right, y_ + 1.6 * mm}, Length::from_um(350)});
    y_ += 6.2 * mm;
  }
  template <When = When::called>
  void add_row(PrintedPage& page, const std::vector<Length>& marks, int first) {
    const Length room = column(1) - column(0) - 1.5 * mm;
    page.texts.push_back({.at = {column(0), y_},
                          .text = std::to_string(first),
                          .em = 3.1 * mm,
                          .anchor = TextAnchor::right,
                          .bold = true});
    for (int i = 0; i < 10 && first + i < static_cast<int>(marks.size()); ++i) {
      const Length mark = marks[static_cast<std::size_t>(first + i)];
      page.texts.push_back({.at = {column(i + 1), y_},
                            .text = mark_text(mark, unit_),
                            .em = 3.1 * mm,
                            .anchor = TextAnchor::right,
                            .bold = i % 5 == 0,
                            .room = room});
      if (unit_ == LengthUnit::millimetres) continue;
      page.texts.push_back({.at = {column(i + 1), y_ + 3.6 * mm},
                            .text = decimal_inch_text(mark),
                            .em = 3.1 * mm,
                            .anchor = TextAnchor::right,
                            .colour = look::quiet,
                            .room = room});
    }
    const Length under = y_ + row_height() - 4 * mm;
    page.lines.push_back(
        {{page_margin, under}, {page.size.width - page_margin, under}, Length::from_um(100), look::rule});
  }

  Paper paper_;
  LengthUnit unit_;
  Length y_ = {};
};

}  // namespace detail

template <When>
std::vector<PrintedPage> setting_out_pages(const Plan& plan) {
  const Paper paper = paper_of(plan.job);
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Size sheet = size_of(paper);
  PrintedPage first{.name = "Setting out", .size = sheet};
  const std::vector<detail::SettingOutWord> words = detail::setting_out_words(plan, unit);
  const Length line_height = 5.6 * mm;
  const Length bar = sheet.height - page_margin - 2 * mm;
  const Length words_top = bar - 4 * mm - line_height.times(static_cast<std::int64_t>(words.size()));
  const Length top = page_margin + head_height + 7 * mm;
  const Length left = page_margin + 15 * mm;
  const detail::BoardDrawing room{
      plan.marks, {}, {sheet.width - left - page_margin - 11 * mm, words_top - top - 20 * mm}};
  // in the middle of the page, but for the numbers at its left
  const Length centred = (sheet.width - room.scaled(plan.marks.board.width)).divided(2);
  const detail::BoardDrawing board{
      plan.marks, {std::max(left, centred), top + room.scaled(plan.marks.board.height)}, room.largest};
  detail::add_board_drawing(first, board, unit);
  Length y = std::min(words_top, board.foot.y + 22 * mm);
  for (const detail::SettingOutWord& word : words) {
    if (!word.subject.empty()) {
      first.texts.push_back({.at = {page_margin, y}, .text = word.subject, .em = 3.2 * mm, .bold = true});
    }
    first.texts.push_back({.at = {page_margin + 24 * mm, y},
                           .text = word.sentence,
                           .em = 3.2 * mm,
                           .room = sheet.width - page_margin.times(2) - 24 * mm});
    y += line_height;
  }
  add_bar_across(first, {page_margin, bar}, check_bars(paper, unit).width, unit);

  std::vector<PrintedPage> pages{std::move(first)};
  detail::MarksTable table(paper, unit);
  const std::string how = unit == LengthUnit::inches ? ", in, decimal below" : ", mm";
  table.add(pages, plan.marks.across, "Lines between columns, from the left edge" + how);
  table.add(pages, plan.marks.up, "Lines between courses, from the bottom edge" + how);
  add_page_heads(pages, plan, "Setting out");
  return pages;
}

}  // namespace handlaid
