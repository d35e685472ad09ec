// Bench book: hours and cost, and what the other way of making the panel would take.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/order_items.hpp"

namespace handlaid {

inline constexpr BookSection hours_section{"hours", "Hours and cost"};

namespace detail {

inline constexpr std::int64_t evening_s = 7'200;

/// Begun ones are counted.
template <When = When::called>
std::string evenings_text(std::int64_t seconds) {
  return count_text((seconds + evening_s - 1) / evening_s, "evening", "evenings");
}
template <When = When::called>
std::string days_text(std::int64_t seconds, double hours_a_day) {
  const auto day_s = std::max<std::int64_t>(static_cast<std::int64_t>(hours_a_day * 3'600), 1);
  return count_text((seconds + day_s - 1) / day_s, "day", "days");
}

template <When = When::called>
void add_labour(Markup& page, const LabourTakeoff& labour) {
  begin_wide(page, "Hours of each step");
  page.open("table").open("thead").open("tr");
  add_heading(page, "Step");
  add_heading(page, "Count", true);
  add_heading(page, "Seconds each", true);
  add_heading(page, "Time", true);
  page.close().close().line().open("tbody").line();
  for (const LabourLine& line : labour.lines) {
    page.open("tr").element("th", line.step, R"(scope="row")");
    add_number(page, line.count > 0 ? count_text(line.count) : "");
    add_number(page, line.count > 0 ? reported_text(static_cast<double>(line.each_ms) / 1'000, 1) : "");
    add_number(page, time_text(line.seconds));
    page.close().line();
  }
  page.close().open("tfoot").open("tr").element("th", "All", R"(scope="row" colspan="3")");
  add_number(page, time_text(labour.seconds()));
  page.close().close().close().close().line();
}

/// Two little pictures: pieces laid one by one, and a strip that is painted and cut as a whole.
template <When = When::called>
void add_method_drawing(Markup& page, bool strips) {
  const std::string ink = to_hex(look::ink);
  page.open("svg", std::string("viewBox=\"0 2 99 31\" role=\"img\" aria-label=\"") +
                       (strips ? "A painted strip that is cut as a whole" : "Pieces laid one by one") + "\"");
  const char* tones[] = {"#8a8478", "#b7b0a1", "#5d574d", "#d6d0c4", "#8a8478", "#b7b0a1", "#5d574d", "#b7b0a1"};
  for (int row = 0; row < 2; ++row) {
    for (int i = 0; i < 8; ++i) {
      const int x = 2 + i * 11 + (strips ? i : i * 3 / 4 - 1);
      page.leaf("rect", "x=\"" + std::to_string(std::max(x, 1)) + "\" y=\"" + std::to_string(22 + row * 9 - row * 18) +
                            "\" width=\"" + std::to_string(strips ? 12 : 10) + "\" height=\"8\" fill=\"" +
                            tones[(i + row * 3) % 8] + "\"" +
                            (strips ? "" : " stroke=\"" + ink + "\" stroke-width=\".4\""));
    }
  }
  if (strips) {  // the blade that comes down on the lower strip, the cuts that stand already
    std::string cuts;
    for (int i = 1; i < 5; ++i) cuts += "M" + std::to_string(2 + i * 12) + " 22v8";
    page.leaf("path", "fill=\"none\" stroke=\"" + ink + "\" stroke-width=\".6\" d=\"" + cuts + "\"");
    page.leaf("path", "fill=\"" + ink + "\" d=\"M61 20l1-6h1l-1 16z\"");
  }
  page.close().line();
}

template <When = When::called>
void add_methods(Markup& page, const Plan& plan) {
  const MethodHours& methods = plan.fabrication.methods;
  const std::int64_t pieces = methods.piece_by_piece.seconds();
  const std::int64_t strips = methods.painted_strips.seconds();
  page.element("h3", "Two ways to make it").line();
  page.open("div", R"(class="views")").line();
  const auto column = [&](bool drawing, const std::string& title, std::int64_t seconds, const std::string& words) {
    page.open("figure");
    add_method_drawing(page, drawing);
    page.open("figcaption")
        .element("strong", title + ": " + time_text(seconds))
        .text(" " + words)
        .close()
        .close()
        .line();
  };
  column(false, "Piece by piece", pieces,
         "Each piece is bought in its colour and laid by hand. Colours are even, any piece can be changed later; there "
         "is no paint to wear off, and no wait.");
  column(
      true, "Painted strips, cut afterwards", strips,
      "A course is one strip: painted run by run, then cut into pieces. Any colour can be mixed. Edges of paint show, "
      "folds may crack, a slip costs a strip, and days of drying lie between.");
  page.close().line();
  const std::int64_t saved = pieces > strips ? pieces - strips : strips - pieces;
  add_paragraph(
      page,
      (pieces > strips ? std::string("Strips would save ") : std::string("Piece by piece saves ")) + time_text(saved) +
          " at the bench by these rates, in their plainest form: no pilot, one colour at a time, knife and guide. "
          "This plan is made " +
          (plan.strips
               ? "from painted strips; as it is planned it takes " + time_text(plan.fabrication.labour.seconds()) + "."
               : "piece by piece."));
}

/// What the order lists and the bill does not.
template <When = When::called>
std::vector<std::string> unpriced_items(const Plan& plan) {
  const Prices& prices = plan.job.prices;
  std::vector<std::string> names;
  for (const std::vector<OrderItem>& items : {pilot_items(plan), rest_items(plan)}) {
    for (const OrderItem& item : items) {
      const bool priced = ((item.what == paint_item || item.what == pieces_item) && plan.order) ||
                          (item.what == material_item && prices.roll > 0) ||
                          (item.what == board_item && prices.sheet > 0) ||
                          (item.what == timber_item && prices.timber > 0);
      if (!priced) names.push_back(item.what);
    }
  }
  std::vector<std::string> once;
  for (const std::string& name : names) {
    if (std::find(once.begin(), once.end(), name) == once.end()) once.push_back(name);
  }
  return once;
}

template <When = When::called>
void add_cost(Markup& page, const Cost& cost, const std::vector<std::string>& unpriced) {
  if (cost.lines.empty()) return;
  page.element("h3", "Cost").line();
  begin_wide(page, "Cost");
  page.open("table").open("thead").open("tr");
  add_heading(page, "What");
  add_heading(page, "How many", true);
  add_heading(page, cost.currency.empty() ? "Cost" : "Cost, " + cost.currency, true);
  add_heading(page, "Of it left over", true);
  page.close().close().line().open("tbody").line();
  for (const CostLine& line : cost.lines) {
    page.open("tr").element("th", line.what, R"(scope="row")");
    add_number(page, count_text(line.count));
    add_number(page, money_text(line.cost_hundredths, {}));
    add_number(page, money_text(line.left_over_hundredths, {}));
    page.close().line();
  }
  page.close().open("tfoot").open("tr").element("th", "All that has a price", R"(scope="row" colspan="2")");
  add_number(page, money_text(cost.total_hundredths(), {}));
  add_number(page, money_text(cost.left_over_hundredths(), {}));
  page.close().close().close().close().line();
  std::string names;
  for (const std::string& name : unpriced) names += (names.empty() ? "" : ", ") + name;
  if (!names.empty()) {
    add_paragraph(page, "Without a price here, and so not in the sum: " + names + "; the order says how much of each.");
  }
}

}  // namespace detail

template <When = When::called>
void add_hours(Markup& page, const Plan& plan) {
  const LabourTakeoff& labour = plan.fabrication.labour;
  begin_section(page, hours_section, true);
  const std::int64_t seconds = labour.seconds();
  std::string words =
      "Rates are common practice, no source: time your pilot, put your own seconds into the job and plan again (see "
      "\"When something changes\"). Rest your eyes and hands every half hour. ";
  if (plan.fabrication.schedule) {
    const PaintWay& way = plan.fabrication.schedule->ways.at(plan.fabrication.schedule->recommended);
    const double hours = plan.job.paint_days.hours_a_day;
    words += "With " + reported_text(hours, 1) + " hours a day (hours-a-day in the job) the painting is done in " +
             count_text(way.days, "day", "days") + ", drying included, and the other " +
             time_text(seconds - way.work_s) + " take " + detail::days_text(seconds - way.work_s, hours) + " more.";
  } else {
    words += "With two hours an evening this is " + detail::evenings_text(seconds) + ".";
  }
  add_paragraph(page, words);
  detail::add_labour(page, labour);
  add_paragraph(page,
                "Not in these hours: buying, printing and laying out pages, sealing and filling, " +
                    std::string(plan.strips ? "" : "sorting the pieces, ") +
                    "carrying and hanging, an evening or two in all; and the nights in which sealer, wood glue and "
                    "filler dry, as long as their labels say.");
  if (seconds > 0 && !plan.strips) {
    const std::int64_t a_day = std::max<std::int64_t>(plan.chart.courses() * detail::evening_s / seconds, 1);
    add_paragraph(page, "Target: about " + count_text(a_day, "course", "courses") +
                            " an evening, everything included. Write down the minutes of each course beside its tick.");
  }
  detail::add_methods(page, plan);
  detail::add_cost(page, plan.fabrication.cost, detail::unpriced_items(plan));
  page.close().line();
}

}  // namespace handlaid
