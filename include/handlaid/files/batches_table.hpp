// batches.csv: what is painted in which sitting, in the order of work.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/csv.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/takeoff/paint_order.hpp"

namespace handlaid {

/// The text of batches.csv, a line for each stretch: batch and sitting from 1, the courses of the batch ("1-12", or
/// "1 4-6" where they are no neighbours), colour number and name, course, section as in strips.csv, from and to in mm
/// from the datum end. `sittings` as in `paint_order`. Throws Error where batches or palette are not of the strips.
template <When = When::called>
std::string write_batches(const StripTakeoff& strips, const BatchTakeoff& batches, int sittings,
                          const Palette& palette);

template <When>
std::string write_batches(const StripTakeoff& strips, const BatchTakeoff& batches, int sittings,
                          const Palette& palette) {
  CsvWriter csv;
  for (const char* heading :
       {"batch", "courses", "sitting", "number", "name", "course", "section", "from mm", "to mm"}) {
    csv.field(heading);
  }
  csv.end_line();
  int batch_number = 0;
  for (const Batch& batch : batches.batches) {
    ++batch_number;
    const std::vector<PaintStretch> order = paint_order(strips, batch, sittings);
    const std::string courses = courses_text(strips, batch);
    for (const PaintStretch& stretch : order) {
      csv.field(batch_number).field(courses).field(stretch.sitting);
      csv.field(stretch.number).field(palette[stretch.number].name).field(stretch.course).field(stretch.section);
      csv.field(number_text(stretch.start, LengthUnit::millimetres));
      csv.field(number_text(stretch.end, LengthUnit::millimetres)).end_line();
    }
  }
  return std::move(csv).text();
}

}  // namespace handlaid
