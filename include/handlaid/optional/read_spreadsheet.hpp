// A spreadsheet file as somebody saved it, .xlsx (ECMA-376) or .ods (ISO/IEC 26300), as the cells of its first sheet.
// `read_edited_chart(read_spreadsheet(bytes, "edited.ods"), plan.chart)`
//
// Needs libzip and pugixml, which handlaid.hpp does not ask for (CMake: the target handlaid_spreadsheet).
#pragma once

#include <zip.h>

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/files/plain_text.hpp"
#include "handlaid/files/typed_cells.hpp"

namespace handlaid {

/// The cells that are not blank. Numbers are as the file has them, in full. Throws Error that names the file where it
/// is neither kind, is damaged, or would unpack to more than 200 MB or 4 million cells.
inline TypedCells read_spreadsheet(std::string_view bytes, const std::string& file);

namespace detail {

inline constexpr std::uint64_t most_unpacked = 200'000'000;
/// Beyond what spreadsheet programs have; a cell there is no edit of a chart.
inline constexpr int most_table_columns = 20'000;
inline constexpr int most_table_rows = 1'100'000;

[[noreturn]] inline void damaged_spreadsheet(const std::string& file, const std::string& what) {
  throw Error::bad_input(file, what, "save it anew as .xlsx, .ods or .csv");
}

/// The files inside, by name. Closes what it opens.
class Unpacked {
 public:
  Unpacked(std::string_view bytes, const std::string& file) : file_(file) {
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t* const source =
        bytes.empty() ? nullptr
                      : zip_source_buffer_create(bytes.data(), bytes.size(), 0,
                                                 &error);  // libzip takes nothing for an archive of nothing
    if (source != nullptr) archive_ = zip_open_from_source(source, ZIP_RDONLY, &error);
    if (archive_ == nullptr && source != nullptr) zip_source_free(source);
    zip_error_fini(&error);
    if (archive_ == nullptr) damaged_spreadsheet(file, "it is not a spreadsheet of either kind, or is damaged");
  }
  Unpacked(const Unpacked&) = delete;
  Unpacked& operator=(const Unpacked&) = delete;
  ~Unpacked() { zip_discard(archive_); }

  bool has(const std::string& name) const { return zip_name_locate(archive_, name.c_str(), 0) >= 0; }

  pugi::xml_document xml(const std::string& name) {
    zip_stat_t stat;
    zip_stat_init(&stat);
    if (zip_stat(archive_, name.c_str(), 0, &stat) != 0 || (stat.valid & ZIP_STAT_SIZE) == 0) {
      damaged_spreadsheet(file_, "there is no " + name + " in it");
    }
    if (stat.size > most_unpacked - unpacked_) damaged_spreadsheet(file_, "it would unpack to more than 200 MB");
    unpacked_ += stat.size;
    std::string text(static_cast<std::size_t>(stat.size), '\0');
    zip_file_t* const entry = zip_fopen(archive_, name.c_str(), 0);
    const bool whole =
        entry != nullptr && zip_fread(entry, text.data(), stat.size) == static_cast<std::int64_t>(stat.size);
    // the check sum is compared at the end of the file, which one more byte asks for
    char beyond = 0;
    const bool sound = whole && zip_fread(entry, &beyond, 1) == 0;
    if (entry != nullptr) zip_fclose(entry);
    pugi::xml_document document;
    if (!sound || !document.load_buffer(text.data(), text.size(), pugi::parse_default | pugi::parse_ws_pcdata)) {
      damaged_spreadsheet(file_, name + " in it is damaged");
    }
    return document;
  }

