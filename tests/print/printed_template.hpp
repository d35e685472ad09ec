// A printed template as a maker finds it: words from `pdftotext -bbox`, ink from a picture of the page at 600 dots an
// inch, crosses at its corners. Knows nothing of how it was drawn.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/image/read.hpp"

namespace handlaid_test {

using namespace handlaid;

inline constexpr double mm_a_point = 25.4 / 72;
inline constexpr double mm_a_dot = 25.4 / 600;
struct Word {
  double left, top, right, bottom;  // mm
  std::string text;
  double x() const { return (left + right) / 2; }
  double y() const { return (top + bottom) / 2; }
};

/// A corner: where it is on the page and on the board.
struct Corner {
  double x, y, across, up;
};

struct Page {
  std::vector<Word> words;
  std::vector<Corner> corners;
};

inline double number_of(const std::string& text) {
  try {
    std::size_t end = 0;
    const double value = std::stod(text, &end);
    return end == text.size() ? value : -1;
  } catch (const std::exception&) {
    return -1;
  }
}

/// `printed_at` is how large the printer has printed, 1 for true.
inline std::vector<Page> read_pages(const std::string& file, double printed_at = 1) {
  std::vector<Page> pages;
  std::ifstream stream(file);
  for (std::string line; std::getline(stream, line);) {
    if (line.find("<page ") != line.npos) pages.emplace_back();
    Word word{};
    char text[200] = "";
    if (std::sscanf(line.c_str(), " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%199[^<]", &word.left,
                    &word.top, &word.right, &word.bottom, text) == 5) {
      for (double* side : {&word.left, &word.top, &word.right, &word.bottom}) *side *= mm_a_point * printed_at;
      word.text = text;
      pages.back().words.push_back(word);
    }
  }
  return pages;
}

/// The ink of a picture along a line of dots, 0 for paper and 1 for black.
class Ink {
 public:
  explicit Ink(const std::string& file) : picture_(read<Srgb8>(file)) {}
  int width() const { return picture_.width(); }
  int height() const { return picture_.height(); }
  double at(int x, int y) const {
    if (x < 0 || y < 0 || x >= width() || y >= height()) return 0;
    return 1 - picture_(x, y).g / 255.0;
  }
  bool accent(int x, int y) const {
    const Srgb8 c = picture_(x, y);
    return c.r > 120 && c.g < 90 && c.b < 70;
  }
  /// The middle of the ink nearest to `near`, in mm, across an upright line in the row of `y`; NaN where there is none.
  double line_across(double near_mm, double y_mm) const { return middle(near_mm, y_mm, true); }
  double line_down(double near_mm, double x_mm) const { return middle(near_mm, x_mm, false); }

 private:
  double middle(double near_mm, double other_mm, bool across) const {
    const int other = static_cast<int>(other_mm / mm_a_dot);
    const int from = std::max(0, static_cast<int>((near_mm - 0.4) / mm_a_dot));
    const int to = std::min((across ? width() : height()) - 1, static_cast<int>((near_mm + 0.4) / mm_a_dot));
    double sum = 0;
    double moment = 0;
    for (int i = from; i <= to; ++i) {
      const double ink = across ? at(i, other) : at(other, i);
      if (ink < 0.1) continue;
      sum += ink;
      moment += ink * (i + 0.5);
    }
    return sum == 0 ? std::nan("") : moment / sum * mm_a_dot;
  }
  Raster<Srgb8> picture_;
};

/// The numbers "165 across, 220 up" of the corners; their places follow from the picture or from the cells.
inline std::vector<Corner> written_corners(const Page& page) {
  std::vector<Corner> corners;
  for (std::size_t i = 0; i + 3 < page.words.size(); ++i) {
    if (page.words[i + 1].text != "across," || page.words[i + 3].text != "up") continue;
    const double across = number_of(page.words[i].text);
    const double up = number_of(page.words[i + 2].text);
    if (across < 0 || up < 0) continue;
    corners.push_back({page.words[i].left, page.words[i].y(), across, up});
  }
  return corners;
}

/// Places of upright and level strokes of the accent that are longer than 2.5 mm: the crosses.
struct Crosses {
  double left, right, top, bottom;
};
inline Crosses find_crosses(const Ink& ink) {
  const int least = static_cast<int>(3.2 / mm_a_dot);  // no letter has a stroke so long, nor the datum
  std::map<int, int> columns;                          // the longest stroke in each column and row of dots
  std::map<int, int> rows;
  std::vector<int> down(static_cast<std::size_t>(ink.width()), 0);
  for (int y = 0; y < ink.height(); ++y) {
    int across = 0;
    for (int x = 0; x < ink.width(); ++x) {
      int& above = down[static_cast<std::size_t>(x)];
      above = ink.accent(x, y) ? above + 1 : 0;
      across = ink.accent(x, y) ? across + 1 : 0;
      if (above > least) columns[x] = std::max(columns[x], above);
      if (across > least) rows[y] = std::max(rows[y], across);
    }
  }
  const auto ends = [&](const std::map<int, int>& counts) {
    // a stroke of 0.2 mm is about five dots: the first and the last group of full ones
    std::vector<std::pair<double, int>> groups;
    int last = -10;
    for (const auto& [place, length] : counts) {
      if (length > 9 / mm_a_dot) continue;  // no arm of a cross is so long
      if (place > last + 1) groups.push_back({0, 0});
      groups.back().first += place + 0.5;
      ++groups.back().second;
      last = place;
    }
    if (groups.size() < 2) throw Error::bad_input("page", "its crosses were not found", "look at it");
    // the datum's square is broad, a stroke is not
    std::erase_if(groups, [](const auto& g) { return g.second > 12; });
    return std::pair{groups.front().first / groups.front().second * mm_a_dot,
                     groups.back().first / groups.back().second * mm_a_dot};
  };
  const auto [left, right] = ends(columns);
  const auto [top, bottom] = ends(rows);
  return {left, right, top, bottom};
}

/// The part of the board that a page shows, in mm.
struct BoardPart {
  double left = 1e9;
  double right = -1;
  double bottom = 1e9;
  double top = -1;
};

/// By its four corners; false for a page that has none.
inline bool board_part(const Page& page, BoardPart& part) {
  const std::vector<Corner> written = written_corners(page);
  for (const Corner& c : written) {
    part.left = std::min(part.left, c.across);
    part.right = std::max(part.right, c.across);
    part.bottom = std::min(part.bottom, c.up);
    part.top = std::max(part.top, c.up);
  }
  return written.size() == 4;
}

}  // namespace handlaid_test
