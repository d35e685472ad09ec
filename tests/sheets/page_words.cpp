#include "handlaid/sheets/page_words.hpp"

#include <string>
#include <vector>

#include "handlaid/sheets/corner_marks.hpp"
#include "handlaid/sheets/labels.hpp"
#include "handlaid/sheets/large_pages.hpp"
#include "handlaid/sheets/setting_out_pages.hpp"
#include "handlaid/sheets/story_poles.hpp"
#include "handlaid/sheets/strip_tiles.hpp"
#include "handlaid/sheets/swatch_cards.hpp"
#include "handlaid/sheets/templates.hpp"
#include "sheets/page_checks.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::small_plan;

namespace {

void append(std::vector<PrintedPage>& pages, std::vector<PrintedPage> more) {
  for (PrintedPage& page : more) pages.push_back(std::move(page));
}

/// Every page there is to print of a plan.
std::vector<PrintedPage> all_pages(const Plan& plan) {
  std::vector<PrintedPage> pages = setting_out_pages(plan);
  append(pages, template_pages(plan));
  append(pages, pole_pages(plan));
  append(pages, swatch_card_pages(plan));
  append(pages, colour_label_pages(plan));
  append(pages, strip_label_pages(plan));
  append(pages, strip_tile_pages(plan));
  append(pages, {corner_marks_page(plan.chart.lattice, {.paper = paper_of(plan.job)})});
  append(pages, strip_sheets(plan));
  append(pages, {whole_chart_page(plan)});
  append(pages, long_pole_pages(plan));
  return pages;
}

std::string words_of(const PrintedPage& page) {
  std::string words;
  for (const PageText& text : page.texts) words += text.text + " ";
  return words;
}

bool says(const std::vector<PrintedPage>& pages, const std::string& words) {
  for (const PrintedPage& page : pages) {
    if (words_of(page).find(words) != std::string::npos) return true;
  }
  return false;
}

/// The pages whose words are to be found, in the order of `all_pages`.
const std::vector<Plan>& plans() {
  static const std::vector<Plan> list = [] {
    std::vector<Plan> made;
    for (const Method method : {Method::pieces, Method::strips}) {
      for (const LengthUnit units : {LengthUnit::millimetres, LengthUnit::inches}) {
        made.push_back(small_plan({.columns = 72, .rows = 105, .colours = 24, .method = method, .units = units}));
        made.back().job.title = "Reading corner";
        made.push_back(small_plan({.columns = 26, .rows = 30, .pitch = 1 * inch, .method = method, .units = units}));
      }
    }
    return made;
  }();
  return list;
}

}  // namespace

TEST_CASE("a text is broken so that each line is as long as it can be, and no longer than its room") {
  const std::string text =
      "Lay each page by its own corners, never against the last. Paper comes off before any glue, tape or piece goes "
      "down.";
  const Length em = 3 * mm;
  for (int room_mm = 30; room_mm <= 240; room_mm += 7) {
    for (const Length indent : {Length{}, 12 * mm}) {
      const Length room = room_mm * mm;
      const std::vector<std::string> lines = broken_lines(text, em, room, false, indent);
      std::string joined;
      for (std::size_t i = 0; i < lines.size(); ++i) {
        const Length here = i == 0 ? room - indent : room;
        CHECK(text_width(lines[i], em) <= here);
        if (i + 1 < lines.size()) {
          const std::string next = lines[i + 1].substr(0, lines[i + 1].find(' '));
          CHECK(text_width(lines[i] + " " + next, em) > here);
        }
        joined += (i == 0 ? "" : " ") + lines[i];
      }
      CHECK(joined == text);
    }
  }
  CHECK(broken_lines("", em, 10 * mm).empty());
  CHECK(broken_lines("  two   words ", em, 100 * mm) == std::vector<std::string>{"two words"});
  // what is tied stays on one line, and is written with plain spaces
  CHECK(broken_lines(std::string("packs: 1") + no_break + "of" + no_break + "200", em, 20 * mm) ==
        std::vector<std::string>{"packs:", "1 of 200"});
}

TEST_CASE("no word of a printed page is below 8 points, none leaves the page and none lies on another") {
  constexpr double mm_a_point = 25.4 / 72;
  for (const Plan& plan : plans()) {
    for (const PrintedPage& page : all_pages(plan)) {
      CAPTURE(page.name, plan.job.title.value_or(""));
      for (const PageText& text : page.texts) {
        const Length width = text_width(text.text, text.em, text.bold);
        double em = text.em.in_mm();
        if (text.room > Length{} && width > text.room) em *= text.room.in_mm() / width.in_mm();
        CAPTURE(text.text, em);
        CHECK(em / mm_a_point >= 8.0);
      }
      CHECK(handlaid_test::outside_of_margins(page) == std::vector<std::string>{});
      if (page.texts.size() < 1'000) CHECK(handlaid_test::overlapping_texts(page) == std::vector<std::string>{});
    }
  }
}

TEST_CASE(
    "pages that are cut or pricked have the caution of the blade, and pages as large as the work say how to print") {
  const Plan& plan = plans()[4];  // strips
  const std::string care = std::string("Hand blade:");
  for (const auto& pages : {template_pages(plan), pole_pages(plan), swatch_card_pages(plan), strip_tile_pages(plan),
                            strip_sheets(plan), std::vector<PrintedPage>{whole_chart_page(plan)},
                            std::vector<PrintedPage>{corner_marks_page(plan.chart.lattice)}}) {
    CAPTURE(pages.at(0).name);
    CHECK(words_of(pages.at(0)).find(care) != std::string::npos);
    CHECK(words_of(pages.at(0)).find(decides_sentence) != std::string::npos);
  }
  for (const auto& pages :
       {strip_sheets(plan), std::vector<PrintedPage>{whole_chart_page(plan)}, long_pole_pages(plan)}) {
    for (const PrintedPage& page : pages) {
      CAPTURE(page.name);
      CHECK(words_of(page).find(large_page_sentence) != std::string::npos);
      CHECK(words_of(page).find("Then measure") != std::string::npos);
    }
  }
}

TEST_CASE("the proof of labels names its sheet by its lengths") {
  CHECK(says(colour_label_pages(plans()[0]), "3 across, 7 down, each 63.5 × 38.1 mm"));
  CHECK(says(colour_label_pages(plans()[0]), "margins: left 7.25 mm, top 15.15 mm"));
  CHECK(says(colour_label_pages(plans()[0]), "2.5 mm between columns"));
  CHECK(says(colour_label_pages(plans()[2]), "3 across, 10 down, each 2 5/8 × 1 in"));
}
