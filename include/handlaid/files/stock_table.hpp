// The stock file: what a shop sells, a line for each pack. Columns, in any order:
//
//   name     of the colour; lines with the same name are packs of one colour
//   colour   #rrggbb, the same on each of its lines
//   pieces   in the pack; or another unit as heading and for all packs: mm of yarn or tape, mm2 of felt, ml, g
//   price    of the pack, with a decimal point; the currency may follow in the heading: "price EUR"
//   at least the shop sells so many of these packs, or none; may be left out
//   article  what the shop calls the pack, to order it by; may be left out
//   in hand  what you already have, in the same unit, on one line of the colour; the column may be left out
//
// A line without amount and price is a colour of which only what is in hand can be used. Columns whose heading begins
// with "note" are yours; any other one is refused, so that a slip of the pen is never silently passed over.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv_table.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/solve/pack_mix.hpp"

namespace handlaid {

/// The most colours of a stock.
inline constexpr std::size_t most_stock_colours = 10'000;

/// Reads a stock; `file` is its name for messages. Throws Error with file, line and column for a missing or unknown
/// column, a wrong colour, number or price, a pack that stands there twice, and a text that is empty or not UTF-8.
template <When = When::called>
Stock read_stock(std::string_view text, const std::string& file);

/// The text of a stock file; reading it gives the same stock.
template <When = When::called>
std::string write_stock(const Stock& stock);

namespace detail {

struct StockColumns {
  int name = 0;
  int colour = 0;
  int amount = 0;
  StockUnit unit = StockUnit::pieces;
  int price = 0;
  std::optional<int> at_least = {};
  std::optional<int> article = {};
  std::optional<int> in_hand = {};
};

/// Finds the column of amounts, which says by its name what they are measured in.
template <When = When::called>
void find_amounts(const CsvTable& table, StockColumns& columns) {
  std::optional<int> found;
  for (const StockUnit unit : {StockUnit::pieces, StockUnit::millimetres, StockUnit::square_millimetres,
                               StockUnit::millilitres, StockUnit::grams}) {
    const std::optional<int> column = table.find(symbol(unit));
    if (!column) continue;
    if (found) table.fail_heading(*column, "there are two columns of amounts", "measure all packs in one unit");
    found = column;
    columns.unit = unit;
  }
  columns.amount = found ? *found : table.need("pieces");
}

template <When = When::called>
StockColumns stock_columns(const CsvTable& table, std::string& currency) {
  StockColumns columns;
  const auto american = table.find("color");
  columns.name = table.need("name");
  columns.colour = american && !table.find("colour") ? *american : table.need("colour");
  find_amounts(table, columns);
  columns.at_least = table.find("at least");
  columns.article = table.find("article");
  columns.in_hand = table.find("in hand");
  std::optional<int> price;
  for (int column = 0; column < table.columns(); ++column) {
    if (table.name(column) != "price" && !table.name(column).starts_with("price ")) continue;
    if (price) table.fail_heading(column, "there are two columns of prices", "give each pack a line of its own");
    price = column;
    std::string_view words = table.heading(column).substr(5);
    while (words.starts_with('_') || words.starts_with('-') || words.starts_with(' ')) words.remove_prefix(1);
    if (words.starts_with('(') && words.ends_with(')')) words = words.substr(1, words.size() - 2);
    if (words.size() > 12 || words.find_first_of("\r\n") != words.npos) {
      table.fail_heading(column, "the currency is too long", "write the heading like \"price EUR\"");
    }
    currency = words;
  }
  if (!price) table.throw_missing("price");
  columns.price = *price;
  for (int column = 0; column < table.columns(); ++column) {
    const bool known = column == columns.name || column == columns.colour || column == columns.amount ||
                       column == columns.price || column == columns.in_hand || column == columns.at_least ||
                       column == columns.article;
    if (known || table.name(column).starts_with("note")) continue;
    if (table.name(column).empty()) continue;  // a spreadsheet's empty column
    const std::string nearest =
        nearest_word(table.name(column), {"name", "colour", "pieces", "price", "at least", "article", "in hand"});
    table.fail_heading(column, "the column " + quoted_in_message(table.heading(column)) + " is not known",
                       "did you mean \"" + nearest + "\"? Begin the heading with \"note\" to keep it for yourself");
  }
  return columns;
}

/// Gathers the lines of each colour.
template <When = When::called>
class StockReader {
 public:
  StockReader(const CsvTable& table, const StockColumns& columns) : table_(table), columns_(columns) {}

  void add_line() {
    const std::size_t place = find_colour();
    StockColour& item = colours_[place];
    Seen& seen = seen_[place];
    if (!table_.text(columns_.amount).empty() || !table_.text(columns_.price).empty()) add_pack(item, seen);
    if (columns_.in_hand && !table_.text(*columns_.in_hand).empty()) add_in_hand(item, seen);
  }
  std::vector<StockColour> colours() && { return std::move(colours_); }

 private:
  /// The lines where the parts of a colour stand.
  struct Seen {
    int first_line = 0;
    int in_hand_line = 0;
    std::vector<int> pack_lines = {};
  };

