// Bench book: painting. Which way takes the fewest days, what each costs, the pots to buy, and every batch, sitting by
// sitting.
#pragma once

#include <algorithm>
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
  /// At the bench, as the schedule was played through.
  double hours_a_day = PaintDays{}.hours_a_day;
  /// How far a stretch is painted where the next one covers it.
  Length beyond_mark = Painting{}.beyond_mark;
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
void add_paint_ways(Markup& page, const PaintSchedule& schedule, double hours_a_day) {
  page.element("h3", "Which way to paint").line();
  add_paragraph(
      page,
      "Sections that touch must not be wet together. A sitting is a stretch of painting that ends in one wait "
      "for drying. Few sittings mean few waits, but most pots are opened more often. Coats, faces and primer "
      "are counted in; days are of " +
          reported_text(hours_a_day, 1) + " hours at the bench (hours-a-day in the job).");
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
  add_paragraph(
      page,
      "For " + count_text(paint.coats, "coat", "coats") + " on " + (paint.faces == 2 ? "both faces" : "one face") +
          ", with what stays in pot and brush, what spare strips may take and what the pilot takes. The tin decides "
          "how far a litre goes.");
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
    add_number(page, paint_amount_text(line.needed_ml()));
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
                            paint_amount_text(paint.needed_primer_ml) + ".");
  }
  add_paragraph(page,
                "Pour all cans of a colour together and stir them before the first section, so that no two are "
                "of a different shade. Keep the lids: the lot numbers stand on them.");
}

/// "140-360", or "1 5/16 to 2 3/8" where a hyphen would stand among fractions; not to be broken over two lines.
template <When = When::called>
std::string stretch_text(const PaintStretch& stretch, LengthUnit unit) {
  return unbroken_mark_text(stretch.start, unit) + (unit == LengthUnit::millimetres ? "\u2011" : "\u202fto\u202f") +
         unbroken_mark_text(stretch.end, unit);
}

/// A sitting's heading, with a box for each coat of each face.
template <When = When::called>
void add_sitting(Markup& page, const PaintTakeoff& paint, std::size_t batch, int sitting) {
  page.open("h4");
  for (int coat = 1; coat <= paint.coats * paint.faces; ++coat) {
    const std::string place =
        "batch " + std::to_string(batch) + ", sitting " + std::to_string(sitting) + ", coat " + std::to_string(coat);
    add_tick(page, place, "Painted: " + place);
  }
  page.text("Sitting " + std::to_string(sitting)).close().line();
}

/// A colour in a sitting: a line for each course, "3: 120-170, 340-380".
struct PaintPot {
  int sitting = 0;
  int number = 0;
  std::vector<std::string> lines = {};
};

template <When = When::called>
std::vector<PaintPot> paint_pots(const std::vector<PaintStretch>& order, LengthUnit unit) {
  std::vector<PaintPot> pots;
  int course = 0;
  for (const PaintStretch& stretch : order) {
    if (pots.empty() || pots.back().sitting != stretch.sitting || pots.back().number != stretch.number) {
      pots.push_back({.sitting = stretch.sitting, .number = stretch.number});
    }
    std::vector<std::string>& lines = pots.back().lines;
    if (lines.empty() || course != stretch.course) {
      lines.push_back(std::to_string(stretch.course) + ": ");
    } else {
      lines.back() += ", ";
    }
    lines.back() += stretch_text(stretch, unit);
    course = stretch.course;
  }
  return pots;
}

/// How many figures wide nine lines of ten are at most: pots stand side by side where there is room for as much.
template <When = When::called>
std::size_t usual_width(const std::vector<PaintPot>& pots) {
  std::vector<std::size_t> widths;
  for (const PaintPot& pot : pots) {
    for (const std::string& line : pot.lines) widths.push_back(line.size());
  }
  if (widths.empty()) return 0;
  std::sort(widths.begin(), widths.end());
  return widths[widths.size() * 9 / 10];
}

