// Bench book: what to buy, in two parts: for the pilot, and once it has passed. What it costs, what is left over.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection order_section{"order", "Order"};

namespace detail {

/// "2 of 250, 1 of 50".
template <When = When::called>
std::string packs_text(const OrderLine& line, StockUnit unit) {
  std::string text;
  for (const PackCount& packs : line.packs) {
    if (!text.empty()) text += ", ";
    text += count_text(packs.count) + " of " + amount_text(packs.pack.pieces, unit);
  }
  return text.empty() ? "none" : text;
}

/// What an order leaves over of a colour.
inline std::int64_t left_of(const Order& order, int number) {
  for (const OrderLine& line : order.lines) {
    if (line.number == number) return line.left_over;
  }
  return 0;
}

/// The colours of an order, or of its second part, after another one.
template <When = When::called>
void add_order_table(Markup& page, const Order& order, const Palette& palette, const char* label,
                     const Order* before = nullptr) {
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
  begin_wide(page, label);
  page.open("table", R"(class="middle")").open("thead").open("tr");
  add_heading(page, "Number");
  add_heading(page, "Name");
  add_heading(page, "Needed", true);
  if (in_hand) add_heading(page, "In hand", true);
  if (before != nullptr) add_heading(page, "Left from the pilot", true);
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
    if (in_hand) add_number(page, amount_text(line.from_hand, order.unit));
    if (before != nullptr) add_number(page, amount_text(left_of(*before, line.number), order.unit));
    page.element("td", packs_text(line, order.unit));
    add_number(page, amount_text(line.left_over, order.unit));
    add_number(page, money_text(line.cost_hundredths, {}));
    page.close().line();
  }
  page.close().open("tfoot").open("tr").element("th", "All", R"(scope="row" colspan="2")");
  add_number(page, amount_text(needed, order.unit));
  if (in_hand) add_number(page, amount_text(from_hand, order.unit));
  if (before != nullptr) add_number(page, "");
  page.element("td", count_text(order.pack_count(), "pack", "packs"));
  add_number(page, amount_text(left_over, order.unit));
  add_number(page, money_text(order.cost_hundredths(), {}));
  page.close().close().close().close().line();
}

/// A line of what is bought beside the colours.
struct OrderItem {
  std::string what = {};
  std::string amount = {};
  std::string basis = {};
};

template <When = When::called>
void add_items(Markup& page, const std::vector<OrderItem>& items, const char* label) {
  if (items.empty()) return;
  begin_wide(page, label);
  page.open("table").open("thead").open("tr");
  add_heading(page, "Bought");
  add_heading(page, "Also");
  add_heading(page, "How much");
  add_heading(page, "Reckoned from");
  page.close().close().line().open("tbody").line();
  for (const OrderItem& item : items) {
    page.open("tr").open("td");
    add_tick(page, std::string(label) + ", " + item.what, item.what + " is bought");
    page.close();
    page.element("th", item.what, R"(scope="row")").element("td", item.amount).element("td", item.basis);
    page.close().line();
  }
  page.close().close().close().line();
}

/// Consumables, and with the second part what the panel itself is made of.
template <When = When::called>
std::vector<OrderItem> order_items(const Plan& plan, bool pilot) {
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Fabrication& made = plan.fabrication;
  std::vector<OrderItem> items;
  if (made.rolls && pilot) {
    items.push_back({"material of the strips", "1 roll",
                     mark_text(made.rolls->roll_width, unit) + " " + symbol(unit) + " wide; it serves the panel too"});
  }
  for (const ConsumableLine& line : made.consumables) {
    if (line.for_pilot == pilot)
      items.push_back({line.name,
                       line.unit == "pieces" ? count_text(line.amount) : count_text(line.amount) + " " + line.unit,
                       line.basis});
  }
  if (pilot) return items;
  if (made.rolls && made.rolls->rolls > 1) {
    items.push_back(
        {"material of the strips", count_text(made.rolls->rolls - 1, "more roll", "more rolls"),
         material_text(made.rolls->roll_length, unit) + " each" + (made.rolls->proven() ? ", fewer will not do" : "")});
  }
  if (made.sheets) {
    items.push_back({"board, " + mark_text(plan.job.board_thickness, unit) + " " + symbol(unit),
                     count_text(made.sheets->sheets, "sheet", "sheets"),
                     size_text(made.sheets->sheet, unit) + " each"});
  }
  if (made.frame) {
    items.push_back({"timber, " + size_text({made.frame->timber_width, made.frame->timber_thickness}, unit),
                     count_text(made.frame->cuts.stock_count, "length", "lengths"),
                     mark_text(made.frame->stock_length, unit) + " " + symbol(unit) + " each" +
                         (made.frame->cuts.proven() ? ", fewer will not do" : "")});
  }
  return items;
}

}  // namespace detail

template <When = When::called>
void add_order(Markup& page, const Plan& plan) {
  const Fabrication& made = plan.fabrication;
  const Patch& patch = made.pilot;
  begin_section(page, order_section);
  page.element("h3", "For the pilot").line();
  add_paragraph(
      page, "A patch of " + count_text(patch.laid(), "cell", "cells") + ", courses " +
                std::to_string(patch.first_course) + " to " + std::to_string(patch.last_course) + ", columns " +
                std::to_string(patch.first_column) + " to " + std::to_string(patch.last_column) + ", with " +
                count_text(patch.colours(), "colour", "colours") +
                ": the richest part of the panel. Buy this first; what is left of it goes into the panel. The patch "
                "counts as part of the panel: what is glued down for good elsewhere comes out of the spares.");
  if (made.orders && !made.orders->pilot.lines.empty()) {
    detail::add_order_table(page, made.orders->pilot, plan.chart.palette, "Order for the pilot");
  }
  detail::add_items(page, detail::order_items(plan, true), "Consumables for the pilot");
  page.element("h3", "After the pilot has passed").line();
  add_paragraph(page, std::string("One order, one lot, spares with it. ") +
                          (plan.strips ? "Pour all cans of a colour together before the first section."
                                       : "Mix all packs of a colour before the first piece."));
  if (made.orders)
    detail::add_order_table(page, made.orders->rest, plan.chart.palette, "Order after the pilot", &made.orders->pilot);
  detail::add_items(page, detail::order_items(plan, false), "What else to order after the pilot");
  if (plan.job.lots.empty()) {
    add_paragraph(page,
                  "Lot numbers, when the packs come: ______________ Type them into the job file, as lines like "
                  "\"lot = name: number\", so that they are on these pages when something has to be bought again.");
  } else {
    std::string lots;
    for (const std::string& lot : plan.job.lots) lots += (lots.empty() ? "" : "; ") + lot;
    add_paragraph(page, "Lots: " + lots + ".");
  }
  page.close().line();
}

}  // namespace handlaid
