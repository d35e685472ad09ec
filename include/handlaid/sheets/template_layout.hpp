// How the cells of a chart are shared out to pages at true scale: counted before anything is drawn, since a large panel
// of large cells may be a thousand pages.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/paper.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/sheets/chart_cells.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

/// More pages of one file for small paper than this are not made unasked.
inline constexpr std::int64_t most_pages_unasked = 999;

/// Where cells stand on a page: the rest is head, numbers of courses and columns, bars and words.
struct TemplateRoom {
  Length left = {};
  /// Of the lowest course, from the top of the page.
  Length bottom = {};
  Size most = {};
};

constexpr TemplateRoom template_room(Paper paper) {
  const Size page = size_of(paper);
  constexpr Length beside_left = Length::from_um(7'200);
  constexpr Length beside_right = Length::from_um(10'800);
  constexpr Length above = 21 * mm;
  constexpr Length below = 21 * mm;
  return {page_margin + beside_left, page.height - page_margin - below,
          Size{page.width - page_margin.times(2) - beside_left - beside_right,
               page.height - page_margin.times(2) - above - below}};
}

/// Pages of equal numbers of cells, page 1 at the datum, then to the right, then up.
struct TemplateLayout {
  Paper paper = Paper::a4;
  int columns = 0;
  int courses = 0;
  /// Of each page but the last ones.
  int columns_a_page = 0;
  int courses_a_page = 0;

  constexpr int across() const { return (columns + columns_a_page - 1) / columns_a_page; }
  constexpr int up() const { return (courses + courses_a_page - 1) / courses_a_page; }
  constexpr std::int64_t pages() const { return std::int64_t{across()} * up(); }
  /// The cells of a page, from 1.
  constexpr ChartPart part(int page) const {
    const int column = (page - 1) % across() * columns_a_page;
    const int course = (page - 1) / across() * courses_a_page;
    return {column + 1, std::min(column + columns_a_page, columns), course + 1,
            std::min(course + courses_a_page, courses)};
  }
};

/// As few pages as the paper allows, then as equal as can be. Throws Error where a page is too small for one cell.
template <When = When::called>
TemplateLayout template_layout(const Rectangular& lattice, Paper paper) {
  const TemplateRoom room = template_room(paper);
  const auto shared = [&](int cells, Length pitch, Length most) {
    const auto fit = static_cast<int>(std::min<std::int64_t>(most.count_of(pitch), cells));
    if (fit == 0) {
      throw Error::bad_option("paper",
                              std::string(name_of(paper)) + " holds " + size_text(room.most, LengthUnit::millimetres) +
                                  " of cells, less than one of " +
                                  size_text({lattice.pitch_x(), lattice.pitch_y()}, LengthUnit::millimetres),
                              "print the whole chart on large paper, or say templates = no");
    }
    const int count = (cells + fit - 1) / fit;
    return (cells + count - 1) / count;
  };
  return {paper, lattice.columns, lattice.rows, shared(lattice.columns, lattice.pitch_x(), room.most.width),
          shared(lattice.rows, lattice.pitch_y(), room.most.height)};
}

}  // namespace handlaid
