#include "handlaid/sheets/all.hpp"

#include <map>
#include <nlohmann/json.hpp>

#include "handlaid/image/read.hpp"
#include "sheets/small_plan.hpp"
#include "support/catch.hpp"

using namespace handlaid;
using handlaid_test::contains;
using handlaid_test::small_plan;

namespace {

std::map<std::string, std::string> sheets_of(const Plan& plan, const Work& work = {}) {
  std::map<std::string, std::string> files;
  for (const SheetFile& file : make_sheets(plan, work)) CHECK(files.emplace(file.name, file.bytes).second);
  return files;
}

std::vector<std::string> names_of(const std::map<std::string, std::string>& files) {
  std::vector<std::string> names;
  for (const auto& [name, bytes] : files) names.push_back(name);
  return names;
}

Raster<Srgb8> picture_of(const std::string& png) {
  return read_memory<Srgb8>({reinterpret_cast<const unsigned char*>(png.data()), png.size()}, {}, "sheet");
}

}  // namespace

TEST_CASE("each method has its sheets and no others") {
  const auto pieces = names_of(sheets_of(small_plan()));
  CHECK(pieces == std::vector<std::string>{"chart.csv", "chart.svg", "chart_pixels.png", "checks.csv", "crop_ruler.png",
                                           "frame.csv", "hours.csv", "index.html", "marks.csv", "palette.csv",
                                           "plan.job", "plan.json", "preview.png", "takeoff.csv"});
  const auto strips = names_of(sheets_of(small_plan({.method = Method::strips})));
  CHECK(strips == std::vector<std::string>{"batches.csv", "chart.csv", "chart.svg", "chart_pixels.png", "checks.csv",
                                           "crop_ruler.png", "cuts.csv", "frame.csv", "hours.csv", "index.html",
                                           "marks.csv", "palette.csv", "plan.job", "plan.json", "preview.png",
                                           "strips.csv", "takeoff.csv"});
  Plan blind = small_plan();
  blind.thumbnail = {};
  CHECK(sheets_of(blind).count("crop_ruler.png") == 0);
}

TEST_CASE("the sheets tell of the same plan") {
  const Plan plan = small_plan();
  const auto files = sheets_of(plan);
  CHECK(read_chart(files.at("chart.csv"), files.at("palette.csv"), plan.chart.lattice) == plan.chart);
  CHECK(read_job(files.at("plan.job"), "plan.job") == plan.job);
  const auto json = nlohmann::json::parse(files.at("plan.json"));
  CHECK(json["job"]["title"] == "Heron");
  CHECK(json["job"]["pieces-per-cell"] == "2");
  CHECK(picture_of(files.at("preview.png")) == Preview{.pieces_per_cell = 2}(plan.chart));
  CHECK(picture_of(files.at("crop_ruler.png")) == CropRuler{400, 300, {10, 20, 310, 280}}(plan.thumbnail));
  CHECK_THAT(files.at("index.html"), contains("data:image/png;base64,iVBORw0KGgo"));
}

TEST_CASE("the sheets are the same bytes for any number of threads") {
  const Plan plan = small_plan();
  const auto one = sheets_of(plan);
  CHECK(one == sheets_of(plan, {.threads = 2}));
  CHECK(one == sheets_of(plan, {.threads = 4}));
  CHECK(one == sheets_of(plan, {.threads = 64}));
}

TEST_CASE("drawing can be watched and stopped") {
  double last = -1;
  auto watch = [&](const char*, double done) {
    CHECK(done >= last);
    last = done;
    return true;
  };
  make_sheets(small_plan(), {.threads = 2, .progress = watch});
  CHECK(last == 1);
  auto stop = [](const char*, double done) { return done < 0.3; };
  CHECK_THROWS_WITH(make_sheets(small_plan(), {.progress = stop}), contains("stopped as asked"));
}
