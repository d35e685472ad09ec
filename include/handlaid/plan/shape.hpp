// The shape of a panel: cells, pitch and board, from as much of them as the maker gave and the shape of the picture.
// All in whole micrometres. What contradicts is refused with both sides and the nearest that works.
#pragma once

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <optional>
#include <string>

#include "handlaid/core/error.hpp"
#include "handlaid/core/length_text.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/files/job.hpp"
#include "handlaid/grid/lattice.hpp"

namespace handlaid {

/// The proportion of a picture, `width` to `height`, both 1 or more and at most a million: see `proportion`.
struct Proportion {
  std::int64_t width = 1;
  std::int64_t height = 1;
};

/// The same proportion in small numbers, so that products do not overflow.
constexpr Proportion proportion(std::int64_t width, std::int64_t height) {
  const std::int64_t common = std::max<std::int64_t>(std::gcd(width, height), 1);
  Proportion small = {width / common, height / common};
  while (small.width > 1'000'000 || small.height > 1'000'000) small = {small.width / 2, small.height / 2};
  return {std::max<std::int64_t>(small.width, 1), std::max<std::int64_t>(small.height, 1)};
}

/// Cells that one person lays in some weeks of evenings; common practice, no source.
inline constexpr std::int64_t fewest_cells = 4'000;
inline constexpr std::int64_t usual_cells = 6'000;
inline constexpr std::int64_t many_cells = 10'000;
/// Smaller pieces are hard to hold, larger ones show little of a picture; common practice, no source.
inline constexpr Length finest_pitch = 4 * mm;
inline constexpr Length coarsest_pitch = 50 * mm;

/// The longer side of a board that nobody gave: 1 m, or 40 in.
constexpr Length usual_length(LengthUnit unit) { return unit == LengthUnit::millimetres ? 1'000 * mm : 40 * inch; }

/// The cells of a job, with whatever it leaves open filled in. `picture` is the proportion of the part that is shown.
/// With `cells_of_picture` (columns and rows) a small picture gets one cell a pixel where the job says nothing of size.
/// Throws Error where columns, rows, pitch and board contradict each other.
template <When = When::called>
Rectangular shape_panel(const Job& job, const Proportion& picture, std::optional<Proportion> cells_of_picture = {});

namespace detail {

/// a * b / c, rounded to the nearest whole number, at least 1. The factors are below 2^31.
constexpr std::int64_t in_proportion(std::int64_t a, std::int64_t b, std::int64_t c) {
  return std::max<std::int64_t>((a * b + c / 2) / c, 1);
}

/// The largest pitch of which `count` fit in `length`, in the coarsest steps that a rule shows and that give away at
/// most one part in `parts`.
template <When = When::called>
Length fitting_pitch(Length length, std::int64_t count, LengthUnit unit, std::int64_t parts = 100) {
  const Length exact = Length::from_um(length.um() / count);
  for (const int step : {16, 32, 64}) {
    if (unit == LengthUnit::millimetres) break;
    // As it is read: rounded, which may be up by half a micrometre.
    const std::int64_t n = (exact.um() + 1) * step / 25'400;
    const Length pitch = Length::from_um((n * 25'400 + step / 2) / step);
    if (pitch.um() > 0 && (exact - pitch).times(parts) <= exact) return pitch;
  }
  for (const std::int64_t step : {1'000, 100, 10}) {
    if (unit == LengthUnit::inches) break;
    const Length pitch = Length::from_um(exact.um() / step * step);
    if (pitch.um() > 0 && (exact - pitch).times(parts) <= exact) return pitch;
  }
  return exact;
}

/// The pitch that fills a board best: near 6,000 cells, little board left over, and easy to read off a rule.
/// A board that is not `fixed` is cut to the cells, so that what is left over does not count.
template <When = When::called>
Length filling_pitch(const Size& board, LengthUnit unit, bool fixed) {
  std::optional<Length> best;
  std::int64_t least = 0;
  const auto weigh = [&](Length pitch, std::int64_t awkward) {
    if (pitch < finest_pitch || pitch > coarsest_pitch) return;
    const std::int64_t columns = board.width.count_of(pitch);
    const std::int64_t rows = board.height.count_of(pitch);
    if (columns < 1 || rows < 1) return;
    // How much of the board stays empty, in millionths, taken side by side so that nothing overflows.
    const std::int64_t wide = pitch.times(columns).um() * 1'000'000 / board.width.um();
    const std::int64_t high = pitch.times(rows).um() * 1'000'000 / board.height.um();
    const std::int64_t left_over = 1'000'000 - wide * high / 1'000'000;
    const std::int64_t off = std::abs(columns * rows - usual_cells);
    const std::int64_t outside = columns * rows < fewest_cells || columns * rows > many_cells ? 1'000'000 : 0;
    const std::int64_t cost = (fixed ? left_over / 4 + awkward : 5 * awkward) + 2 * off + outside;
    if (!best || cost < least) {
      best = pitch;
      least = cost;
    }
  };
  if (unit == LengthUnit::inches) {
    for (std::int64_t step = 1; step <= 128; ++step) {
      weigh(Length::from_um((step * 25'400 + 32) / 64), step % 4 == 0 ? 0 : step % 2 == 0 ? 400 : 1'500);
    }
  } else {
    for (std::int64_t tenths = 10; tenths <= 500; ++tenths) {
      weigh(Length::from_um(tenths * 100), tenths % 10 == 0 ? 0 : tenths % 5 == 0 ? 400 : 1'500);
    }
  }
  return best.value_or(std::min({board.width, board.height, finest_pitch}));
}

/// Refuses cells that are wider or higher than their board. Half a micrometre a cell is the rounding of the pitch.
template <When = When::called>
void check_side(const char* side, const char* cells, std::int64_t count, Length pitch, Length board, LengthUnit unit) {
  const Length all = pitch.times(count);
  if (all <= board + Length::from_um(count)) return;
  const std::int64_t fit = std::max<std::int64_t>(board.count_of(pitch), 0);
  std::string remedy = "give ";
  if (fit > 0) remedy += "at most " + std::to_string(fit) + " " + cells + ", ";
  remedy += "a pitch of at most " + to_text(fitting_pitch(board, count, unit), unit) + ", or a board of " +
            to_text(all, unit);
  throw Error::bad_option("board",
                          std::to_string(count) + " " + cells + " at " + to_text(pitch, unit) + " are " +
                              to_text(all, unit) + " " + side + ", the board " + to_text(board, unit),
                          remedy);
}

}  // namespace detail

template <When>
Rectangular shape_panel(const Job& job, const Proportion& picture, std::optional<Proportion> cells_of_picture) {
  const LengthUnit unit = job.units.value_or(LengthUnit::millimetres);
  if (job.course_pitch && !job.pitch) {
    throw Error::bad_option("course-pitch", "it says nothing without the pitch", "give the pitch too");
  }
  std::int64_t columns = job.columns.value_or(0);
  std::int64_t rows = job.rows.value_or(0);
  if (cells_of_picture && !job.board && !job.columns && !job.rows && !job.pitch) {
    columns = cells_of_picture->width;
    rows = cells_of_picture->height;
  }
  Length across = job.pitch.value_or(Length{});
  Length up = job.course_pitch.value_or(across);
  const auto rows_of = [&] {  // those that keep the proportion, cells being as wide to their height as the pitches are
    const std::int64_t width = job.pitch ? across.um() : 1;
    const std::int64_t height = job.pitch ? up.um() : 1;
    return detail::in_proportion(columns * width, picture.height, picture.width * height);
  };
  const auto columns_of = [&] {
    const std::int64_t width = job.pitch ? across.um() : 1;
    const std::int64_t height = job.pitch ? up.um() : 1;
    return detail::in_proportion(rows * height, picture.width, picture.height * width);
  };

  if (job.board) {
    const Size& board = *job.board;
    if (!job.pitch) {
      if (columns > 0) across = detail::fitting_pitch(board.width, columns, unit);
      if (rows > 0) up = detail::fitting_pitch(board.height, rows, unit);
      if (columns > 0 && rows > 0) {
        across = up = std::min(across, up);
      } else if (columns > 0) {
        up = across;
      } else if (rows > 0) {
        across = up;
      } else {
        across = up = detail::filling_pitch(board, unit, true);
      }
    }
    if (columns == 0) columns = std::max<std::int64_t>(board.width.count_of(across), 1);
    if (rows == 0) rows = std::max<std::int64_t>(board.height.count_of(up), 1);
    detail::check_side("wide", "columns", columns, across, board.width, unit);
    detail::check_side("high", "rows", rows, up, board.height, unit);
  } else {
    const Length longest = usual_length(unit);
    if (!job.pitch && columns == 0 && rows == 0) {
      const bool upright = picture.height > picture.width;
      const Length other =
          longest.times(upright ? picture.width : picture.height).divided(upright ? picture.height : picture.width);
      const Size board = upright ? Size{other, longest} : Size{longest, other};
      across = up = detail::filling_pitch(board, unit, false);
      (upright ? rows : columns) = longest.count_of(across);
    }
    if (job.pitch && columns == 0 && rows == 0) {
      if (picture.height > picture.width) {
        rows = std::max<std::int64_t>(longest.count_of(up), 1);
      } else {
        columns = std::max<std::int64_t>(longest.count_of(across), 1);
      }
    }
    if (columns == 0) columns = columns_of();
    if (rows == 0) rows = rows_of();
    if (across == Length{}) {
      across = up = std::min(detail::fitting_pitch(longest, std::max(columns, rows), unit, 5),
                             job.columns || job.rows ? coarsest_pitch : coarsest_pitch.divided(2));
    }
  }
  if (columns > most_cells_along || rows > most_cells_along) {
    throw Error::out_of_range(columns > rows ? "columns" : "rows", std::to_string(std::max(columns, rows)),
                              "columns and rows of 1 to 100000; a crop changes the shape of the picture");
  }
  Rectangular cells = {.columns = static_cast<int>(columns), .rows = static_cast<int>(rows), .pitch = across};
  if (up != across) cells.course_pitch = up;
  cells.check();
  return cells;
}

}  // namespace handlaid
