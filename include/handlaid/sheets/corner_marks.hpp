// The sheet of four marks to cut out and lay at the corners of the laid field, so that its photo can be set straight.
#pragma once

#include <algorithm>
#include <array>

#include "handlaid/core/length_text.hpp"
#include "handlaid/core/paper.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/lattice.hpp"
#include "handlaid/image/find_marks.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/page_words.hpp"
#include "handlaid/sheets/printed_page.hpp"

namespace handlaid {

/// The side of a mark: three and a half cells, so that it has enough pixels wherever cells have them; 40 to 80 mm.
constexpr Length corner_mark_side(const Rectangular& lattice) {
  const Length cells = std::max(lattice.pitch_x(), lattice.pitch_y()).times(7).divided(2);
  return std::clamp(cells, 40 * mm, 80 * mm);
}

/// How many columns and courses the middle of a mark lies outside of a corner, for `marks_to_photo`.
struct MarksOut {
  double columns = 0;
  double courses = 0;
};
constexpr MarksOut marks_out(const Rectangular& lattice) {
  const auto half = static_cast<double>(corner_mark_side(lattice).um()) / 2;
  return {half / static_cast<double>(lattice.pitch_x().um()), half / static_cast<double>(lattice.pitch_y().um())};
}

/// The boxes of one mark whose paper has its top left corner at `at`.
template <When = When::called>
void add_corner_mark(PrintedPage& page, const PagePoint& at, Length side, bool datum) {
  const auto box = [&](int hundredths, const Srgb8& colour) {
    const Length size = side.times(hundredths).divided(100);
    const Length in = (side - size).divided(2);
    page.boxes.push_back({.at = {at.x + in, at.y + in}, .size = {size, size}, .filled = true, .fill = colour});
  };
  page.boxes.push_back({.at = at, .size = {side, side}, .outline = Length::from_um(150), .colour = look::quiet});
  box(CornerMark::ring, {0, 0, 0});
  box(CornerMark::hole, {255, 255, 255});
  box(datum ? CornerMark::datum_square : CornerMark::square, {0, 0, 0});
}

/// What the page of a plan must know.
struct CornerMarksPage {
  Paper paper = Paper::a4;
  /// How far strips hang over what is below them, see `lower_rows`.
  Length overlap = {};
  LengthUnit unit = LengthUnit::millimetres;
};

/// All four on one page, with what to do: the datum's first.
template <When = When::called>
PrintedPage corner_marks_page(const Rectangular& lattice, const CornerMarksPage& options = {}) {
  const Length side = corner_mark_side(lattice);
  PrintedPage page{.name = "Corner marks", .size = size_of(options.paper)};
  const Length left = 2 * page_margin;
  const Length room = page.size.width - page_margin.times(2);
  page.texts.push_back(
      {.at = {page_margin, page_margin + 4 * mm}, .text = "Corner marks", .em = Length::from_um(4'600), .bold = true});
  Length y = add_words(page,
                       "Print at 100 % and cut along the lines. Lay a mark outside of each corner of the laid field, "
                       "flat and as high as the face, on a block where the board ends, its sides in line with those of "
                       "the field, one corner of the paper touching the corner "
                       "of the field. " +
                           std::string(options.overlap > Length{}
                                           ? "The lower two touch it " + mark_text(options.overlap, options.unit) +
                                                 " " + symbol(options.unit) +
                                                 " below the lowest line, where the lowest strip ends before it is "
                                                 "trimmed. "
                                           : "") +
                           "Then take a photo of the whole board with all four marks, and run proof_read.",
                       {page_margin, page_margin + 11 * mm}, room);
  add_words(page, "The mark at the datum has the larger square; the other three are alike.", {page_margin, y + 1 * mm},
            room, {.colour = look::quiet});
  const std::array<const char*, 4> names = {"datum: bottom left", "top left", "top right", "bottom right"};
  for (std::size_t i = 0; i < 4; ++i) {
    const PagePoint at{left + (side + 10 * mm).times(i % 2 == 0 ? 0 : 1),
                       60 * mm + (side + 15 * mm).times(i < 2 ? 0 : 1)};
    add_corner_mark(page, at, side, i == 0);
    page.texts.push_back({.at = {at.x, at.y - 2 * mm},
                          .text = names[i],
                          .em = 3.5 * mm,
                          .bold = i == 0,
                          .colour = i == 0 ? look::accent : look::ink});
  }
  add_page_cautions(page, {Hazard::hand_blade}, {page_margin, 60 * mm + side.times(2) + 25 * mm}, room);
  return page;
}

}  // namespace handlaid
