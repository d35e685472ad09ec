// The crop that a job means, as a box of pixels in a picture of known size.
#pragma once

#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_values.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/plan/shape.hpp"

namespace handlaid {

/// The largest box of that proportion in a picture of `width` x `height` pixels, its middle as near as can be to the
/// middle of the pixel `focus`, or of the picture.
template <When = When::called>
CropBox largest_box(int width, int height, const Proportion& shape, std::optional<CropFocus> focus = {}) {
  CropTo crop = {.width_part = shape.width, .height_part = shape.height};
  if (focus) {
    crop.focus_x = (focus->x + 0.5) / width;
    crop.focus_y = (focus->y + 0.5) / height;
  }
  const Crop box = crop.box(width, height);
  return {box.x, box.y, box.x + box.width, box.y + box.height};
}

/// The proportion that the maker chose for the crop, or that of the whole picture.
/// Throws Error for a box or a focus outside the picture.
template <When = When::called>
Proportion crop_proportion(const Job& job, int width, int height) {
  if (!job.crop) return proportion(width, height);
  const std::string size = "the picture is " + std::to_string(width) + " x " + std::to_string(height) + " pixels";
  if (const auto* box = job.crop->box()) {
    if (box->left < 0 || box->top < 0 || box->right > width || box->bottom > height || box->width() < 1 ||
        box->height() < 1) {
      throw Error::bad_option("crop", value_text(*job.crop, {}) + " is not inside the picture",
                              size + "; take the numbers from the ruler picture");
    }
    return proportion(box->width(), box->height());
  }
  const CropAspect& aspect = *job.crop->aspect();
  if (aspect.across < 1 || aspect.down < 1) {
    throw Error::bad_option("crop", value_text(*job.crop, {}) + " is no aspect", "give whole numbers like 3:4");
  }
  if (aspect.focus &&
      (aspect.focus->x < 0 || aspect.focus->y < 0 || aspect.focus->x >= width || aspect.focus->y >= height)) {
    throw Error::bad_option("crop", value_text(*job.crop, {}) + " has its place outside the picture", size);
  }
  return proportion(aspect.across, aspect.down);
}

/// How much wider than high, in thousandths, `shape` is against `other`; negative for narrower.
template <When = When::called>
std::int64_t stretch_permille(const Proportion& shape, const Proportion& other) {
  const std::int64_t a = shape.width * other.height;
  const std::int64_t b = shape.height * other.width;
  return a >= b ? (a - b) * 1'000 / b : -((b - a) * 1'000 / a);
}

/// The part of the picture that fills `cells`. A box is taken as it is; an aspect, or none, becomes the largest box in
/// the very shape of the cells. Throws Error where a chosen shape is more than 5 % off that of the cells, and by more
/// than half a cell.
template <When = When::called>
CropBox choose_crop(const Job& job, const Rectangular& cells, int width, int height) {
  const Proportion wanted = crop_proportion(job, width, height);
  const Size extent = cells.extent();
  const Proportion field = proportion(extent.width.um(), extent.height.um());
  if (job.crop) {
    // Half a cell is what rounding to whole cells may cost.
    const auto with_half_cells = [&](int sign) {
      return proportion(2 * extent.width.um() + sign * cells.pitch_x().um(),
                        2 * extent.height.um() - sign * cells.pitch_y().um());
    };
    const Proportion wider = with_half_cells(1);
    const Proportion narrower = with_half_cells(-1);
    const bool near = stretch_permille(wider, wanted) >= 0 && stretch_permille(narrower, wanted) <= 0;
    if (!near && std::abs(stretch_permille(field, wanted)) > 50) {
      const CropBox best = largest_box(width, height, field);
      throw Error::bad_option("crop",
                              value_text(*job.crop, {}) + " does not have the shape of the panel, " +
                                  std::to_string(cells.columns) + " x " + std::to_string(cells.rows) + " cells or " +
                                  to_text(extent, job.units.value_or(LengthUnit::millimetres)),
                              "give a crop like " + value_text(CropChoice(best), {}) +
                                  ", or leave columns, rows or the board to follow it");
    }
    if (const auto* box = job.crop->box()) return *box;
  }
  return largest_box(width, height, field, job.crop ? job.crop->aspect()->focus : std::nullopt);
}

}  // namespace handlaid
