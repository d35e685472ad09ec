#include "handlaid/sheets/work_steps.hpp"

#include <algorithm>
#include <set>

#include "handlaid/sheets/order_items.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::small_plan;

namespace {

/// Whether any of the words begins a word of the text.
bool speaks_of(const WorkStep& step, const std::vector<std::string>& words) {
  std::string text = " " + step.title + " " + step.text;
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  for (char& c : text) {
    if (c < 'a' || c > 'z') c = ' ';
  }
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& word) { return text.find(" " + word) != text.npos; });
}

bool warns(const WorkStep& step, std::initializer_list<Hazard> any) {
  return std::any_of(any.begin(), any.end(), [&](Hazard hazard) {
    return std::find(step.hazards.begin(), step.hazards.end(), hazard) != step.hazards.end();
  });
}

}  // namespace

TEST_CASE("each step that can hurt carries its caution") {
  for (const Method method : {Method::pieces, Method::strips}) {
    const std::vector<WorkStep> steps = work_steps(small_plan({.method = method}));
    std::set<Hazard> met;
    for (const WorkStep& step : steps) {
      INFO(step.title);
      CHECK_FALSE(step.text.empty());
      if (speaks_of(step, {"knife", "blade", "cut", "trim", "saw"})) {
        CHECK(warns(step, {Hazard::hand_blade, Hazard::turning_blade}));
      }
      if (speaks_of(step, {"saw"})) CHECK((warns(step, {Hazard::turning_blade}) && warns(step, {Hazard::dust})));
      if (speaks_of(step, {"sand "})) CHECK(warns(step, {Hazard::dust}));
      if (speaks_of(step, {"glue", "paint", "seal", "solvent", "varnish"}))
        CHECK(warns(step, {Hazard::glue_and_paint}));
      if (speaks_of(step, {"lift", "carry"})) CHECK(warns(step, {Hazard::lifting}));
      if (speaks_of(step, {"ladder", "hang it"})) {
        CHECK((warns(step, {Hazard::wall}) && warns(step, {Hazard::ladder})));
      }
      if (speaks_of(step, {"drill", "bored", "screw", "fix"})) CHECK(warns(step, {Hazard::drill}));
      if (speaks_of(step, {"board on", "have it sawn"})) CHECK(warns(step, {Hazard::whole_sheet, Hazard::drill}));
      if (speaks_of(step, {"gang"})) CHECK(warns(step, {Hazard::blade_gang}));
      if (speaks_of(step, {"cells at true scale", "prick"})) CHECK(warns(step, {Hazard::point}));
      met.insert(step.hazards.begin(), step.hazards.end());
    }
    // Every kind is met on the way from the board to the wall, but for the gang, which this job has not, and the awl,
    // which only templates ask for.
    CHECK(met.size() == (method == Method::pieces ? 10 : 9));
  }
}

TEST_CASE("cautions say the one thing that must not be missing, and who decides") {
  CHECK_THAT(caution(Hazard::turning_blade), contains("no gloves"));
  CHECK_THAT(caution(Hazard::hand_blade), contains("wear cut-resistant gloves"));
  CHECK_THAT(caution(Hazard::glue_and_paint), contains("data sheet decides"));
  CHECK_THAT(caution(Hazard::dust), contains("Local exposure limits"));
  CHECK_THAT(caution(Hazard::lifting), contains("23 kg (51 lb)"));  // NIOSH 1994, load constant
  CHECK_THAT(caution(Hazard::wall), contains("Local codes decide"));
  CHECK_THAT(caution(Hazard::wall), contains("licensed trade"));
  CHECK_THAT(caution(Hazard::ladder), contains("second person"));
  CHECK_THAT(caution(Hazard::blade_gang), contains("no hand under the strip"));
  CHECK_THAT(caution(Hazard::drill), contains("eye protection"));
  CHECK_THAT(caution(Hazard::whole_sheet), contains("two people"));
  CHECK_THAT(caution(Hazard::point), contains("never towards the hand"));
  for (int hazard = 0; hazard <= static_cast<int>(Hazard::ladder); ++hazard) {
    const std::string name = caution_name(static_cast<Hazard>(hazard));
    CHECK(name.size() > 2);
    CHECK(name.size() < 40);  // what stands before the colon names the hazard, and no more
  }
}

