// Changes by hand made in a chart, each checked against what the chart is by then.
#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/changes_file.hpp"
#include "handlaid/files/plain_text.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/palette/rules.hpp"
#include "handlaid/palette/stock.hpp"

namespace handlaid {

/// What a change did.
struct MadeChange {
  /// As it stands in changes.txt.
  std::string text = {};
  /// That got another number or colour.
  std::int64_t cells = 0;
  friend bool operator==(const MadeChange&, const MadeChange&) = default;
};

/// Makes the changes in the order of their lines. Numbers of colours never move but by `number`: a colour without cells
/// keeps its own. With a stock, new colours are named in it. Throws Error naming the line of the file for a number that
/// is not in the palette by then, a colour that is changed into itself, a colour that the job locks, a place beyond the
/// chart, a split that moves no cell or all of them or has another number than the next one, and a colour that the
/// stock lacks, the palette has already or `forbidden` has (in a free palette: one like it, nearer than
/// `alike_distance`); then the chart is as it was.
template <When = When::called>
std::vector<MadeChange> apply_changes(Chart<>& chart, const ColourChanges& changes, const Stock* stock = nullptr,
                                      const std::vector<PaletteEntry>& forbidden = {});

namespace detail {

/// The chart between two changes.
class ChangingChart {
 public:
  ChangingChart(Chart<> chart, const Stock* stock, const std::vector<PaletteEntry>& forbidden, const std::string& file)
      : chart_(std::move(chart)), stock_(stock), forbidden_(forbidden), file_(file) {}

  template <When = When::called>
  MadeChange make(const ColourChange& change) {
    change_ = &change;
    MadeChange made{.text = change_text(change)};
    if (change.number != 0) check_number(change.number);
    switch (change.kind) {
      case ChangeKind::merge:
        check_other();
        check_unlocked(change.number);
        check_takes_cells(change.other);
        made.cells = each_cell([&](int n) { return n == change.number ? change.other : n; });
        break;
      case ChangeKind::swap:
      case ChangeKind::number:
        check_other();
        check_unlocked(change.number);
        check_unlocked(change.other);
        made.cells = each_cell([&](int n) {
          return n == change.number ? change.other : n == change.other ? change.number : n;
        });
        if (change.kind == ChangeKind::number) std::swap(entry(change.number), entry(change.other));
        break;
      case ChangeKind::split:
        made.cells = split();
        break;
      case ChangeKind::replace:
        check_unlocked(change.number);
        entry(change.number) = new_entry();
        for (const ColourNumber n : chart_.numbers.pixels()) made.cells += n == change.number ? 1 : 0;
        break;
      case ChangeKind::lay:
        check_where();
        made.cells = each_place([&](int) { return change.number; });
        break;
    }
    return made;
  }
  Chart<>&& take() && { return std::move(chart_); }

 private:
  [[noreturn]] void fail(const std::string& problem, const std::string& remedy) const {
    throw Error::bad_line(file_, change_->line, 0, problem, remedy);
  }
  PaletteEntry& entry(int number) { return chart_.palette.entries[static_cast<std::size_t>(number) - 1]; }

  template <When = When::called>
  void check_number(int number) const {
    if (number <= chart_.palette.size()) return;
    fail("colour " + std::to_string(number) + " is not in the palette, which ends at " +
             std::to_string(chart_.palette.size()),
         "give a number of the palette");
  }
  template <When = When::called>
  void check_other() const {
    check_number(change_->other);
    if (change_->number == change_->other) {
      fail("colour " + std::to_string(change_->number) + " is changed into itself", "give two colours");
    }
  }
  template <When = When::called>
  void check_unlocked(int number) const {
    if (chart_.palette[number].lock == Lock::none) return;
    fail("colour " + std::to_string(number) + " is locked by the job", "take its lock out of the job first");
  }
  template <When = When::called>
  void check_takes_cells(int number) const {
    if (chart_.palette[number].lock != Lock::exact_only) return;
    fail("colour " + std::to_string(number) + " is locked by the job for cells of that very colour",
         "take its lock out of the job first");
  }
  template <When = When::called>
  void check_where() const {
    const auto check = [&](const std::vector<CellSpan>& spans, int last, const char* kinds) {
      for (const CellSpan& span : spans) {
        if (span.last <= last) continue;
        fail(std::string("the chart has ") + std::to_string(last) + " " + kinds + ", not " + std::to_string(span.last),
             std::string("give ") + kinds + " of the chart");
      }
    };
    check(change_->courses, chart_.courses(), "courses");
    check(change_->columns, chart_.columns(), "columns");
  }

  template <class To>
  std::int64_t each_cell(To&& to) {
    std::int64_t changed = 0;
    for (ColourNumber& n : chart_.numbers.pixels()) {
      const auto after = static_cast<ColourNumber>(to(n));
      changed += after != n ? 1 : 0;
      n = after;
    }
    return changed;
  }
  /// The same for the cells of the change's place.
  template <class To>
  std::int64_t each_place(To&& to) {
    const std::vector<CellSpan> courses =
        change_->courses.empty() ? std::vector<CellSpan>{{1, chart_.courses()}} : change_->courses;
    const std::vector<CellSpan> columns =
        change_->columns.empty() ? std::vector<CellSpan>{{1, chart_.columns()}} : change_->columns;
    std::int64_t changed = 0;
    for (const CellSpan& up : courses) {
      for (int course = up.first; course <= up.last; ++course) {
        for (const CellSpan& across : columns) {
          for (int column = across.first; column <= across.last; ++column) {
            ColourNumber& n = chart_.numbers(column - 1, row_of_course(course, chart_.courses()));
            const auto after = static_cast<ColourNumber>(to(n));
            changed += after != n ? 1 : 0;
            n = after;
          }
        }
      }
    }
    return changed;
  }

