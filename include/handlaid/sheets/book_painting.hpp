// Bench book: painting. Which way takes the fewest days, what each costs, the pots to buy, and every batch, sitting by
// sitting.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/takeoff/packs.hpp"
#include "handlaid/takeoff/paint_days.hpp"
#include "handlaid/takeoff/paint_order.hpp"
#include "handlaid/takeoff/painting.hpp"

namespace handlaid {

inline constexpr BookSection painting_section{"painting", "Painting"};

/// What the section on painting is made from, all of the same strips. `pots` is the order of paint, without lines where
/// there is none.
struct PaintingPages {
  StripTakeoff strips = {};
  PaintTakeoff paint = {};
  BatchTakeoff batches = {};
  PaintSchedule schedule = {};
  Order pots = {};
};

/// Adds the section. Throws Error where the schedule has no recommended way, or parts are of other strips.
template <When = When::called>
void add_painting(Markup& page, const PaintingPages& pages, const Palette& palette, LengthUnit unit);

namespace detail {

/// Millilitres: "350 ml", "1.4 l" rounded up to a tenth of a litre.
template <When = When::called>
std::string paint_amount_text(std::int64_t ml) {
  if (ml < 1'000) return std::to_string(ml) + " ml";
  const std::int64_t tenths = (ml + 99) / 100;
  return count_text(tenths / 10) + "." + std::to_string(tenths % 10) + " l";
}

template <When = When::called>
std::string way_text(const PaintWay& way) {
  if (way.sittings == 0) return "One colour at a time";
  if (way.sittings == 1) return "All in one sitting";
  if (way.sittings == 2) return "Every second section, then the rest";
  return "Up to " + std::to_string(way.sittings) + " sittings a batch";
}

/// The ways side by side, the recommended one marked, and what it saves.
template <When = When::called>
void add_paint_ways(Markup& page, const PaintSchedule& schedule) {
  page.element("h3", "Which way to paint").line();
  add_paragraph(
      page,
      "Sections that touch must not be wet together. A sitting is a stretch of painting that ends in one wait "
      "for drying. Few sittings mean few waits, but most pots are opened more often. Coats, faces and primer "
      "are counted in.");
  begin_wide(page, "Ways to paint");
  page.open("table", R"(class="middle")").open("thead").open("tr");
  add_heading(page, "Way");
  for (const char* heading : {"Waits", "Pots opened", "Masking edges", "Work", "Days"})
    add_heading(page, heading, true);
  page.close().close().line().open("tbody").line();
  for (std::size_t i = 0; i < schedule.ways.size(); ++i) {
    const PaintWay& way = schedule.ways[i];
    const bool best = i == schedule.recommended;
    page.open("tr", best ? R"x(style="background:var(--shade)")x" : "").open("th", R"(scope="row")");
    page.text(way_text(way));
    if (best) page.leaf("br").element("small", "use this one");
    page.close();
    add_number(page, count_text(way.waits));
    add_number(page, count_text(way.openings));
    add_number(page, count_text(way.edges));
    add_number(page, time_text(way.work_s));
    add_number(page, count_text(way.days));
    page.close().line();
  }
  page.close().close().close().line();
  const PaintWay& chosen = schedule.ways[schedule.recommended];
  const PaintWay& single = schedule.ways.back();
  if (chosen.sittings != 0 && single.waits > chosen.waits) {
    add_paragraph(
        page,
        "The marked way has " + count_text(single.waits - chosen.waits, "wait", "waits") + " fewer than " +
            "one colour at a time, " +
            std::to_string((100 * (single.waits - chosen.waits) + single.waits / 2) / single.waits) + " %" +
            (single.days > chosen.days ? ", and saves " + count_text(single.days - chosen.days, "day", "days") + "."
                                       : "."));
  }
  if (chosen.openings > chosen.least_openings) {
    add_paragraph(page,
                  "It opens at most " + count_text(chosen.openings - chosen.least_openings, "pot more than need be.",
                                                   "pots more than need be."),
                  R"(class="quiet")");
  }
}

/// What each colour takes, and the pots where there is an order.
template <When = When::called>
void add_paint_pots(Markup& page, const PaintingPages& pages, const Palette& palette) {
  const PaintTakeoff& paint = pages.paint;
  const bool ordered = !pages.pots.lines.empty();
  page.element("h3", "Paint").line();
  add_paragraph(page, "For " + count_text(paint.coats, "coat", "coats") + " on " +
                          (paint.faces == 2 ? "both faces" : "one face") +
                          ", with what stays in pot and brush. The tin decides how far a litre goes.");
  begin_wide(page, "Paint");
  page.open("table", R"(class="middle")").open("thead").open("tr");
  add_heading(page, "Number");
  add_heading(page, "Name");
  add_heading(page, "Sections", true);
  add_heading(page, "Paint", true);
  if (ordered) {
    add_heading(page, "Pots, ml");
    add_heading(page, pages.pots.currency.empty() ? "Cost" : "Cost, " + pages.pots.currency, true);
  }
  page.close().close().line().open("tbody").line();
  for (const PaintLine& line : paint.lines) {
    page.open("tr").open("th", R"(scope="row")");
    add_swatch(page, line.number, palette[line.number].colour);
    page.close().open("td");
    add_name(page, palette[line.number].name);
    page.close();
    add_number(page, count_text(line.sections));
    add_number(page, paint_amount_text(line.ml));
    if (ordered) {
      std::string pots;
      std::int64_t cost = 0;
      for (const OrderLine& bought : pages.pots.lines) {
        if (bought.number != line.number) continue;
        cost = bought.cost_hundredths;
        for (const PackCount& p : bought.packs) {
          pots += (pots.empty() ? "" : ", ") + count_text(p.count) + " of " + count_text(p.pack.pieces);
        }
      }
      page.element("td", pots.empty() ? "none" : pots);
      add_number(page, money_text(cost, {}));
    }
    page.close().line();
  }
  page.close().close().close().line();
  if (paint.primer_coats > 0) {
    add_paragraph(page, "Primer for " + count_text(paint.primer_coats, "coat", "coats") + ": " +
                            paint_amount_text(paint.primer_ml) + ".");
  }
  add_paragraph(page,
                "Pour all cans of a colour together and stir them before the first section, so that no two are "
                "of a different shade. Keep the lids: the lot numbers stand on them.");
}

/// A batch: a table of its sittings, a line for each pot.
template <When = When::called>
void add_paint_batch(Markup& page, const PaintingPages& pages, std::size_t at, const Palette& palette,
                     LengthUnit unit) {
  const Batch& batch = pages.batches.batches[at];
  const int sittings = pages.schedule.ways[pages.schedule.recommended].sittings;
  const std::vector<PaintStretch> order = paint_order(pages.strips, batch, sittings);
  const std::string title = "Batch " + std::to_string(at + 1) + ", " +
                            (batch.strips.size() == 1 ? "course " : "courses ") + courses_text(pages.strips, batch);
  page.element("h3", title).line();
  begin_wide(page, title);
  page.open("table", R"(class="courses pots")").open("thead").open("tr");
  add_heading(page, "Sitting");
  add_heading(page, "Done");
  add_heading(page, "Pot");
  add_heading(page, std::string("Course: from - to, ") + symbol(unit));
  page.close().close().line().open("tbody").line();
  int sitting = 0;
  for (std::size_t i = 0; i < order.size();) {
    const bool first = order[i].sitting != sitting;
    sitting = order[i].sitting;
    page.open("tr", first ? R"(class="five")" : "").open("th", R"(scope="row")");
    page.text(std::to_string(sitting)).close();
    page.open("td");
    for (int coat = 0; coat < pages.paint.coats * pages.paint.faces; ++coat) {
      if (coat > 0) page.text(" ");
      const std::string place = "batch " + std::to_string(at + 1) + ", sitting " + std::to_string(sitting) +
                                ", colour " + std::to_string(order[i].number) + ", coat " + std::to_string(coat + 1);
      add_tick(page, place, "Painted: " + place);
    }
    page.close().open("td");
    add_swatch(page, order[i].number, palette[order[i].number].colour);
    if (!palette[order[i].number].name.empty()) {
      page.text(" ");
      add_name(page, palette[order[i].number].name);
    }
    page.close().open("td", R"(class="runs")");
    const int number = order[i].number;
    int course = 0;
    for (; i < order.size() && order[i].sitting == sitting && order[i].number == number; ++i) {
      const PaintStretch& stretch = order[i];
      if (stretch.course != course) {
        if (course != 0) page.line();
        page.text(std::to_string(stretch.course) + ": ");
      } else {
        page.text(", ");
      }
      course = stretch.course;
      page.text(mark_text(stretch.start, unit) + "\u00a0\u2011\u00a0" + mark_text(stretch.end, unit));
    }
    page.close().close().line();
    if (i == order.size() || order[i].sitting != sitting) {
      page.open("tr").open("td", R"(colspan="4" class="quiet")");
      page.text("Wait until it is dry" +
                std::string(i == order.size()
                                ? (pages.paint.faces == 2 ? ", then the next coat or face." : ", then the next coat.")
                                : "."));
      page.close().close().line();
    }
  }
  page.close().close().close().line();
}

}  // namespace detail

template <When>
void add_painting(Markup& page, const PaintingPages& pages, const Palette& palette, LengthUnit unit) {
  if (pages.schedule.recommended >= pages.schedule.ways.size()) {
    throw Error::bad_input("schedule", "no way to paint is recommended", "make it with PaintDays");
  }
  begin_section(page, painting_section);
  add_caution(page, Hazard::glue_and_paint);
  detail::add_paint_ways(page, pages.schedule);
  detail::add_paint_pots(page, pages, palette);
  page.element("h3", "Batch by batch").line();
  std::string work =
      "Open a window, keep paint and cleaner off your skin, and clean brushes as the tin says. Distances are measured "
      "from the left end, the datum. ";
  if (pages.paint.primer_coats > 0) work += "Prime the strips first and let them dry. ";
  work +=
      "Work through the sittings of a batch in their order, one box for each coat, mask where a stretch ends, paint a "
      "little beyond the mark where the neighbour is still bare, and let each sitting dry "
      "before the next one: the tin says how long. While one batch dries, paint another. ";
  if (pages.paint.coats > 1) {
    work += "All sittings are done " + std::to_string(pages.paint.coats) + " times, once for each coat. ";
  }
  if (pages.paint.faces == 2)
    work += "Then turn the strips over, left end staying left, and paint the other face alike.";
  add_paragraph(page, work);
  for (std::size_t i = 0; i < pages.batches.batches.size(); ++i) {
    detail::add_paint_batch(page, pages, i, palette, unit);
  }
  page.close().line();
}

}  // namespace handlaid
