// What every printed page is held to: all of it inside of the margins, no text on another, digits that can be read.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/sheets/printed_page.hpp"

namespace handlaid_test {

/// A box around something on a page.
struct Extent {
  handlaid::Length left = {};
  handlaid::Length top = {};
  handlaid::Length right = {};
  handlaid::Length bottom = {};
};

/// Whether all of a text is figures, so that nothing of it goes below the base line.
inline bool all_digits(const std::string& text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

inline bool has_digit(const std::string& text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// The width of a text without its room: each character as wide as a digit, a space half of that.
inline handlaid::Length free_width(const handlaid::PageText& text) {
  std::int64_t halves = 0;
  for (const char c : text.text) {
    if ((static_cast<unsigned char>(c) & 0xc0) != 0x80) halves += c == ' ' ? 1 : 2;
  }
  return text.em.times(handlaid::look::digit_advance).times(halves).divided(2'000);
}

/// The em that is drawn: smaller where the room asks for it.
inline handlaid::Length drawn_em(const handlaid::PageText& text) {
  const handlaid::Length width = free_width(text);
  if (text.room == handlaid::Length{} || width <= text.room) return text.em;
  const handlaid::Length fits = text.em.times(text.room.um()).divided(width.um());
  return text.may_be_cut ? std::max(fits, std::min(text.em, handlaid::smallest_type)) : fits;
}

inline handlaid::Length digit_height(const handlaid::PageText& text) {
  return drawn_em(text).times(handlaid::look::digit_height).divided(1000);
}

inline Extent extent_of(const handlaid::PageText& text) {
  using namespace handlaid;
  const Length em = drawn_em(text);
  const Length width = text.room == Length{} ? free_width(text) : std::min(free_width(text), text.room);
  const Length height = digit_height(text);
  const Length before = text.anchor == TextAnchor::left     ? Length{}
                        : text.anchor == TextAnchor::middle ? width.divided(2)
                                                            : width;
  const Length below = text.centred ? height.divided(2) : all_digits(text.text) ? Length{} : em.divided(5);
  const Length above = text.centred ? height.divided(2) : height;
  if (text.quarter_turns == 1) {
    return {text.at.x - above, text.at.y + before - width, text.at.x + below, text.at.y + before};
  }
  return {text.at.x - before, text.at.y - above, text.at.x - before + width, text.at.y + below};
}

/// What of a page reaches beyond its margins: empty where nothing does.
inline std::vector<std::string> outside_of_margins(const handlaid::PrintedPage& page) {
  using namespace handlaid;
  std::vector<std::string> found;
  const auto check = [&](const Extent& extent, const std::string& what) {
    if (extent.left < page_margin || extent.top < page_margin || extent.right > page.size.width - page_margin ||
        extent.bottom > page.size.height - page_margin) {
      found.push_back(page.name + ": " + what);
    }
  };
  for (const PageBox& box : page.boxes) {
    check({box.at.x, box.at.y, box.at.x + box.size.width, box.at.y + box.size.height}, "a box");
  }
  for (const PageLine& line : page.lines) {
    check({std::min(line.from.x, line.to.x), std::min(line.from.y, line.to.y), std::max(line.from.x, line.to.x),
           std::max(line.from.y, line.to.y)},
          "a line");
  }
  for (const PageText& text : page.texts) check(extent_of(text), "\"" + text.text + "\"");
  return found;
}

/// Pairs of texts that lie on one another.
inline std::vector<std::string> overlapping_texts(const handlaid::PrintedPage& page) {
  std::vector<std::string> found;
  std::vector<Extent> extents;
  for (const handlaid::PageText& text : page.texts) extents.push_back(extent_of(text));
  for (std::size_t i = 0; i < extents.size(); ++i) {
    for (std::size_t k = i + 1; k < extents.size(); ++k) {
      const Extent& a = extents[i];
      const Extent& b = extents[k];
      if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) {
        found.push_back(page.name + ": \"" + page.texts[i].text + "\" and \"" + page.texts[k].text + "\"");
      }
    }
  }
  return found;
}

/// Texts with figures that are to be worked by, lower than 2.2 mm. The page's number and the length at the bar are not.
inline std::vector<std::string> low_digits(const handlaid::PrintedPage& page) {
  std::vector<std::string> found;
  for (const handlaid::PageText& text : page.texts) {
    const bool frame = text.text.starts_with("page ") || text.text.ends_with(" across");
    if (has_digit(text.text) && !frame && digit_height(text) < handlaid::Length::from_um(2'200)) {
      found.push_back(page.name + ": \"" + text.text + "\"");
    }
  }
  return found;
}

inline const handlaid::PageText* text_of(const handlaid::PrintedPage& page, const std::string& content) {
  for (const handlaid::PageText& text : page.texts) {
    if (text.text == content) return &text;
  }
  return nullptr;
}

}  // namespace handlaid_test
