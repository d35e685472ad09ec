// Measures printed templates as a maker would with a rule and a loupe, knowing nothing of how they were drawn:
//   measure_print CHART.CSV PITCH_MM BBOX.HTML PRINTED_AT PAGE=PICTURE.ppm…
// PRINTED_AT is 1, or how large a printer prints that is not true, with the pictures made accordingly.
// BBOX.HTML is what `pdftotext -bbox` says of all pages: every numeral must stand in the middle of the cell that its
// place on the board names, and all cells must be there. Each PICTURE is a page of it at 600 dots an inch (`pdftoppm -r
// 600`): its crosses, the lines of its cells and its two bars are found as ink. Prints the largest errors in
// millimetres, one line each, and fails where one is above 0.1 mm.
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "handlaid/files/chart_table.hpp"
#include "handlaid/files/text_file.hpp"
#include "print/printed_template.hpp"

using namespace handlaid_test;

namespace {

constexpr double allowed_mm = 0.1;
int faults = 0;

void tell(const std::string& what, double worst, std::int64_t count) {
  std::printf("%s: %lld measured, largest error %.4f mm\n", what.c_str(), static_cast<long long>(count), worst);
  if (!(worst <= allowed_mm) || count == 0) ++faults;
}

}  // namespace

int main(int argc, char** argv) try {
  if (argc < 6) {
    std::cerr << "usage: measure_print CHART.CSV PITCH_MM BBOX.HTML PRINTED_AT PAGE=PICTURE.ppm...\n";
    return 2;
  }
  const Raster<ColourNumber> chart = read_chart_numbers(read_text_file(argv[1]), argv[1]);
  const double pitch = std::stod(argv[2]);
  std::vector<Page> pages = read_pages(argv[3], std::stod(argv[4]));

  // Every numeral, by the corner coordinates of its page. The corners' places come from the cells' lines in the
  // pictures where there is one; on the other pages from the first one, since all pages have their lower left corner at
  // one place.
  double corner_x = 0;
  double corner_y = 0;
  double worst_line = 0;
  double worst_bar = 0;
  double worst_corner = 0;
  std::int64_t lines = 0;
  std::int64_t bars = 0;
  std::int64_t corners = 0;
  for (int i = 5; i < argc; ++i) {
    const std::string argument = argv[i];
    const std::size_t equals = argument.find('=');
    const auto number = static_cast<std::size_t>(std::stoi(argument.substr(0, equals)));
    const Ink ink(argument.substr(equals + 1));
    const Page& page = pages.at(number - 1);
    const Crosses crosses = find_crosses(ink);
    BoardPart part;
    if (!board_part(page, part)) throw Error::bad_input(argument, "it has not four corners", "look at it");
    worst_corner = std::max({worst_corner, std::abs(crosses.right - crosses.left - (part.right - part.left)),
                             std::abs(crosses.bottom - crosses.top - (part.top - part.bottom))});
    corners += 4;
    // each line between cells, looked for where a rule says it is; a little above the middle of a course, where no
    // numeral touches a line
    for (double at = part.left; at <= part.right + 0.01; at += pitch) {
      for (double up = part.bottom + pitch * 0.1; up < part.top; up += pitch) {
        const double expected = crosses.left + at - part.left;
        const double found = ink.line_across(expected, crosses.bottom - (up - part.bottom));
        worst_line = std::max(worst_line, std::isnan(found) ? 1e9 : std::abs(found - expected));
        ++lines;
      }
    }
    for (double up = part.bottom; up <= part.top + 0.01; up += pitch) {
      for (double at = part.left + pitch * 0.1; at < part.right; at += pitch) {
        const double expected = crosses.bottom - (up - part.bottom);
        const double found = ink.line_down(expected, crosses.left + at - part.left);
        worst_line = std::max(worst_line, std::isnan(found) ? 1e9 : std::abs(found - expected));
        ++lines;
      }
    }
    // the bars: "180 mm across" and "240 mm up" stand in their middles
    for (std::size_t w = 0; w + 2 < page.words.size(); ++w) {
      if (page.words[w + 1].text != "mm" || (page.words[w + 2].text != "across" && page.words[w + 2].text != "up"))
        continue;
      const double length = number_of(page.words[w].text);
      const bool across = page.words[w + 2].text == "across";
      const double middle = across ? (page.words[w].left + page.words[w + 2].right) / 2
                                   : (page.words[w + 2].top + page.words[w].bottom) / 2;
      const double beside = across ? page.words[w].y() - 1 : page.words[w].x() + 1;
      // the end strokes reach 1.5 mm to both sides of the bar
      double ends[2] = {};
      for (int side = 0; side < 2; ++side) {
        const double expected = middle + (side == 0 ? -length / 2 : length / 2);
        double found = std::nan("");
        for (double off = -2; off <= 2 && std::isnan(found); off += 0.25) {
          found = across ? ink.line_across(expected, beside + off) : ink.line_down(expected, beside + off);
        }
        ends[side] = found;
      }
      worst_bar = std::max(worst_bar, std::isnan(ends[0] + ends[1]) ? 1e9 : std::abs(ends[1] - ends[0] - length));
      ++bars;
    }
    corner_x = crosses.left;
    corner_y = crosses.bottom;
  }
  tell("corner coordinates", worst_corner, corners);
  tell("lines of cells", worst_line, lines);
  tell("check bars", worst_bar, bars);

  double worst_numeral = 0;
  std::set<std::pair<int, int>> seen;
  std::int64_t wrong = 0;
  for (const Page& page : pages) {
    BoardPart part;
    if (!board_part(page, part)) continue;  // the first page, which explains
    for (const Word& word : page.words) {
      const double number = number_of(word.text);
      const double across = word.x() - corner_x + part.left;
      const double up = corner_y - word.y() + part.bottom;
      if (number < 0 || across < part.left || across > part.right || up < part.bottom || up > part.top) continue;
      const int column = static_cast<int>(across / pitch) + 1;
      const int course = static_cast<int>(up / pitch) + 1;
      if (column > chart.width() || course > chart.height()) continue;
      if (chart(column - 1, chart.height() - course) != static_cast<int>(number)) ++wrong;
      worst_numeral = std::max(worst_numeral, std::abs(across - (column - 0.5) * pitch));
      // a box of text is as high as its font, not as its digits; half a course is enough to name the cell
      seen.insert({column, course});
    }
  }
  tell("numerals from the middle of their cells", worst_numeral, static_cast<std::int64_t>(seen.size()));
  std::int64_t laid = 0;
  for (int y = 0; y < chart.height(); ++y) {
    for (int x = 0; x < chart.width(); ++x) laid += chart(x, y) != 0 ? 1 : 0;
  }
  std::printf("cells: %lld of %lld, wrong %lld\n", static_cast<long long>(seen.size()), static_cast<long long>(laid),
              static_cast<long long>(wrong));
  if (wrong > 0 || static_cast<std::int64_t>(seen.size()) != laid) ++faults;
  return faults == 0 ? 0 : 1;
} catch (const std::exception& error) {
  std::cerr << "measure_print: " << error.what() << "\n";
  return 1;
}
