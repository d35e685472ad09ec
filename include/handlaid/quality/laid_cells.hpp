// Which cells of a board are wrong, by a photo of it: each cell is compared with how its number and all others look in
// that photo. A cell is doubtful where another number is more likely than its own, by the noise of the photo; so what
// the photo cannot tell apart is not held against the maker, but listed.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "handlaid/core/error.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/grid/chart.hpp"
#include "handlaid/quality/light_field.hpp"

namespace handlaid {

enum class CellFinding {
  wrong,  ///< it looks like another number
  bare,   ///< it looks like the board
  unlike  ///< it looks like no number: a hand, a shadow, a piece of another job
};

/// A cell that does not look like its number. Courses from the bottom, columns from the datum, both from 1.
struct DoubtfulCell {
  int course = 0;
  int column = 0;
  CellFinding finding = CellFinding::wrong;
  ColourNumber wanted = 0;
  /// What it looks like; 0 is bare. The nearest number where it looks like none.
  ColourNumber looks_like = 0;
  /// How sure it is that the cell is not what it should be, 50 to 99.
  int sure_percent = 50;
  /// Its colour in even light.
  Srgb8 colour = {};
  friend bool operator==(const DoubtfulCell&, const DoubtfulCell&) = default;
};

/// Two numbers, the smaller first, that look so much alike in the photo that half of their mix-ups or more go unseen.
/// 0 is the bare board.
struct LookAlikes {
  ColourNumber one = 0;
  ColourNumber other = 0;
  friend bool operator==(const LookAlikes&, const LookAlikes&) = default;
};

/// What a photo says of a board.
struct BoardProof {
  /// From course 1 up and from the datum on; none above `laid_courses`.
  std::vector<DoubtfulCell> doubtful = {};
  std::vector<LookAlikes> look_alikes = {};
  /// Up to the highest course of which half of the cells or more are laid; what is above is not laid yet.
  int laid_courses = 0;
  /// Cells with a number up to there.
  std::int64_t cells = 0;
  /// How each number looks in even light; 0 is the board.
  std::vector<Srgb8> looks = {};
};

/// Compares a board with its chart.
struct ProofOfBoard {
  LightFit light = {};
  /// How likely a slip is before the photo is looked at, as one in so many cells.
  int one_slip_in = 100;
  /// Whether strips hang over the course below, see `lower_rows`: where the next course is to come the uppermost one is
  /// seen higher up than later, so that such a course shows parts of the one below it; it counts as not laid.
  bool hangs_over = false;

