// What there is to say of one colour in a line or two: on its swatch card and on the label of its box. And the heads of
// a set of pages, once it is known how many there are.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/page_parts.hpp"
#include "handlaid/sheets/page_words.hpp"

namespace handlaid {

/// What is needed of a colour: "1,188 pieces" and, where there are some, "40 are spares"; with strips, where pieces are
/// cut and not bought, the sections to paint and their paint, "212 sections", "350 ml of paint".
template <When = When::called>
std::vector<std::string> need_lines(const Plan& plan, const PieceLine& line) {
  if (plan.fabrication.paint) {
    for (const PaintLine& paint : plan.fabrication.paint->lines) {
      if (paint.number != line.number) continue;
      return {count_text(paint.sections, "section", "sections"),
              amount_text(paint.needed_ml(), StockUnit::millilitres) + " of paint"};
    }
  }
  std::vector<std::string> lines{count_text(line.needed(), "piece", "pieces")};
  if (line.spares > 0) lines.push_back(count_text(line.spares, "is a spare", "are spares"));
  if (line.trials > 0) lines.push_back(count_text(line.trials, "is to try", "are to try"));
  return lines;
}

/// What is bought or taken of a colour: "packs: 3 of 250 + 1 of 40", then "7 in hand"; "all in hand". None where no
/// order was reckoned for it. For broken_lines: what belongs together is tied.
template <When = When::called>
std::vector<std::string> pack_lines(const Plan& plan, int number) {
  std::vector<std::string> lines;
  if (!plan.order) return lines;
  for (const OrderLine& line : plan.order->lines) {
    if (line.number != number) continue;
    std::string text;
    for (const PackCount& pack : line.packs) {
      text += (text.empty() ? "" : " + ") + tied((text.empty() ? "packs: " : "") + count_text(pack.count) + " of " +
                                                 amount_text(pack.pack.pieces, plan.order->unit));
    }
    lines.push_back(text.empty() ? "all in hand" : text);
    if (!text.empty() && line.from_hand > 0) {
      lines.push_back(tied(amount_text(line.from_hand, plan.order->unit) + " in hand"));
    }
  }
  return lines;
}

/// A name in one line, or in two where it is long and has a space to part it at.
struct NameLines {
  std::string first = {};
  std::string second = {};
};

/// Parts a name of more than `most` bytes at the space nearest to its middle, the first of two that are as near. What
/// has no space stays whole: its line has a room, and is set smaller.
template <When = When::called>
NameLines name_lines(const std::string& name, std::size_t most) {
  if (name.size() <= most) return {name, {}};
  std::size_t best = std::string::npos;
  std::size_t from_middle = name.size();
  for (std::size_t at = name.find(' '); at != std::string::npos; at = name.find(' ', at + 1)) {
    const std::size_t off = at > name.size() / 2 ? at - name.size() / 2 : name.size() / 2 - at;
    if (off < from_middle) {
      from_middle = off;
      best = at;
    }
  }
  if (best == std::string::npos) return {name, {}};
  return {name.substr(0, best), name.substr(best + 1)};
}

/// Adds the heads of pages that belong together: the panel's title, what the pages are, "page 2 of 5".
template <When = When::called>
void add_page_heads(std::vector<PrintedPage>& pages, const Plan& plan, const std::string& subject) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    add_page_head(pages[i], plan.job.title.value_or("Panel"), subject,
                  "page " + std::to_string(i + 1) + " of " + std::to_string(pages.size()));
  }
}

}  // namespace handlaid
