#include "handlaid/optional/spreadsheet.hpp"

#include "files/mutations.hpp"
#include "handlaid/files/edited_chart.hpp"
#include "handlaid/grid/chart_changes.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/optional/read_spreadsheet.hpp"
#include "optional/small_chart.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using Catch::Contains;
using handlaid_test::saved_chart;

namespace {

std::string saved(const std::string& name) {
  const auto bytes = read_file(std::string(HANDLAID_TEST_DATA) + "/saved_charts/" + name);
  return {bytes.begin(), bytes.end()};
}

Raster<ColourNumber> read_back(const std::string& bytes, const std::string& name) {
  if (name.ends_with(".csv")) return read_edited_chart(bytes, saved_chart(), name);
  return read_edited_chart(read_spreadsheet(bytes, name), saved_chart());
}

}  // namespace

TEST_CASE("a chart written as a workbook comes back, and the same chart gives the same bytes") {
  const Chart<> chart = saved_chart();
  const std::string bytes = write_chart_workbook(chart);
  CHECK(bytes.starts_with("PK"));
  CHECK(read_back(bytes, "chart.xlsx") == chart.numbers);
  CHECK(write_chart_workbook(chart) == bytes);
}

TEST_CASE("what LibreOffice saved comes back with its two edits, whatever the kind of file") {
  for (const char* name : {"edited.ods", "edited.xlsx", "edited_commas.csv", "edited_semicolons.csv"}) {
    INFO(name);
    CHECK(differing_cells(saved_chart().numbers, read_back(saved(name), name)) ==
          std::vector<CellChange>{{.course = 1, .column = 12, .from = 4, .to = 0},
                                  {.course = 3, .column = 1, .from = 2, .to = 5}});
  }
  CHECK(read_back(saved("opened_csv.ods"), "opened_csv.ods") == saved_chart().numbers);
}

TEST_CASE("a number that a spreadsheet made a date is named by its cell") {
  CHECK_THROWS_WITH(read_back(saved("dated.ods"), "dated.ods"), Contains("dated.ods, cell C3: course 7, column 2: ") &&
                                                                    Contains("is a date") && Contains("(it was 1)"));
  CHECK_THROWS_WITH(read_back(saved("dated.xlsx"), "dated.xlsx"),
                    Contains("dated.xlsx, cell C3: course 7, column 2: ") && Contains("is a date"));
}

TEST_CASE("cells that only look like numbers are refused by their place") {
  // The least of a workbook that ECMA-376 asks for, stored without packing by libzip.
  const auto workbook = [](const std::string& cells) {
    const std::string path = std::string(P_tmpdir) + "/handlaid-least-" + std::to_string(getpid()) + ".xlsx";
    int error = 0;
    zip_t* const archive = zip_open(path.c_str(), ZIP_CREATE | ZIP_TRUNCATE, &error);
    REQUIRE(archive != nullptr);
    const std::string files[][2] = {
        {"xl/workbook.xml", R"(<workbook><sheets><sheet name="a" r:id="r1"/></sheets></workbook>)"},
        {"xl/_rels/workbook.xml.rels", R"(<Relationships><Relationship Id="r1" Target="s.xml"/></Relationships>)"},
        {"xl/s.xml", "<worksheet><sheetData><row r=\"1\">" + cells + "</row></sheetData></worksheet>"}};
    for (const auto& file : files) {
      zip_source_t* const source = zip_source_buffer(archive, file[1].data(), file[1].size(), 0);
      REQUIRE(zip_file_add(archive, file[0].c_str(), source, 0) >= 0);
    }
    REQUIRE(zip_close(archive) == 0);
    const auto bytes = read_file(path);
    std::remove(path.c_str());
    return std::string(bytes.begin(), bytes.end());
  };
  const auto read = [&](const std::string& cells) { return read_spreadsheet(workbook(cells), "a.xlsx"); };
  CHECK(read(R"(<c r="B1"><v>3</v></c>)").cells == std::vector<TypedCell>{{.row = 1, .column = 2, .text = "3"}});
  CHECK(read(R"(<c r="A1" t="b"><v>1</v></c>)").cells.at(0).text == "TRUE");
  CHECK(read(R"(<c r="A1"><f>A2+1</f></c>)").cells.at(0).text == "=A2+1");
  CHECK(read(R"(<c r="A1" t="inlineStr"><is><t> 4 </t></is></c>)").cells.at(0).text == "4");
  CHECK_THROWS_WITH(read(R"(<c r="A1"><v>1</v></c><c r="A1"><v>2</v></c>)"),
                    Contains("a.xlsx, cell A1: it is there twice"));
  CHECK_THROWS_WITH(read(R"(<c r="1A"><v>1</v></c>)"), Contains("a cell has no place"));
  CHECK_THROWS_WITH(read(R"(<c r="A1" t="s"><v>7</v></c>)"), Contains("a text of it is missing"));
  CHECK_THROWS_WITH(read(R"(<c r="ZZZZ1"><v>1</v></c>)"), Contains("far outside of any chart") || Contains("no place"));
}

TEST_CASE("formats of numbers are told from formats of dates") {
  // ECMA-376 part 1, 18.8.31: letters in quotes, brackets and after a stroke are no letters of a date
  for (const char* format : {"yyyy-mm-dd", "d. mmm", "[h]:mm", "DD/MM/YY", "h AM/PM"})
    CHECK(detail::is_date_format(format));
  for (const char* format : {"0", "General", "0.00", "#,##0\" days\"", "[Red]0", "\\d0", "0_m"}) {
    INFO(format);
    CHECK(!detail::is_date_format(format));
  }
}

TEST_CASE("what is no spreadsheet is refused by its name") {
  CHECK_THROWS_WITH(read_spreadsheet("", "none.ods"), Contains("none.ods: it is not a spreadsheet of either kind"));
  CHECK_THROWS_WITH(read_spreadsheet("1,2,3\n", "text.xlsx"), Contains("text.xlsx: it is not a spreadsheet"));
  // an empty packed file: an end of central directory and nothing before it (APPNOTE 4.3.16)
  const std::string nothing = std::string("PK\x05\x06", 4) + std::string(18, '\0');
  CHECK_THROWS_WITH(
      read_spreadsheet(nothing, "empty.ods"),
      Contains("empty.ods: it is a packed file, but no spreadsheet") || Contains("empty.ods: it is not a spreadsheet"));
}

TEST_CASE("a damaged spreadsheet is taken or refused, never more") {
  for (const char* name : {"edited.xlsx", "opened_csv.ods"}) {
    const std::string bytes = saved(name);
    int refused = 0;
    handlaid_test::count_readable(bytes, 1'500, [&](const std::string& text) {
      try {
        read_back(text, name);
      } catch (const Error&) {
        ++refused;
        throw;
      }
    });
    CHECK(refused > 300);
  }
}

TEST_CASE("a chart wider than a sheet is refused") {
  Chart<> chart = saved_chart();
  chart.lattice.columns = 16'383;
  chart.lattice.rows = 1;
  chart.numbers = Raster<ColourNumber>(16'383, 1);
  CHECK_THROWS_WITH(write_chart_workbook(chart), Contains("at most 16,382 columns"));
}
