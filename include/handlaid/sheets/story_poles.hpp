// Story poles: a rod's marks of one direction at true scale. As one long page for a print shop, and in lengths on A4 or
// Letter that are each fastened to the rod by their own distance from the datum end.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/colour_words.hpp"
#include "handlaid/sheets/page_parts.hpp"
#include "handlaid/sheets/page_words.hpp"

namespace handlaid {

/// Which marks a pole carries.
enum class PoleDirection : std::uint8_t { across, up };

/// Both poles, each as a page as long as the field.
template <When = When::called>
std::vector<PrintedPage> long_pole_pages(const Plan& plan);

/// Both poles in lengths of a page, beside one another.
/// Throws Error where the page is shorter than one pitch.
template <When = When::called>
std::vector<PrintedPage> pole_pages(const Plan& plan);

namespace detail {

inline constexpr Length pole_width = 34 * mm;
/// Of the numbers of lines.
inline constexpr Length pole_em = Length::from_um(3'300);

struct Pole {
  const std::vector<Length>& marks;
  PoleDirection direction = PoleDirection::across;
  LengthUnit unit = LengthUnit::millimetres;
  const char* what() const { return direction == PoleDirection::across ? "columns" : "courses"; }
};

/// Lines `first` to `last` of a pole, upright, its edge at `foot.x`, its first line at `foot.y`, lines upward.
template <When = When::called>
void add_pole(PrintedPage& page, const Pole& pole, int first, int last, PagePoint foot) {
  const auto y_of = [&](int line) {
    return foot.y - (pole.marks[static_cast<std::size_t>(line)] - pole.marks[static_cast<std::size_t>(first)]);
  };
  const Length pitch = pole.marks.size() > 1 ? pole.marks[1] - pole.marks[0] : Length{};
  page.lines.push_back({foot, {foot.x, y_of(last)}, Length::from_um(250)});
  page.lines.push_back(
      {{foot.x + pole_width, foot.y}, {foot.x + pole_width, y_of(last)}, Length::from_um(120), look::rule});
  for (int line = first; line <= last; ++line) {
    const bool ten = line % 10 == 0;
    const bool five = line % 5 == 0;
    const Length y = y_of(line);
    const Length reach = ten ? 10 * mm : five ? 8 * mm : 5 * mm;
    page.lines.push_back({{foot.x, y}, {foot.x + reach, y}, Length::from_um(ten ? 300 : 150)});
    const bool ends = line == first || line == last;
    const bool named = ten || (five && pitch >= 2 * mm);
    if (!ends && !named) continue;
    // an end between two numbers is smaller where it would stand on one of them
    const Length from_five = pitch.times(std::min(line % 5, 5 - line % 5)).times(8).divided(10);
    const Length size = five ? pole_em : std::clamp(from_five, 1.2 * mm, pole_em);
    page.texts.push_back({.at = {foot.x + 11 * mm, y},
                          .text = std::to_string(line),
                          .em = size,
                          .centred = true,
                          .bold = ten,
                          .room = 7 * mm});
    page.texts.push_back({.at = {foot.x + pole_width - 1 * mm, y},
                          .text = mark_text(pole.marks[static_cast<std::size_t>(line)], pole.unit),
                          .em = std::min(size, smallest_type),
                          .anchor = TextAnchor::right,
                          .centred = true,
                          .colour = look::quiet,
                          .room = 15 * mm});
  }
  if (first == 0) page.boxes.push_back({{foot.x - 2.5 * mm, foot.y}, {2.5 * mm, 2.5 * mm}, true, look::accent});
}

template <When = When::called>
std::vector<Pole> poles_of(const Plan& plan) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  return {{plan.marks.across, PoleDirection::across, unit}, {plan.marks.up, PoleDirection::up, unit}};
}

}  // namespace detail

template <When>
std::vector<PrintedPage> long_pole_pages(const Plan& plan) {
  std::vector<PrintedPage> pages;
  for (const detail::Pole& pole : detail::poles_of(plan)) {
    const Length length = pole.marks.back() - pole.marks.front();
    const std::string range = mark_text(pole.marks.front(), pole.unit) + " to " +
                              mark_text(pole.marks.back(), pole.unit) + " " + symbol(pole.unit) +
                              " from the datum edge.";
    PrintedPage page{.name = std::string("Story pole of the ") + pole.what(),
                     .size = {detail::pole_width + 40 * mm, {}}};
    const Length left = 20 * mm;
    const Length room = page.size.width - left - 10 * mm;
    Length y = add_words(page, page.name, {left, 15 * mm}, room, {.em = 4 * mm, .bold = true});
    y = add_words(page, range, {left, y}, room);
    y = add_words(page,
                  std::string(large_page_sentence) + " Then measure it: the first line to the last must be " +
                      to_text(length, pole.unit) + ".",
                  {left, y + 2 * mm}, room);
    y = add_words(page, "Cut along the heavy edge.", {left, y + 2 * mm}, room);
    y = add_page_cautions(page, {Hazard::hand_blade}, {left, y + 2 * mm}, room);
    const PagePoint foot{left, y + 6 * mm + length};
    page.size.height = foot.y + 20 * mm;
    detail::add_pole(page, pole, 0, static_cast<int>(pole.marks.size()) - 1, foot);
    page.texts.push_back(
        {.at = {foot.x, foot.y + 9 * mm}, .text = "datum end", .em = 3.3 * mm, .bold = true, .colour = look::accent});
    pages.push_back(std::move(page));
  }
  return pages;
}

template <When>
std::vector<PrintedPage> pole_pages(const Plan& plan) {
  const Paper paper = paper_of(plan.job);
  const Size sheet = size_of(paper);
  const Length top = page_margin + head_height + 29 * mm;
  const Length bottom = sheet.height - page_margin - 16 * mm;
  constexpr Length apart = 37.5 * mm;
  const auto a_page = static_cast<int>((sheet.width - page_margin.times(2)).count_of(apart));

  struct Stretch {
    detail::Pole pole;
    int first;
    int last;
  };
  std::vector<Stretch> stretches;
  for (const detail::Pole& pole : detail::poles_of(plan)) {
    const int end = static_cast<int>(pole.marks.size()) - 1;
    const Length pitch = pole.marks[1] - pole.marks[0];
    auto fit = static_cast<int>((bottom - top).count_of(pitch));
    if (fit == 0) {
      throw Error::bad_option(
          "paper", std::string(name_of(paper)) + " is shorter than one pitch of " + to_text(pitch, pole.unit),
          "use the long poles of the large pages");
    }
    if (fit >= 10) fit = fit / 5 * 5;  // a length ends where a number stands
    for (int first = 0; first < end; first += fit) stretches.push_back({pole, first, std::min(first + fit, end)});
  }
  std::vector<PrintedPage> pages;
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const auto place = static_cast<int>(i) % a_page;
    if (place == 0) {
      PrintedPage page{.name = "Story poles " + std::to_string(pages.size() + 1), .size = sheet};
      const Length room = sheet.width - page_margin.times(2);
      const Length y = add_words(page,
                                 "Cut along the heavy edge. Fasten each length to the rod with its first line at its "
                                 "own distance from the datum end, never against the last length.",
                                 {page_margin, page_margin + 9 * mm}, room - 30 * mm);
      if (pages.empty()) add_page_cautions(page, {Hazard::hand_blade}, {page_margin, y + 2 * mm}, room);
      const LengthUnit unit = stretches[i].pole.unit;
      add_bar_across(page, {page_margin, sheet.height - page_margin - 2 * mm}, check_bars(paper, unit).width, unit);
      pages.push_back(std::move(page));
    }
    const Stretch& stretch = stretches[i];
    const auto mark = [&](int line) {
      return mark_text(stretch.pole.marks[static_cast<std::size_t>(line)], stretch.pole.unit);
    };
    PrintedPage& page = pages.back();
    const PagePoint foot{page_margin + 3 * mm + apart.times(place), bottom};
    detail::add_pole(page, stretch.pole, stretch.first, stretch.last, foot);
    page.texts.push_back(
        {.at = {foot.x, top - 9 * mm}, .text = stretch.pole.what(), .em = 3.3 * mm, .colour = look::quiet});
    page.texts.push_back({.at = {foot.x, top - 4 * mm},
                          .text = std::to_string(stretch.first + 1) + " to " + std::to_string(stretch.last),
                          .em = 4.2 * mm,
                          .bold = true});
    page.texts.push_back(
        {.at = {foot.x, bottom + 6.5 * mm},
         .text = stretch.first == 0 ? "datum end, at " + mark(0) : "first line at " + mark(stretch.first),
         .em = smallest_type,
         .bold = true,
         .colour = look::accent,
         .room = apart - 4 * mm});
  }
  add_page_heads(pages, plan, "Story poles");
  return pages;
}

}  // namespace handlaid
