// Bench book, first page: what is made, as it will look, in figures.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

namespace detail {

template <When = When::called>
void add_fact(Markup& page, const char* term, const std::string& value, const std::string& more = {}) {
  page.element("dt", term).open("dd").text(value);
  if (!more.empty()) page.element("small", more);
  page.close().line();
}

/// The colours side by side, each as wide as its share of the cells; numbers where there is room for them.
template <When = When::called>
void add_shares(Markup& page, const Plan& plan) {
  const std::int64_t all = plan.tally.laid();
  if (all == 0) return;
  constexpr std::int64_t width = 10'000;
  page.open("svg", R"(class="bar" viewBox="0 0 10000 420" role="img" aria-label="Share of each colour")");
  std::int64_t before = 0;
  for (int number = 1; number <= plan.chart.palette.size(); ++number) {
    const std::int64_t cells = plan.tally.cells[static_cast<std::size_t>(number)];
    const std::int64_t left = before * width / all;
    before += cells;
    const std::int64_t right = before * width / all;
    if (right == left) continue;
    const Srgb8& colour = plan.chart.palette[number].colour;
    page.leaf("rect", "x=\"" + std::to_string(left) + "\" width=\"" + std::to_string(right - left) +
                          "\" height=\"420\" fill=\"" + to_hex(colour) + "\"");
    const std::string digits = std::to_string(number);
    if (right - left < 130 * static_cast<std::int64_t>(digits.size()) + 60) continue;
    page.element("text", digits,
                 "x=\"" + std::to_string((left + right) / 2) +
                     "\" y=\"276\" font-size=\"190\" text-anchor=\"middle\" fill=\"" + to_hex(numeral_colour(colour)) +
                     "\"");
  }
  page.leaf("rect", "x=\"3\" y=\"3\" width=\"9994\" height=\"414\" fill=\"none\" stroke=\"" + to_hex(look::quiet) +
                        "\" stroke-width=\"6\"");
  page.close().line();
}

}  // namespace detail

/// Title, contents, picture, figures and what the maker should know. `picture` is a data address of the preview, or
/// empty.
template <When = When::called>
void add_overview(Markup& page, const Plan& plan, const std::string& title, const std::string& picture,
                  const std::vector<BookSection>& contents) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Chart<>& chart = plan.chart;
  const Size extent = chart.lattice.extent();
  page.open("section", R"(class="first" id="overview")").open("h1");
  add_name(page, title);
  page.close().line();
  add_paragraph(page, size_text(extent, unit) + ", " + count_text(plan.pieces.pieces(), "piece", "pieces") + " in " +
                          count_text(plan.tally.colours_used(), "colour", "colours") +
                          (plan.strips ? ", from painted strips." : "."));
  page.open("nav", R"(class="screen" aria-label="Contents")").open("ol");
  for (const BookSection& section : contents) {
    page.open("li").element("a", section.title, std::string("href=\"#") + section.id + "\"").close();
  }
  page.close().close().line();

  page.open("div", R"(class="over")").open("div");
  if (!picture.empty()) {
    page.leaf("img", "src=\"" + picture + "\" alt=\"The finished panel, drawn piece by piece\"");
  }
  page.close().open("dl").line();
  const std::string panel = size_text(extent, unit);
  const std::string board = size_text(plan.marks.board, unit);
  detail::add_fact(page, "Panel", panel, board == panel ? std::string{} : "on a board of " + board);
  const std::int64_t empty = plan.tally.cells.empty() ? 0 : plan.tally.cells[0];
  detail::add_fact(page, "Cells", count_text(chart.columns()) + " × " + count_text(chart.courses()),
                   count_text(plan.tally.laid()) + " laid at " + pitch_text(chart.lattice, unit) +
                       (empty > 0 ? ", " + count_text(empty) + " left empty" : ""));
  detail::add_fact(page, "Pieces", count_text(plan.pieces.pieces()),
                   count_text(plan.pieces.per_cell) + " a cell, " +
                       mark_text(chart.lattice.pitch_x().divided(std::max(plan.pieces.per_cell, 1)), unit) + " × " +
                       mark_text(chart.lattice.pitch_y(), unit) + " " + symbol(unit) +
                       " where they stand side by side" +
                       (plan.pieces.needed() == plan.pieces.pieces()
                            ? ""
                            : "; with spares and those to try " + count_text(plan.pieces.needed())));
  detail::add_fact(page, "Colours", count_text(plan.tally.colours_used()));
  if (plan.order) {
    const Cost& cost = plan.fabrication.cost;
    const std::int64_t all = std::max(cost.total_hundredths(), plan.order->cost_hundredths());
    detail::add_fact(page, "Cost", money_text(all, plan.order->currency),
                     count_text(plan.order->pack_count(), "pack", "packs") + " of colour, " +
                         money_text(plan.order->cost_hundredths(), {}) +
                         (all > plan.order->cost_hundredths() ? "" : "; nothing else has a price"));
  }
  if (plan.strips) {
    detail::add_fact(page, "Strips", count_text(static_cast<std::int64_t>(plan.strips->strips.size())),
                     material_text(plan.strips->total_length, unit) + " of material");
  }
  detail::add_fact(page, "Runs", count_text(plan.tally.total_runs()), "stretches of one colour along a course");
  page.close().close().line();
  detail::add_shares(page, plan);
  for (const std::string& note : plan.notes) add_paragraph(page, note, R"(class="note")");
  page.close().line();
}

}  // namespace handlaid
