// Proposing: whatever a job leaves open gets a value, and a sentence that says why.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job_file.hpp"
#include "handlaid/palette/stock.hpp"
#include "handlaid/plan/crop_choice.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/plan/shape.hpp"

namespace handlaid {

/// A complete job, and why it has what the maker did not give.
struct Proposal {
  Job job = {};
  Rectangular cells = {};
  CropBox crop = {};
  std::vector<Reason> reasons = {};
};

/// Completes a job, all but its dither, for a picture of `width` x `height` pixels (upright), and for a stock if there
/// is one. Proposing again from the result changes nothing and gives no reasons. What stands for "nothing", such as a
/// contrast of 0, is left out of the result. Throws Error where options contradict each other, the picture, or the
/// stock, or would have no effect.
template <When = When::called>
Proposal propose(const Job& given, int width, int height, const Stock* stock = nullptr);

/// Whether a stock counts pieces: a list of paints has neither packs of pieces nor pieces in hand.
inline bool sells_pieces(const Stock& stock) {
  return std::any_of(stock.colours.begin(), stock.colours.end(),
                     [](const StockColour& colour) { return !colour.packs.empty() || colour.in_hand > 0; });
}

/// "16,700": thousands set apart.
template <When = When::called>
std::string grouped(std::int64_t number) {
  std::string digits = std::to_string(number);
  for (auto at = static_cast<std::ptrdiff_t>(digits.size()) - 3; at > (number < 0 ? 1 : 0); at -= 3) {
    digits.insert(static_cast<std::size_t>(at), ",");
  }
  return digits;
}

/// How far away a panel is looked at: across a room, 2.5 m or 8 ft; common practice, no source.
constexpr Length hanging_distance(LengthUnit unit) { return unit == LengthUnit::millimetres ? 2'500 * mm : 96 * inch; }
/// A piece in the hand of someone who is not in a hurry; a guess to be replaced by own minutes.
inline constexpr std::int64_t seconds_a_piece = 10;

namespace detail {

/// Sets what is open and keeps the reason.
class Proposer {
 public:
  explicit Proposer(Proposal& to) : to_(to) {}

  template <class T, class V>
  void open(std::optional<T> Job::*option, const char* word, const V& value, const std::string& sentence) {
    if (to_.job.*option) return;
    to_.job.*option = T(value);
    const LengthUnit unit = to_.job.units.value_or(LengthUnit::millimetres);
    to_.reasons.push_back({word, value_text(*(to_.job.*option), unit), sentence});
  }
  void say(const char* word, const std::string& value, const std::string& sentence) {
    to_.reasons.push_back({word, value, sentence});
  }

 private:
  Proposal& to_;
};

/// The name of a file without its folders and its ending.
template <When = When::called>
std::string stem_of(const std::string& path) {
  const std::size_t slash = path.find_last_of("/\\");
  const std::string name = slash == path.npos ? path : path.substr(slash + 1);
  const std::size_t dot = name.find_last_of('.');
  return dot == name.npos || dot == 0 ? name : name.substr(0, dot);
}

/// How long laying takes; a rule of thumb.
template <When = When::called>
std::string hours_text(std::int64_t pieces) {
  const std::int64_t hours = (pieces * seconds_a_piece + 1'800) / 3'600;
  return hours < 2 ? "an hour or two" : "about " + grouped(hours) + " hours";
}

template <When = When::called>
std::string pitch_sentence(const Job& given, const Rectangular& cells, bool one_a_pixel) {
  const std::int64_t count = std::int64_t{cells.columns} * cells.rows;
  const std::string work = grouped(count) + (count == 1 ? " cell" : " cells") +
                           " in all: " + hours_text(count * given.pieces_per_cell.value_or(1)) + " of laying at " +
                           std::to_string(seconds_a_piece) +
                           " seconds a piece, which is a guess; time a course of yours.";
  if (given.columns || given.rows || one_a_pixel) return "The largest that fits, in steps that a rule shows. " + work;
  if (count < fewest_cells) return "The smallest that is easy to hold; the board takes no more. " + work;
  if (count > many_cells) return "Larger cells would show little of the picture. " + work;
  return "Cells enough to show a face, few enough to lay. " + work;
}

template <When = When::called>
void propose_shape(const Job& given, int width, int height, Proposal& proposal) {
  Job& job = proposal.job;
  Proposer proposer(proposal);
  const LengthUnit unit = *job.units;
  const Proportion shape = crop_proportion(given, width, height);
  const bool follows_picture = !given.board && !(given.columns && given.rows);
  if (follows_picture && std::max(shape.width, shape.height) > 20 * std::min(shape.width, shape.height)) {
    throw Error::bad_option(
        "picture",
        std::to_string(width) + " x " + std::to_string(height) + " pixels are too narrow to propose a panel from",
        "give a crop, or columns and rows");
  }
  std::optional<Proportion> pixels;
  if (!given.crop && width <= 250 && height <= 250 && std::int64_t{width} * height <= many_cells) {
    pixels = Proportion{width, height};
  }
  proposal.cells = shape_panel(given, shape, pixels);
  proposal.crop = choose_crop(given, proposal.cells, width, height);
  const Rectangular& cells = proposal.cells;
  const Size extent = cells.extent();

  const bool one_a_pixel = pixels && cells.columns == width && cells.rows == height;
  const bool nothing_given = !given.board && !given.columns && !given.rows && !given.pitch;
  if (!given.board && !(given.columns && given.rows && given.pitch)) {
    proposer.say("board", shown(extent.width, unit) + " x " + shown(extent.height, unit),
                 nothing_given && !one_a_pixel ? "As large as the cells; about " + shown(usual_length(unit), unit) +
                                                     " along the longer side, which one person can carry."
                                               : std::string("As large as the cells."));
  }
  if (job.board && job.board->width <= extent.width && job.board->height <= extent.height) {
    job.board.reset();  // it follows from the cells
  }
  const auto along = [&](const char* board_is) -> std::string {
    if (one_a_pixel) return "One cell for each pixel of this small picture.";
    if (given.board) return std::string("As many whole cells as the board is ") + board_is + ".";
    return "So that the panel keeps the shape of the picture.";
  };
  proposer.open(&Job::columns, "columns", cells.columns, along("wide"));
  proposer.open(&Job::rows, "rows", cells.rows, along("high"));
  proposer.open(&Job::pitch, "pitch", cells.pitch, pitch_sentence(given, cells, one_a_pixel));

  if (!given.crop || given.crop->box() == nullptr) {
    job.crop = CropChoice(proposal.crop);
    proposer.say("crop", value_text(*job.crop, unit),
                 proposal.crop == CropBox{0, 0, width, height}
                     ? "The whole picture."
                     : "The largest part in the shape of the panel, " +
                           std::string(given.crop ? "as near to the place as can be" : "from the middle") +
                           "; move it by the numbers on the ruler picture.");
  }
}

/// Calls `look(word, colour)` for the colours that a job names.
template <class Look>
void for_each_named_colour(const Job& job, Look&& look) {
  for (const ColourLock& lock : job.locks) look("lock", lock);
  for (const ColourLock& lock : job.exact_locks) look("lock-exact", lock);
  for (const ColourLock& lock : job.forbidden) look("forbid", lock);
}

template <When = When::called>
void propose_colours(const Stock* stock, Proposal& proposal) {
  Job& job = proposal.job;
  Proposer proposer(proposal);
  const auto locked = static_cast<int>(job.locks.size() + job.exact_locks.size());
  constexpr int usual = 16;
  if (stock != nullptr) {
    const auto stocked = static_cast<int>(stock->colours.size());
    const bool paints = stock->unit == StockUnit::millilitres;
    if (sells_pieces(*stock) && *job.method == Method::strips && !paints) {
      throw Error::bad_option("stock",
                              std::string("its packs hold ") + symbol(stock->unit) + ", and strips are painted",
                              "give a stock of paints with packs in ml, or use the method pieces");
    }
    if (*job.method == Method::pieces && paints) {
      throw Error::bad_option("stock", "its packs hold ml, and pieces are bought in their colours",
                              "give a stock of pieces, or use the method strips");
    }
    if (job.colours && *job.colours > stocked) {
      throw Error::bad_option(
          "colours", std::to_string(*job.colours) + " are more than the " + std::to_string(stocked) + " of the stock",
          "give at most " + std::to_string(stocked));
    }
    for_each_named_colour(job, [&](const char* word, const ColourLock& lock) {
      const bool known = std::any_of(stock->colours.begin(), stock->colours.end(), [&](const StockColour& colour) {
        return lock.name.empty() ? colour.colour == lock.colour : colour.name == lock.name;
      });
      if (!known) throw Error::bad_option(word, "the stock has no " + value_text(lock, {}), "give a name of the stock");
    });
    for (const std::string& lot : job.lots) {
      std::string_view number = {};
      const std::string name(without_blanks(up_to(lot, ":", number)));
      if (stock->find(name) != nullptr) continue;
      std::vector<std::string> names;
      for (const StockColour& colour : stock->colours) names.push_back(colour.name);
      throw Error::bad_option("lot", "the stock has no " + quoted_in_message(name),
                              "did you mean \"" + nearest_word(name, names) + "\"?");
    }
    const int colours = std::min(std::max(usual, locked), stocked);
    proposer.open(&Job::colours, "colours", colours,
                  colours == stocked ? "All that the stock has."
                                     : "A number of bins that can be kept apart on one bench; common practice, no "
                                       "source. Fewer are quicker to lay, more show finer shades.");
  } else {
    for_each_named_colour(job, [&](const char* word, const ColourLock& lock) {
      if (!lock.name.empty()) {
        throw Error::bad_option(word, "\"" + lock.name + "\" is a name, and there is no stock to find it in",
                                "give a colour as #rrggbb, or a stock");
      }
    });
    proposer.open(&Job::colours, "colours", std::max(usual, locked),
                  locked > usual ? "The locked ones."
                                 : "A number of bins that can be kept apart on one bench; common practice, no source. "
                                   "Fewer are quicker to lay, more show finer shades.");
    if (*job.colours > locked) {
      proposer.open(&Job::fitter, "fitter", FitterChoice::kmeans, "It has the smallest error on photos.");
    }
  }
  proposer.open(&Job::viewing_distance, "viewing-distance", hanging_distance(*job.units),
                "Across a room; common practice, no source. It decides how finely colours may be mixed.");
  if (job.viewing_distance->um() / most_pitches_away > proposal.cells.pitch.um()) {
    throw Error::bad_option("viewing-distance",
                            value_text(*job.viewing_distance, *job.units) +
                                " is more than 100,000 times the pitch of " +
                                value_text(proposal.cells.pitch, *job.units),
                            "give at most " + value_text(proposal.cells.pitch.times(most_pitches_away), *job.units) +
                                ", or a larger pitch");
  }
  // A dither that is left open is chosen by what it looks like, once there are cells to look at.
  if (job.dither.value_or(DitherChoice::none) != DitherChoice::none) {
    proposer.open(&Job::dither_strength, "dither-strength", 1.0, "The dither as published.");
  }
}

template <When = When::called>
void propose_takeoff(Proposal& proposal) {
  Job& job = proposal.job;
  Proposer proposer(proposal);
  const Size board = job.board.value_or(proposal.cells.extent());
  Frame frame = job.frame;
  frame.wall_rail = job.hanging.way == HangingWay::rail;
  proposer.open(&Job::framed, "frame", frame.fits(board),
                frame.fits(board) ? "It keeps the board flat, stiff and off the wall."
                                  : "Timber of the usual length and width makes none for this board.");
  proposer.open(&Job::pieces_per_cell, "pieces-per-cell", 1,
                "The simplest; give more where pieces are laid in layers.");
  const bool strips = *job.method == Method::strips;
  proposer.open(&Job::spares, "spares", 0.03,
                strips ? "Strips tear, crack and are painted wrong; 3 in 100 is common practice, no source. Count your "
                         "own and change it."
                       : "Pieces get lost and spoilt; 3 in 100 is common practice, no source. Count your own and "
                         "change it.");
  if (*job.spares > 0) {
    proposer.open(&Job::spares_confidence, "spares-confidence", 0.99,
                  strips ? "The chance that the spare strips last, and the paint with them."
                         : "The chance that no colour runs out; with fewer spares a second order may come in another "
                           "shade.");
  }
}

}  // namespace detail

template <When>
Proposal propose(const Job& given, int width, int height, const Stock* stock) {
  if (width < 1 || height < 1) {
    throw Error::bad_input("picture", "it has no pixels", "give a picture with something in it");
  }
  if (const auto conflict = find_conflict(given)) {
    throw Error::bad_option(conflict->word, conflict->problem, conflict->remedy);
  }
  Proposal proposal = {.job = checked(given)};
  Job& job = proposal.job;
  for (auto* tone : {&job.brightness, &job.contrast, &job.saturation}) {
    if (*tone == 0) tone->reset();
  }
  detail::Proposer proposer(proposal);
  if (given.picture) proposer.open(&Job::title, "title", detail::stem_of(*given.picture), "The name of the picture.");
  proposer.open(&Job::method, "method", Method::pieces,
                "Pieces that are bought in their colours need no paint; the other way is strips.");
  proposer.open(&Job::units, "units", LengthUnit::millimetres, "Lengths are in millimetres.");
  if (job.clear_colour) {
    proposer.open(&Job::clear_tolerance, "clear-tolerance", 0.05,
                  "Shades that differ this little are seen as one plain ground; common practice, no source.");
  }
  detail::propose_shape(checked(given), width, height, proposal);
  detail::propose_colours(stock, proposal);
  detail::propose_takeoff(proposal);
  return proposal;
}

}  // namespace handlaid