TEST_CASE("the plan begins with hold points, before the rest is ordered") {
  for (const Method method : {Method::pieces, Method::strips}) {
    const std::vector<WorkStep> steps = work_steps(small_plan({.method = method}));
    std::size_t order = 0;
    while (order < steps.size() && steps[order].title != "Order the rest in one go") ++order;
    REQUIRE(order < steps.size());
    CHECK(order >= 3);
    for (std::size_t i = 0; i < steps.size(); ++i) CHECK(steps[i].hold == (i < order));
    std::string pilot;
    for (std::size_t i = 0; i < order; ++i) pilot += steps[i].text;
    CHECK_THAT(pilot, contains("ASTM D3359"));  // the method to look up for rigid pieces, with ISO 2409
    CHECK_THAT(pilot, contains("the next day"));
    CHECK_THAT(pilot, contains("the richest part"));
  }
}

TEST_CASE("steps belong to the method") {
  std::string pieces;
  for (const WorkStep& step : work_steps(small_plan())) pieces += step.title + " " + step.text + "\n";
  CHECK_THAT(pieces, contains("Order the rest in one go"));
  CHECK_THAT(pieces, !contains("strip"));
  std::string strips;
  for (const WorkStep& step : work_steps(small_plan({.method = Method::strips})))
    strips += step.title + step.text + "\n";
  CHECK_THAT(strips, contains("35 strips and 3 spare ones, each 286 mm long and 22 mm wide, to be folded to 11 mm"));
  CHECK_THAT(strips, !contains("Sort the pieces"));
}

namespace {

/// A plan of strips with everything that can stand in the way of a knife.
Plan plan_of_strips(void (*change)(Job&)) {
  Plan plan = small_plan({.method = Method::strips});
  change(plan.job);
  const Patch pilot = plan.chart | plan.job.pilot;
  plan.strips = plan.chart | plan.job.strips | TrialStrips{pilot} | StripSpares{};
  plan.fabrication =
      fabricate(plan.job, {plan.chart, plan.tally, plan.pieces, plan.order, plan.strips, plan.marks, pilot});
  return plan;
}

std::string text_of(const std::vector<WorkStep>& steps, const std::string& title) {
  for (const WorkStep& step : steps) {
    if (step.title == title) return step.text;
  }
  return "no such step";
}

std::string names_of(const std::vector<OrderItem>& items) {
  std::string names;
  for (const OrderItem& item : items) names += item.what + ": " + item.kind + ": " + item.amount + "\n";
  return names;
}

}  // namespace

