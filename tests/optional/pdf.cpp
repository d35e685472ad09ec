#include "handlaid/optional/pdf.hpp"

#include <ft2build.h>
#include "handlaid/optional/pdf_sheets.hpp"
#include FT_FREETYPE_H

#include "handlaid/sheets/page_words.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using Catch::Contains;
using handlaid_test::small_plan;

namespace {

const PdfFonts fonts{HANDLAID_FONT, HANDLAID_BOLD_FONT};

PrintedPage page_with(const std::string& text) {
  PrintedPage page{.name = text, .size = size_of(Paper::a4)};
  page.texts.push_back({.at = {20 * mm, 20 * mm}, .text = text, .room = 40 * mm});
  return page;
}

std::string pdf_of(const std::vector<PrintedPage>& pages) { return write_pdf(pages, {.font = fonts, .title = "T"}); }

}  // namespace

TEST_CASE("the same pages give the same bytes of a PDF file") {
  const std::vector<PrintedPage> pages{page_with("12 x 3"), page_with("tab")};
  const std::string bytes = pdf_of(pages);
  CHECK(bytes.starts_with("%PDF-1."));
  CHECK(bytes.ends_with("%%EOF\n"));
  CHECK(pdf_of(pages) == bytes);
  CHECK(pdf_of({page_with("12 x 3")}) != bytes);
  // no clock: the date in the file is ours
  CHECK_THAT(bytes, Contains("/CreationDate (20000101000000"));
}

TEST_CASE("any name can stand on a page") {
  for (const char* name : {"\"<b>&'", "\xf0\x9f\x90\x8c snail", "\xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d", "\xff\xfe broken",
                           "", "(paren) \\ slash"}) {
    CHECK(pdf_of({page_with(name)}).ends_with("%%EOF\n"));
  }
}

TEST_CASE("words are broken by the widths of the printed font, as FreeType reads them from its file") {
  FT_Library library = nullptr;
  REQUIRE(FT_Init_FreeType(&library) == 0);
  for (const bool bold : {false, true}) {
    FT_Face face = nullptr;
    REQUIRE(FT_New_Face(library, bold ? HANDLAID_BOLD_FONT : HANDLAID_FONT, 0, &face) == 0);
    for (char c = ' '; c <= '~'; ++c) {
      REQUIRE(FT_Load_Char(face, static_cast<unsigned char>(c), FT_LOAD_NO_SCALE) == 0);
      const auto advance = static_cast<double>(face->glyph->metrics.horiAdvance) / face->units_per_EM;
      const double width = text_width(std::string(1, c), 1'000 * mm, bold).in_mm() / 1'000;
      CAPTURE(c, bold);
      CHECK((width >= advance && width < advance + 0.00101));
    }
    FT_Done_Face(face);
  }
  FT_Done_FreeType(library);
}

TEST_CASE("pages that a PDF file cannot hold are refused") {
  CHECK_THROWS_WITH(pdf_of({}), Contains("there are no pages"));
  PrintedPage page = page_with("long");
  page.size.height = 5'081 * mm;
  CHECK_THROWS_WITH(pdf_of({page}), Contains("5081 mm is out of range"));
  page.size.height = {};
  CHECK_THROWS_WITH(pdf_of({page}), Contains("is out of range"));
  page = page_with("tab");
  CHECK_THROWS_WITH(write_pdf({&page, 1}, {.font = {"/nowhere.ttf", ""}}),
                    Contains("font /nowhere.ttf: it cannot be read as a font"));
  CHECK_THROWS_WITH(write_pdf({&page, 1}, {.font = {__FILE__, ""}}), Contains("it cannot be read as a font"));
  for (const double scale : {0.0, 0.5, 2.0, std::numeric_limits<double>::quiet_NaN()}) {
    CHECK_THROWS_WITH(write_pdf({&page, 1}, {.font = fonts, .across = scale}), Contains("0.9 to 1.1"));
  }
}

TEST_CASE("what cannot be printed is left out and said so") {
  const auto names = [](const PdfSheets& sheets) {
    std::vector<std::string> list;
    for (const SheetFile& file : sheets.files) list.push_back(file.name);
    return list;
  };
  Plan plan = small_plan();
  PdfSheets sheets = make_pdf_sheets(plan, fonts);
  std::vector<std::string> expected(std::begin(pdf_sheet_names), std::end(pdf_sheet_names));
  std::erase_if(expected, [](const std::string& name) { return name.starts_with("marking"); });  // there are no strips
  CHECK(names(sheets) == expected);
  CHECK(sheets.notes.empty());

  const std::vector<std::string> of_strips = names(make_pdf_sheets(small_plan({.method = Method::strips}), fonts));
  CHECK_THAT(of_strips, Catch::Matchers::VectorContains(std::string("marking_sheets.pdf")));
  CHECK_THAT(of_strips, Catch::Matchers::VectorContains(std::string("marking_tiles.pdf")));
  CHECK_THAT(of_strips, !Catch::Matchers::VectorContains(std::string("templates.pdf")));

  plan.job.print.templates = false;
  CHECK_THAT(names(make_pdf_sheets(plan, fonts)), !Catch::Matchers::VectorContains(std::string("templates.pdf")));

  plan = small_plan({.columns = 170, .rows = 100, .pitch = 90 * mm});  // one column and two courses a page
  sheets = make_pdf_sheets(plan, fonts);
  REQUIRE(sheets.notes.size() >= 2);
  CHECK_THAT(sheets.notes[0], Contains("Templates would be 8,500 pages"));
  CHECK_THAT(sheets.notes[1], Contains("Whole chart is left out: it is longer than the 5080 mm"));
  CHECK_THAT(sheets.notes[1], Contains("no other file"));
  CHECK_THAT(sheets.notes[2],
             Contains("Story pole of the columns") && Contains("story_poles.pdf has the same in parts"));

  // Strips as wide as that have a tile for each cell.
  plan = small_plan({.columns = 25, .rows = 40, .pitch = 90 * mm, .method = Method::strips});
  CHECK(strip_tile_count(plan) == 1'000);
  sheets = make_pdf_sheets(plan, fonts);
  CHECK_THAT(sheets.notes, Catch::Matchers::VectorContains(std::string(
                               "Marking tiles would be 1,000 pages and are left out; let a print shop print "
                               "marking_sheets.pdf.")));
  CHECK_THAT(names(sheets), !Catch::Matchers::VectorContains(std::string("marking_tiles.pdf")));
  CHECK_THAT(names(sheets), Catch::Matchers::VectorContains(std::string("marking_sheets.pdf")));

  plan = small_plan({.columns = 3, .rows = 2, .pitch = 400 * mm});
  sheets = make_pdf_sheets(plan, fonts);
  CHECK_THAT(names(sheets), Catch::Matchers::VectorContains(std::string("large_pages.pdf")));
  CHECK_THAT(names(sheets), !Catch::Matchers::VectorContains(std::string("templates.pdf")));
  CHECK_THAT(names(sheets), !Catch::Matchers::VectorContains(std::string("story_poles.pdf")));
  CHECK_THAT(sheets.notes.at(0), Contains("There are no templates. paper: A4 holds"));
  plan.job.print.templates = true;
  CHECK_THROWS_WITH(make_pdf_sheets(plan, fonts), Contains("paper: A4 holds"));
}