  /// `seen` is one colour a cell in linear light, as `Straighten` makes them. Throws Error where it has another size
  /// than the chart, nothing is laid, or most of the cells do not fit: then it is another board, or lies differently.
  template <AnyChart C>
  BoardProof operator()(const C& chart, const Raster<LinearRgb>& seen) const;
};

namespace detail {

/// The noise of a photo about a look, along the three axes of Oklab in its fixed steps.
struct LookNoise {
  std::array<std::int64_t, 3> spread = {1, 1, 1};
};

inline std::array<std::int64_t, 3> steps_between(const FixedPoint& p, const FixedPoint& q) {
  return {std::int64_t{p.x} - q.x, std::int64_t{p.y} - q.y, std::int64_t{p.z} - q.z};
}

/// How unlikely a cell is under a look, in 1/256: the squared distance in spreads, as minus twice the logarithm of a
/// normal density without its constant. What is farther off than 20 spreads is held there.
inline std::int64_t unlikely(const FixedPoint& cell, const FixedPoint& look, const LookNoise& noise) {
  const auto off = steps_between(cell, look);
  std::int64_t sum = 0;
  for (std::size_t a = 0; a < 3; ++a) {
    const std::int64_t s = noise.spread[a];
    sum += off[a] * off[a] * 256 / (s * s);
  }
  return std::min<std::int64_t>(sum, 400 * 256);
}

/// The spread of each number's cells about its look: 1.4826 times the median distance, which for normal noise is the
/// standard deviation; drawn towards that of all cells where there are few.
template <When = When::called>
std::vector<LookNoise> noise_of(const std::vector<FixedPoint>& cells, const std::vector<ColourNumber>& taken_for,
                                const std::vector<FixedPoint>& looks) {
  std::vector<LookNoise> noise(looks.size());
  for (std::size_t a = 0; a < 3; ++a) {
    std::vector<double> all;
    std::vector<std::vector<double>> own(looks.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const auto off = steps_between(cells[i], looks[taken_for[i]])[a];
      all.push_back(static_cast<double>(off < 0 ? -off : off));
      own[taken_for[i]].push_back(all.back());
    }
    const double usual = median_of(all);
    for (std::size_t n = 0; n < looks.size(); ++n) {
      const auto count = static_cast<double>(own[n].size());
      const double drawn = (median_of(own[n]) * count + usual * 20) / (count + 20);
      noise[n].spread[a] = std::max<std::int64_t>(static_cast<std::int64_t>(drawn * 1.4826 + 0.5), 24);
    }
  }
  return noise;
}

/// 256 times the natural logarithm, rounded.
inline std::int64_t log256(double v) { return static_cast<std::int64_t>(std::floor(256 * std::log(v) + 0.5)); }

/// Two numbers of which a cell of one, right at its look, would not surely be told from the other.
inline bool alike(const FixedPoint& p, const FixedPoint& q, const LookNoise& noise, std::int64_t threshold) {
  return unlikely(p, q, noise) < threshold;
}

}  // namespace detail

template <AnyChart C>
BoardProof ProofOfBoard::operator()(const C& chart, const Raster<LinearRgb>& seen) const {
  if (seen.width() != chart.columns() || seen.height() != chart.courses()) {
    throw Error::bad_input("photo", "it was straightened to another number of cells than the chart's",
                           "straighten it to the columns and courses of the chart");
  }
  if (one_slip_in < 2) throw Error::out_of_range("one slip in", std::to_string(one_slip_in), "2 or more");
  const EvenLight even = even_light(seen, chart.numbers, chart.palette, light);
  std::vector<FixedPoint> looks;
  BoardProof proof;
  for (const LinearRgb& look : even.looks) {
    looks.push_back(convert_colour<Oklab>(look).fixed());
    proof.looks.push_back(convert_colour<Srgb8>(look));
  }
  std::vector<FixedPoint> cells;
  for (const LinearRgb& cell : even.cells.pixels()) cells.push_back(convert_colour<Oklab>(cell).fixed());
  const std::vector<detail::LookNoise> noise = detail::noise_of(cells, even.taken_for, looks);
  std::vector<bool> used(looks.size(), false);
  for (const ColourNumber number : chart.numbers.pixels()) used[number] = true;
  used[0] = true;

  const std::size_t width = static_cast<std::size_t>(chart.columns());
  std::vector<std::int64_t> log_spread;
  for (const detail::LookNoise& n : noise) {
    std::int64_t sum = 0;
    for (const std::int64_t s : n.spread) sum += 2 * detail::log256(static_cast<double>(s));
    log_spread.push_back(sum);
  }
  const auto score = [&](std::size_t i, std::size_t n) {
    return detail::unlikely(cells[i], looks[n], noise[n]) + log_spread[n];
  };
  // A slip to any one of the other numbers is as likely as to another.
  const auto others = static_cast<double>(std::max<std::ptrdiff_t>(std::count(used.begin(), used.end(), true) - 1, 1));
  const std::int64_t threshold = 2 * detail::log256(static_cast<double>(one_slip_in) * others);
  // No cell of a number lies so far from it: 7 spreads, and 0.05 in Oklab, for where colours bleed (JPEG keeps them at
  // half the size) the noise of a few cells is not that of the others.
  const auto beyond = [&](std::size_t i, std::size_t n) {
    return detail::unlikely(cells[i], looks[n], noise[n]) > 49 * 256 &&
           squared_distance(cells[i], looks[n]) > std::uint32_t{819} * 819;
  };

  std::int64_t agree = 0;
  std::int64_t disagree = 0;
  std::vector<std::int64_t> bare_in(static_cast<std::size_t>(chart.courses()), 0);
  std::vector<std::int64_t> wanted_in(bare_in.size(), 0);
  std::vector<DoubtfulCell> found;
  for (int course = 1; course <= chart.courses(); ++course) {
    const auto c = static_cast<std::size_t>(course) - 1;
    for (std::size_t x = 0; x < width; ++x) {
      const std::size_t i = static_cast<std::size_t>(row_of_course(course, chart.courses())) * width + x;
      const std::size_t wanted = chart.numbers.pixels()[i];
      std::size_t best = wanted;
      for (std::size_t n = 0; n < looks.size(); ++n) {
        if (used[n] && score(i, n) < score(i, best)) best = n;
      }
      if (wanted != 0) {
        ++wanted_in[c];
        bare_in[c] += best == 0 ? 1 : 0;
      }
      if (best != 0 || wanted == 0) (best == wanted ? agree : disagree) += 1;
      const std::int64_t lead = score(i, wanted) - score(i, best);
      const bool unlike = beyond(i, best) && beyond(i, wanted);
      if (!unlike && (best == wanted || lead < threshold)) continue;
      // Odds of a slip from the lead over what was likely before; 99 is as sure as a photo can be.
      const double odds = std::exp(static_cast<double>(std::min<std::int64_t>(lead - threshold, 5'120)) / 512.0);
      const int sure = unlike ? 99 : std::clamp(static_cast<int>(100 * odds / (1 + odds)), 50, 99);
      found.push_back({.course = course,
                       .column = static_cast<int>(x) + 1,
                       .finding = unlike      ? CellFinding::unlike
                                  : best == 0 ? CellFinding::bare
                                              : CellFinding::wrong,
                       .wanted = static_cast<ColourNumber>(wanted),
                       .looks_like = static_cast<ColourNumber>(best),
                       .sure_percent = sure,
                       .colour = convert_colour<Srgb8>(even.cells.pixels()[i])});
    }
  }
  for (int course = 1; course <= chart.courses(); ++course) {
    const auto c = static_cast<std::size_t>(course) - 1;
    if (wanted_in[c] > 0 && bare_in[c] * 2 <= wanted_in[c]) proof.laid_courses = course;
  }
  if (hangs_over && proof.laid_courses > 1) {
    const int y = row_of_course(proof.laid_courses, chart.courses());
    std::int64_t differ = 0;
    for (int x = 0; x < chart.columns(); ++x) differ += chart.numbers(x, y) != chart.numbers(x, y + 1) ? 1 : 0;
    const auto unfit = std::count_if(found.begin(), found.end(),
                                     [&](const DoubtfulCell& c) { return c.course == proof.laid_courses; });
    if (unfit * 2 > differ) {  // once more, with the bare board there: what it shows is noise to all looks
      Raster<LinearRgb> bare = seen;
      for (int x = 0; x < bare.width(); ++x)
        bare(x, y) = y > 0 ? seen(x, y - 1) : convert_colour<LinearRgb>(proof.looks[0]);
      return ProofOfBoard{.light = light, .one_slip_in = one_slip_in}(chart, bare);
    }
  }
  if (agree + disagree == 0 || proof.laid_courses == 0) {
    throw Error::bad_input("photo", "nothing is laid on this board", "give a photo of a board with courses laid");
  }
  if (agree < disagree * 2) {
    throw Error::bad_input("photo",
                           "it does not look like this plan: " + std::to_string(disagree) + " of " +
                               std::to_string(agree + disagree) + " cells disagree",
                           "give a photo of this board, corners from the datum (bottom left) on clockwise");
  }
  for (const DoubtfulCell& cell : found) {
    if (cell.course <= proof.laid_courses) proof.doubtful.push_back(cell);
  }
  for (int c = 0; c < proof.laid_courses; ++c) proof.cells += wanted_in[static_cast<std::size_t>(c)];
  for (std::size_t n = 0; n < looks.size(); ++n) {
    for (std::size_t m = n + 1; m < looks.size(); ++m) {
      if (!used[n] || !used[m]) continue;
      if (detail::alike(looks[n], looks[m], noise[m], threshold) ||
          detail::alike(looks[m], looks[n], noise[n], threshold)) {
        proof.look_alikes.push_back({static_cast<ColourNumber>(n), static_cast<ColourNumber>(m)});
      }
    }
  }
  return proof;
}

}  // namespace handlaid