/// A batch, sitting by sitting: a paragraph for each pot, number and name first. A large plan has hundreds of pots, so
/// a pot is one element with plain lines of text.
template <When = When::called>
void add_paint_batch(Markup& page, const PaintingPages& pages, std::size_t at, const Palette& palette,
                     LengthUnit unit) {
  const Batch& batch = pages.batches.batches[at];
  const int sittings = pages.schedule.ways[pages.schedule.recommended].sittings;
  const std::vector<PaintPot> pots = paint_pots(paint_order(pages.strips, batch, sittings), unit);
  page.element("h3", "Batch " + std::to_string(at + 1) + ", " + (batch.strips.size() == 1 ? "course " : "courses ") +
                         courses_text(pages.strips, batch));
  page.line().open("div", "class=\"pots\" style=\"--line:" + std::to_string(usual_width(pots)) + "ch\"").line();
  for (std::size_t i = 0; i < pots.size(); ++i) {
    const PaintPot& pot = pots[i];
    if (i == 0 || pots[i - 1].sitting != pot.sitting) add_sitting(page, pages.paint, at + 1, pot.sitting);
    const PaletteEntry& paint = palette[pot.number];
    page.open("p", "style=\"--pot:" + to_hex(paint.colour) + "\"").text(std::to_string(pot.number));
    // isolated, so that a name from right to left does not turn its number round
    if (!paint.name.empty()) page.text(" \u2068" + paint.name + "\u2069");
    for (const std::string& line : pot.lines) page.line().text(line);
    page.close().line();
    if (i + 1 == pots.size() || pots[i + 1].sitting != pot.sitting) {
      page.text(pages.paint.coats > 1 ? "Wait until it is dry after each coat." : "Wait until it is dry.").line();
    }
  }
  page.close().line();
}

}  // namespace detail

template <When>
void add_painting(Markup& page, const PaintingPages& pages, const Palette& palette, LengthUnit unit) {
  if (pages.schedule.recommended >= pages.schedule.ways.size()) {
    throw Error::bad_input("schedule", "no way to paint is recommended", "make it with PaintDays");
  }
  begin_section(page, painting_section, true);  // after the few lines on strips
  add_caution(page, Hazard::glue_and_paint);
  detail::add_paint_ways(page, pages.schedule, pages.hours_a_day);
  detail::add_paint_pots(page, pages, palette);
  page.element("h3", "Batch by batch").line();
  std::string work =
      "Open a window, keep paint and cleaner off your skin, and clean brushes as the tin says. Distances are measured "
      "from the left end, the datum. ";
  if (pages.paint.primer_coats > 0) work += "Prime the strips first and let them dry. ";
  work += "A line such as 3: " + detail::stretch_text({.start = 120 * mm, .end = 170 * mm}, unit) +
          " means: on course 3, from the mark " + unbroken_mark_text(120 * mm, unit) + " to the mark " +
          unbroken_mark_text(170 * mm, unit) + ", in " + (unit == LengthUnit::millimetres ? "millimetres" : "inches") +
          ". ";
  work +=
      "Work through the sittings of a batch in their order. A sitting gets all its coats, one box each, before the "
      "next "
      "one begins. Where the neighbour of a stretch "
      "comes "
      "in a later sitting, paint " +
      unbroken_mark_text(pages.beyond_mark, unit) + "\u00a0" + symbol(unit) +
      " beyond the mark, without tape: it will be covered. Where the neighbour came in an earlier sitting and is dry, "
      "lay tape on it along the mark, paint up to the tape, and take it off while the paint is wet; tape again for "
      "the next coat. That is how each "
      "mark gets one clean edge, and all coats of the one cover the other. Let each coat dry before the next one: the "
      "tin says how long. While one batch dries, paint another. ";
  if (pages.strips.fold == Fold::end_to_end) {
    work += "Strips are folded end to end: paint both halves alike in each sitting, either measured from its own end. ";
  }
  if (pages.paint.faces == 2) {
    work +=
        "When all sittings of a batch are done, turn its strips over, left end staying left, and paint the other "
        "face alike: half of the boxes are for that.";
  }
  add_paragraph(page, work);
  for (std::size_t i = 0; i < pages.batches.batches.size(); ++i) {
    detail::add_paint_batch(page, pages, i, palette, unit);
  }
  page.close().line();
}

}  // namespace handlaid
