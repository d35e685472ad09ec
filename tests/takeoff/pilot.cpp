#include "handlaid/takeoff/pilot.hpp"

#include "handlaid/core/random.hpp"
#include "support/catch.hpp"
#include "takeoff/small_chart.hpp"

using namespace handlaid;
using handlaid_test::chart_of;
using handlaid_test::contains;

TEST_CASE("the pilot is the part with the most colours, then the most cells, then the lowest and leftmost") {
  const Chart<> chart = chart_of({"1111122", "111.234", "1112345", "1111111"}, 5);  // course 4 first
  const Patch patch = chart | PilotPatch{.columns = 3, .courses = 2};
  CHECK(patch.first_column == 4);
  CHECK(patch.last_column == 6);
  CHECK(patch.first_course == 1);
  CHECK(patch.last_course == 2);
  CHECK(patch.cells == std::vector<std::int64_t>{0, 3, 1, 1, 1, 0});
  CHECK(patch.laid() == 6);
  CHECK(patch.colours() == 4);
  const Patch whole = chart | PilotPatch{.columns = 100, .courses = 100};
  CHECK(whole.last_column == 7);
  CHECK(whole.last_course == 4);
  CHECK_THROWS_WITH((chart | PilotPatch{.columns = 0}), contains("pilot: 0 x 5 cells"));
}

TEST_CASE("no other place has more colours: every window tried") {
  Random random(4);
  for (int round = 0; round < 50; ++round) {
    std::vector<std::string> lines;
    for (int y = 0; y < 9; ++y) {
      lines.emplace_back();
      for (int x = 0; x < 13; ++x) lines.back() += static_cast<char>('1' + random.below(7));
    }
    const Chart<> chart = chart_of(lines, 7);
    const Patch patch = chart | PilotPatch{.columns = 3, .courses = 2};
    for (int y = 0; y + 2 <= 9; ++y) {
      for (int x = 0; x + 3 <= 13; ++x) {
        std::string seen;
        for (int i = 0; i < 6; ++i) {
          const char c = lines[static_cast<std::size_t>(y + i / 3)][static_cast<std::size_t>(x + i % 3)];
          if (seen.find(c) == seen.npos) seen += c;
        }
        REQUIRE(static_cast<int>(seen.size()) <= patch.colours());
      }
    }
  }
}

TEST_CASE("an order is split without a pack more: small packs for the pilot first") {
  const Pack small = {10, 100};
  const Pack large = {100, 700};
  Order order{
      .lines =
          {{.number = 1,
            .name = "oat",
            .needed = 141,
            .from_hand = 5,
            .packs = {{large, 1}, {small, 4}},
            .bought = 140,
            .left_over = 4,
            .cost_hundredths = 1100},
           {.number = 2,
            .name = "moss",
            .needed = 90,
            .packs = {{large, 1}},
            .bought = 100,
            .left_over = 10,
            .cost_hundredths = 700},
           {.number = 3, .name = "coal", .needed = 10, .packs = {{small, 1}}, .bought = 10, .cost_hundredths = 100}},
      .currency = "EUR"};
  const SplitOrder split = split_for_pilot(order, {0, 18, 8});
  REQUIRE(split.pilot.lines.size() == 2);
  CHECK(split.pilot.lines[0].needed == 18);
  CHECK(split.pilot.lines[0].packs == std::vector<PackCount>{{small, 2}});
  CHECK(split.pilot.lines[1].packs == std::vector<PackCount>{{large, 1}});
  CHECK(split.rest.lines.size() == 3);
  CHECK(split.rest.lines[0].packs == std::vector<PackCount>{{large, 1}, {small, 2}});
  CHECK(split.rest.lines[1].packs.empty());
  CHECK(split.pilot.cost_hundredths() + split.rest.cost_hundredths() == order.cost_hundredths());
  CHECK(split.pilot.pack_count() + split.rest.pack_count() == order.pack_count());
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(split.pilot.lines[i].bought + split.rest.lines[i].bought == order.lines[i].bought);
    CHECK(split.pilot.lines[i].bought + split.pilot.lines[i].from_hand >= split.pilot.lines[i].needed);
  }
}

