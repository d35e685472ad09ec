// The chart as a spreadsheet, to be read and edited: tinted cells with their numbers, numbers of courses and columns on
// all four sides that stay in view, a heavy line each ten cells, and the palette on a sheet of its own.
// `write_chart_workbook(plan.chart)` gives the bytes of an .xlsx file (ECMA-376), `optional/read_spreadsheet` reads it
// back.
//
// Needs libxlsxwriter, which handlaid.hpp does not ask for (CMake: the target handlaid_spreadsheet).
#pragma once

#include <unistd.h>
#include <xlsxwriter.h>

#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/core/error.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/grid/runs.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/sheets/look.hpp"
#include "handlaid/sheets/utf8.hpp"

namespace handlaid {

/// The most columns and rows of a sheet, less those that number the chart (ECMA-376 part 1, 18.3.1: 16,384 columns;
/// rows as spreadsheet programs have them).
inline constexpr int most_sheet_columns = 16'382;
inline constexpr int most_sheet_courses = 1'048'574;

/// The bytes; the same chart gives the same bytes with the same libxlsxwriter. Throws Error for a chart that is larger
/// than a sheet.
inline std::string write_chart_workbook(const Chart<>& chart);

namespace detail {

class ChartWorkbook {
 public:
  explicit ChartWorkbook(const Chart<>& chart) : chart_(chart) {
    // Debian's libxlsxwriter writes to a file and to nothing else.
    const int handle = mkstemp(path_.data());
    if (handle >= 0) close(handle);
    if (handle >= 0) book_ = workbook_new(path_.c_str());
    if (book_ == nullptr) {
      if (handle >= 0) std::remove(path_.c_str());
      throw Error::bad_output("chart.xlsx", "no temporary file can be made", "look whether TMPDIR can be written to");
    }
    lxw_doc_properties properties{};
    properties.created = 946'684'800;  // 2000-01-01: the clock must not be in the file
    workbook_set_properties(book_, &properties);
  }
  ChartWorkbook(const ChartWorkbook&) = delete;
  ChartWorkbook& operator=(const ChartWorkbook&) = delete;
  ~ChartWorkbook() {
    if (book_ != nullptr) workbook_close(book_);
    std::remove(path_.c_str());
  }

  std::string write() {
    add_chart();
    add_palette();
    lxw_workbook* const book = book_;
    book_ = nullptr;
    const lxw_error error = workbook_close(book);
    if (error != LXW_NO_ERROR) {
      throw Error::bad_output("chart.xlsx", lxw_strerror(error), "look whether there is room for temporary files");
    }
    const std::vector<unsigned char> bytes = read_file(path_);
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
  }

 private:
  static lxw_color_t code(const Srgb8& c) {
    return static_cast<lxw_color_t>(c.r) << 16 | static_cast<lxw_color_t>(c.g) << 8 | c.b;
  }

  lxw_format* new_format(bool bold = false) {
    lxw_format* const format = workbook_add_format(book_);
    format_set_align(format, LXW_ALIGN_CENTER);
    format_set_align(format, LXW_ALIGN_VERTICAL_CENTER);
    if (bold) format_set_bold(format);
    return format;
  }

  /// How a cell of a number looks, with a heavy line to the right, below, or neither; made once.
  lxw_format* cell_format(int number, bool right, bool below) {
    const auto index = static_cast<std::size_t>(number * 4 + (right ? 2 : 0) + (below ? 1 : 0));
    if (formats_.size() <= index) formats_.resize(index + 1, nullptr);
    lxw_format*& format = formats_[index];
    if (format != nullptr) return format;
    format = new_format();
    format_set_border(format, LXW_BORDER_HAIR);
    format_set_border_color(format, code(look::quiet));
    if (right) format_set_right(format, LXW_BORDER_MEDIUM);
    if (right) format_set_right_color(format, code(look::ink));
    if (below) format_set_bottom(format, LXW_BORDER_MEDIUM);
    if (below) format_set_bottom_color(format, code(look::ink));
    if (number > 0) {
      const Srgb8& colour = chart_.palette[number].colour;
      format_set_pattern(format, LXW_PATTERN_SOLID);
      format_set_bg_color(format, code(colour));
      format_set_font_color(format, code(numeral_colour(colour)));
    }
    return format;
  }

