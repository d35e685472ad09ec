// Templates: the cells at true scale on pages of A4 or Letter, each laid to marks on the board by its own coordinates,
// behind a first page that says how and shows where each belongs.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/page_cells.hpp"
#include "handlaid/sheets/page_guide.hpp"
#include "handlaid/sheets/page_parts.hpp"
#include "handlaid/sheets/template_layout.hpp"

namespace handlaid {

/// The pages: first the one that explains, then a template for each page of the layout, in the order of laying.
/// Throws Error where the paper is too small for one cell.
template <When = When::called>
std::vector<PrintedPage> template_pages(const Plan& plan);

namespace detail {

/// What the pages have in common.
struct TemplateSheet {
  const Plan& plan;
  TemplateLayout layout;
  TemplateRoom room;
  LengthUnit unit = LengthUnit::millimetres;
  std::string title = {};
};

/// A mark as on a tape; of inches the thousandths too, since a sixteenth is coarser than a page is true.
template <When = When::called>
std::string corner_mark(Length mark, LengthUnit unit) {
  if (unit == LengthUnit::millimetres) return mark_text(mark, unit);
  const std::int64_t thousandths = (mark.um() * 10 + 127) / 254;
  const std::string part = std::to_string(1'000 + thousandths % 1'000);
  return mark_text(mark, unit) + " (" + std::to_string(thousandths / 1'000) + "." + part.substr(1) + ")";
}

/// "240 across, 96 up": where a corner lies on the board.
template <When = When::called>
std::string corner_text(const TemplateSheet& sheet, int column_line, int course_line) {
  return corner_mark(sheet.plan.marks.across[static_cast<std::size_t>(column_line)], sheet.unit) + " across, " +
         corner_mark(sheet.plan.marks.up[static_cast<std::size_t>(course_line)], sheet.unit) + " up";
}

/// The four corners: a cross that is laid on the marks of the board, and its place there.
template <When = When::called>
void add_corners(PrintedPage& page, const TemplateSheet& sheet, const PageCells& cells) {
  const BoardMarks& marks = sheet.plan.marks;
  constexpr Length arm = 7 * mm;
  constexpr Length gap = Length::from_um(3'700);  // outside of the numbers of the columns
  const int lines[] = {cells.part.first_column - 1, cells.part.last_column};
  const Length width =
      marks.across[static_cast<std::size_t>(lines[1])] - marks.across[static_cast<std::size_t>(lines[0])];
  // Where two places do not fit side by side, the right one stands further out; on a page that is narrower than a
  // place, to the right of its corner, where such a page is free.
  const auto place_width = [&](int line) {
    return text_width(corner_text(sheet, line, cells.part.last_course), smallest_type, true) + 1 * mm;
  };
  const Length wider = std::max(place_width(lines[0]), place_width(lines[1]));
  const bool beside = width < wider;
  const bool stepped = !beside && width < place_width(lines[0]) + place_width(lines[1]) + 2 * mm;
  for (const int column_line : lines) {
    for (const int course_line : {cells.part.first_course - 1, cells.part.last_course}) {
      const bool lower = course_line == cells.part.first_course - 1;
      const bool left = (column_line == cells.part.first_column - 1) != cells.mirrored;
      const Length x = cells.x_of(marks, column_line);
      const Length y = cells.y_of(marks, course_line);
      const Length step = stepped && !left ? 4 * mm : Length{};
      const Length end = lower ? y + arm + step : y - arm - step;
      page.lines.push_back({{x, y}, {x, end}, Length::from_um(200), look::accent});
      page.lines.push_back({{x, y}, {left ? x - 4 * mm : x + 4 * mm, y}, Length::from_um(200), look::accent});
      const bool from_here = left || beside;
      page.texts.push_back(
          {.at = {from_here ? x + 1 * mm : x - 1 * mm, lower ? y + gap + 2.6 * mm + step : y - gap - 0.8 * mm - step},
           .text = corner_text(sheet, column_line, course_line),
           .em = smallest_type,
           .anchor = from_here ? TextAnchor::left : TextAnchor::right,
           .bold = true,
           .colour = look::accent});
    }
  }
}

/// A small map with this page filled, at the top right.
template <When = When::called>
void add_map(PrintedPage& page, const TemplateSheet& sheet, PagePoint at, Size most, int here, Length em) {
  const TemplateLayout& layout = sheet.layout;
  const BoardMarks& marks = sheet.plan.marks;
  const Length width = marks.across.back() - marks.across.front();
  const Length height = marks.up.back() - marks.up.front();
  // in millionths of the field's size
  const std::int64_t share =
      std::min(most.width.um() * 1'000'000 / width.um(), most.height.um() * 1'000'000 / height.um());
  const auto scaled = [&](Length length) { return Length::from_um(length.um() / 1'000 * share / 1'000); };
  const bool mirrored = sheet.plan.job.print.face_down;
  const Length foot = at.y + scaled(height);
  const auto x_of = [&](int line) {
    const Length from = scaled(marks.across[static_cast<std::size_t>(line)] - marks.across.front());
    return at.x + (mirrored ? scaled(width) - from : from);
  };
  const auto y_of = [&](int line) {
    return foot - scaled(marks.up[static_cast<std::size_t>(line)] - marks.up.front());
  };
  for (int number = 1; number <= layout.pages(); ++number) {
    const ChartPart part = layout.part(number);
    const Length a = x_of(part.first_column - 1);
    const Length b = x_of(part.last_column);
    const Length top = y_of(part.last_course);
    const Size size{std::max(a, b) - std::min(a, b), y_of(part.first_course - 1) - top};
    page.boxes.push_back({{std::min(a, b), top},
                          size,
                          number == here,
                          number == here ? look::ink : look::paper,
                          Length::from_um(150),
                          look::quiet});
    if (em > Length{} && size.height > em && size.width > em.times(digits_of(static_cast<int>(layout.pages())))) {
      page.texts.push_back({.at = {std::min(a, b) + size.width.divided(2), top + size.height.divided(2)},
                            .text = std::to_string(number),
                            .em = em,
                            .anchor = TextAnchor::middle,
                            .centred = true});
    }
  }
  const Length side = em > Length{} ? 3 * mm : 1 * mm;
  const Length datum = x_of(0);
  page.boxes.push_back({{mirrored ? datum : datum - side, foot}, {side, side}, true, look::accent});
}

template <When = When::called>
PrintedPage template_page(const TemplateSheet& sheet, int number) {
  const TemplateLayout& layout = sheet.layout;
  const ChartPart part = layout.part(number);
  const bool face_down = sheet.plan.job.print.face_down;
  PrintedPage page{.name = "Template " + std::to_string(number), .size = size_of(layout.paper)};
  const std::string of = " of " + std::to_string(layout.pages());
  add_page_head(page, sheet.title, "Template " + std::to_string(number) + of,
                face_down ? "seen from the back" : "seen from the front");
  page.texts.push_back(
      {.at = {page_margin, page_margin + 8 * mm},
       .text = "Columns " + std::to_string(part.first_column) + " to " + std::to_string(part.last_column) +
               ", courses " + std::to_string(part.first_course) + " to " + std::to_string(part.last_course) +
               ". Corners: " + (sheet.unit == LengthUnit::millimetres ? "mm" : "in") + " from the datum corner.",
       .em = 3 * mm,
       .colour = look::quiet});
  const PageCells cells{part, {sheet.room.left, sheet.room.bottom}, face_down, sheet.plan.job.print.tint};
  add_page_cells(page, sheet.plan, cells, smallest_type);
  add_corners(page, sheet, cells);
  if (part.first_column == 1 && part.first_course == 1) {
    const Length x = cells.x_of(sheet.plan.marks, 0);
    page.boxes.push_back({{face_down ? x : x - 2.5 * mm, sheet.room.bottom}, {2.5 * mm, 2.5 * mm}, true, look::accent});
  }
  const Size bars = check_bars(layout.paper, sheet.unit);
  add_bar_across(page, {page_margin, page.size.height - page_margin - 7 * mm}, bars.width, sheet.unit);
  add_bar_up(page, {page.size.width - page_margin - 2 * mm, sheet.room.bottom}, bars.height, sheet.unit);
  page.texts.push_back({.at = {page_margin, page.size.height - page_margin - 1 * mm},
                        .text = std::string("Lay each page by its own corners, never against the last. ") +
                                (face_down ? "Paper and film come off before the front is cleaned."
                                           : "Paper comes off before any glue, tape or piece goes down."),
                        .em = smallest_type,
                        .room = page.size.width - page_margin.times(2)});
  return page;
}

/// The first page: what to do, and the map.
template <When = When::called>
PrintedPage template_guide(const TemplateSheet& sheet) {
  PageGuide guide{.name = "How to use the templates",
                  .subject = "Templates",
                  .right = count_text(sheet.layout.pages(), "page", "pages") + " after this one",
                  .steps = {"Set the board out first: the marks of the corners, each from the datum corner (the "
                            "filled square)."},
                  .hazards = {Hazard::point, Hazard::hand_blade}};
  const std::vector<std::string> laying =
      sheet.plan.job.print.face_down
          ? std::vector<std::string>{"The pages are mirrored. Tape one to a flat table, clear film over it, and lay its "
                                     "pieces face down.",
                                     "Fasten the pieces at their backs, turn all over, and lay it by the corners on the "
                                     "board's marks.",
                                     "Paper and film come off the front as soon as the fastening holds; paper never "
                                     "stays under a piece."}
          : std::vector<std::string>{"Lay a page with its four crosses on those marks, tape its edges, and prick or "
                                     "trace the lines through.",
                                     "Take the page off before any glue, tape or piece goes down: paper left under "
                                     "them is the weakest layer.",
                                     "Read the numbers from the page beside your work, course by course from the "
                                     "bottom."};
  guide.steps.insert(guide.steps.end(), laying.begin(), laying.end());
  guide.steps.push_back("Never lay one page against the last: paper moves with the weather, and errors add up.");
  GuidePage made = guide_page(sheet.plan, guide);
  const Length below = made.page.size.height - page_margin - 14 * mm;
  add_map(made.page, sheet, {page_margin + 4 * mm, made.foot + 2 * mm},
          {made.page.size.width - page_margin.times(2) - 16 * mm, below - made.foot - 6 * mm}, 0, 4 * mm);
  return std::move(made.page);
}

}  // namespace detail

template <When>
std::vector<PrintedPage> template_pages(const Plan& plan) {
  const Paper paper = paper_of(plan.job);
  const detail::TemplateSheet sheet{plan, template_layout(plan.chart.lattice, paper), template_room(paper),
                                    plan.job.units.value_or(LengthUnit::millimetres), plan.job.title.value_or("Panel")};
  std::vector<PrintedPage> pages;
  pages.reserve(static_cast<std::size_t>(sheet.layout.pages()) + 1);
  pages.push_back(detail::template_guide(sheet));
  for (int number = 1; number <= sheet.layout.pages(); ++number) {
    pages.push_back(detail::template_page(sheet, number));
  }
  return pages;
}

}  // namespace handlaid