  /// The place in `colours_` and `seen_` of the line's colour, which is added where it is new.
  std::size_t find_colour() {
    const std::string name = one_line(columns_.name, 100);
    if (name.empty()) table_.fail(columns_.name, "nothing is given", "name each colour");
    const Srgb8 colour = table_.colour(columns_.colour);
    const auto entry = std::lower_bound(
        by_name_.begin(), by_name_.end(), name,
        [this](std::size_t place, const std::string& wanted) { return colours_[place].name < wanted; });
    if (entry == by_name_.end() || colours_[*entry].name != name) {
      if (colours_.size() == most_stock_colours) {
        table_.fail(columns_.name, "there are over 10000 colours", "leave some out");
      }
      by_name_.insert(entry, colours_.size());
      colours_.push_back({.name = name, .colour = colour});
      seen_.push_back({.first_line = table_.line()});
      return colours_.size() - 1;
    }
    if (colours_[*entry].colour != colour) {
      table_.fail(columns_.colour, stands(name, seen_[*entry].first_line) + " with another colour",
                  "give the packs of a colour one colour, and each colour a name of its own");
    }
    return *entry;
  }

  /// A field that is printed as it stands.
  std::string one_line(int column, std::size_t most) const {
    std::string text(table_.text(column));
    if (text.size() > most) {
      table_.fail(column, "it is longer than " + std::to_string(most) + " bytes", "shorten it");
    }
    if (text.find_first_of("\r\n\t") != text.npos) {
      table_.fail(column, "it has a line break or a tab", "write it in one line");
    }
    return text;
  }

  void add_pack(StockColour& item, Seen& seen) {
    Pack pack{.pieces = table_.whole(columns_.amount, 1, 1'000'000'000,
                                     std::string("1 to 1000000000 ") + symbol(columns_.unit)),
              .price_hundredths = table_.hundredths(columns_.price, 1'000'000'000, "a price up to 10000000")};
    if (columns_.at_least && !table_.text(*columns_.at_least).empty()) {
      pack.at_least = table_.whole(*columns_.at_least, 1, 1'000'000, "1 to 1000000 packs");
    }
    if (columns_.article) pack.article = one_line(*columns_.article, 60);
    for (std::size_t i = 0; i < item.packs.size(); ++i) {
      if (item.packs[i].pieces != pack.pieces) continue;
      table_.fail(columns_.amount,
                  stands(item.name, seen.pack_lines[i]) + " with a pack of " + std::to_string(pack.pieces) + " already",
                  "keep one of the two, or give the other colour a name of its own");
    }
    if (static_cast<std::int64_t>(item.packs.size()) == most_pack_sizes) {
      table_.fail(columns_.amount, "\"" + item.name + "\" has over 64 packs", "leave some out");
    }
    seen.pack_lines.push_back(table_.line());
    item.packs.push_back(pack);
  }

  void add_in_hand(StockColour& item, Seen& seen) {
    if (seen.in_hand_line > 0) {
      table_.fail(*columns_.in_hand, stands(item.name, seen.in_hand_line) + " with what is in hand already",
                  "give it on one line of the colour");
    }
    seen.in_hand_line = table_.line();
    item.in_hand =
        table_.whole(*columns_.in_hand, 0, 1'000'000'000, std::string("0 to 1000000000 ") + symbol(columns_.unit));
  }

  static std::string stands(const std::string& name, int line) {
    return "\"" + name + "\" stands in line " + std::to_string(line);
  }

  const CsvTable& table_;
  StockColumns columns_;
  std::vector<StockColour> colours_ = {};
  std::vector<Seen> seen_ = {};
  std::vector<std::size_t> by_name_ = {};
};

}  // namespace detail

template <When>
Stock read_stock(std::string_view text, const std::string& file) {
  CsvTable table(text, file, "a table with the columns name, colour, pieces, price");
  std::string currency;
  const detail::StockColumns columns = detail::stock_columns(table, currency);
  detail::StockReader reader(table, columns);
  while (table.next()) reader.add_line();
  Stock stock{.colours = std::move(reader).colours(), .currency = std::move(currency), .unit = columns.unit};
  if (stock.colours.empty()) throw Error::bad_input(file, "it has no colours", "give a line for each pack");
  return stock;
}

template <When>
std::string write_stock(const Stock& stock) {
  CsvWriter csv;
  const std::string price = stock.currency.empty() ? "price" : "price " + stock.currency;
  bool least_numbers = false;
  bool articles = false;
  for (const StockColour& item : stock.colours) {
    for (const Pack& pack : item.packs) {
      least_numbers = least_numbers || pack.at_least > 1;
      articles = articles || !pack.article.empty();
    }
  }
  csv.field("name").field("colour").field(symbol(stock.unit)).field(price);
  if (least_numbers) csv.field("at least");
  if (articles) csv.field("article");
  csv.field("in hand").end_line();
  for (const StockColour& item : stock.colours) {
    const std::size_t lines = std::max<std::size_t>(item.packs.size(), 1);
    for (std::size_t i = 0; i < lines; ++i) {
      csv.field(item.name).field(to_hex(item.colour));
      if (i < item.packs.size()) {
        csv.field(item.packs[i].pieces).field(decimal_text(item.packs[i].price_hundredths, 2));
      } else {
        csv.field("").field("");
      }
      if (least_numbers) {
        csv.field(i < item.packs.size() && item.packs[i].at_least > 1 ? std::to_string(item.packs[i].at_least) : "");
      }
      if (articles) csv.field(i < item.packs.size() ? item.packs[i].article : "");
      csv.field(i == 0 && item.in_hand > 0 ? std::to_string(item.in_hand) : "").end_line();
    }
  }
  return std::move(csv).text();
}

}  // namespace handlaid
