// Prepares a printed template for a program that reads print, and marks what it has read:
//   read_numerals lines CHART.CSV PITCH_MM BBOX.HTML PAGE PICTURE.ppm OUT.ppm
// writes the page's cells alone, without the lines between them, a course in each line of numbers;
//   read_numerals compare CHART.CSV PITCH_MM BBOX.HTML PAGE READ.txt
// compares the numbers of READ.txt, as read from OUT.ppm, with the chart: prints how many of the page's numerals were
// read rightly, and fails below 99 in 100.
#include <iostream>
#include <sstream>

#include "handlaid/files/chart_table.hpp"
#include "handlaid/files/text_file.hpp"
#include "print/printed_template.hpp"

using namespace handlaid_test;

namespace {

struct Cells {
  int first_column, last_column, first_course, last_course;
};

Cells cells_of(const BoardPart& part, double pitch) {
  const auto line = [&](double mm) { return static_cast<int>(std::lround(mm / pitch)); };
  return {line(part.left) + 1, line(part.right), line(part.bottom) + 1, line(part.top)};
}

void write_lines(const Cells& cells, double pitch, const std::string& picture, const std::string& out) {
  const Raster<Srgb8> page = read<Srgb8>(picture);
  const Crosses crosses = find_crosses(Ink(picture));
  const double inset = 0.5;
  const auto dots = [](double mm) { return static_cast<int>(mm / mm_a_dot); };
  const int side = dots(pitch - 2 * inset);
  const int gap = side;  // or numbers run together
  const int columns = cells.last_column - cells.first_column + 1;
  const int courses = cells.last_course - cells.first_course + 1;
  const int width = gap + columns * (side + gap);
  const int height = gap + courses * (side + gap);
  std::string bytes = "P6\n" + std::to_string(width) + " " + std::to_string(height) + "\n255\n";
  const std::size_t header = bytes.size();
  bytes.append(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3, '\xff');
  for (int r = 0; r < courses; ++r) {
    for (int c = 0; c < columns; ++c) {
      const int x0 = dots(crosses.left + c * pitch + inset);
      const int y0 = dots(crosses.top + r * pitch + inset);
      for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
          const Srgb8 dot = page(x0 + x, y0 + y);
          const auto at =
              header + (static_cast<std::size_t>(gap + r * (side + gap) + y) * static_cast<std::size_t>(width) +
                        static_cast<std::size_t>(gap + c * (side + gap) + x)) *
                           3;
          bytes[at] = static_cast<char>(dot.r);
          bytes[at + 1] = static_cast<char>(dot.g);
          bytes[at + 2] = static_cast<char>(dot.b);
        }
      }
    }
  }
  std::ofstream(out, std::ios::binary) << bytes;
}

/// Numbers read and not read, by the longest common sequence of each line, so that one that is left out costs one.
int compare(const Cells& cells, const Raster<ColourNumber>& chart, const std::string& file) {
  std::ifstream stream(file);
  std::vector<std::vector<int>> lines;
  for (std::string line; std::getline(stream, line);) {
    std::istringstream words(line);
    std::vector<int> numbers;
    for (std::string word; words >> word;) numbers.push_back(static_cast<int>(number_of(word)));
    if (!numbers.empty()) lines.push_back(numbers);
  }
  int right = 0;
  int all = 0;
  for (int course = cells.last_course; course >= cells.first_course; --course) {
    std::vector<int> truth;
    for (int column = cells.first_column; column <= cells.last_column; ++column) {
      if (const int number = chart(column - 1, chart.height() - course); number != 0) truth.push_back(number);
    }
    all += static_cast<int>(truth.size());
    const auto index = static_cast<std::size_t>(cells.last_course - course);
    if (index >= lines.size()) continue;
    const std::vector<int>& found = lines[index];
    std::vector<std::vector<int>> best(truth.size() + 1, std::vector<int>(found.size() + 1, 0));
    for (std::size_t i = 1; i <= truth.size(); ++i) {
      for (std::size_t j = 1; j <= found.size(); ++j) {
        best[i][j] = truth[i - 1] == found[j - 1] ? best[i - 1][j - 1] + 1 : std::max(best[i - 1][j], best[i][j - 1]);
      }
    }
    right += best.back().back();
  }
  std::printf("numerals read rightly: %d of %d, %.2f %%\n", right, all, 100.0 * right / std::max(all, 1));
  return right * 100 >= all * 99 && all > 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) try {
  const std::string what = argc > 1 ? argv[1] : "";
  if (!(what == "lines" && argc == 8) && !(what == "compare" && argc == 7)) {
    std::cerr << "usage: see the head of read_numerals.cpp\n";
    return 2;
  }
  const double pitch = std::stod(argv[3]);
  BoardPart part;
  if (!board_part(read_pages(argv[4]).at(std::stoul(argv[5]) - 1), part)) {
    throw Error::bad_input(argv[4], "that page has no corners", "name a template");
  }
  const Cells cells = cells_of(part, pitch);
  if (what == "lines") {
    write_lines(cells, pitch, argv[6], argv[7]);
    return 0;
  }
  return compare(cells, read_chart_numbers(read_text_file(argv[2]), argv[2]), argv[6]);
} catch (const std::exception& error) {
  std::cerr << "read_numerals: " << error.what() << "\n";
  return 1;
}
