// Changes of the colours of a chart by hand, as changes.txt lists them (files/changes_file) and plan/apply_changes
// makes them.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/change_line.hpp"
#include "handlaid/grid/chart_changes.hpp"

namespace handlaid {

enum class ChangeKind { merge, swap, number, split, replace, lay };

/// The word that each kind of line begins with, in the order of `ChangeKind`.
inline const std::vector<std::string> change_words = {"merge", "swap", "number", "split", "replace", "lay"};

/// A line of changes.txt.
struct ColourChange {
  ChangeKind kind = ChangeKind::merge;
  /// The colour that is changed, 1 to 999; for `lay` what is laid, 0 for nothing.
  int number = 1;
  /// The other colour of merge, swap and number, the new number of split; 1 to 999.
  int other = 1;
  /// Where, for split and lay; without courses or without columns: all of them.
  std::vector<CellSpan> courses = {};
  std::vector<CellSpan> columns = {};
  /// The new colour of split and replace; without one, `name` is a colour of the stock.
  std::optional<Srgb8> colour = {};
  std::string name = {};
  /// Remarks on lines of their own before it, and the one behind it; without their //.
  std::vector<std::string> remarks_before = {};
  std::string remark = {};
  /// Its line in the file, for messages.
  int line = 0;
  friend bool operator==(const ColourChange&, const ColourChange&) = default;
};

/// All lines of changes.txt.
struct ColourChanges {
  std::vector<ColourChange> list = {};
  /// Remarks after the last one.
  std::vector<std::string> remarks_after = {};
  /// Its name for messages.
  std::string file = "changes.txt";
  bool empty() const { return list.empty(); }
  /// Puts more lines after these; remarks stay where they stood.
  template <When = When::called>
  void append(ColourChanges more) {
    if (more.list.empty()) return;
    auto& before = more.list.front().remarks_before;
    before.insert(before.begin(), remarks_after.begin(), remarks_after.end());
    list.insert(list.end(), more.list.begin(), more.list.end());
    remarks_after = std::move(more.remarks_after);
  }
  friend bool operator==(const ColourChanges&, const ColourChanges&) = default;
};

/// Cells as lines to `lay`: a line for each colour of a course, and one for equal lines of courses above each other.
template <When = When::called>
std::vector<ColourChange> lay_lines(const std::vector<CellChange>& cells) {
  std::vector<CellChange> sorted = cells;
  std::sort(sorted.begin(), sorted.end(), [](const CellChange& a, const CellChange& b) {
    if (a.course != b.course) return a.course < b.course;
    return a.to != b.to ? a.to < b.to : a.column < b.column;
  });
  std::vector<ColourChange> lines;
  std::vector<std::size_t> below;  // the lines that end in the course before
  for (std::size_t i = 0; i < sorted.size();) {
    const int course = sorted[i].course;
    std::vector<std::size_t> here;
    while (i < sorted.size() && sorted[i].course == course) {
      ColourChange line{.kind = ChangeKind::lay, .number = sorted[i].to, .courses = {{course, course}}};
      for (; i < sorted.size() && sorted[i].course == course && sorted[i].to == line.number; ++i) {
        const int column = sorted[i].column;
        if (!line.columns.empty() && line.columns.back().last + 1 == column) {
          line.columns.back().last = column;
        } else {
          line.columns.push_back({column, column});
        }
      }
      const auto same = std::find_if(below.begin(), below.end(), [&](std::size_t l) {
        const ColourChange& before = lines[l];
        return before.courses[0].last + 1 == course && before.number == line.number && before.columns == line.columns;
      });
      if (same != below.end()) {
        lines[*same].courses[0].last = course;
        here.push_back(*same);
      } else {
        here.push_back(lines.size());
        lines.push_back(std::move(line));
      }
    }
    below = std::move(here);
  }
  return lines;
}

}  // namespace handlaid