TEST_CASE("a strip that keeps an edge is cut before it is mounted, and its number is not painted over") {
  const std::vector<WorkStep> steps = work_steps(plan_of_strips([](Job& job) {
    job.strips = {.fold = Fold::lengthwise, .overlap = 6 * mm, .fastened_edge = 4 * mm, .trim = 15 * mm};
  }));
  const auto place_of = [&](const std::string& title) {
    return std::find_if(steps.begin(), steps.end(), [&](const WorkStep& step) { return step.title == title; });
  };
  // halves hold together before they are cut, pieces hang together before they are mounted
  REQUIRE(place_of("Mount course by course from the bottom") != steps.end());
  CHECK(place_of("Fold the strips and glue their halves together") < place_of("Cut the strips into pieces"));
  CHECK(place_of("Cut the strips into pieces") < place_of("Mount course by course from the bottom"));
  CHECK(place_of("Cut the mounted strips into pieces") == steps.end());
  CHECK_THAT(text_of(steps, "Fold the strips and glue their halves together"),
             contains("along the upper edge, 4 mm wide"));
  CHECK_THAT(text_of(steps, "Cut the strips into pieces"), contains("masking tape that covers its upper 4 mm"));
  CHECK_THAT(text_of(steps, "Mount course by course from the bottom"), contains("cut off the 15 mm that stand over"));
  CHECK_THAT(text_of(steps, "Cut the strips"), contains("keep primer and paint off that end"));
  CHECK_THAT(text_of(steps, "Cut the strips"), contains("17 mm from either long edge"));  // 11 of the course and 6
  CHECK_THAT(text_of(steps, "Lift and carry"), contains("never on its fringe"));
  // Nothing overlaps, nothing stands over: neither is spoken of, and the number hangs from a label.
  const std::vector<WorkStep> plain =
      work_steps(plan_of_strips([](Job& job) { job.strips = {.fold = Fold::lengthwise}; }));
  CHECK_THAT(text_of(plain, "Fold the strips and glue their halves together"), contains("together all over"));
  CHECK(text_of(plain, "Cut the strips into pieces") == "no such step");
  CHECK_THAT(text_of(plain, "Cut the mounted strips into pieces"), !contains("stand over"));
  CHECK_THAT(text_of(plain, "Cut the strips"), contains("label that hangs from its far end"));
  CHECK_THAT(text_of(plain, "Lift and carry"), !contains("fringe"));
}

TEST_CASE("what a step asks for is in the order, and in time for it") {
  const Plan strips = plan_of_strips([](Job& job) {
    job.strips = {.fold = Fold::lengthwise, .overlap = 6 * mm, .fastened_edge = 4 * mm};
    job.material = "paper tape";
    job.glue = "white glue";
    job.board_kind = "plywood";
    job.framed = true;
    job.frame.timber_width = 18 * mm;
    job.hanging.way = HangingWay::wire;
    job.gang.spacers = {{5 * mm, 20}, {1 * mm, 20}, {Length::from_um(100), 50}};
  });
  const std::string pilot = names_of(detail::pilot_items(strips));
  for (const char* needed :
       {"material of the strips: paper tape", "offcut of the board: plywood", "sealer", "primer", "glue: white glue",
        "masking tape", "brushes: flat, no wider than a cell", "blades: round, all of one make, 45 mm across",
        "arbor with two handles", "spacers of the gang"}) {
    CHECK_THAT(pilot, contains(needed));
  }
  const std::string rest = names_of(detail::rest_items(strips));
  for (const char* needed :
       {"board: plywood, 9 mm thick", "timber: planed and dry", "screws: wood, countersunk, 3.5 ×", "wood glue",
        "filler", "eyes on the panel: flat, a ring on a plate, their screws no longer than",
        "pads for the lower corners", "wire: rated for", "wall fixings: a hook"}) {
    CHECK_THAT(rest, contains(needed));
  }
  CHECK_THAT(rest, !contains("keep the panel on its rail"));
  // Pieces on a rail: no wire, no plate, no blades; what is not known is left to be written in.
  const Plan pieces = small_plan();
  CHECK_THAT(names_of(detail::pilot_items(pieces)), contains("glue: :"));
  CHECK_THAT(names_of(detail::pilot_items(pieces)), !contains("blades"));
  CHECK_THAT(names_of(detail::rest_items(pieces)), contains("screws that keep the panel on its rail: wood"));
  CHECK_THAT(names_of(detail::rest_items(pieces)), !contains("wire"));
}

TEST_CASE("the offcut of the pilot holds its patch, a row more and a margin") {
  const Plan plan = small_plan();
  const Size offcut = detail::pilot_offcut(plan);
  // Two columns of 11 mm and a margin of 50 on each side: 122 mm, so 13 cm; one course and one more: the same.
  CHECK(offcut == Size{130 * mm, 130 * mm});
}
