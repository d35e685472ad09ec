// What stands on every printed page: the head that names it, and the two bars that show whether it is true to scale.
#pragma once

#include <optional>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/printed_page.hpp"

namespace handlaid {

/// The lengths of the bars to measure, as long as the page allows in round figures: 180 x 240 mm on A4, 180 x 220 mm on
/// Letter; 7 x 9 in and 7 x 8.5 in where lengths are in inches.
constexpr Size check_bars(Paper paper, LengthUnit unit) {
  if (unit == LengthUnit::inches) return {7 * inch, paper == Paper::a4 ? 9 * inch : 8.5 * inch};
  return {180 * mm, paper == Paper::a4 ? 240 * mm : 220 * mm};
}

/// The paper of a job: as it says, or A4, or Letter where lengths are in inches.
inline Paper paper_of(const Job& job) {
  const bool inches = job.units.value_or(LengthUnit::millimetres) == LengthUnit::inches;
  return job.print.paper.value_or(inches ? Paper::letter : Paper::a4);
}

/// How much larger pages are drawn than they should come out, in each direction.
struct PrintScale {
  double across = 1;
  double up = 1;
};

/// The remedy for what the bars of a first print measured: their true lengths by the measured ones; 1 where nothing was
/// typed in. Throws Error where a bar is out by more than 4 in 100: then the printer fits pages to the paper.
template <When = When::called>
PrintScale print_scale(const Job& job) {
  const LengthUnit unit = job.units.value_or(LengthUnit::millimetres);
  const Size bars = check_bars(paper_of(job), unit);
  const auto scale = [&](const char* word, Length truth, const std::optional<Length>& typed) {
    if (!typed) return 1.0;
    const Length measured = *typed;
    const Length off = truth > measured ? truth - measured : measured - truth;
    if (off.times(25) > truth) {
      throw Error::bad_option(
          word,
          "a bar of " + to_text(truth, unit) + " that measures " + to_text(measured, unit) + " is more than 4 % out",
          "print at 100 %, without fitting to the page, and measure again");
    }
    return static_cast<double>(truth.um()) / static_cast<double>(measured.um());
  };
  return {scale("bar-across", bars.width, job.print.bar_across), scale("bar-up", bars.height, job.print.bar_up)};
}

/// Title, subject and number of a page: one line of heading and one of quiet text below it, with a rule. It takes
/// `head_height` below the margin.
inline constexpr Length head_height = 11 * mm;

template <When = When::called>
void add_page_head(PrintedPage& page, const std::string& title, const std::string& subject, const std::string& right) {
  const Length left = page_margin;
  const Length end = page.size.width - page_margin;
  const Length half = (end - left).divided(2);
  page.texts.push_back({.at = {left, page_margin + 4 * mm},
                        .text = subject,
                        .em = Length::from_um(4'600),
                        .bold = true,
                        .room = half + 25 * mm});
  page.texts.push_back({.at = {end, page_margin + 4 * mm},
                        .text = title,
                        .em = 3 * mm,
                        .anchor = TextAnchor::right,
                        .colour = look::quiet,
                        .room = half - 30 * mm,
                        .may_be_cut = true});
  page.texts.push_back({.at = {end, page_margin + 8 * mm},
                        .text = right,
                        .em = 3 * mm,
                        .anchor = TextAnchor::right,
                        .colour = look::quiet});
}

/// The bar across, its left end at `at`, with its length in the middle.
template <When = When::called>
void add_bar_across(PrintedPage& page, PagePoint at, Length length, LengthUnit unit, Length em = smallest_type) {
  const Length tick = 1.5 * mm;
  const Length right = at.x + length;
  const Length middle = at.x + length.divided(2);
  page.lines.push_back({{at.x, at.y}, {middle - em.times(6), at.y}});  // open in the middle, for its length
  page.lines.push_back({{middle + em.times(6), at.y}, {right, at.y}});
  page.lines.push_back({{at.x, at.y - tick}, {at.x, at.y + tick}});
  page.lines.push_back({{right, at.y - tick}, {right, at.y + tick}});
  page.texts.push_back({.at = {middle, at.y},
                        .text = to_text(length, unit) + " across",
                        .em = em,
                        .anchor = TextAnchor::middle,
                        .centred = true,
                        .colour = look::quiet});
}

/// The bar up, its lower end at `at`.
template <When = When::called>
void add_bar_up(PrintedPage& page, PagePoint at, Length length, LengthUnit unit) {
  const Length tick = 1.5 * mm;
  const Length top = at.y - length;
  const Length middle = at.y - length.divided(2);
  page.lines.push_back({{at.x, at.y}, {at.x, middle + 15 * mm}});
  page.lines.push_back({{at.x, middle - 15 * mm}, {at.x, top}});
  page.lines.push_back({{at.x - tick, at.y}, {at.x + tick, at.y}});
  page.lines.push_back({{at.x - tick, top}, {at.x + tick, top}});
  page.texts.push_back({.at = {at.x + Length::from_um(950), middle},
                        .text = to_text(length, unit) + " up",
                        .em = smallest_type,
                        .anchor = TextAnchor::middle,
                        .colour = look::quiet,
                        .quarter_turns = 1});
}

}  // namespace handlaid
