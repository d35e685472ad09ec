#include "handlaid/sheets/work_steps.hpp"

#include <algorithm>
#include <set>

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
      if (speaks_of(step, {"wall", "drill", "ladder"})) {
        CHECK((warns(step, {Hazard::wall}) && warns(step, {Hazard::ladder})));
      }
      met.insert(step.hazards.begin(), step.hazards.end());
    }
    CHECK(met.size() == 7);  // every kind is met on the way from the board to the wall
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
  CHECK_THAT(strips, contains("35 strips, each 286 mm long and 22 mm wide, to be folded to 11 mm"));
  CHECK_THAT(strips, !contains("pack"));
}
