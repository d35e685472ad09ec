// Notes: what a maker should know about a plan before buying anything, a sentence or two each.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/colour/cie.hpp"
#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/difference.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/image/profile.hpp"
#include "handlaid/plan/crop_choice.hpp"
#include "handlaid/plan/dither_choice.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/plan/propose.hpp"

namespace handlaid {

/// Colours nearer than this (CIEDE2000) are easily mixed up on the bench; common practice, no source.
inline constexpr double alike_difference = 5;

/// The notes on a plan whose figures are complete.
template <When = When::called>
std::vector<std::string> notes_on(const Plan& plan);

namespace detail {

/// Thousandths as percent, "99" or "99.5".
template <When = When::called>
std::string percent_of(std::int64_t thousandths) {
  const std::string tenth = thousandths % 10 == 0 ? "" : "." + std::to_string(thousandths % 10);
  return std::to_string(thousandths / 10) + tenth;
}

/// "1", "1 and 2", "1, 2 and 3"; of many the first ten.
template <When = When::called>
std::string listed(const std::vector<std::string>& items) {
  constexpr std::size_t most = 10;
  std::string text;
  const std::size_t shown = std::min(items.size(), most);
  for (std::size_t i = 0; i < shown; ++i) {
    const bool last = i + 1 == items.size();
    text += (i == 0 ? "" : last ? " and " : ", ") + items[i];
  }
  if (items.size() > shown) text += " and " + std::to_string(items.size() - shown) + " more";
  return text;
}

/// What was made of the picture's own colours comes first: all others rest on it.
template <When = When::called>
void note_profile(const PictureProfile& profile, std::vector<std::string>& notes) {
  const std::string sentence = sentence_on(profile);
  if (!sentence.empty()) notes.insert(notes.begin(), sentence);
}

template <When = When::called>
void note_picture(const Plan& plan, std::vector<std::string>& notes) {
  const Rectangular& cells = plan.chart.lattice;
  if (plan.crop.width() < cells.columns || plan.crop.height() < cells.rows) {
    notes.push_back("The part of the picture has only " + std::to_string(plan.crop.width()) + " x " +
                    std::to_string(plan.crop.height()) + " pixels for " + std::to_string(cells.columns) + " x " +
                    std::to_string(cells.rows) + " cells: several cells share a pixel. A larger picture shows more.");
  }
  const Size extent = cells.extent();
  const std::int64_t stretch = stretch_permille(proportion(extent.width.um(), extent.height.um()),
                                                proportion(plan.crop.width(), plan.crop.height()));
  if (std::abs(stretch) >= 15) {
    notes.push_back("The panel is " + percent_of(std::abs(stretch)) + " % " + (stretch > 0 ? "wider" : "narrower") +
                    " than the crop: the picture is stretched that much.");
  }
}

template <When = When::called>
void note_colours(const Plan& plan, std::vector<std::string>& notes) {
  const Palette& palette = plan.chart.palette;
  if (!palette.note.empty()) notes.push_back(palette.note);
  std::vector<std::string> unused;
  for (int number = 1; number <= palette.size(); ++number) {
    if (plan.tally.cells[static_cast<std::size_t>(number)] == 0) unused.push_back(std::to_string(number));
  }
  if (!unused.empty()) {
    notes.push_back((unused.size() == 1 ? "Colour " : "Colours ") + listed(unused) +
                    (unused.size() == 1 ? " is" : " are") + " in no cell: nothing of it is needed.");
  }
  std::vector<LabD65> colours;
  for (const PaletteEntry& entry : palette.entries) colours.push_back(convert_colour<LabD65>(entry.colour));
  std::vector<std::string> pairs;
  for (std::size_t i = 0; i < colours.size() && colours.size() <= 200; ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (ciede2000(colours[i], colours[j]) >= alike_difference) continue;
      pairs.push_back(std::to_string(j + 1) + " and " + std::to_string(i + 1));
    }
  }
  if (!pairs.empty()) {
    std::string list;
    for (std::size_t i = 0; i < std::min<std::size_t>(pairs.size(), 6); ++i) list += (i == 0 ? "" : "; ") + pairs[i];
    if (pairs.size() > 6) list += "; and " + std::to_string(pairs.size() - 6) + " more pairs";
    notes.push_back("Colours that are easily mixed up (CIEDE2000 below 5): " + list +
                    ". Label their bins, and go by the numbers.");
  }
}

template <When = When::called>
void note_takeoff(const Plan& plan, std::vector<std::string>& notes) {
  const std::int64_t laid = plan.tally.laid();
  const bool dithered = plan.job.dither.value_or(DitherChoice::none) != DitherChoice::none;
  if (plan.lone_cells * 10 > laid) {
    notes.push_back(grouped(plan.lone_cells) + " of " + grouped(laid) +
                    " cells stand alone in their colour: each costs a look at the chart. " +
                    (dithered ? "No dither makes calmer areas." : "Fewer colours make calmer areas."));
  }
  if (std::string warning = dither_warning(plan); !warning.empty()) notes.push_back(std::move(warning));
}

}  // namespace detail

template <When>
std::vector<std::string> notes_on(const Plan& plan) {
  std::vector<std::string> notes;
  detail::note_picture(plan, notes);
  detail::note_colours(plan, notes);
  detail::note_takeoff(plan, notes);
  return notes;
}

}  // namespace handlaid
