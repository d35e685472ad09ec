// From the words of a job to components: the fitter and the ditherer that it names.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "handlaid/core/pipe.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/dither/error_diffusion.hpp"
#include "handlaid/dither/ordered.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/grid/cells.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/palette/from_stock.hpp"
#include "handlaid/palette/kmeans.hpp"
#include "handlaid/palette/median_cut.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/quantise/quantise.hpp"

namespace handlaid {

/// Makes the chart as the job says: colours from the stock or found in the cells, locked ones kept, dither placed.
template <MeasuredCells T>
Chart<typename T::lattice_type> quantise_as_chosen(const Job& job, const T& cells, const std::optional<Stock>& stock,
                                                   const Work& work = {});

/// Places a palette on cells with the dither of the job.
template <MeasuredCells T>
Chart<typename T::lattice_type> place_as_chosen(const Job& job, const T& cells, const Palette& palette,
                                                const Work& work = {});

namespace detail {

/// Adds the colours of `locks`, with their names where the stock has them.
template <When = When::called>
void add_locks(const std::vector<ColourLock>& locks, Lock kind, const std::optional<Stock>& stock,
               std::vector<PaletteEntry>& entries) {
  for (const ColourLock& lock : locks) {
    PaletteEntry entry = {.colour = lock.colour, .name = lock.name, .lock = kind};
    if (stock) {
      for (const StockColour& item : stock->colours) {
        if (lock.name.empty() ? item.colour != lock.colour : item.name != lock.name) continue;
        entry.colour = item.colour;
        entry.name = item.name;
        break;
      }
    }
    entries.push_back(entry);
  }
}

/// With an importance picture, middle grey counts as one cell.
inline constexpr int middle_grey = 128;

template <When = When::called>
PaletteRules rules_of(const Job& job, const std::optional<Stock>& stock) {
  PaletteRules rules = {.least_distance = job.least_distance.value_or(0)};
  add_locks(job.locks, Lock::used, stock, rules.locked);
  add_locks(job.exact_locks, Lock::exact_only, stock, rules.locked);
  add_locks(job.forbidden, Lock::none, stock, rules.forbidden);
  rules.least_weight = static_cast<std::uint64_t>(job.least_cells.value_or(0)) * (job.importance ? middle_grey : 1U);
  return rules;
}

/// Calls `use(ditherer)` with the one that the job names.
template <class Use>
auto with_ditherer(const Job& job, Use&& use) {
  const double strength = job.dither_strength.value_or(1);
  switch (job.dither.value_or(DitherChoice::none)) {
    case DitherChoice::diffuse_floyd_steinberg:
      return use(ErrorDiffusion{.kernel = floyd_steinberg, .strength = strength});
    case DitherChoice::diffuse_jarvis_judice_ninke:
      return use(ErrorDiffusion{.kernel = jarvis_judice_ninke, .strength = strength});
    case DitherChoice::diffuse_atkinson:
      return use(ErrorDiffusion{.kernel = atkinson, .strength = strength});
    case DitherChoice::ordered_bayer:
      return use(BayerDither{.strength = strength});
    case DitherChoice::ordered_blue_noise:
      return use(BlueNoiseDither{.strength = strength});
    case DitherChoice::none:
      break;
  }
  return use(NoDither{});
}

/// Calls `use(fitter)` with the one that the job names.
template <class Use>
auto with_fitter(const Job& job, const std::optional<Stock>& stock, Use&& use) {
  const int colours = job.colours.value_or(16);
  const PaletteRules rules = rules_of(job, stock);
  if (stock) return use(FromStock{.stock = *stock, .colours = colours, .rules = rules});
  if (job.fitter == FitterChoice::median_cut) return use(MedianCut{.colours = colours, .rules = rules});
  return use(KMeans{.colours = colours, .rules = rules});
}

}  // namespace detail

template <MeasuredCells T>
Chart<typename T::lattice_type> quantise_as_chosen(const Job& job, const T& cells, const std::optional<Stock>& stock,
                                                   const Work& work) {
  return detail::with_fitter(job, stock, [&](const auto& fitter) {
    return detail::with_ditherer(job,
                                 [&](const auto& ditherer) { return apply(quantise(fitter, ditherer), cells, work); });
  });
}

template <MeasuredCells T>
Chart<typename T::lattice_type> place_as_chosen(const Job& job, const T& cells, const Palette& palette,
                                                const Work& work) {
  return detail::with_ditherer(job, [&](const auto& ditherer) {
    return Chart<typename T::lattice_type>{cells.lattice, place_palette(ditherer, cells, palette, work), palette};
  });
}

}  // namespace handlaid
