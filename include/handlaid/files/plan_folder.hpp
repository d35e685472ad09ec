// The folder of a plan, read back: chart.csv, palette.csv and plan.job are the chart with its lattice, and what a cell
// takes. The picture is not needed again.
#pragma once

#include <algorithm>
#include <string>
#include <utility>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/chart_table.hpp"
#include "handlaid/files/job_file.hpp"
#include "handlaid/files/job_pieces.hpp"
#include "handlaid/files/progress_table.hpp"
#include "handlaid/files/text_file.hpp"
#include "handlaid/takeoff/board_marks.hpp"
#include "handlaid/takeoff/pieces.hpp"
#include "handlaid/takeoff/strips.hpp"

namespace handlaid {

/// What a plan says of its chart.
struct PlanFolder {
  Job job = {};
  Chart<> chart = {};
  /// `chart_fingerprint` of the chart.
  std::string mark = {};
  /// Where its stock file stands, from where we are; empty where the plan has none.
  std::string stock_file = {};

  int per_cell() const { return job.pieces_per_cell.value_or(1); }
  /// Pieces of each colour, with the spares of the job and those of its pilot.
  template <When = When::called>
  PieceTakeoff pieces() const {
    return pieces_of(job, chart, tally(chart), pilot_of(job, chart));
  }
  /// How far its strips hang over the course below; 0 where there are none.
  template <When = When::called>
  Length overlap() const {
    return job.method == Method::strips ? (chart | job.strips).overlap : Length{};
  }
  /// The marks on its board.
  template <When = When::called>
  BoardMarks marks() const {
    const Size extent = chart.lattice.extent();
    BoardMarking marking;
    if (job.board) {  // rounding of the pitch may make the cells a hair longer
      marking.board = {std::max(job.board->width, extent.width), std::max(job.board->height, extent.height)};
    }
    return marking(chart);
  }
};

struct PlanFolderOptions {
  /// Whether a plan of painted strips is taken too, in which no pieces are counted.
  bool strips = false;
};

/// Reads the folder of a plan whose pieces are counted. Throws Error with the file and place for what is missing or
/// damaged, where the job has no pitch or another size than the chart, and for a plan of painted strips that was not
/// asked for.
template <When = When::called>
PlanFolder read_plan_folder(const std::string& folder, const PlanFolderOptions& options = {}) {
  const auto path = [&](const char* name) { return folder + "/" + name; };
  PlanFolder plan{.job = read_job(read_text_file(path("plan.job"), 1'000'000), path("plan.job"))};
  const Job& job = plan.job;
  if (job.method == Method::strips && !options.strips) {
    throw Error::bad_input(path("plan.job"), "its strips are painted, no pieces are counted",
                           "give the plan of a panel of pieces");
  }
  if (!job.pitch) {
    throw Error::bad_input(path("plan.job"), "it has no pitch", "add a line like pitch = 11 mm");
  }
  const std::string numbers = read_text_file(path("chart.csv"));
  const Raster<ColourNumber> cells = read_chart_numbers(numbers, path("chart.csv"));
  const Rectangular lattice{.columns = job.columns.value_or(cells.width()),
                            .rows = job.rows.value_or(cells.height()),
                            .pitch = *job.pitch,
                            .course_pitch = job.course_pitch.value_or(Length{})};
  if (lattice.columns != cells.width() || lattice.rows != cells.height()) {
    throw Error::bad_input(path("chart.csv"),
                           "it has " + std::to_string(cells.width()) + " columns and " +
                               std::to_string(cells.height()) + " courses, plan.job " +
                               std::to_string(lattice.columns) + " and " + std::to_string(lattice.rows),
                           "give both files of one plan");
  }
  plan.chart =
      read_chart(numbers, read_text_file(path("palette.csv")), lattice, path("chart.csv"), path("palette.csv"));
  plan.mark = chart_fingerprint(plan.chart);
  if (job.stock) plan.stock_file = job.stock->starts_with('/') ? *job.stock : folder + "/" + *job.stock;
  return plan;
}

}  // namespace handlaid
