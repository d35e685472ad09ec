// What a plan has to print at true scale, as PDF files: see pdf_sheet_names.
// `for (const SheetFile& file : make_pdf_sheets(plan, fonts).files) …`
#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/optional/pdf.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/all.hpp"
#include "handlaid/sheets/corner_marks.hpp"
#include "handlaid/sheets/labels.hpp"
#include "handlaid/sheets/large_pages.hpp"
#include "handlaid/sheets/setting_out_pages.hpp"
#include "handlaid/sheets/story_poles.hpp"
#include "handlaid/sheets/strip_sheets.hpp"
#include "handlaid/sheets/strip_tiles.hpp"
#include "handlaid/sheets/swatch_cards.hpp"
#include "handlaid/sheets/templates.hpp"

namespace handlaid {

/// The files, and what the maker should know of those that are not there; one sentence each.
struct PdfSheets {
  std::vector<SheetFile> files = {};
  std::vector<std::string> notes = {};
};

/// What `make_pdf_sheets` can write, for a program that replaces an earlier plan. On small paper: the board's marks,
/// templates of the cells, story poles in lengths, swatch cards, labels for boxes and strips, marking sheets of strips
/// in tiles, marks for a photo. On large paper: marking sheets, a batch a page; the whole chart and the long story
/// poles.
inline constexpr const char* pdf_sheet_names[] = {"setting_out.pdf",  "templates.pdf",      "story_poles.pdf",
                                                  "swatch_cards.pdf", "labels.pdf",         "marking_tiles.pdf",
                                                  "corner_marks.pdf", "marking_sheets.pdf", "large_pages.pdf"};

namespace detail {

/// How many template pages a plan gets: none where it should have none; then `notes` says why, if that is news.
inline std::int64_t wanted_template_pages(const Plan& plan, std::vector<std::string>& notes) {
  const Print& print = plan.job.print;
  if (print.templates ? !*print.templates : plan.strips.has_value()) return 0;
  try {
    const std::int64_t pages = template_layout(plan.chart.lattice, paper_of(plan.job)).pages();
    if (pages <= most_pages_unasked) return pages;
    if (print.templates) {
      notes.push_back("The templates are " + count_text(pages) + " pages.");
      return pages;
    }
    notes.push_back("Templates would be " + count_text(pages) +
                    " pages and are left out; say templates = yes to have them, or let a print shop print "
                    "large_pages.pdf.");
  } catch (const Error& error) {
    if (print.templates) throw;
    notes.push_back(std::string("There are no templates. ") + error.what() + ".");
  }
  return 0;
}

/// The marking sheets in tiles; none where they are too many, and then `notes` says so.
inline std::vector<PrintedPage> wanted_strip_tiles(const Plan& plan, std::vector<std::string>& notes) {
  const std::int64_t pages = strip_tile_count(plan);
  if (pages <= most_pages_unasked) return strip_tile_pages(plan);
  notes.push_back("Marking tiles would be " + count_text(pages) +
                  " pages and are left out; let a print shop print marking_sheets.pdf.");
  return {};
}

/// Pages that cannot be as large as they would have to be are left out, and `notes` says so and which of the files has
/// the same on small paper.
inline std::vector<PrintedPage> within_pdf(std::vector<PrintedPage> pages, const std::vector<SheetFile>& files,
                                           std::vector<std::string>& notes) {
  const auto on_small_paper = [&](const PrintedPage& page) -> std::string {
    const char* name = page.name.starts_with("Marking sheet") ? "marking_tiles.pdf"
                       : page.name.starts_with("Story pole")  ? "story_poles.pdf"
                                                              : "templates.pdf";
    for (const SheetFile& file : files) {
      if (file.name == name) return std::string("; ") + name + " has the same in parts";
    }
    return "; there is no other file of it";
  };
  std::erase_if(pages, [&](const PrintedPage& page) {
    const bool too_long = page.size.width > longest_pdf_side || page.size.height > longest_pdf_side;
    if (too_long) {
      notes.push_back(page.name + " is left out: it is longer than the 5080 mm that a page of a PDF file can be" +
                      on_small_paper(page) + ".");
    }
    return too_long;
  });
  return pages;
}

inline std::vector<PrintedPage> joined(std::vector<PrintedPage> pages, std::vector<PrintedPage> more) {
  for (PrintedPage& page : more) pages.push_back(std::move(page));
  return pages;
}

/// Pages, or none and a note where the paper is too small for them.
template <class Make>
std::vector<PrintedPage> where_paper_allows(const char* what, std::vector<std::string>& notes, Make make) {
  try {
    return make();
  } catch (const Error& error) {
    if (error.kind() != Error::Kind::option) throw;
    notes.push_back(std::string("There are no ") + what + ". " + error.what() + ".");
    return {};
  }
}

}  // namespace detail

/// The files. The same plan and fonts give the same bytes. Throws Error for a font that cannot be read, for bars that
/// are too far out (see print_scale), and where templates are asked for on paper that does not hold one cell.
inline PdfSheets make_pdf_sheets(const Plan& plan, const PdfFonts& font) {
  PdfSheets sheets;
  const std::string title = plan.job.title.value_or("Panel");
  const PrintScale scale = print_scale(plan.job);
  const auto add = [&](const char* name, const char* what, const std::vector<PrintedPage>& pages, bool at_home) {
    if (pages.empty()) return;
    // What the bars measured is the maker's own printer; a print shop has another.
    const PrintScale by = at_home ? scale : PrintScale{};
    sheets.files.push_back(
        {name, write_pdf(pages, {.font = font, .title = title + ": " + what, .across = by.across, .up = by.up})});
  };
  add("setting_out.pdf", "setting out", setting_out_pages(plan), true);
  if (detail::wanted_template_pages(plan, sheets.notes) > 0) {
    add("templates.pdf", "templates", template_pages(plan), true);
  }
  const auto pages_of = [&](const char* what, auto make) {
    return detail::where_paper_allows(what, sheets.notes, [&] { return make(plan); });
  };
  add("story_poles.pdf", "story poles",
      pages_of("story poles on small paper", [](const Plan& p) { return pole_pages(p); }), true);
  add("swatch_cards.pdf", "swatch cards", swatch_card_pages(plan), true);
  add("labels.pdf", "labels", detail::joined(colour_label_pages(plan), strip_label_pages(plan)), true);
  add("marking_tiles.pdf", "marking tiles",
      pages_of("marking sheets on small paper",
               [&](const Plan& p) { return detail::wanted_strip_tiles(p, sheets.notes); }),
      true);
  add("corner_marks.pdf", "corner marks",
      {corner_marks_page(plan.chart.lattice, {.paper = paper_of(plan.job),
                                              .overlap = plan.strips ? plan.strips->overlap : Length{},
                                              .unit = plan.job.units.value_or(LengthUnit::millimetres)})},
      true);
  add("marking_sheets.pdf", "marking sheets", detail::within_pdf(strip_sheets(plan), sheets.files, sheets.notes),
      false);
  add("large_pages.pdf", "large pages",
      detail::within_pdf(detail::joined({whole_chart_page(plan)}, long_pole_pages(plan)), sheets.files, sheets.notes),
      false);
  return sheets;
}

}  // namespace handlaid
