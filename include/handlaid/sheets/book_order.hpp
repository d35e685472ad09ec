// Bench book: what to buy, in two parts: for the pilot, and once it has passed. What it costs, what is left over.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/order_items.hpp"
#include "handlaid/sheets/page_words.hpp"

namespace handlaid {

inline constexpr BookSection order_section{"order", "Order"};

namespace detail {

/// "2 of 250 F14-250, 1 of 50 F14-50": a cell of packs, each with what the shop calls it.
template <When = When::called>
void add_packs(Markup& page, const OrderLine& line, StockUnit unit) {
  page.open("td");
  if (line.packs.empty()) page.text("none");
  for (const PackCount& packs : line.packs) {
    const bool last = &packs == &line.packs.back();
    const std::string text = tied(count_text(packs.count) + " of " + amount_text(packs.pack.pieces, unit));
    if (packs.pack.article.empty()) {
      page.text(text + (last ? "" : ", "));
      continue;
    }
    page.open("span", R"(class="pack")").text(text + " ");
    page.element("span", packs.pack.article, R"(class="quiet")").close().text(last ? "" : " ");
  }
  page.close();
}

/// What an order leaves over of a colour.
inline std::int64_t left_of(const Order& order, int number) {
  for (const OrderLine& line : order.lines) {
    if (line.number == number) return line.left_over;
  }
  return 0;
}

/// Whether a colour is bought by more than twenty times what the pilot needs of it, and by more than a hundred.
inline bool has_large_pack(const Order& order) {
  for (const OrderLine& line : order.lines) {
    if (line.bought > 100 && line.bought > 20 * line.needed) return true;
  }
  return false;
}

/// The colours of an order, or of its second part, after another one. What is there already is used first: what was in
/// hand, and what that other part leaves over.
template <When = When::called>
void add_order_table(Markup& page, const Order& order, const Palette& palette, const char* label,
                     const Order& before = {}) {
  std::int64_t needed = 0;
  std::int64_t there = 0;
  std::int64_t left_over = 0;
  const auto there_of = [&](const OrderLine& line) { return line.from_hand + left_of(before, line.number); };
  for (const OrderLine& line : order.lines) {
    needed += line.needed;
    there += there_of(line);
    left_over += line.left_over;
  }
  begin_wide(page, label);
  page.open("table", R"(class="middle packs")").open("thead").open("tr");
  add_heading(page, "No.");
  add_heading(page, "Name");
  add_heading(page, "Needed", true);
  if (there > 0) add_heading(page, before.lines.empty() ? "In hand" : "In hand or left", true);
  add_heading(page, "Packs");
  add_heading(page, "Left over", true);
  add_heading(page, order.currency.empty() ? "Cost" : "Cost, " + order.currency, true);
  page.close().close().line().open("tbody").line();
  for (const OrderLine& line : order.lines) {
    page.open("tr").open("th", R"(scope="row")");
    add_swatch(page, line.number, palette[line.number].colour);
    page.close().open("td");
    add_name(page, line.name);
    page.close();
    add_number(page, amount_text(line.needed, order.unit));
    if (there > 0) add_number(page, amount_text(there_of(line), order.unit));
    add_packs(page, line, order.unit);
    add_number(page, amount_text(line.left_over, order.unit));
    add_number(page, money_text(line.cost_hundredths, {}));
    page.close().line();
  }
  page.close().open("tfoot").open("tr").element("th", "All", R"(scope="row" colspan="2")");
  add_number(page, amount_text(needed, order.unit));
  if (there > 0) add_number(page, amount_text(there, order.unit));
  page.element("td", count_text(order.pack_count(), "pack", "packs"));
  add_number(page, amount_text(left_over, order.unit));
  add_number(page, money_text(order.cost_hundredths(), {}));
  page.close().close().close().close().line();
}

template <When = When::called>
void add_items(Markup& page, const std::vector<OrderItem>& items, const char* label) {
  if (items.empty()) return;
  begin_wide(page, label);
  page.open("table", R"(class="items")").open("thead").open("tr");
  add_heading(page, "Bought");
  add_heading(page, "What");
  add_heading(page, "Kind and size");
  add_heading(page, "How much");
  add_heading(page, "Why so much");
  page.close().close().line().open("tbody").line();
  for (const OrderItem& item : items) {
    page.open("tr").open("td");
    add_tick(page, std::string(label) + ", " + item.what, item.what + " is bought");
    page.close();
    page.element("th", item.what, R"(scope="row")");
    if (item.kind.empty()) {
      page.open("td", R"(class="blank")").element("span", "write it here", R"(class="quiet")").close();
    } else {
      page.element("td", item.kind);
    }
    page.element("td", item.amount).element("td", item.basis);
    page.close().line();
  }
  page.close().close().close().line();
}

}  // namespace detail

template <When = When::called>
void add_order(Markup& page, const Plan& plan) {
  const Fabrication& made = plan.fabrication;
  const Patch& patch = made.pilot;
  begin_section(page, order_section);
  if (const auto& kind = plan.strips ? plan.job.paint_kind : plan.job.material) {
    page.open("p").text(plan.strips ? "The colours are paint: " : "The colours are pieces: ");
    add_name(page, *kind);
    page.text(".").close().line();
  }
  if (made.orders) {
    page.open("p").text("The shop: ");
    if (plan.job.shop) {
      add_name(page, *plan.job.shop);
      page.text(".");
    } else {
      page.text("______________________________, whose stock file the packs are from.");
    }
    page.close().line();
  }
  page.element("h3", "For the pilot").line();
  add_paragraph(
      page, "A patch of " + count_text(patch.laid(), "cell", "cells") + ", courses " +
                std::to_string(patch.first_course) + " to " + std::to_string(patch.last_course) + ", columns " +
                std::to_string(patch.first_column) + " to " + std::to_string(patch.last_column) + ", with " +
                count_text(patch.colours(), "colour", "colours") + ": the richest part of the panel. Buy this first. " +
                (plan.strips ? "Its strips, and the one that is tried before them, stay on their offcut"
                             : "Its pieces, and the ten that are tried before them, stay on their offcut") +
                ": they are counted here beside the panel and its spares. What is left of the packs goes into the "
                "panel.");
  if (made.orders && !made.orders->pilot.lines.empty()) {
    detail::add_order_table(page, made.orders->pilot, plan.chart.palette, "Order for the pilot");
    for (const OrderLine& line : made.orders->pilot.lines) {
      if (line.from_hand == 0) continue;
      add_paragraph(
          page,
          "In hand is what the stock file counts as yours already, and no part of the cost: look that it is there, "
          "or buy as much, in packs of stock.csv.");
      break;
    }
    if (detail::has_large_pack(made.orders->pilot)) {
      add_paragraph(
          page,
          "Where a large pack stands against a few pieces, it is the only size that the whole order has: ask "
          "the shop for a sample first and buy that pack with the rest, or lay the patch without the colour.");
    }
  }
  detail::add_items(page, detail::pilot_items(plan), "What else the pilot needs");
  add_paragraph(page, "At hand: " + detail::tools_at_hand(plan));
  page.element("h3", "After the pilot has passed").line();
  add_paragraph(page, std::string("One order, one lot, spares with it. ") +
                          (plan.strips ? "The paint is enough to do every spare strip again, whichever course it is "
                                         "for. Pour all cans of a colour together before the first section."
                                       : "Mix all packs of a colour before the first piece."));
  if (made.orders)
    detail::add_order_table(page, made.orders->rest, plan.chart.palette, "Order after the pilot", made.orders->pilot);
  detail::add_items(page, detail::rest_items(plan), "What else to order after the pilot");
  if (plan.job.lots.empty()) {
    add_paragraph(page,
                  "Lot numbers, when the packs come: ______________ Lines like \"lot = name: number\" in the job put "
                  "them on these pages, for when something has to be bought again.");
  } else {
    std::string lots;
    for (const std::string& lot : plan.job.lots) lots += (lots.empty() ? "" : "; ") + lot;
    add_paragraph(page, "Lots: " + lots + ".");
  }
  page.close().line();
}

}  // namespace handlaid