TEST_CASE("a shop's least number holds for both parts of an order") {
  const Pack rolls = {10, 100, 3};
  Order order{.lines = {{.number = 1, .needed = 70, .packs = {{rolls, 7}}, .bought = 70, .cost_hundredths = 700}}};
  const SplitOrder split = split_for_pilot(order, {0, 1});
  CHECK(split.pilot.lines[0].packs == std::vector<PackCount>{{rolls, 3}});
  CHECK(split.rest.lines[0].packs == std::vector<PackCount>{{rolls, 4}});
  order.lines[0].packs = {{rolls, 5}};
  CHECK(split_for_pilot(order, {0, 1}).pilot.lines[0].packs == std::vector<PackCount>{{rolls, 5}});
}

TEST_CASE("pieces that are tried come beside those that are laid") {
  const Chart<> chart = chart_of({"1111122", "111.234", "1112345", "1111111"}, 5);
  const Patch patch = chart | PilotPatch{.columns = 3, .courses = 2};
  const PieceTakeoff pieces = chart | Pieces{.per_cell = 2} | TrialPieces{.patch = patch};
  // The patch has 3, 1, 1, 1 and no cells of the colours; ten more of the commonest, colour 1.
  std::vector<std::int64_t> trials;
  for (const PieceLine& line : pieces.lines) trials.push_back(line.trials);
  CHECK(trials == std::vector<std::int64_t>{16, 2, 2, 2, 0});
  CHECK(pieces.trials() == 22);
  CHECK(pieces.needed() == pieces.pieces() + 22);
  const PieceTakeoff both = pieces | Spares{} | TrialPieces{.patch = patch, .torn_off = 0};
  CHECK(both.needed() == both.pieces() + both.spares() + 12);
  CHECK_THROWS_WITH((pieces | TrialPieces{.torn_off = -1}), contains("pieces to tear off: -1"));
  CHECK_THROWS_WITH((chart_of({"11"}) | Pieces{} | TrialPieces{.patch = patch}), contains("pilot"));
}

TEST_CASE("strips that are tried are the patch of the chart, strip by strip") {
  Random random(9);
  for (int round = 0; round < 100; ++round) {
    std::vector<std::string> lines;
    for (int y = 0; y < 6; ++y) {
      lines.emplace_back();
      for (int x = 0; x < 11; ++x) lines.back() += ".123"[random.below(4)];
    }
    const Chart<> chart = chart_of(lines, 3, 7.3 * mm);
    const Patch patch = chart | PilotPatch{.columns = 4, .courses = 3};
    const StripTakeoff strips = chart | Strips{} | TrialStrips{.patch = patch};
    // The cells that the sections stand for, beside those of the chart.
    std::size_t at = strips.trials.empty() ? 0 : 1;
    for (int course = patch.first_course; course <= patch.last_course; ++course) {
      std::vector<ColourNumber> planned;
      for (int column = patch.first_column; column <= patch.last_column; ++column) {
        planned.push_back(chart.course(course)[static_cast<std::size_t>(column - 1)]);
      }
      while (!planned.empty() && planned.back() == 0) planned.pop_back();
      if (planned.empty()) continue;
      REQUIRE(at < strips.trials.size());
      const Strip& trial = strips.trials[at++];
      REQUIRE(trial.course == course);
      std::vector<ColourNumber> made;
      for (const StripSection& section : trial.sections) {
        REQUIRE(section.first_column == static_cast<int>(made.size()) + 1);
        REQUIRE(section.start == (7.3 * mm).times(section.first_column - 1));
        REQUIRE(section.end == (7.3 * mm).times(section.last_column));
        made.insert(made.end(), static_cast<std::size_t>(section.last_column - section.first_column + 1),
                    section.number);
      }
      REQUIRE(made == planned);
    }
    REQUIRE(at == strips.trials.size());
    if (!strips.trials.empty()) REQUIRE(strips.trials[0] == strips.trials[1]);
  }
}
