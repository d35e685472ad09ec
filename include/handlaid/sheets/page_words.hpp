// Words on a printed page: sentences broken to the width they have, so that none is set smaller than can be read, and
// the caution at the work that it belongs to.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/cautions.hpp"
#include "handlaid/sheets/printed_page.hpp"

namespace handlaid {

/// The distance of the base lines of sentences, for their em.
constexpr Length line_height(Length em) { return em.times(14).divided(10); }

/// The width of a text in the printed font, DejaVu Sans: exact for ASCII, an em for each other character, which only
/// the widest of them have.
template <When = When::called>
Length text_width(std::string_view text, Length em, bool bold = false);

/// Holds together what it stands between; in the lines of a text it becomes a space.
inline constexpr const char* no_break = "\u00a0";

/// A text that is never broken.
template <When = When::called>
std::string tied(std::string text) {
  for (std::size_t at = 0; (at = text.find(' ', at)) != std::string::npos;) text.replace(at, 1, no_break);
  return text;
}

/// A text in lines no wider than `room`, the first one less by `indent`, broken at spaces; a word that is wider stands
/// alone on its line.
template <When = When::called>
std::vector<std::string> broken_lines(std::string_view text, Length em, Length room, bool bold = false,
                                      Length indent = {});

/// How words stand on a page.
struct WordStyle {
  Length em = Length::from_um(3'100);
  Srgb8 colour = look::ink;
  bool bold = false;
};

/// Sets a text in lines, the base line of the first at `at`; returns the base line of the line after the last.
template <When = When::called>
Length add_words(PrintedPage& page, std::string_view text, PagePoint at, Length room, const WordStyle& style = {});

/// Who decides in the end; with each caution, and on the first page of what is worked by.
inline constexpr const char* decides_sentence = "Data sheets, the tools' manuals and local codes decide.";

/// Where a page is as large as the work; what to check it by follows.
inline constexpr const char* large_page_sentence =
    "For a print shop or a plotter: one sheet at 100 %, never fitted, rolled and not folded.";

/// The cautions of hazards: a bar and the subject in the accent colour, the words, and after the last who decides. The
/// base line of the first line at `at`; returns the base line of the line after the last.
template <When = When::called>
Length add_page_cautions(PrintedPage& page, const std::vector<Hazard>& hazards, PagePoint at, Length room,
                         Length em = smallest_type);

namespace detail {

/// Advance widths of DejaVu Sans 2.37 and its bold, from the space to the tilde, in thousandths of an em, rounded up.
inline constexpr std::array<std::array<std::uint16_t, 95>, 2> advance_widths = {
    {{318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361,  318, 337, 637, 637, 637,
      637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 531, 1000, 685, 687, 699, 771, 632,
      576, 775, 752, 295, 295, 656, 558, 863, 749, 788, 604, 788, 695, 635,  611, 732, 685, 989, 686,
      611, 686, 391, 337, 391, 838, 500, 500, 613, 635, 550, 635, 616, 353,  635, 634, 278, 278, 580,
      278, 975, 634, 612, 635, 635, 412, 521, 393, 634, 592, 818, 592, 592,  525, 637, 337, 637, 838},
     {349, 457,  521, 838, 696, 1002, 873, 307, 458, 458, 523, 838, 380, 416,  380, 366, 696, 696,  696,
      696, 696,  696, 696, 696, 696,  696, 400, 400, 838, 838, 838, 581, 1000, 774, 763, 734, 831,  684,
      684, 821,  837, 373, 373, 775,  638, 996, 837, 851, 733, 851, 771, 721,  683, 813, 774, 1104, 771,
      725, 726,  458, 366, 458, 838,  500, 500, 675, 716, 593, 716, 679, 436,  716, 712, 343, 343,  666,
      343, 1042, 712, 688, 716, 716,  494, 596, 479, 712, 652, 924, 646, 652,  583, 712, 366, 712,  838}}};

}  // namespace detail

template <When>
Length text_width(std::string_view text, Length em, bool bold) {
  std::int64_t thousandths = 0;
  for (const char character : text) {
    const auto code = static_cast<unsigned char>(character);
    if (code >= 0x20 && code < 0x7f) {
      thousandths += detail::advance_widths[bold ? 1 : 0][code - 0x20U];
    } else if ((code & 0xc0U) != 0x80U) {
      thousandths += 1'000;  // once for a character of several bytes
    }
  }
  return em.times(thousandths).divided(1'000);
}

template <When>
std::vector<std::string> broken_lines(std::string_view text, Length em, Length room, bool bold, Length indent) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    std::string word(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    for (std::size_t at = 0; (at = word.find(no_break, at)) != std::string::npos;) word.replace(at, 2, " ");
    std::string longer = lines.empty() ? "" : lines.back() + " ";
    longer += word;
    if (!lines.empty() && text_width(longer, em, bold) <= room - (lines.size() == 1 ? indent : Length{})) {
      lines.back() = std::move(longer);
    } else {
      lines.push_back(std::move(word));
    }
  }
  return lines;
}

template <When>
Length add_words(PrintedPage& page, std::string_view text, PagePoint at, Length room, const WordStyle& style) {
  for (std::string& line : broken_lines(text, style.em, room, style.bold)) {
    page.texts.push_back(
        {.at = at, .text = std::move(line), .em = style.em, .bold = style.bold, .colour = style.colour, .room = room});
    at.y += line_height(style.em);
  }
  return at.y;
}

template <When>
Length add_page_cautions(PrintedPage& page, const std::vector<Hazard>& hazards, PagePoint at, Length room, Length em) {
  const Length left = at.x + em;
  for (std::size_t i = 0; i < hazards.size(); ++i) {
    const std::string subject = caution_name(hazards[i]) + ":";
    std::string rest = std::string(caution(hazards[i])).substr(subject.size());
    if (i + 1 == hazards.size()) rest += " " + std::string(decides_sentence);
    const Length indent = text_width(subject, em, true) + em.divided(3);
    // from the top of the first line to the foot of the last
    const Length top = at.y - em.times(8).divided(10);
    page.texts.push_back({.at = {left, at.y}, .text = subject, .em = em, .bold = true, .colour = look::accent});
    Length x = left + indent;
    for (std::string& line : broken_lines(rest, em, room - em, false, indent)) {
      page.texts.push_back({.at = {x, at.y}, .text = std::move(line), .em = em, .room = at.x + room - x});
      x = left;
      at.y += line_height(em);
    }
    page.boxes.push_back(
        {{at.x, top}, {em.times(4).divided(10), at.y - line_height(em) + em.divided(5) - top}, true, look::accent});
    at.y += em.divided(3);
  }
  return at.y;
}

}  // namespace handlaid
