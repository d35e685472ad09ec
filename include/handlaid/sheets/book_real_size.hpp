// Bench book: a part of the panel at its real size, to hold samples and pieces against. On paper at 100 % it is true to
// the millimetre; a screen may show it larger or smaller.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

/// The largest part that goes well on a page of A4 or Letter.
inline constexpr Size real_size_room = {176 * mm, 110 * mm};

namespace detail {

/// So many cells of the panel as have room, round the pilot's patch; none where not one has.
template <When = When::called>
Patch part_at_real_size(const Plan& plan) {
  const Rectangular& lattice = plan.chart.lattice;
  const auto along = [](std::int64_t room, int cells, int first, int last, int& from, int& to) {
    const int count = static_cast<int>(std::min<std::int64_t>(room, cells));
    from = std::clamp((first + last - count) / 2 + 1, 1, std::max(cells - count + 1, 1));
    to = from + count - 1;
  };
  const Patch& pilot = plan.fabrication.pilot;
  Patch part;
  along(real_size_room.width.count_of(lattice.pitch_x()), lattice.columns, pilot.first_column, pilot.last_column,
        part.first_column, part.last_column);
  along(real_size_room.height.count_of(lattice.pitch_y()), lattice.rows, pilot.first_course, pilot.last_course,
        part.first_course, part.last_course);
  return part;
}

}  // namespace detail

/// A path for each colour, and lines between the pieces. Nothing where a cell is larger than the page.
template <When = When::called>
void add_real_size(Markup& page, const Plan& plan) {
  const Rectangular& lattice = plan.chart.lattice;
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const Patch part = detail::part_at_real_size(plan);
  const int columns = part.last_column - part.first_column + 1;
  const int courses = part.last_course - part.first_course + 1;
  if (columns < 1 || courses < 1) return;
  const Size size{lattice.pitch_x().times(columns), lattice.pitch_y().times(courses)};
  std::vector<std::string> paths(static_cast<std::size_t>(plan.chart.palette.size()) + 1);
  for (int course = part.first_course; course <= part.last_course; ++course) {
    const auto cells = plan.chart.course(course);
    const std::string y = drawing_mm(lattice.pitch_y().times(part.last_course - course));
    for (int first = part.first_column; first <= part.last_column;) {
      const ColourNumber number = cells[static_cast<std::size_t>(first - 1)];
      int after = first;
      while (after <= part.last_column && cells[static_cast<std::size_t>(after - 1)] == number) ++after;
      const std::string wide = drawing_mm(lattice.pitch_x().times(after - first));
      paths[number] += "M" + drawing_mm(lattice.pitch_x().times(first - part.first_column)) + " " + y + "h" + wide +
                       "v" + drawing_mm(lattice.pitch_y()) + "h-" + wide + "z";
      first = after;
    }
  }
  const std::string width = drawing_mm(size.width);
  const std::string height = drawing_mm(size.height);
  page.element("h3", "At its real size").line();
  page.open("figure", R"(class="real" tabindex="0" role="region" aria-label="A part of the panel at its real size")");
  page.open("svg", "width=\"" + width + "mm\" height=\"" + height + "mm\" viewBox=\"0 0 " + width + " " + height +
                       "\" role=\"img\" aria-label=\"Pieces in their colours\"");
  for (int number = 1; number <= plan.chart.palette.size(); ++number) {
    const std::string& path = paths[static_cast<std::size_t>(number)];
    if (path.empty()) continue;
    page.leaf("path", "fill=\"" + to_hex(plan.chart.palette[number].colour) + "\" d=\"" + path + "\"");
  }
  const int pieces = columns * std::max(plan.pieces.per_cell, 1);
  std::string lines;
  for (int i = 1; i < pieces; ++i) lines += "M" + drawing_mm(size.width.times(i).divided(pieces)) + " 0V" + height;
  for (int i = 1; i < courses; ++i) lines += "M0 " + drawing_mm(lattice.pitch_y().times(i)) + "H" + width;
  page.leaf("path", "fill=\"none\" stroke=\"#000\" stroke-opacity=\".35\" stroke-width=\".15\" d=\"" + lines + "\"");
  page.close();
  page.element("figcaption", "Columns " + std::to_string(part.first_column) + " to " +
                                 std::to_string(part.last_column) + " of courses " + std::to_string(part.first_course) +
                                 " to " + std::to_string(part.last_course) +
                                 ", each piece as it lies. Printed at 100 % it measures " + size_text(size, unit) +
                                 "; on a screen it may not.");
  page.close().line();
}

}  // namespace handlaid
