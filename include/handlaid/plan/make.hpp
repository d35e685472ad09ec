// Making a plan: from the bytes of a picture and a job to everything that is counted, all in memory.
// `make_plan(job, bytes, stock, Work{.threads = 2})`
#pragma once

#include <algorithm>
#include <concepts>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/core/work.hpp"
#include "handlaid/files/job_pieces.hpp"
#include "handlaid/grid/map_to.hpp"
#include "handlaid/grid/renumber.hpp"
#include "handlaid/image/convert.hpp"
#include "handlaid/image/crop.hpp"
#include "handlaid/image/ground.hpp"
#include "handlaid/image/read.hpp"
#include "handlaid/image/resample.hpp"
#include "handlaid/image/tone.hpp"
#include "handlaid/plan/apply_changes.hpp"
#include "handlaid/plan/chosen_quantiser.hpp"
#include "handlaid/plan/dither_choice.hpp"
#include "handlaid/plan/notes.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/plan/propose.hpp"
#include "handlaid/plan/stability.hpp"
#include "handlaid/quality/colour_error.hpp"
#include "handlaid/quality/lone_cells.hpp"
#include "handlaid/takeoff/pilot.hpp"
#include "handlaid/takeoff/strip_spares.hpp"

namespace handlaid {

/// What is measured beside what every plan has.
struct Measuring {
  /// How stable the palette is (`PlanQuality::stability`): five more fits. Left out for panels above 250,000 cells.
  bool stability = false;
};

/// Plans a panel from a picture of any pixel type. Everything that `job` leaves open is proposed.
/// `importance` and `changes` are what the job's words of those names stand for: a picture as large as the picture,
/// what the file says; empty without the word. Changes are made in the chart before anything is counted. The picture is
/// only read: rows outside the crop are touched for the thumbnail alone. Throws Error where options contradict each
/// other, the picture or the stock, or would have no effect.
template <Picture R>
Plan make_plan(const Job& job, const R& picture, const std::optional<Stock>& stock = {}, const Work& work = {},
               const Measuring& measuring = {}, const Raster<Srgb8>& importance = {},
               const ColourChanges& changes = {});

/// Bytes in memory: a vector, a span, an array of them.
template <class B>
concept PictureBytes = std::convertible_to<const B&, std::span<const unsigned char>>;

/// The same from the bytes of a picture file in memory; `name` is what messages call it.
template <PictureBytes B>  // a template, so that including it costs no more than reading it
Plan make_plan(const Job& job, const B& bytes, const std::string& name = "picture",
               const std::optional<Stock>& stock = {}, const Work& work = {}, const Measuring& measuring = {},
               const Raster<Srgb8>& importance = {}, const ColourChanges& changes = {});

/// The longest side of `Plan::thumbnail`, in pixels.
inline constexpr int thumbnail_side = 1000;

namespace detail {

/// A raster as a view, so that cropping it copies nothing.
template <Picture R>
decltype(auto) borrowed(const R& picture) {
  if constexpr (std::same_as<R, Raster<PixelOf<R>>>) {
    return picture.view();
  } else {
    return (picture);
  }
}

/// Laid over white, and small.
template <Picture R>
Raster<Srgb8> thumbnail_of(const R& picture, const Work& work) {
  const int longest = std::max(picture.width(), picture.height());
  const auto side = [&](int length) {
    return longest <= thumbnail_side ? length : static_cast<int>(in_proportion(length, thumbnail_side, longest));
  };
  const auto small = apply(Resample{.width = side(picture.width()), .height = side(picture.height())}, picture, work);
  return small | over({255, 255, 255}) | convert<Srgb8>;
}

template <Picture R>
bool any_transparent(const R& picture) {
  for (int y = 0; y < picture.height(); ++y) {
    const auto& row = picture.row(y);
    for (int x = 0; x < picture.width(); ++x) {
      if (opacity_of(row[static_cast<std::size_t>(x)]) != 65535U) return true;
    }
  }
  return false;
}

/// Lays the lattice over the part of the picture, with the ground that the job asks for.
template <Picture R>
auto lay(const Job& job, const Rectangular& cells, const R& part, const Work& work) {
  if (!job.ground) return apply(map_to(cells), part, work);
  if constexpr (AlphaPixel<PixelOf<R>>) {
    if (any_transparent(part)) return apply(over(*job.ground) | map_to(cells), part, work);
  }
  throw Error::bad_option("ground", "it has no effect: this part of the picture is nowhere transparent",
                          "leave it out, or give a clear-colour too");
}

/// The same after making a plain ground transparent.
template <Picture R>
auto clear_and_lay(const Job& job, const Rectangular& cells, const R& part, const Work& work) {
  if (!job.clear_colour) return lay(job, cells, part, work);
  const bool before = any_transparent(part);
  const auto cleared = apply(clear(*job.clear_colour, job.clear_tolerance.value_or(0.05)), part, work);
  if (!before && !any_transparent(cleared)) {
    throw Error::bad_option("clear-colour",
                            "it has no effect: this part of the picture has nothing like " + to_hex(*job.clear_colour),
                            "give a colour that it has, or a larger clear-tolerance");
  }
  return lay(job, cells, cleared, work);
}

/// How much each cell counts: the lightness of its part of the importance picture, as a code.
template <When = When::called>
Raster<std::uint16_t> cell_importance(const Raster<Srgb8>& importance, const CropBox& box, const Rectangular& lattice,
                                      const Work& work) {
  const auto part = importance.view() | Crop{.x = box.left, .y = box.top, .width = box.width(), .height = box.height()};
  const auto cells = apply(map_to(lattice), part, work);
  Raster<std::uint16_t> weights(cells.columns(), cells.rows());
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const auto light = static_cast<std::int64_t>(relative_luminance(cells.colours.pixels()[i]) * linear_white + 0.5);
    weights.pixels()[i] = Srgb8::from_light({light, light, light}).g;
  }
  return weights;
}

/// Everything that is counted from the chart.
template <When = When::called>
void take_off(Plan& plan, const std::optional<Stock>& stock) {
  const Job& job = plan.job;
  plan.tally = tally(plan.chart);
  const Patch pilot = pilot_of(job, plan.chart);
  plan.pieces = pieces_of(job, plan.chart, plan.tally, pilot);
  const bool sold = stock && sells_pieces(*stock);
  if (job.method == Method::strips) {
    plan.strips = TrialStrips{pilot}(job.strips(plan.chart));
    if (const double loss = job.spares.value_or(0); loss > 0) {
      const StripSpares spares{.loss = loss, .confidence = job.spares_confidence.value_or(0.99)};
      plan.strips = spares(*std::move(plan.strips));
    }
    // Paint, as was proposed.
    if (sold) plan.order = choose_packs(*stock)(paint_needs(job.painting(*plan.strips), plan.chart.palette));
  } else if (sold) {
    plan.order = choose_packs(*stock)(job.piece_amount(plan.pieces));
  }
  const Size extent = plan.chart.lattice.extent();
  BoardMarking marking;
  if (job.board) {  // rounding of the pitch may make the cells a hair longer
    marking.board = {std::max(job.board->width, extent.width), std::max(job.board->height, extent.height)};
  }
  plan.marks = marking(plan.chart);
  plan.fabrication = fabricate(job, {plan.chart, plan.tally, plan.pieces, plan.order, plan.strips, plan.marks, pilot});
}

}  // namespace detail

