#include "handlaid/sheets/labels.hpp"

#include "sheets/page_checks.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using Catch::Contains;
using handlaid_test::Extent;
using handlaid_test::extent_of;
using handlaid_test::low_digits;
using handlaid_test::outside_of_margins;
using handlaid_test::overlapping_texts;
using handlaid_test::small_plan;
using handlaid_test::text_of;

namespace {

/// Of the texts and boxes of a page below its head, those that do not lie on exactly one label.
std::vector<std::string> off_labels(const PrintedPage& page, const LabelSheet& sheet) {
  std::vector<std::string> found;
  const auto check = [&](const Extent& extent, const std::string& what) {
    if (extent.bottom < sheet.top) return;
    for (int place = 1; place <= sheet.places(); ++place) {
      const PagePoint at = sheet.at(place);
      if (extent.left >= at.x && extent.right <= at.x + sheet.label.width && extent.top >= at.y &&
          extent.bottom <= at.y + sheet.label.height)
        return;
    }
    found.push_back(page.name + ": " + what);
  };
  for (const PageText& text : page.texts) check(extent_of(text), text.text);
  for (const PageBox& box : page.boxes) {
    check({box.at.x, box.at.y, box.at.x + box.size.width, box.at.y + box.size.height}, "a box");
  }
  return found;
}

void check_pages(const std::vector<PrintedPage>& pages, const LabelSheet& sheet) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    CHECK(pages[i].size == sheet.paper);
    CHECK(outside_of_margins(pages[i]) == std::vector<std::string>{});
    CHECK(overlapping_texts(pages[i]) == std::vector<std::string>{});
    if (i > 0) CHECK(off_labels(pages[i], sheet) == std::vector<std::string>{});
  }
}

}  // namespace

