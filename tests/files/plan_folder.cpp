#include "handlaid/files/plan_folder.hpp"

#include <filesystem>

#include "handlaid/files/again_tables.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
namespace fs = std::filesystem;

namespace {

/// A folder with a small plan, gone afterwards.
struct Scratch {
  Scratch() {
    std::string name = (fs::temp_directory_path() / "handlaid-test-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
    write("chart.csv", "1,,2\n2,2,1\n");
    write("palette.csv", "number,name,colour\n1,coal,#202020\n2,snow,#f0f0f0\n");
    write("plan.job", "pitch = 12 mm\ncourse-pitch = 9 mm\npieces-per-cell = 3\nstock = ../shop.csv\n");
  }
  ~Scratch() { fs::remove_all(path); }
  void write(const std::string& name, const std::string& text) const { write_text_file(path + "/" + name, text); }
  std::string path;
};

}  // namespace

TEST_CASE("a plan is read back from its folder, with its own pitch and pieces") {
  const Scratch folder;
  const PlanFolder plan = read_plan_folder(folder.path);
  CHECK(plan.chart.lattice == Rectangular{.columns = 3, .rows = 2, .pitch = 12 * mm, .course_pitch = 9 * mm});
  CHECK(plan.chart.course(1)[0] == 2);
  CHECK(plan.mark == chart_fingerprint(plan.chart));
  CHECK(plan.stock_file == folder.path + "/../shop.csv");
  // Three cells of snow at three pieces each, no spares in the job; the pilot of a quarter of the chart, 2 x 1 cells.
  CHECK(plan.pieces().lines.at(1).pieces == 9);
  CHECK(plan.pieces().lines.at(1).spares == 0);
  CHECK(plan.pieces().trials() == 2 * 3 + 10);
  folder.write("plan.job", "pitch = 1/2 in\nspares = 50 %\nspares-confidence = 50 %\nstock = /srv/shop.csv\n");
  const PlanFolder spared = read_plan_folder(folder.path);
  CHECK(spared.per_cell() == 1);
  CHECK(spared.pieces().lines.at(1).spares > 0);
  CHECK(spared.stock_file == "/srv/shop.csv");
}

TEST_CASE("a folder that is no plan of pieces is refused with the file") {
  const Scratch folder;
  folder.write("plan.job", "columns = 4\npitch = 12 mm\n");
  CHECK_THROWS_WITH(read_plan_folder(folder.path),
                    contains("chart.csv: it has 3 columns and 2 courses, plan.job 4 and 2"));
  folder.write("plan.job", "columns = 3\n");
  CHECK_THROWS_WITH(read_plan_folder(folder.path), contains("plan.job: it has no pitch"));
  folder.write("plan.job", "pitch = 12 mm\nmethod = strips\n");
  CHECK_THROWS_WITH(read_plan_folder(folder.path), contains("plan.job: its strips are painted"));
  folder.write("plan.job", "pitch = 12 mm\n");
  folder.write("palette.csv", "number,name,colour\n1,coal,#202020\n");
  CHECK_THROWS_WITH(read_plan_folder(folder.path), contains("chart.csv"));
  fs::remove(folder.path + "/chart.csv");
  CHECK_THROWS_WITH(read_plan_folder(folder.path), contains("chart.csv"));
  CHECK_THROWS_WITH(read_plan_folder(folder.path + "/none"), contains("none/plan.job"));
}

TEST_CASE("the tables of planning again hold what was planned") {
  CHECK(write_changes({{.course = 4, .column = 7, .from = 2, .to = 1}}) == "course,column,from,to\n4,7,2,1\n");
  const Order order{.lines = {{.number = 2,
                               .name = "snow, old",
                               .needed = 60,
                               .packs = {{.pack = {.pieces = 50}, .count = 1}, {.pack = {.pieces = 20, .article = "S-20"}, .count = 2}},
                               .bought = 90,
                               .left_over = 30,
                               .cost_hundredths = 760}},
                    .currency = "EUR"};
  CHECK(write_order(order) ==
        "number,name,needed,packs,articles,bought,left over,cost EUR\n"
        "2,\"snow, old\",60,1 of 50 + 2 of 20,S-20,90,30,7.60\n");
  CHECK(with_order({1, 2, 3}, order) == std::vector<std::int64_t>{1, 92, 3});
  CHECK_THROWS_WITH(with_order({1}, order), contains("order, colour 2"));
  const Palette palette{.entries = {{.name = "coal"}}};
  CHECK(write_remaining({.lines = {{.number = 1, .done = 4, .left = 8}}}, palette, {9}) ==
        "number,name,laid,to lay,in hand\n1,coal,4,8,9\n");
  CHECK_THROWS_WITH(write_remaining({}, palette, {9}), contains("remaining.csv"));
}
