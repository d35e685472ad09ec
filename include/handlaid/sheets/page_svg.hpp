// A printed page as SVG at its true size, for a browser or a drawing program to print at 100 %.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/figures.hpp"
#include "handlaid/sheets/markup.hpp"
#include "handlaid/sheets/printed_page.hpp"

namespace handlaid {

/// The text of an SVG file of a page, all coordinates in millimetres. `room` of a text is not looked at.
template <When = When::called>
std::string page_svg(const PrintedPage& page) {
  const auto number = [](const char* name, Length length) {
    return " " + std::string(name) + "=\"" + drawing_mm(length) + "\"";
  };
  const auto colour = [](const char* name, const Srgb8& c) { return attribute(name, to_hex(c)); };
  Markup svg;
  svg.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  svg.open("svg", "xmlns=\"http://www.w3.org/2000/svg\" width=\"" + drawing_mm(page.size.width) + "mm\" height=\"" +
                      drawing_mm(page.size.height) + "mm\" viewBox=\"0 0 " + drawing_mm(page.size.width) + " " +
                      drawing_mm(page.size.height) + "\" font-family=\"sans-serif\"");
  svg.element("title", page.name).line();
  svg.leaf("rect", number("width", page.size.width) + number("height", page.size.height) + " fill=\"#ffffff\"").line();
  for (const PageBox& box : page.boxes) {
    std::string how = box.filled ? colour("fill", box.fill) : " fill=\"none\"";
    if (box.outline > Length{}) how += colour("stroke", box.colour) + number("stroke-width", box.outline);
    svg.leaf("rect", number("x", box.at.x) + number("y", box.at.y) + number("width", box.size.width) +
                         number("height", box.size.height) + how)
        .line();
  }
  for (const PageLine& line : page.lines) {
    svg.leaf("line", number("x1", line.from.x) + number("y1", line.from.y) + number("x2", line.to.x) +
                         number("y2", line.to.y) + colour("stroke", line.colour) + number("stroke-width", line.width) +
                         (line.dash > Length{} ? number("stroke-dasharray", line.dash) : ""))
        .line();
  }
  for (const PageText& text : page.texts) {
    constexpr const char* anchors[] = {"start", "middle", "end"};
    // A digit is 0.72 em high; its middle comes to the point, whichever way the text runs.
    const Length down = text.centred ? text.em.times(look::digit_height).divided(2'000) : Length{};
    std::string how = number("font-size", text.em) + attribute("text-anchor", anchors[static_cast<int>(text.anchor)]) +
                      colour("fill", text.colour) + (text.bold ? " font-weight=\"bold\"" : "");
    if (text.quarter_turns % 4 != 0) {
      how += " transform=\"rotate(" + std::to_string(-90 * text.quarter_turns) + " " + drawing_mm(text.at.x) + " " +
             drawing_mm(text.at.y) + ")\"";
    }
    svg.element("text", text.text, number("x", text.at.x) + number("y", text.at.y + down) + how).line();
  }
  svg.close().line();
  return std::move(svg).finish();
}

}  // namespace handlaid