  template <When = When::called>
  std::int64_t split() {
    const int next = chart_.palette.size() + 1;
    check_where();
    check_unlocked(change_->number);
    if (next > most_colours) fail("the palette has 999 colours already", "merge colours, and split none");
    if (change_->other != next) {
      fail(std::to_string(change_->other) + " is not the next number", "split off colour " + std::to_string(next));
    }
    std::int64_t before = 0;
    for (const ColourNumber n : chart_.numbers.pixels()) before += n == change_->number ? 1 : 0;
    PaletteEntry added = new_entry();
    const std::int64_t moved = each_place([&](int n) { return n == change_->number ? next : n; });
    if (moved == 0) {
      fail("there is no cell of colour " + std::to_string(change_->number) + ": nothing would be split off",
           "give a place where it is");
    }
    if (moved == before) {
      fail("all cells of colour " + std::to_string(change_->number) + " are there",
           "give a part of them, or replace the colour");
    }
    chart_.palette.entries.push_back(std::move(added));
    return moved;
  }

  /// Against a job without a stock, which forbids what is like a colour too.
  template <When = When::called>
  void check_allowed(const Srgb8& colour) const {
    const PaletteRules rules{.forbidden = forbidden_};
    if (spacing_of<Oklab>(rules).allows(convert_colour<Oklab>(colour).fixed(), {}, 0)) return;
    fail(to_hex(colour) + " is forbidden by the job, or like a colour that is",
         "give another, or take forbid out first");
  }
  template <When = When::called>
  PaletteEntry new_entry() const {
    if (change_->colour && stock_ == nullptr) {
      check_allowed(*change_->colour);
      return {.colour = *change_->colour, .name = change_->name};
    }
    if (change_->colour) {
      fail("the colours of this plan come from a stock",
           "name one of it, in quotes and without " + to_hex(*change_->colour));
    }
    const std::string shown = quoted_in_message(change_->name);
    if (stock_ == nullptr)
      fail("there is no stock with a colour " + shown, "give a colour like #a0b0c0 before the name");
    const StockColour* const found = stock_->find(change_->name);
    if (found == nullptr) {
      std::vector<std::string> names;
      for (const StockColour& colour : stock_->colours) names.push_back(colour.name);
      fail("the stock has no colour " + shown + ", the nearest is " +
               quoted_in_message(nearest_word(change_->name, names)),
           "write the name as in the stock");
    }
    for (const PaletteEntry& entry : forbidden_) {
      if (entry.name == found->name) fail(shown + " is forbidden by the job", "name another, or take forbid out first");
    }
    for (int number = 1; number <= chart_.palette.size(); ++number) {
      if (chart_.palette[number].name != found->name) continue;
      fail(shown + " is colour " + std::to_string(number) + " already",
           number == change_->number ? "leave the line out" : "merge or lay that colour");
    }
    return {.colour = found->colour, .name = found->name};
  }

  Chart<> chart_;
  const Stock* stock_;
  const std::vector<PaletteEntry>& forbidden_;
  std::string file_;
  const ColourChange* change_ = nullptr;
};

/// One sentence on what was changed by hand; cells laid one by one are counted together.
template <When = When::called>
void note_changes(const std::vector<MadeChange>& made, std::vector<std::string>& notes) {
  constexpr std::size_t most_named = 10;
  const auto cells_text = [](std::int64_t cells) { return std::to_string(cells) + (cells == 1 ? " cell" : " cells"); };
  std::string sentence;
  std::size_t named = 0;
  std::size_t others = 0;
  std::int64_t laid = 0;
  for (const MadeChange& change : made) {
    if (change.text.starts_with("lay ")) {
      laid += change.cells;
    } else if (named++ < most_named) {
      sentence += (sentence.empty() ? "" : ", ") + change.text + " (" + cells_text(change.cells) + ")";
    } else {
      ++others;
    }
  }
  if (others > 0) sentence += ", and " + std::to_string(others) + " more";
  if (laid > 0) sentence += (sentence.empty() ? "" : ", ") + cells_text(laid) + " laid in another colour";
  if (!made.empty()) notes.push_back("Changed by hand: " + (sentence.empty() ? "no cell" : sentence) + ".");
}

}  // namespace detail

template <When>
std::vector<MadeChange> apply_changes(Chart<>& chart, const ColourChanges& changes, const Stock* stock,
                                      const std::vector<PaletteEntry>& forbidden) {
  detail::ChangingChart changing(chart, stock, forbidden, changes.file);
  std::vector<MadeChange> made;
  for (const ColourChange& change : changes.list) made.push_back(changing.make(change));
  chart = std::move(changing).take();
  return made;
}

}  // namespace handlaid
