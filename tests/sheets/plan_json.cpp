#include "handlaid/sheets/plan_json.hpp"

#include <limits>
#include <nlohmann/json.hpp>  // an independent reader

#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::small_plan;
using nlohmann::json;

TEST_CASE("strings come back from an independent reader as they were") {
  for (const std::string& text : {std::string("6\" × 4\\\"; \"\n\t\r"), std::string("a\x01\x7f b\0c", 6),
                                  std::string("🌿 שלום </script>"), std::string("")}) {
    CHECK(json::parse(json_string(text)).get<std::string>() == text);
  }
  CHECK(json::parse(json_string("\xff")).get<std::string>() == "\xef\xbf\xbd");
  CHECK(json_figure(4.31279) == "4.313");
  CHECK(json_figure(0.5) == "0.5");
  CHECK(json_figure(std::numeric_limits<double>::quiet_NaN()) == "null");
  CHECK(json_figure(std::numeric_limits<double>::infinity()) == "null");
}

TEST_CASE("a document must be closed before it is finished") {
  Json open;
  open.open_object();
  CHECK_THROWS_WITH(std::move(open).finish(), contains("still open"));
  CHECK_THROWS_WITH(Json{}.close(), contains("nothing is open"));
}

TEST_CASE("plan.json holds the figures of the plan and no others") {
  const Plan plan = small_plan();
  const json read = json::parse(plan_json(plan));
  CHECK(read["totals"]["cells"] == plan.tally.laid());
  CHECK(read["totals"]["cells"] == 26 * 35 - 1);
  CHECK(read["totals"]["empty_cells"] == 1);
  CHECK(read["totals"]["runs"] == plan.tally.total_runs());
  CHECK(read["totals"]["needed"] == plan.pieces.needed());
  CHECK(read["totals"]["cost_hundredths"] == plan.order->cost_hundredths());
  REQUIRE(read["palette"].size() == 12);
  std::int64_t cells = 0;
  for (std::size_t i = 0; i < 12; ++i) {
    CHECK(read["palette"][i]["cells"] == plan.tally.cells[i + 1]);
    CHECK(read["palette"][i]["pieces"] == plan.tally.cells[i + 1] * 2);
    CHECK(read["palette"][i]["spares"] == plan.pieces.lines[i].spares);
    cells += read["palette"][i]["cells"].get<std::int64_t>();
  }
  CHECK(cells == plan.tally.laid());
  // the chart itself, counted again by hand
  std::vector<std::int64_t> counted(13, 0);
  REQUIRE(read["chart"].size() == 35);
  for (const json& row : read["chart"]) {
    REQUIRE(row.size() == 26);
    for (const json& number : row) ++counted[number.get<std::size_t>()];
  }
  CHECK(counted == plan.tally.cells);
  CHECK(read["chart"][0][25] == 0);
  CHECK(read["board"]["across_um"].size() == 27);
  CHECK(read["board"]["across_um"].back() == 286'000);
  CHECK(read["lattice"]["height_um"] == 385'000);
  CHECK(read["mean_difference"] == 4.313);
  CHECK(read["quality"]["viewing_distance_pitches"] == 227);
  CHECK(read["quality"]["seen_difference"]["mean"] == 2.5);
  CHECK(read["quality"]["recommended_dither"] == "none");
  CHECK(read["quality"]["dithers"][1]["dither"] == "floyd-steinberg");
  CHECK(read["quality"]["dithers"][1]["runs"] == 190);
  CHECK(read["quality"]["worst_cells"] == json::array({{{"course", 35}, {"column", 2}, {"difference", 31.5}}}));
  CHECK(read["quality"]["palette_distance"]["halved"] == 0.7);
  CHECK(read["picture"]["crop"] == json::array({10, 20, 310, 280}));
  CHECK(read["order"].size() == plan.order->lines.size());
  CHECK_FALSE(read.contains("strips"));
}

TEST_CASE("plan.json leaves out what belongs to the other method") {
  const Plan plan = small_plan({.method = Method::strips});
  const json read = json::parse(plan_json(plan));
  CHECK_FALSE(read.contains("order"));
  CHECK_FALSE(read["totals"].contains("cost_hundredths"));
  CHECK(read["method"] == "strips");
  REQUIRE(read["strips"]["sections_by_course"].size() == 35);
  std::int64_t at = 0;
  for (const json& section : read["strips"]["sections_by_course"][0]) {  // each begins where the last one ends
    CHECK(section[1] == at);
    at = section[2].get<std::int64_t>();
  }
  CHECK(at == 286'000);
}

TEST_CASE("hostile names and an empty plan still give JSON") {
  Plan plan = small_plan();
  plan.job.title = "\"}], <b> \\ \xff\x02 שלום 🌿";
  plan.chart.palette.entries[0].name = "a\",\"cells\": 99";
  const json read = json::parse(plan_json(plan));
  CHECK(read["palette"][0]["name"] == "a\",\"cells\": 99");
  CHECK(json::parse(plan_json(Plan{}))["totals"]["cells"] == 0);
}
