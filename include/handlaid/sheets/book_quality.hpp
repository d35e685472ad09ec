// Bench book: how near the panel comes to its picture, in figures and as it is seen from three distances.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/write.hpp"
#include "handlaid/plan/dither_choice.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/base64.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/book_real_size.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/seen_view.hpp"

namespace handlaid {

inline constexpr BookSection quality_section{"quality", "How near it comes"};

namespace detail {

/// A blurred picture in even codes: a step that nobody sees takes a fifth off its bytes, or a quarter of a megabyte of
/// a large plan.
template <When = When::called>
Raster<Srgb8> even_codes(Raster<Srgb8> picture) {
  constexpr int even = 0xfe;
  for (int y = 0; y < picture.height(); ++y) {
    for (Srgb8& pixel : picture.row(y)) {
      for (std::uint8_t* code : {&pixel.r, &pixel.g, &pixel.b}) *code = static_cast<std::uint8_t>(*code & even);
    }
  }
  return picture;
}

/// From across a room, from the far end of a hall, from across a street: in pitches.
inline constexpr std::int64_t view_pitches[] = {333, 1'000, 3'000};

template <When = When::called>
void add_views(Markup& page, const Plan& plan) {
  const PlanQuality& quality = plan.quality;
  if (quality.part.colours.empty()) return;
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Chart<> part = middle_part(plan.chart);
  add_paragraph(page, part == plan.chart
                          ? "What the eye makes of it from three distances, the picture to the left, the panel to the "
                            "right. What looks alike here looks alike there."
                          : "What the eye makes of its middle from three distances, the picture to the left, the panel "
                            "to the right. What looks alike here looks alike there.");
  page.open("div", R"(class="views")").line();
  for (const std::int64_t pitches : view_pitches) {
    const Length distance = plan.chart.lattice.pitch.times(pitches);
    const SeenView view = seen_view(quality.part, part, distance);
    const std::string from = distance_text(distance, unit);
    page.open("figure").leaf("img", "src=\"data:image/png;base64," + base64(write_png(even_codes(view.picture))) +
                                        "\" alt=\"Picture and panel as seen from " + from + "\"");
    page.open("figcaption")
        .text(from + ", " + count_text(pitches) + " times the pitch: " + hundredths_text(view.seen.mean_steps) +
              " apart on average (CIEDE2000)");
    page.close().close().line();
  }
  page.close().line();
}

template <When = When::called>
void add_figure_row(Markup& page, const std::string& what, const std::string& value, const std::string& more) {
  page.open("tr").element("th", what, R"(scope="row")");
  add_number(page, value);
  page.element("td", more).close().line();
}

template <When = When::called>
void add_figures(Markup& page, const Plan& plan) {
  const PlanQuality& quality = plan.quality;
  begin_wide(page, "Figures");
  page.open("table").open("tbody").line();
  add_figure_row(page, "Colour difference, cell by cell", reported_text(plan.mean_difference),
                 "CIEDE2000 on average; at most " + reported_text(plan.high_difference) +
                     " in 95 of 100 cells. Below 1 is hardly seen side by side.");
  if (!quality.dithers.empty()) {
    add_figure_row(page, "The same as seen", hundredths_text(quality.seen.mean_steps),
                   "from " + seen_from(plan) + "; at most " + hundredths_text(quality.seen.high_steps) +
                       " in 95 of 100 cells. The eye mixes neighbouring cells.");
    add_figure_row(page, "Likeness as seen", reported_text(quality.similarity),
                   "Structural similarity from there; 1 is the same.");
    add_figure_row(page, "Squared error", reported_text(quality.squared.oklab * 1e4),
                   "ten-thousandths in Oklab, and " + reported_text(quality.squared.srgb, 0) +
                       " in squared codes of sRGB: what palettes are compared by.");
  }
  if (quality.stability) {
    const Stability& stable = *quality.stability;
    add_figure_row(page, "Steadiness of the palette", reported_text(stable.mean()),
                   "CIEDE2000 from each colour to its nearest when the palette is chosen again: " +
                       reported_text(stable.one_colour_fewer) + " with a colour fewer, " +
                       reported_text(stable.one_colour_more) + " with one more, " + reported_text(stable.cropped) +
                       " with a hundredth cropped, " + reported_text(stable.halved) + " with half and " +
                       reported_text(stable.doubled) + " with twice the columns and rows.");
  }
  page.close().close().close().line();
  add_paragraph(page, count_text(plan.lone_cells, "cell stands", "cells stand") +
                          " alone, without a neighbour of the same colour.");
}

template <When = When::called>
void add_dithers(Markup& page, const Plan& plan) {
  if (plan.quality.dithers.empty()) return;
  page.element("h3", "Ways of mixing colours").line();
  add_paragraph(page, "Seen from " + seen_from(plan) + ", with the same palette.");
  begin_wide(page, "Ways of mixing colours");
  page.open("table").open("thead").open("tr");
  add_heading(page, "Dither");
  add_heading(page, "Difference", true);
  add_heading(page, "In 95 of 100", true);
  add_heading(page, "Runs", true);
  add_heading(page, "");
  page.close().close().line().open("tbody").line();
  const DitherChoice best = recommended(plan.quality.dithers).dither;
  for (const DitherLook& look : plan.quality.dithers) {
    page.open("tr").element("th", value_text(look.dither, {}), R"(scope="row")");
    add_number(page, hundredths_text(look.seen.mean_steps));
    add_number(page, hundredths_text(look.seen.high_steps));
    add_number(page, count_text(look.runs));
    const bool chosen = look.dither == plan.job.dither;
    page.element("td", look.dither == best ? (chosen ? "recommended, and used here" : "recommended")
                                           : (chosen ? "used here" : ""));
    page.close().line();
  }
  page.close().close().close().line();
}

template <When = When::called>
void add_worst_cells(Markup& page, const Plan& plan) {
  const std::vector<WorstCell>& worst = plan.quality.worst;
  const std::vector<WorstCell>& seen = plan.quality.worst_seen;
  if (worst.empty()) return;
  page.element("h3", "The worst cells").line();
  add_paragraph(page,
                "Courses count from the bottom, columns from the left. An eye or a flag among them may be worth a "
                "locked colour.");
  begin_wide(page, "The worst cells");
  page.open("table").open("thead").open("tr");
  for (const char* difference : {"Difference", "As seen"}) {
    add_heading(page, "Course", true);
    add_heading(page, "Column", true);
    add_heading(page, "Colour");
    add_heading(page, difference, true);
  }
  page.close().close().line().open("tbody").line();
  const auto add = [&](const std::vector<WorstCell>& cells, std::size_t i) {
    if (i >= cells.size()) {
      for (int blank = 0; blank < 4; ++blank) page.element("td", "");
      return;
    }
    const WorstCell& cell = cells[i];
    add_number(page, count_text(cell.course));
    add_number(page, count_text(cell.column));
    page.open("td");
    const int number = plan.chart.course(cell.course)[static_cast<std::size_t>(cell.column) - 1];
    if (number > 0) add_swatch(page, number, plan.chart.palette[number].colour);
    page.close();
    add_number(page, hundredths_text(cell.difference_steps));
  };
  for (std::size_t i = 0; i < std::max(worst.size(), seen.size()); ++i) {
    page.open("tr");
    add(worst, i);
    add(seen, i);
    page.close().line();
  }
  page.close().close().close().line();
}

}  // namespace detail

/// Pictures from three distances, figures, ways of mixing, and the worst cells. What was not measured is left out.
template <When = When::called>
void add_quality(Markup& page, const Plan& plan) {
  begin_section(page, quality_section, true);
  detail::add_views(page, plan);
  add_real_size(page, plan);
  detail::add_figures(page, plan);
  detail::add_dithers(page, plan);
  detail::add_worst_cells(page, plan);
  page.close().line();
}

}  // namespace handlaid