TEST_CASE("the ready sheets of labels add up to their paper") {
  // twice the margin, the labels and what is between them; a margin of 3/16 in is half a micrometre too long
  const LabelSheet& a4 = labels_63_by_38;
  CHECK((a4.left.times(2) + a4.label.width.times(3) + (a4.pitch.width - a4.label.width).times(2)) == 210 * mm);
  CHECK((a4.top.times(2) + a4.label.height.times(7) + (a4.pitch.height - a4.label.height).times(6)) == 297 * mm);
  const LabelSheet& letter = labels_66_by_25;
  const Length across =
      letter.left.times(2) + letter.label.width.times(3) + (letter.pitch.width - letter.label.width).times(2);
  CHECK(std::abs((across - 8.5 * inch).um()) <= 1);
  CHECK(letter.top.times(2) + letter.pitch.height.times(10) == 11 * inch);
  CHECK(letter.label.width.um() == 66'675);
  CHECK_NOTHROW(a4.check());
  CHECK_NOTHROW(letter.check());
  CHECK(a4.at(1) == PagePoint{Length::from_um(7'250), Length::from_um(15'150)});
  CHECK(a4.at(21) == PagePoint{Length::from_um(7'250 + 2 * 66'000), Length::from_um(15'150 + 6 * 38'100)});
  CHECK(letter.at(5) == PagePoint{letter.left + Length::from_um(69'850), Length::from_um(12'700 + 25'400)});
}

TEST_CASE("each colour that is laid has a label, on both ready sheets") {
  for (const LengthUnit unit : {LengthUnit::millimetres, LengthUnit::inches}) {
    Plan plan = small_plan({.colours = 40, .units = unit});
    plan.pieces.lines[6].cells = 0;
    const LabelSheet& sheet = unit == LengthUnit::millimetres ? labels_63_by_38 : labels_66_by_25;
    const std::vector<PrintedPage> pages = colour_label_pages(plan);
    CHECK(pages.size() == 3);
    check_pages(pages, sheet);
    std::vector<int> numbers;
    for (std::size_t i = 1; i < pages.size(); ++i) {
      CHECK(low_digits(pages[i]) == std::vector<std::string>{});
      for (const PageBox& box : pages[i].boxes) {
        for (const PageText& text : pages[i].texts) {
          // the number stands in the middle of its own colour
          if (text.at.x != box.at.x + box.size.width.divided(2) || text.at.y != box.at.y + box.size.height.divided(2))
            continue;
          const int number = std::stoi(text.text);
          CHECK(plan.chart.palette[number].colour == box.fill);
          CHECK(contrast_ratio(text.colour, box.fill) >= 4.5);
          numbers.push_back(number);
        }
      }
    }
    std::vector<int> expected;
    for (int number = 1; number <= 40; ++number) {
      if (number != 7) expected.push_back(number);
    }
    CHECK(numbers == expected);
    const PieceLine& line = plan.pieces.lines[1];
    std::string words;
    for (const PageText& text : pages[1].texts) words += text.text + " ";
    CHECK_THAT(words, Contains(count_text(line.needed()) + " pieces"));
    CHECK_THAT(words, Contains(count_text(line.spares) + " are spares"));
    CHECK_THAT(words, Contains("1 in hand"));
    // no order of packs is cut off in its middle, on the lower labels of Letter neither
    for (const OrderLine& order : plan.order->lines) {
      if (order.number > 20 || order.number == 7) continue;
      std::string packs;
      for (const PackCount& pack : order.packs) {
        packs += (packs.empty() ? "packs: " : " + ") + count_text(pack.count) + " of " + count_text(pack.pack.pieces);
      }
      CHECK_THAT(words, Contains(packs));
    }
  }
}

TEST_CASE("a sheet that was begun before is used from its first free place") {
  const Plan plan = small_plan({.colours = 12});
  const std::vector<PrintedPage> pages = colour_label_pages(plan, {.first_place = 20});
  REQUIRE(pages.size() == 3);
  CHECK(pages[1].boxes.size() == 2);
  CHECK(pages[2].boxes.size() == 10);
  CHECK(pages[1].boxes[0].at.x > labels_63_by_38.at(20).x);
  CHECK(pages[1].boxes[0].at.y > labels_63_by_38.at(20).y);
  CHECK(pages[2].boxes[0].at.y < labels_63_by_38.at(4).y);
  // the proof: white where the first sheet is printed
  int white = 0;
  for (const PageBox& box : pages[0].boxes) white += box.fill == Srgb8{255, 255, 255} ? 1 : 0;
  CHECK(white == 2);
  CHECK(text_of(pages[0], "proof, page 1 of 3") != nullptr);
  CHECK_THROWS_WITH(colour_label_pages(plan, {.first_place = 22}),
                    Contains("first place: 22 is out of range") && Contains("1 to 21"));
  CHECK_THROWS_WITH(colour_label_pages(plan, {.first_place = 0}), Contains("out of range"));
}

TEST_CASE("each strip has a label with its colours in order and its datum end at the lower left") {
  const Plan plan = small_plan({.columns = 60, .rows = 30, .method = Method::strips});
  const std::vector<PrintedPage> pages = strip_label_pages(plan);
  REQUIRE(pages.size() == 3);
  check_pages(pages, labels_63_by_38);
  int labels = 0;
  for (std::size_t i = 1; i < pages.size(); ++i) {
    CHECK(low_digits(pages[i]) == std::vector<std::string>{});
    REQUIRE(!pages[i].boxes.empty());
    for (std::size_t k = 0; k < pages[i].boxes.size(); ++k) {
      const PagePoint at = labels_63_by_38.at(static_cast<int>(k) + 1);
      const PageBox& square = pages[i].boxes[k];
      const Strip& strip = plan.strips->strips[static_cast<std::size_t>(labels)];
      ++labels;
      // the square in the lower left quarter
      CHECK(square.fill == look::accent);
      CHECK(square.at.x < at.x + labels_63_by_38.label.width.divided(4));
      CHECK(square.at.y > at.y + labels_63_by_38.label.height.divided(2));
      std::string colours;
      for (const PageText& text : pages[i].texts) {
        const bool here = text.at.x >= at.x && text.at.x < at.x + labels_63_by_38.label.width && text.at.y >= at.y &&
                          text.at.y < at.y + labels_63_by_38.label.height;
        if (here && text.text.starts_with("course ")) CHECK(text.text == "course " + std::to_string(strip.course));
        if (here && text.text.starts_with("batch "))
          CHECK(text.text == "batch " + std::to_string((strip.course - 1) / 12 + 1));
        if (!here || text.text.find_first_not_of("0123456789 -") != std::string::npos) continue;
        for (const char c : text.text + " ") {
          if (c != ' ' || (!colours.empty() && colours.back() != ' ')) colours += c;
        }
      }
      std::string expected;
      for (const StripSection& section : strip.sections) expected += std::to_string(section.number) + " ";
      CHECK(colours == expected);
    }
  }
  CHECK(labels == 30);
}

TEST_CASE("colours that do not fit on a label end in an ellipsis, and gaps are dashes") {
  Strip strip{.course = 1};
  for (int i = 0; i < 100; ++i)
    strip.sections.push_back({.number = static_cast<ColourNumber>(i % 10 == 0 ? 0 : 10 + i)});
  const std::vector<std::string> lines = detail::colour_lines(strip, 20, 3);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] == "-  11  12  13  14  15  16");
  CHECK(lines[2].ends_with(" …"));
  strip.sections.resize(3);
  CHECK(detail::colour_lines(strip, 20, 3) == std::vector<std::string>{"-  11  12"});
  for (const LengthUnit unit : {LengthUnit::millimetres, LengthUnit::inches}) {
    const Plan plan = small_plan({.columns = 300, .rows = 40, .colours = 120, .method = Method::strips, .units = unit});
    check_pages(strip_label_pages(plan), unit == LengthUnit::inches ? labels_66_by_25 : labels_63_by_38);
  }
}

TEST_CASE("any name stays on its label") {
  Plan plan = small_plan({.colours = 6});
  std::vector<PaletteEntry>& entries = plan.chart.palette.entries;
  entries[0].name = "a very long name that a shop has given its colour, \"warm\" & <deep>";
  entries[1].name = "\xf0\x9f\x90\x8c\xf0\x9f\x90\x8c snail";
  entries[2].name = "\xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d";
  entries[3].name = std::string(200, 'm');
  entries[4].name = "";
  entries[5].name = "\xff\xfe broken bytes";
  plan.job.title = std::string(300, 'W');
  check_pages(colour_label_pages(plan), labels_63_by_38);
  check_pages(colour_label_pages(plan, {.sheet = labels_66_by_25}), labels_66_by_25);
}

TEST_CASE("a sheet of the maker's own is filled by its millimetres") {
  const LabelSheet small{.paper = size_of(Paper::a4),
                         .label = {25 * mm, 15 * mm},
                         .left = 12 * mm,
                         .top = 20 * mm,
                         .pitch = {31 * mm, 17 * mm},
                         .columns = 6,
                         .rows = 15};
  check_pages(colour_label_pages(small_plan(), {.sheet = small}), small);
  const LabelSheet single{.paper = {120 * mm, 60 * mm},
                          .label = {90 * mm, 40 * mm},
                          .left = 15 * mm,
                          .top = 10 * mm,
                          .pitch = {},
                          .columns = 1,
                          .rows = 1};
  const std::vector<PrintedPage> pages = colour_label_pages(small_plan(), {.sheet = single});
  CHECK(pages.size() == 13);
  check_pages(pages, single);
  check_pages(strip_label_pages(small_plan({.method = Method::strips}), {.sheet = small}), small);
}

TEST_CASE("a sheet of labels that cannot be is refused") {
  const Plan plan = small_plan();
  const auto with = [&](auto change) {
    LabelSheet sheet = labels_63_by_38;
    change(sheet);
    return [&plan, sheet] { colour_label_pages(plan, {.sheet = sheet}); };
  };
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.pitch.width = 60 * mm; })(),
                    Contains("labels overlap: they are 63.5 mm wide and 60 mm apart"));
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.pitch.height = 38 * mm; })(), Contains("38.1 mm high and 38 mm apart"));
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.left = 15 * mm; })(),
                    Contains("the last label ends at 210.5 mm on paper 210 mm wide"));
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.rows = 8; })(), Contains("on paper 297 mm high"));
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.columns = 0; })(), Contains("0 x 7 labels is out of range"));
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.label = {20 * mm, 10 * mm}; })(), Contains("25 x 15 mm or more"));
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.left = Length{} - 1 * mm; })(), Contains("0 to 2000 mm"));
  CHECK_THROWS_WITH(with([](LabelSheet& s) { s.pitch.height = 1e9 * mm; })(), Contains("0 to 2000 mm"));
}

TEST_CASE("pieces have no labels of strips, and 400 strips have twenty pages") {
  CHECK(strip_label_pages(small_plan()).empty());
  const Plan plan = small_plan({.columns = 100, .rows = 400, .method = Method::strips});
  CHECK(strip_label_pages(plan).size() == 21);
}
