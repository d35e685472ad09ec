// The light on a board in a photo, and how each colour looks in it: cells of known colours are their look times the
// light. The light is smooth (a lamp at one side, a lens that darkens corners) and tinted; the look of a colour may be
// off its palette colour, as real material is. Both are fitted in turn, so that cells that are wrong do not count
// (iteratively reweighted least squares: P. J. Huber, "Robust Statistics", 1981; weights of J. W. Tukey's biweight).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/colour/rgb.hpp"
#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/quality/bare_board.hpp"
#include "handlaid/quality/log_light.hpp"
#include "handlaid/solve/least_squares.hpp"

namespace handlaid {

/// The cells of a photo in even light, and the look of each number there.
struct EvenLight {
  /// As the cells would look in the light of the palette; white is 1.
  Raster<LinearRgb> cells = {};
  /// Of number n; 0 is the bare board.
  std::vector<LinearRgb> looks = {};
  /// Which number each cell was taken for while fitting, row by row: the chart's, or 0 where it looked bare.
  std::vector<ColourNumber> taken_for = {};
};

/// How the light is fitted.
struct LightFit {
  /// The bare board, about: where some of it is seen its colour is learned, however far off this one is.
  Srgb8 board = {0xcf, 0xc5, 0xb3};
  /// As many cells does the palette's own colour count for in the look of a number.
  double palette_cells = 4;
  /// The steepest polynomial in the place of a cell that the logarithm of the light is made of, 0 to 4; less where
  /// there are fewer than 25 cells for each of its terms.
  int degree = 4;
};

/// Fits light and looks. `seen` has one colour a cell, `numbers` what should be there, in the same rows; `palette` has
/// all of them. What is done in doubles is rounded before it is used again.
template <When = When::called>
EvenLight even_light(const Raster<LinearRgb>& seen, const Raster<ColourNumber>& numbers, const Palette& palette,
                     const LightFit& fit = {});

namespace detail {

/// Fits light and looks to the cells in turn.
template <When = When::called>
class LightSearch {
 public:
  LightSearch(const Raster<LinearRgb>& seen, const Raster<ColourNumber>& numbers, const Palette& palette,
              const LightFit& fit)
      : fit_(fit), width_(seen.width()), height_(seen.height()) {
    for (std::size_t i = 0; i < seen.size(); ++i) {
      seen_.push_back(log_light(seen.pixels()[i]));
      const LinearRgb& c = seen.pixels()[i];
      // Noise is about even in codes, so that dark cells say little of a logarithm; and burnt out ones say nothing.
      const double most = std::max({double{c.r}, double{c.g}, double{c.b}});
      trust_.push_back(most > 0.99 ? 0 : settled(std::sqrt(std::max(most, 0.002))));
      numbers_.push_back(numbers.pixels()[i]);
    }
    priors_.push_back(log_light(convert_colour<LinearRgb>(fit.board)));
    for (const PaletteEntry& entry : palette.entries)
      priors_.push_back(log_light(convert_colour<LinearRgb>(entry.colour)));
    light_.resize(seen_.size());
  }

  /// Starts from so many of the lower rows as laid, the rest as bare. Gives how far cells are from their looks in the
  /// end, in Oklab, each at most 0.1: less is better.
  template <When = When::called>
  double fit(int laid_rows) {
    looks_ = priors_;
    weights_ = trust_;
    level(laid_rows);
    for (int degree = 0, round = 0; round < 14; ++round) {
      if (round == 2 || round == 4) ++degree;
      if (round == 6) degree = fit_.degree;
      fit_light(std::min(degree, most_degree()));
      if (round > 3) fit_looks();
      weigh(round);
    }
    double sum = 0;
    for (const double off : off_) sum += std::min(off, 0.1);
    return sum;
  }

  /// Takes the board for what is seen above the rows that seem to be laid, which are returned.
  template <When = When::called>
  int look_for_board() {
    const BareBoard found = find_bare_board(seen_, numbers_, priors_, width_);
    priors_[0] = found.look;
    return found.laid_rows;
  }

  EvenLight result() const {
    EvenLight even{.cells = {width_, height_}, .taken_for = numbers_};
    for (std::size_t i = 0; i < seen_.size(); ++i) even.cells.pixels()[i] = balanced(i);
    for (const LogLight& look : looks_) even.looks.push_back(of_log(look));
    for (std::size_t i = 0; i < numbers_.size(); ++i) even.taken_for[i] = bare_[i] ? ColourNumber{0} : numbers_[i];
    return even;
  }

 private:
  std::size_t number(std::size_t i) const { return bare_[i] ? 0 : numbers_[i]; }
  int most_degree() const {
    int degree = fit_.degree;
    while (degree > 0 && seen_.size() < static_cast<std::size_t>(25 * (degree + 1) * (degree + 2) / 2)) --degree;
    return degree;
  }
  LinearRgb balanced(std::size_t i) const {
    LogLight even;
    for (std::size_t c = 0; c < 3; ++c) even[c] = seen_[i][c] - light_[i][c];
    return of_log(even);
  }

