// Bench book: the chart to look at on a screen. Its cells stand in the page once, as data; the script of
// book_chart_script draws what is in view. Without scripts nothing of it is seen, and the printed parts are there
// instead.
#pragma once

#include <cstddef>
#include <string>
#include <utility>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/colour/hex.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/progress_table.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/base64.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/json.hpp"

namespace handlaid {

/// What the scripts know of the plan, as JSON that may stand inside of a script element. Cells are base64 of a byte
/// each, or two with the lower first where there are more than 255 colours: course 1 first, from the left; 0 is empty.
/// `cell_width` and `cell_height` are in proportion.
template <When = When::called>
std::string book_data(const Plan& plan, Length cell_width, Length cell_height) {
  const Chart<>& chart = plan.chart;
  const int bytes = chart.palette.size() > 255 ? 2 : 1;
  std::string cells;
  for (int course = 1; course <= chart.courses(); ++course) {
    for (const ColourNumber number : chart.course(course)) {
      cells += static_cast<char>(number & 255U);
      if (bytes == 2) cells += static_cast<char>(number >> 8U);
    }
  }
  Json json;
  json.open_object().add("mark", chart_fingerprint(chart));
  json.add("columns", chart.columns()).add("courses", chart.courses());
  json.add("cell_width", cell_width.um()).add("cell_height", cell_height.um());
  json.add("board", to_hex(look::board)).add("paper", to_hex(look::paper)).add("ink", to_hex(look::ink));
  json.add("quiet", to_hex(look::quiet)).add("accent", to_hex(look::accent));
  json.open_array("colours");
  for (int number = 1; number <= chart.palette.size(); ++number) {
    const PaletteEntry& entry = chart.palette[number];
    const auto at = static_cast<std::size_t>(number);
    json.open_object().add("name", entry.name).add("colour", to_hex(entry.colour));
    json.add("ink", to_hex(numeral_colour(entry.colour)));
    json.add("cells", plan.tally.cells[at]).add("runs", plan.tally.runs[at]).close();
  }
  json.close().add("bytes", bytes).add("cells", base64(cells)).close();
  std::string safe;
  for (const char c : std::move(json).finish()) {
    if (c == '<') {
      safe += "\\u003c";  // a name must not end the script
    } else {
      safe += c;
    }
  }
  return safe;
}

/// The data, the canvas and its controls.
template <When = When::called>
void add_viewer(Markup& page, const Plan& plan, Length cell_width, Length cell_height) {
  const Chart<>& chart = plan.chart;
  page.open("script", R"(type="application/json" id="plan")").raw(book_data(plan, cell_width, cell_height));
  page.close().line();
  page.open("div", R"(class="viewer screen" id="viewer" hidden="")").line();
  page.open("div", R"(class="tools")");
  page.open("label", R"(for="light")").text("Light one colour").close();
  page.open("select", R"(id="light" autocomplete="off")").element("option", "all colours", R"(value="0")");
  for (int number = 1; number <= chart.palette.size(); ++number) {
    const std::string digits = std::to_string(number);
    const std::string& name = chart.palette[number].name;
    // isolated, so that a name from right to left does not turn its number round
    page.element("option", digits + (name.empty() ? "" : " \u2068" + name + "\u2069"), "value=\"" + digits + "\"");
  }
  page.close();
  page.open("span", R"(class="keys" role="group" aria-label="Look at the chart")");
  const auto button = [&](const char* act, const char* sign, const char* label) {
    page.element("button", sign, R"(type="button")" + attribute("data-act", act) + attribute("aria-label", label));
  };
  button("+", "+", "Closer");
  button("-", "\u2212", "Further away");
  button("ArrowLeft", "←", "To the left");
  button("ArrowUp", "↑", "Up");
  button("ArrowDown", "↓", "Down");
  button("ArrowRight", "→", "To the right");
  page.element("button", "Whole chart", R"(type="button" data-act="0")");
  page.close().close().line();
  page.element("p", "", R"(id="lit" role="status")").line();
  page.element("canvas", "",
               "id=\"canvas\" tabindex=\"0\" role=\"application\" aria-describedby=\"how\"" +
                   attribute("aria-label", "Chart of " + std::to_string(chart.columns()) + " columns and " +
                                               std::to_string(chart.courses()) +
                                               " courses; all of it stands in words under Courses"));
  page.line().element("p", "", R"(id="view" role="status")").line();
  page.element(
      "p",
      "Drag to move, pinch or turn the wheel to come closer, tap a cell to read it. Keys: arrows, + and \u2212, "
      "0 for the whole chart.",
      R"(id="how" class="quiet")");
  page.element("button", "Show the pages to print", R"(type="button" id="pages" aria-expanded="false")");
  page.close().line();
}

}  // namespace handlaid