  void add_chart() {
    lxw_worksheet* const sheet = workbook_add_worksheet(book_, "chart");
    lxw_format* const plain = new_format();
    lxw_format* const fifth = new_format(true);
    const int columns = chart_.columns();
    const int courses = chart_.courses();
    const auto counted = [&](int n) { return n % 5 == 0 ? fifth : plain; };
    const auto last_row = static_cast<lxw_row_t>(courses + 1);
    const auto last_column = static_cast<lxw_col_t>(columns + 1);
    worksheet_set_default_row(sheet, 21, LXW_FALSE);  // points, which is 28 pixels
    worksheet_set_column_pixels(sheet, 1, static_cast<lxw_col_t>(columns), 28, nullptr);
    worksheet_freeze_panes(sheet, 1, 1);
    worksheet_repeat_rows(sheet, 0, 0);
    worksheet_repeat_columns(sheet, 0, 0);
    worksheet_write_string(sheet, 0, 0, "course", plain);
    for (int column = 1; column <= columns; ++column) {
      const auto at = static_cast<lxw_col_t>(column);
      worksheet_write_number(sheet, 0, at, column, counted(column));
      worksheet_write_number(sheet, last_row, at, column, counted(column));
    }
    for (int course = courses; course >= 1; --course) {
      const auto row = static_cast<lxw_row_t>(courses - course + 1);
      worksheet_write_number(sheet, row, 0, course, counted(course));
      worksheet_write_number(sheet, row, last_column, course, counted(course));
      const auto numbers = chart_.course(course);
      const bool below = course > 1 && (course - 1) % 10 == 0;
      for (int column = 1; column <= columns; ++column) {
        const int number = numbers[static_cast<std::size_t>(column) - 1];
        lxw_format* const format = cell_format(number, column < columns && column % 10 == 0, below);
        const auto at = static_cast<lxw_col_t>(column);
        if (number == 0) {
          worksheet_write_blank(sheet, row, at, format);
        } else {
          worksheet_write_number(sheet, row, at, number, format);
        }
      }
    }
  }

  void add_palette() {
    lxw_worksheet* const sheet = workbook_add_worksheet(book_, "palette");
    lxw_format* const bold = new_format(true);
    worksheet_set_column(sheet, 2, 2, 30, nullptr);
    worksheet_freeze_panes(sheet, 1, 0);
    const char* const headings[] = {"number", "colour", "name", "cells"};
    for (lxw_col_t i = 0; i < 4; ++i) worksheet_write_string(sheet, 0, i, headings[i], bold);
    const Tally count = tally(chart_);
    for (int number = 1; number <= chart_.palette.size(); ++number) {
      const auto row = static_cast<lxw_row_t>(number);
      worksheet_write_number(sheet, row, 0, number, nullptr);
      worksheet_write_blank(sheet, row, 1, cell_format(number, false, false));
      worksheet_write_string(sheet, row, 2, valid_utf8(chart_.palette[number].name).c_str(), nullptr);
      worksheet_write_number(sheet, row, 3, static_cast<double>(count.cells[static_cast<std::size_t>(number)]),
                             nullptr);
    }
  }

  const Chart<>& chart_;
  static std::string temporary_path() {
    const char* const folder = std::getenv("TMPDIR");
    return std::string(folder != nullptr && *folder != '\0' ? folder : "/tmp") + "/handlaid-XXXXXX";
  }

  std::string path_ = temporary_path();
  lxw_workbook* book_ = nullptr;
  std::vector<lxw_format*> formats_ = {};
};

}  // namespace detail

inline std::string write_chart_workbook(const Chart<>& chart) {
  if (chart.columns() > most_sheet_columns || chart.courses() > most_sheet_courses) {
    throw Error::out_of_range("chart.xlsx", std::to_string(chart.columns()) + " x " + std::to_string(chart.courses()),
                              "at most 16,382 columns and 1,048,574 courses");
  }
  return detail::ChartWorkbook(chart).write();
}

}  // namespace handlaid