 private:
  std::string file_;
  zip_t* archive_ = nullptr;
  std::uint64_t unpacked_ = 0;
};

/// Adds a cell unless it is blank; throws where there are too many.
inline void add_typed(TypedCells& table, TypedCell cell) {
  cell.text = std::string(without_blanks(cell.text));
  if (cell.text.empty()) return;
  if (cell.row > most_table_rows || cell.column > most_table_columns || table.cells.size() >= most_typed_cells) {
    damaged_spreadsheet(table.file, "its sheet has cells far outside of any chart");
  }
  table.cells.push_back(std::move(cell));
}

/// All text below a node, but for remarks that somebody has pinned to a cell. No program nests text deeper than a few.
inline void append_text(const pugi::xml_node& node, std::string& text, int depth = 0) {
  for (const pugi::xml_node& child : node.children()) {
    if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) text += child.value();
    if (depth < 20 && std::strcmp(child.name(), "office:annotation") != 0) append_text(child, text, depth + 1);
  }
}

/// Whether a format of numbers shows dates or times: letters of them outside of quotes, colours and escapes.
inline bool is_date_format(std::string_view format) {
  for (std::size_t i = 0; i < format.size(); ++i) {
    if (format[i] == '"') {
      i = std::min(format.find('"', i + 1), format.size());
    } else if (format[i] == '[') {
      i = std::min(format.find(']', i + 1), format.size());
    } else if (format[i] == '\\' || format[i] == '_') {
      ++i;
    } else if (std::string_view("dmyhsDMYHS").find(format[i]) != std::string_view::npos) {
      return true;
    }
  }
  return false;
}

/// For each style of a cell whether it shows dates. The numbers of formats that are built in: ECMA-376 part 1, 18.8.30.
inline std::vector<bool> date_styles(const pugi::xml_document& styles) {
  std::vector<int> dates = {14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47};
  for (int id = 27; id <= 58; ++id) {
    if (id <= 36 || id >= 50) dates.push_back(id);
  }
  const pugi::xml_node sheet = styles.child("styleSheet");
  for (const pugi::xml_node& format : sheet.child("numFmts").children("numFmt")) {
    if (is_date_format(format.attribute("formatCode").value())) dates.push_back(format.attribute("numFmtId").as_int());
  }
  std::vector<bool> shown;
  for (const pugi::xml_node& style : sheet.child("cellXfs").children("xf")) {
    shown.push_back(std::find(dates.begin(), dates.end(), style.attribute("numFmtId").as_int()) != dates.end());
  }
  return shown;
}

/// "AB12" to column and row; false where it is none.
inline bool read_place(std::string_view text, int& column, int& row) {
  std::size_t at = 0;
  column = row = 0;
  for (; at < text.size() && text[at] >= 'A' && text[at] <= 'Z' && column <= most_table_columns; ++at) {
    column = column * 26 + (text[at] - 'A' + 1);
  }
  const std::size_t letters = at;
  for (; at < text.size() && text[at] >= '0' && text[at] <= '9' && row <= most_table_rows; ++at) {
    row = row * 10 + (text[at] - '0');
  }
  return letters > 0 && at > letters && at == text.size() && row > 0;
}

inline void read_xlsx(Unpacked& unpacked, TypedCells& table) {
  std::vector<std::string> strings;
  if (unpacked.has("xl/sharedStrings.xml")) {
    const pugi::xml_document shared = unpacked.xml("xl/sharedStrings.xml");
    for (const pugi::xml_node& item : shared.child("sst").children("si")) {
      strings.emplace_back();
      append_text(item, strings.back());
    }
  }
  std::vector<bool> dates;
  if (unpacked.has("xl/styles.xml")) dates = date_styles(unpacked.xml("xl/styles.xml"));
  // the first sheet is named in the workbook by a relation
  const pugi::xml_document book = unpacked.xml("xl/workbook.xml");
  const std::string relation = book.child("workbook").child("sheets").child("sheet").attribute("r:id").value();
  std::string target;
  const pugi::xml_document relations = unpacked.xml("xl/_rels/workbook.xml.rels");
  for (const pugi::xml_node& item : relations.child("Relationships").children("Relationship")) {
    if (item.attribute("Id").value() == relation) target = item.attribute("Target").value();
  }
  if (target.empty()) damaged_spreadsheet(table.file, "it has no sheet");
  const pugi::xml_document sheet = unpacked.xml(target.starts_with("/") ? target.substr(1) : "xl/" + target);
  int row = 0;
  for (const pugi::xml_node& line : sheet.child("worksheet").child("sheetData").children("row")) {
    row = line.attribute("r").as_int(row + 1);
    int column = 0;
    for (const pugi::xml_node& cell : line.children("c")) {
      int named_row = row;
      if (const pugi::xml_attribute place = cell.attribute("r")) {
        if (!read_place(place.value(), column, named_row)) damaged_spreadsheet(table.file, "a cell has no place");
      } else {
        ++column;
      }
      if (row < 1) damaged_spreadsheet(table.file, "a row has no place");
      const std::string_view kind = cell.attribute("t").value();
      TypedCell typed{.row = named_row, .column = column};
      if (kind == "inlineStr") {
        append_text(cell.child("is"), typed.text);
      } else if (kind == "s") {
        const auto index = cell.child("v").text().as_ullong(strings.size());
        if (!cell.child("v").text().empty() && index >= strings.size()) {
          damaged_spreadsheet(table.file, "a text of it is missing");
        }
        if (index < strings.size()) typed.text = strings[static_cast<std::size_t>(index)];
      } else {
        typed.text = cell.child("v").text().get();
        if (kind == "b") typed.text = typed.text == "0" ? "FALSE" : "TRUE";
        // A formula that was never reckoned has no value: it is no empty cell.
        if (typed.text.empty() && cell.child("f")) typed.text = std::string("=") + cell.child("f").text().get();
        const auto style = static_cast<std::size_t>(cell.attribute("s").as_uint());
        typed.is_date = (kind.empty() || kind == "n") && style < dates.size() && dates[style];
        typed.is_date = typed.is_date || kind == "d";
      }
      add_typed(table, std::move(typed));
    }
  }
}

inline void read_ods(Unpacked& unpacked, TypedCells& table) {
  const pugi::xml_document content = unpacked.xml("content.xml");
  const pugi::xml_node sheet =
      content.child("office:document-content").child("office:body").child("office:spreadsheet").child("table:table");
  if (!sheet) damaged_spreadsheet(table.file, "it has no sheet");
  // rows may stand in groups, as headings and such
  std::int64_t row = 0;
  const auto read_row = [&](const pugi::xml_node& line) {
    const std::int64_t rows = std::max(line.attribute("table:number-rows-repeated").as_int(1), 1);
    std::int64_t column = 0;
    for (const pugi::xml_node& cell : line.children()) {
      const std::string_view name = cell.name();
      if (name != "table:table-cell" && name != "table:covered-table-cell") continue;
      const std::int64_t columns = std::max(cell.attribute("table:number-columns-repeated").as_int(1), 1);
      const std::string_view kind = cell.attribute("office:value-type").value();
      TypedCell typed{.is_date = kind == "date" || kind == "time"};
      if (kind == "float" || kind == "percentage" || kind == "currency") {
        typed.text = cell.attribute("office:value").value();
      } else if (kind == "date") {
        typed.text = cell.attribute("office:date-value").value();
      } else {
        append_text(cell, typed.text);
      }
      if (!without_blanks(typed.text).empty()) {
        if (rows * columns > static_cast<std::int64_t>(most_typed_cells) || row + rows > most_table_rows ||
            column + columns > most_table_columns) {
          damaged_spreadsheet(table.file, "its sheet has cells far outside of any chart");
        }
        for (std::int64_t r = 1; r <= rows; ++r) {
          for (std::int64_t c = 1; c <= columns; ++c) {
            TypedCell one = typed;
            one.row = static_cast<int>(row + r);
            one.column = static_cast<int>(column + c);
            add_typed(table, std::move(one));
          }
        }
      }
      column += columns;
    }
    row += rows;
  };
  const auto read_group = [&](const auto& self, const pugi::xml_node& group, int depth) -> void {
    for (const pugi::xml_node& child : group.children()) {
      const std::string_view name = child.name();
      if (name == "table:table-row") {
        read_row(child);
      } else if (depth < 20 &&
                 (name == "table:table-row-group" || name == "table:table-header-rows" || name == "table:table-rows")) {
        self(self, child, depth + 1);
      }
    }
  };
  read_group(read_group, sheet, 0);
}

}  // namespace detail

inline TypedCells read_spreadsheet(std::string_view bytes, const std::string& file) {
  TypedCells table{.file = file};
  detail::Unpacked unpacked(bytes, file);
  if (unpacked.has("xl/workbook.xml")) {
    detail::read_xlsx(unpacked, table);
  } else if (unpacked.has("content.xml")) {
    detail::read_ods(unpacked, table);
  } else {
    detail::damaged_spreadsheet(file, "it is a packed file, but no spreadsheet");
  }
  std::sort(table.cells.begin(), table.cells.end(), [](const TypedCell& a, const TypedCell& b) {
    return std::tuple(a.row, a.column) < std::tuple(b.row, b.column);
  });
  for (std::size_t i = 1; i < table.cells.size(); ++i) {
    if (table.cells[i].row == table.cells[i - 1].row && table.cells[i].column == table.cells[i - 1].column) {
      throw bad_cell(table, table.cells[i], "it is there twice", "save it anew as .xlsx, .ods or .csv");
    }
  }
  return table;
}

}  // namespace handlaid
