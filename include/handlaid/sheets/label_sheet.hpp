// A bought sheet of labels: where its labels are, given by its millimetres alone, and refused where it cannot be.
#pragma once

#include <algorithm>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/paper.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/printed_page.hpp"

namespace handlaid {

/// A sheet of labels, as its maker's packet gives it.
struct LabelSheet {
  Size paper = size_of(Paper::a4);
  /// 25 x 15 mm at least.
  Size label = {63.5 * mm, 38.1 * mm};
  /// From the paper's left and top edge to the first label.
  Length left = 7.25 * mm;
  Length top = 15.15 * mm;
  /// From one label's edge to the same edge of the next: at least the label.
  Size pitch = {66 * mm, 38.1 * mm};
  /// 1…50 each.
  int columns = 3;
  int rows = 7;

  constexpr int places() const { return columns * rows; }
  /// Upper left corner of a place, from 1, along the rows; each from the corner of the paper.
  constexpr PagePoint at(int place) const {
    return {left + pitch.width.times((place - 1) % columns), top + pitch.height.times((place - 1) / columns)};
  }
  /// Throws Error where labels overlap, leave the paper or are too small to be read.
  template <When = When::called>
  void check() const;
  friend constexpr bool operator==(const LabelSheet&, const LabelSheet&) = default;
};

/// 63.5 x 38.1 mm, 3 x 7 on A4, 2.5 mm between columns.
inline constexpr LabelSheet labels_63_by_38 = {};

/// 66.675 x 25.4 mm (2 5/8 x 1 in), 3 x 10 on Letter, 1/8 in between columns.
inline constexpr LabelSheet labels_66_by_25 = {.paper = size_of(Paper::letter),
                                               .label = {2.625 * inch, 1 * inch},
                                               .left = 0.1875 * inch,
                                               .top = 0.5 * inch,
                                               .pitch = {2.75 * inch, 1 * inch},
                                               .columns = 3,
                                               .rows = 10};

/// The one that is common where a paper is.
constexpr const LabelSheet& label_sheet_of(Paper paper) {
  return paper == Paper::a4 ? labels_63_by_38 : labels_66_by_25;
}

template <When>
void LabelSheet::check() const {
  const auto text = [](Length length) { return to_text(length, LengthUnit::millimetres); };
  if (columns < 1 || columns > 50 || rows < 1 || rows > 50) {
    throw Error::out_of_range("label sheet", std::to_string(columns) + " x " + std::to_string(rows) + " labels",
                              "1 to 50 each way");
  }
  // Beyond any paper; it also keeps the sums below far from the ends of their range.
  constexpr Length longest = 2'000 * mm;
  for (const Length length :
       {paper.width, paper.height, label.width, label.height, left, top, pitch.width, pitch.height}) {
    if (length < Length{} || length > longest) {
      throw Error::out_of_range("label sheet", "a length of " + text(length), "0 to 2000 mm");
    }
  }
  if (label.width < 25 * mm || label.height < 15 * mm) {
    throw Error::bad_option("label sheet",
                            "labels of " + to_text(label, LengthUnit::millimetres) + " have no room for what they say",
                            "take labels of 25 x 15 mm or more");
  }
  const auto side = [&](const char* what, int count, Length first, Length size, Length each, Length all) {
    if (count > 1 && each < size) {
      throw Error::bad_option(
          "label sheet",
          std::string("labels overlap: they are ") + text(size) + " " + what + " and " + text(each) + " apart",
          "give the distance from one label's edge to the same edge of the next");
    }
    const Length end = first + each.times(count - 1) + size;
    if (end > all) {
      throw Error::bad_option("label sheet",
                              "the last label ends at " + text(end) + " on paper " + text(all) + " " + what,
                              "measure margin, label and distance once more, or give fewer labels");
    }
  };
  side("wide", columns, left, label.width, pitch.width, paper.width);
  side("high", rows, top, label.height, pitch.height, paper.height);
}

namespace detail {

/// The part of a label that may be printed on: away from its own edges, and from those of the paper.
struct LabelRoom {
  Length left = {};
  Length top = {};
  Size size = {};
  Length right() const { return left + size.width; }
  Length bottom() const { return top + size.height; }
};

inline LabelRoom label_room(const LabelSheet& sheet) {
  // The same for every label, by the outermost ones.
  const Length ends = sheet.left + sheet.pitch.width.times(sheet.columns - 1) + sheet.label.width;
  const Length foot = sheet.top + sheet.pitch.height.times(sheet.rows - 1) + sheet.label.height;
  const Length beside = std::max({2.5 * mm, page_margin - sheet.left, page_margin - (sheet.paper.width - ends)});
  const Length above = std::max({2 * mm, page_margin - sheet.top, page_margin - (sheet.paper.height - foot)});
  return {beside, above, {sheet.label.width - beside.times(2), sheet.label.height - above.times(2)}};
}

}  // namespace detail

}  // namespace handlaid
