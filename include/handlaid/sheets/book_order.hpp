// Bench book: what to buy, what it costs, what is left over. Only where there is an order.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection order_section{"order", "Order"};

namespace detail {

/// "2 of 250, 1 of 50".
template <When = When::called>
std::string packs_text(const OrderLine& line) {
  std::string text;
  for (const PackCount& packs : line.packs) {
    if (!text.empty()) text += ", ";
    text += count_text(packs.count) + " of " + count_text(packs.pack.pieces);
  }
  return text.empty() ? "none" : text;
}

}  // namespace detail

template <When = When::called>
void add_order(Markup& page, const Plan& plan) {
  if (!plan.order) return;
  const Order& order = *plan.order;
  bool in_hand = false;
  std::int64_t needed = 0;
  std::int64_t from_hand = 0;
  std::int64_t left_over = 0;
  for (const OrderLine& line : order.lines) {
    in_hand = in_hand || line.from_hand > 0;
    needed += line.needed;
    from_hand += line.from_hand;
    left_over += line.left_over;
  }
  begin_section(page, order_section);
  begin_wide(page, "Order");
  page.open("table", R"(class="middle")").open("thead").open("tr");
  add_heading(page, "Number");
  add_heading(page, "Name");
  add_heading(page, "Needed", true);
  if (in_hand) add_heading(page, "In hand", true);
  add_heading(page, "Packs");
  add_heading(page, "Left over", true);
  add_heading(page, order.currency.empty() ? "Cost" : "Cost, " + order.currency, true);
  page.close().close().line().open("tbody").line();
  for (const OrderLine& line : order.lines) {
    page.open("tr").open("th", R"(scope="row")");
    add_swatch(page, line.number, plan.chart.palette[line.number].colour);
    page.close().open("td");
    add_name(page, line.name);
    page.close();
    add_number(page, count_text(line.needed));
    if (in_hand) add_number(page, count_text(line.from_hand));
    page.element("td", detail::packs_text(line));
    add_number(page, count_text(line.left_over));
    add_number(page, money_text(line.cost_hundredths, {}));
    page.close().line();
  }
  page.close().open("tfoot").open("tr").element("th", "All", R"(scope="row" colspan="2")");
  add_number(page, count_text(needed));
  if (in_hand) add_number(page, count_text(from_hand));
  page.element("td", count_text(order.pack_count(), "pack", "packs"));
  add_number(page, count_text(left_over));
  add_number(page, money_text(order.cost_hundredths(), {}));
  page.close().close().close().close().line();
  add_paragraph(page, "One order, one lot. Lot number, when the packs come: ______________");
  page.close().line();
}

}  // namespace handlaid
