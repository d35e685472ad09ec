// proof.png: the board set straight, with a ring round each cell that does not look like its number.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>

#include "handlaid/core/raster.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/quality/laid_cells.hpp"
#include "handlaid/sheets/digits.hpp"
#include "handlaid/sheets/look.hpp"

namespace handlaid {

/// Draws a board as `StraightView` gives it, `columns` cells wide and `rows` high, with numbers of courses and columns
/// at its edges, lines each ten cells from the datum, and rings. Courses that are not laid yet are paler.
struct ProofPicture {
  int columns = 0;
  int rows = 0;

  /// Pixels of a cell for the view: the longer side has about 2,000, cells 10 to 32.
  int cell_pixels() const { return std::clamp(2'000 / std::max({columns, rows, 1}), 10, 32); }

  /// Throws Error where the view is not of whole cells.
  template <When = When::called>
  Raster<Srgb8> operator()(const Raster<Srgb8>& view, const BoardProof& proof) const;
};

namespace detail {

inline Srgb8 half_way(const Srgb8& a, const Srgb8& b) {
  const auto middle = [](int p, int q) { return static_cast<std::uint8_t>((p + 2 * q + 1) / 3); };
  return {middle(a.r, b.r), middle(a.g, b.g), middle(a.b, b.b)};
}

/// A ring of ink on a rim of paper, so that it shows on any colour.
template <When = When::called>
void draw_ring(Raster<Srgb8>& picture, int x, int y, int radius, int weight) {
  for (int v = -radius - weight; v <= radius + weight; ++v) {
    for (int u = -radius - weight; u <= radius + weight; ++u) {
      if (x + u < 0 || y + v < 0 || x + u >= picture.width() || y + v >= picture.height()) continue;
      // Four times the squared distance, so that the edges lie at whole and half pixels.
      const int far = 4 * (u * u + v * v);
      const auto within = [&](int twice) { return far <= twice * twice; };
      const int inner = 2 * radius - weight;
      const int outer = 2 * radius + weight;
      if (!within(outer + weight) || within(inner - weight)) continue;
      picture(x + u, y + v) = within(outer) && !within(inner) ? look::accent : look::paper;
    }
  }
}

}  // namespace detail

template <When>
Raster<Srgb8> ProofPicture::operator()(const Raster<Srgb8>& view, const BoardProof& proof) const {
  if (columns < 1 || rows < 1 || view.width() % columns != 0 || view.height() != view.width() / columns * rows) {
    throw Error::bad_input("proof.png", "the view is not of whole cells", "make it with the cells of the chart");
  }
  const int cell = view.width() / columns;
  const int scale = std::max(1, cell / 10);
  const int margin = digits_width(std::max({columns, rows, 100}), scale) + 4 * scale + cell / 2;
  Raster<Srgb8> picture(view.width() + 2 * margin, view.height() + 2 * margin);
  for (Srgb8& pixel : picture.pixels()) pixel = look::paper;
  const int bare_rows = rows - proof.laid_courses;
  for (int y = 0; y < view.height(); ++y) {
    for (int x = 0; x < view.width(); ++x) {
      const bool ten = (x > 0 && x % (10 * cell) == 0) || (y > 0 && (view.height() - y) % (10 * cell) == 0);
      const Srgb8 colour = ten ? look::paper : view(x, y);
      picture(margin + x, margin + y) = y < bare_rows * cell ? detail::half_way(colour, look::paper) : colour;
    }
  }
  const auto middle = [&](int place) { return margin + place * cell + cell / 2; };
  const int high = digits_height(scale);
  const auto label = [&](int number, int x, int y) {
    draw_digits(picture, number, x - digits_width(number, scale) / 2, y - high / 2, scale, look::quiet);
  };
  const int out = margin / 2;
  for (int n = 1; n <= columns; ++n) {
    if (n != 1 && n % 5 != 0) continue;
    label(n, middle(n - 1), out);
    label(n, middle(n - 1), picture.height() - out);
  }
  for (int n = 1; n <= rows; ++n) {
    if (n != 1 && n % 5 != 0) continue;
    label(n, out, middle(rows - n));
    label(n, picture.width() - out, middle(rows - n));
  }
  // The datum: a solid square outside the bottom left corner, touching it.
  const int side = std::max(cell / 2, 4);
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) picture(margin - 1 - x, margin + view.height() + y) = look::accent;
  }
  const int weight = std::max(3, cell / 5);
  for (const DoubtfulCell& doubt : proof.doubtful) {
    detail::draw_ring(picture, middle(doubt.column - 1), middle(rows - doubt.course), cell * 4 / 5, weight);
  }
  return picture;
}

}  // namespace handlaid
