// A page to be printed at true scale, as a value: its size and what stands on it, in whole micrometres. What draws
// pages (sheets/templates, sheets/story_poles and the like) knows no file format; optional/pdf.hpp makes the file.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/length.hpp"
#include "handlaid/core/paper.hpp"
#include "handlaid/sheets/look.hpp"

namespace handlaid {

/// The least em of what a maker must read: a little more than 8 points, which reads at arm's length.
inline constexpr Length smallest_type = Length::from_um(2'900);

/// A place on a page, from its top left corner, to the right and down.
struct PagePoint {
  Length x = {};
  Length y = {};
  friend bool operator==(const PagePoint&, const PagePoint&) = default;
};

/// A straight line of a width; `dash` is the length of a dash and of a gap, zero for none.
struct PageLine {
  PagePoint from = {};
  PagePoint to = {};
  Length width = Length::from_um(200);
  Srgb8 colour = look::ink;
  Length dash = {};
};

/// A rectangle, filled, outlined or both: `filled` says whether `fill` counts, an `outline` of zero is none.
struct PageBox {
  PagePoint at = {};
  Size size = {};
  bool filled = false;
  Srgb8 fill = look::shade;
  Length outline = {};
  Srgb8 colour = look::ink;
};

/// Which part of a text stands at its point.
enum class TextAnchor : std::uint8_t { left, middle, right };

/// One line of text. Its point is on the base line, or in the middle of a digit's height where `centred`.
struct PageText {
  PagePoint at = {};
  std::string text = {};
  Length em = Length::from_um(3'500);
  TextAnchor anchor = TextAnchor::left;
  bool centred = false;
  bool bold = false;
  Srgb8 colour = look::ink;
  /// Quarter turns against the clock: 1 reads from the bottom up.
  int quarter_turns = 0;
  /// No wider than this: set smaller where it would be; zero for any width.
  Length room = {};
  /// What others have typed: rather than smaller than `smallest_type` it ends in an ellipsis. Figures never do.
  bool may_be_cut = false;
};

/// Everything on a page, drawn in the order boxes, lines, texts, each in its own order.
struct PrintedPage {
  /// What the page is called, for the reader's list of pages and for tests; not drawn.
  std::string name = {};
  Size size = {};
  std::vector<PageBox> boxes = {};
  std::vector<PageLine> lines = {};
  std::vector<PageText> texts = {};
};

}  // namespace handlaid
