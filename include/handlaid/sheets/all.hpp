// All sheets of a plan, as named bytes in memory; writing them is the caller's business.
// `for (const SheetFile& file : make_sheets(plan)) …`
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/executor.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/core/work.hpp"
#include "handlaid/files/batches_table.hpp"
#include "handlaid/files/changes_file.hpp"
#include "handlaid/files/chart_table.hpp"
#include "handlaid/files/checks_table.hpp"
#include "handlaid/files/fabrication_tables.hpp"
#include "handlaid/files/job_file.hpp"
#include "handlaid/files/palette_table.hpp"
#include "handlaid/files/pixel_chart.hpp"
#include "handlaid/files/takeoff_tables.hpp"
#include "handlaid/image/write.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/bench_book.hpp"
#include "handlaid/sheets/chart_drawing.hpp"
#include "handlaid/sheets/crop_ruler.hpp"
#include "handlaid/sheets/plan_json.hpp"
#include "handlaid/sheets/preview.hpp"

namespace handlaid {

/// A file that has not been written yet.
struct SheetFile {
  std::string name = {};
  std::string bytes = {};
};

namespace detail {

/// A sheet and how it is made.
struct SheetMaker {
  const char* name = "";
  std::string (*make)(const Plan&) = nullptr;
};

template <When = When::called>
std::string preview_bytes(const Plan& plan, int longer_side) {
  return write_png(Preview{.longer_side = longer_side, .pieces_per_cell = plan.pieces.per_cell}(plan.chart));
}

template <When = When::called>
std::string batches_csv(const Plan& plan) {
  const Fabrication& made = plan.fabrication;
  if (!plan.strips || !made.batches || !made.schedule) return {};
  const int sittings = made.schedule->ways.at(made.schedule->recommended).sittings;
  return write_batches(*plan.strips, *made.batches, sittings, plan.chart.palette);
}

template <When = When::called>
std::string cuts_csv(const Plan& plan) {
  const Fabrication& made = plan.fabrication;
  return made.cutting ? write_cuts(*made.cutting, made.gang ? &*made.gang : nullptr) : std::string{};
}

/// In the order of their use; what the plan has no use for is left out.
template <When = When::called>
std::vector<SheetMaker> sheet_makers(const Plan& plan) {
  std::vector<SheetMaker> makers = {
      {"index.html", [](const Plan& p) { return bench_book(p, preview_bytes(p, 720)); }},
      {"plan.job", [](const Plan& p) { return write_job(p.job, {.defaults = true}); }},
      {"chart.csv", [](const Plan& p) { return write_chart(p.chart); }},
      {"palette.csv", [](const Plan& p) { return write_palette(p.pieces, p.tally); }},
      {"takeoff.csv",
       [](const Plan& p) { return p.order ? write_takeoff(p.pieces, *p.order) : write_takeoff(p.pieces); }},
      {"marks.csv", [](const Plan& p) { return write_marks(p.marks); }},
      {"checks.csv", [](const Plan& p) { return write_checks(course_checks(p.chart)); }},
  };
  if (!plan.changes.empty()) {
    makers.push_back({"changes.txt", [](const Plan& p) { return write_colour_changes(p.changes); }});
  }
  if (plan.strips) {
    makers.push_back({"strips.csv", [](const Plan& p) { return write_strips(*p.strips, p.chart.palette); }});
    makers.push_back({"batches.csv", batches_csv});
    makers.push_back({"cuts.csv", cuts_csv});
  }
  makers.push_back({"frame.csv", [](const Plan& p) { return write_frame(p.fabrication.frame, p.fabrication.sheets); }});
  makers.push_back({"hours.csv", [](const Plan& p) { return write_hours(p.fabrication.labour, p.chart.palette); }});
  makers.push_back({"plan.json", plan_json});
  makers.push_back({"chart.svg", chart_svg});
  makers.push_back({"chart_pixels.png", [](const Plan& p) { return write_png(chart_pixels(p.chart)); }});
  makers.push_back({"preview.png", [](const Plan& p) { return preview_bytes(p, 1400); }});
  if (!plan.thumbnail.empty()) {
    makers.push_back({"crop_ruler.png", [](const Plan& p) {
                        return write_png(CropRuler{p.picture_width, p.picture_height, p.crop}(p.thumbnail));
                      }});
  }
  return makers;
}

}  // namespace detail

/// Every sheet of the plan: index.html (the bench book: open it first), plan.job, chart.csv, palette.csv, takeoff.csv,
/// marks.csv, checks.csv, strips.csv, batches.csv and cuts.csv (only where strips are painted), frame.csv, hours.csv,
/// plan.json, chart.svg, chart_pixels.png (one pixel a cell), preview.png, changes.txt (only where there are changes by
/// hand), crop_ruler.png (only where the plan has a thumbnail). The same plan gives the
/// same bytes for any number of threads.
template <When = When::called>
std::vector<SheetFile> make_sheets(const Plan& plan, const Work& work = {}) {
  if (!work.progress("drawing the sheets", 0)) throw Error::stopped("drawing the sheets");
  const std::vector<detail::SheetMaker> makers = detail::sheet_makers(plan);
  std::vector<SheetFile> files(makers.size());
  for_each_band(static_cast<int>(makers.size()), work, [&](int first, int last) {
    for (auto i = static_cast<std::size_t>(first); i < static_cast<std::size_t>(last); ++i) {
      files[i] = {makers[i].name, makers[i].make(plan)};
      // told from the calling thread alone, which has the first band
      if (first == 0 && !work.progress("drawing the sheets", static_cast<double>(i + 1) / last)) {
        throw Error::stopped("drawing the sheets");
      }
    }
  });
  return files;
}

}  // namespace handlaid
