// Swatch cards: one card a colour to cut out, with room for the dried chip of the paint or for a piece of the real
// material, so that what is bought can be held against the picture.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "handlaid/colour/hex.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/colour_words.hpp"
#include "handlaid/sheets/page_words.hpp"

namespace handlaid {

/// The size of a card: eight stand on a page of A4 as on one of Letter.
inline constexpr Size swatch_card_size{90 * mm, 56 * mm};

/// The cards of all colours that are laid, in the order of their numbers, eight a page, on the job's paper. No page
/// where nothing is laid.
template <When = When::called>
std::vector<PrintedPage> swatch_card_pages(const Plan& plan);

namespace detail {

/// Thin lines to cut along, around and between cards: they run on a little, so that a knife finds
/// them when the first cuts are made.
template <When = When::called>
void add_cut_lines(PrintedPage& page, PagePoint corner, int columns, int rows) {
  const Length on = 3 * mm;
  const Length width = Length::from_um(100);
  const Length right = corner.x + swatch_card_size.width.times(columns);
  const Length bottom = corner.y + swatch_card_size.height.times(rows);
  for (int i = 0; i <= columns; ++i) {
    const Length x = corner.x + swatch_card_size.width.times(i);
    page.lines.push_back({{x, corner.y - on}, {x, bottom + on}, width, look::quiet, 1 * mm});
  }
  for (int i = 0; i <= rows; ++i) {
    const Length y = corner.y + swatch_card_size.height.times(i);
    page.lines.push_back({{corner.x - on, y}, {right + on, y}, width, look::quiet, 1 * mm});
  }
}

/// One card, its top left corner at `at`.
template <When = When::called>
void add_swatch_card(PrintedPage& page, const Plan& plan, const PieceLine& line, PagePoint at) {
  const PaletteEntry& entry = plan.chart.palette[line.number];
  const Length em = 3.2 * mm;
  const Length left = at.x + 5 * mm;
  const Length end = at.x + swatch_card_size.width - 5 * mm;
  const auto text = [&](const std::string& content, Length x, Length y, Length size, const Srgb8& colour, bool bold,
                        Length room, bool name = false) {
    page.texts.push_back({.at = {x, at.y + y},
                          .text = content,
                          .em = size,
                          .bold = bold,
                          .colour = colour,
                          .room = room,
                          .may_be_cut = name});
  };
  text(std::to_string(line.number), left, 15.5 * mm, 14 * mm, look::ink, true, 27 * mm);
  const Length beside = left + 30 * mm;
  const NameLines name = name_lines(entry.name, 18);
  text(name.first, beside, 9 * mm, 4.2 * mm, look::ink, true, end - beside, true);
  if (!name.second.empty()) text(name.second, beside, 13 * mm, 4.2 * mm, look::ink, true, end - beside, true);
  text("printed as " + to_hex(entry.colour), beside, name.second.empty() ? 14.5 * mm : 17.3 * mm, em, look::quiet,
       false, end - beside);

  // The printed swatch and the free box are alike and touch, since they are to be compared.
  const Size box{23 * mm, 19 * mm};
  const Length top = at.y + 19.5 * mm;
  page.boxes.push_back({{left, top}, box, true, entry.colour});
  page.boxes.push_back({{left + box.width, top}, box, true, {255, 255, 255}, Length::from_um(150), look::quiet});
  text("print", left, 42 * mm, smallest_type, look::quiet, false, box.width);
  text("chip or piece", left + box.width, 42 * mm, smallest_type, look::quiet, false, box.width);

  const Length figures = left + box.width.times(2) + 4 * mm;
  const Length room = end - figures;
  text(count_text(line.cells, "cell", "cells"), figures, 23 * mm, em, look::ink, false, room);
  Length y = 28.5 * mm;
  for (const std::string& need : need_lines(plan, line)) {
    text(need, figures, y, em, look::ink, false, room);
    y += 5.5 * mm;
  }

  std::string packs;
  for (const std::string& part : pack_lines(plan, line.number)) packs += (packs.empty() ? "" : ", ") + part;
  const Length packs_room = end - left - 30 * mm;
  const std::vector<std::string> packs_lines = broken_lines(packs, em, packs_room);
  text("lot", left, 51 * mm, em, look::quiet, false, {});
  page.lines.push_back(
      {{left + 7 * mm, at.y + 51.5 * mm}, {left + 27 * mm, at.y + 51.5 * mm}, Length::from_um(150), look::quiet});
  y = 51 * mm - line_height(em).times(static_cast<std::int64_t>(packs_lines.size()) - 1).divided(2);
  for (const std::string& words : packs_lines) {
    text(words, left + 30 * mm, y, em, look::ink, false, packs_room);
    y += line_height(em);
  }
}

}  // namespace detail

template <When>
std::vector<PrintedPage> swatch_card_pages(const Plan& plan) {
  constexpr int columns = 2;
  constexpr int rows = 4;
  const Paper paper = paper_of(plan.job);
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Size sheet = size_of(paper);
  const PagePoint corner{(sheet.width - swatch_card_size.width.times(columns)).divided(2),
                         page_margin + head_height + 4 * mm};
  std::vector<PrintedPage> pages;
  std::size_t cards = 0;
  for (const PieceLine& line : plan.pieces.lines) cards += line.cells > 0 ? 1 : 0;
  std::size_t place = 0;
  for (const PieceLine& line : plan.pieces.lines) {
    if (line.cells == 0) continue;
    const std::size_t on_page = place++ % (columns * rows);
    if (on_page == 0) {
      PrintedPage page{.name = "Swatch cards " + std::to_string(pages.size() + 1), .size = sheet};
      detail::add_cut_lines(page, corner, columns,
                            static_cast<int>(std::min<std::size_t>(rows, (cards - place + 2) / 2)));
      const Length foot = sheet.height - page_margin;
      add_bar_across(page, {corner.x, foot - 2 * mm}, check_bars(paper, unit).width, unit);
      add_words(page,
                "A home print is no colour sample for a shop: hold the dried chip or the real piece against the "
                "picture.",
                {page_margin, page_margin + 8.5 * mm}, sheet.width - page_margin.times(2) - 20 * mm, {.em = 3 * mm});
      if (pages.empty()) {
        add_page_cautions(page, {Hazard::hand_blade},
                          {corner.x, corner.y + swatch_card_size.height.times(rows) + 6.5 * mm},
                          swatch_card_size.width.times(columns));
      }
      pages.push_back(std::move(page));
    }
    const auto i = static_cast<std::int64_t>(on_page);
    detail::add_swatch_card(
        pages.back(), plan, line,
        {corner.x + swatch_card_size.width.times(i % columns), corner.y + swatch_card_size.height.times(i / columns)});
  }
  add_page_heads(pages, plan, "Swatch cards");
  return pages;
}

}  // namespace handlaid