template <Picture R>
Plan make_plan(const Job& job, const R& picture, const std::optional<Stock>& stock, const Work& work,
               const Measuring& measuring, const Raster<Srgb8>& importance, const ColourChanges& changes) {
  if (job.importance.has_value() == importance.empty()) {
    throw Error::bad_option("importance", "the job and what is given with it differ", "give both or neither");
  }
  if (job.changes.has_value() == changes.empty()) {
    throw Error::bad_option("changes", "the job and what is given with it differ", "give both or neither");
  }
  if (!importance.empty() && (importance.width() != picture.width() || importance.height() != picture.height())) {
    throw Error::bad_option("importance",
                            "it has " + std::to_string(importance.width()) + " x " +
                                std::to_string(importance.height()) + " pixels, the picture " +
                                std::to_string(picture.width()) + " x " + std::to_string(picture.height()),
                            "make it as large as the picture");
  }
  Proposal proposal = propose(job, picture.width(), picture.height(), stock ? &*stock : nullptr);
  Plan plan = {.job = std::move(proposal.job), .reasons = std::move(proposal.reasons)};
  plan.picture_width = picture.width();
  plan.picture_height = picture.height();
  plan.crop = proposal.crop;
  plan.thumbnail = detail::thumbnail_of(picture, work);

  const CropBox& box = plan.crop;
  const auto part =
      detail::borrowed(picture) | Crop{.x = box.left, .y = box.top, .width = box.width(), .height = box.height()};
  auto cells = detail::clear_and_lay(plan.job, proposal.cells, part, work);
  auto toned = apply(convert<Oklab> | tone_of(plan.job), std::move(cells), work);
  if (!importance.empty()) toned.importance = detail::cell_importance(importance, box, toned.lattice, work);
  Job undithered = plan.job;
  undithered.dither = DitherChoice::none;
  plan.chart = quantise_as_chosen(undithered, toned, stock, work);
  if (!work.progress("looking from afar", 0)) throw Error::stopped("looking from afar");
  const PanelLook look(toned, *plan.job.viewing_distance);
  plan.quality.distance = *plan.job.viewing_distance;
  plan.quality.dithers = look.dithers(plan.job, plan.chart.palette, work);
  detail::choose_dither(plan);
  if (*plan.job.dither != DitherChoice::none) {
    plan.chart = place_as_chosen(plan.job, toned, plan.chart.palette, work);
  }
  if (plan.job.numbering == Numbering::clear) plan.chart = ClearNumbers{}(plan.chart);
  const std::vector<MadeChange> made =
      apply_changes(plan.chart, changes, stock ? &*stock : nullptr, detail::rules_of(plan.job, stock).forbidden);
  plan.changes = changes;
  detail::take_off(plan, stock);
  const ColourError error = colour_error(toned, plan.chart);
  plan.mean_difference = error.mean;
  plan.high_difference = error.high;
  std::vector<DitherLook> looks = std::move(plan.quality.dithers);
  plan.quality = look.measure(toned, plan.chart);
  plan.quality.dithers = std::move(looks);
  if (measuring.stability && toned.colours.size() <= 250'000) {
    if (!work.progress("measuring", 0)) throw Error::stopped("measuring");
    plan.quality.stability = plan_stability(plan.job, toned, part, stock, work);
  }
  plan.lone_cells = lone_cells(plan.chart);
  plan.notes = notes_on(plan);
  detail::note_changes(made, plan.notes);
  return plan;
}

template <PictureBytes B>
Plan make_plan(const Job& job, const B& bytes, const std::string& name, const std::optional<Stock>& stock,
               const Work& work, const Measuring& measuring, const Raster<Srgb8>& importance,
               const ColourChanges& changes) {
  const PictureInfo info = picture_info(bytes, name);
  // Options are refused before the time is spent on decoding.
  propose(job, info.width, info.height, stock ? &*stock : nullptr);
  if (!work.progress("reading the picture", 0)) throw Error::stopped("reading the picture");
  Plan plan = info.has_alpha
                  ? make_plan(job, read_memory<Srgba8>(bytes, {}, name), stock, work, measuring, importance, changes)
                  : make_plan(job, read_memory<Srgb8>(bytes, {}, name), stock, work, measuring, importance, changes);
  detail::note_profile(info.profile, plan.notes);
  return plan;
}

}  // namespace handlaid