  /// A start: one light for all cells.
  template <When = When::called>
  void level(int laid_rows) {
    bare_.resize(seen_.size());
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      bare_[i] = static_cast<int>(i / static_cast<std::size_t>(width_)) < height_ - laid_rows;
    }
    for (std::size_t c = 0; c < 3; ++c) {
      std::vector<double> off;
      for (std::size_t i = 0; i < seen_.size(); ++i) off.push_back(seen_[i][c] - looks_[number(i)][c]);
      const double middle = median_of(off);
      for (LogLight& light : light_) light[c] = middle;
    }
    weigh(-1);
  }

  template <When = When::called>
  void fit_light(int degree) {
    std::vector<std::vector<double>> rows(seen_.size());
    for (int y = 0; y < height_; ++y) {
      for (int x = 0; x < width_; ++x) {
        auto& row = rows[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x)];
        const double u = (2.0 * x + 1) / width_ - 1;
        const double v = (2.0 * y + 1) / height_ - 1;
        for (int n = 0; n <= degree; ++n) {
          for (int k = 0; k <= n; ++k) row.push_back(power(u, n - k) * power(v, k));
        }
      }
    }
    for (std::size_t c = 0; c < 3; ++c) {
      LeastSquares equations(rows[0].size());
      for (std::size_t i = 0; i < rows.size(); ++i) {
        if (weights_[i] > 0) equations.add(rows[i], seen_[i][c] - looks_[number(i)][c], weights_[i]);
      }
      std::vector<double> factors = equations.solve(1e-6);
      for (double& factor : factors) factor = settled(factor);
      for (std::size_t i = 0; i < rows.size(); ++i) {
        double sum = 0;
        for (std::size_t k = 0; k < factors.size(); ++k) sum += factors[k] * rows[i][k];
        light_[i][c] = settled(std::clamp(sum, -6.0, 3.0));
      }
    }
  }
  static double power(double v, int n) {
    double product = 1;
    for (int i = 0; i < n; ++i) product *= v;
    return product;
  }

  template <When = When::called>
  void fit_looks() {
    std::vector<LogLight> sums(looks_.size(), LogLight{});
    std::vector<double> counts(looks_.size(), fit_.palette_cells);
    for (std::size_t n = 0; n < looks_.size(); ++n) {
      for (std::size_t c = 0; c < 3; ++c) sums[n][c] = fit_.palette_cells * priors_[n][c];
    }
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      const double w = trust_[i] > 0 ? weights_[i] / trust_[i] : 0;
      counts[number(i)] += w;
      for (std::size_t c = 0; c < 3; ++c) sums[number(i)][c] += w * (seen_[i][c] - light_[i][c]);
    }
    for (std::size_t n = 0; n < looks_.size(); ++n) {
      for (std::size_t c = 0; c < 3; ++c) looks_[n][c] = settled(sums[n][c] / counts[n]);
    }
  }

  /// Which cells look bare, and how much each counts: less the farther it is from its look, nothing where it is off by
  /// more than so many times the usual.
  template <When = When::called>
  void weigh(int round) {
    std::vector<Oklab> looks;
    for (const LogLight& look : looks_) looks.push_back(convert_colour<Oklab>(of_log(look)));
    bare_.assign(seen_.size(), false);
    off_.clear();
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      const Oklab cell = convert_colour<Oklab>(balanced(i));
      double least = apart(cell, looks[numbers_[i]]);
      const double from_board = apart(cell, looks[0]);
      if (numbers_[i] != 0 && from_board * 2 < least) {
        bare_[i] = true;
        least = from_board;
      }
      off_.push_back(least);
    }
    const double most = std::max(median_of(off_), 0.004) * (round < 4 ? 4 : 3.5);
    for (std::size_t i = 0; i < seen_.size(); ++i) {
      const double share = off_[i] / most;
      weights_[i] = share < 1 ? settled(trust_[i] * (1 - share * share) * (1 - share * share)) : 0;
    }
  }

  LightFit fit_;
  int width_ = 0;
  int height_ = 0;
  std::vector<LogLight> seen_ = {};
  std::vector<double> trust_ = {};
  std::vector<double> weights_ = {};
  std::vector<ColourNumber> numbers_ = {};
  std::vector<bool> bare_ = {};
  std::vector<double> off_ = {};
  std::vector<LogLight> priors_ = {};
  std::vector<LogLight> looks_ = {};
  std::vector<LogLight> light_ = {};
};

}  // namespace detail

template <When>
EvenLight even_light(const Raster<LinearRgb>& seen, const Raster<ColourNumber>& numbers, const Palette& palette,
                     const LightFit& fit) {
  detail::LightSearch best(seen, numbers, palette, fit);
  double least = best.fit(seen.height());
  detail::LightSearch bare = best;
  if (const double off = bare.fit(0); off < least) {
    least = off;
    best = bare;
  }
  // A board of another colour must be much better: rows of one number look like such a board too.
  detail::LightSearch partly = bare;
  if (partly.fit(partly.look_for_board()) < 0.8 * least) best = partly;
  return best.result();
}

}  // namespace handlaid
