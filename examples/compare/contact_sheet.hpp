// The contact sheet of compare_quantisers: the picture in each palette, a row a fitter, a column a number of colours.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "handlaid/colour/convert.hpp"
#include "handlaid/colour/oklab.hpp"
#include "handlaid/image/resample.hpp"
#include "handlaid/sheets/letters.hpp"
#include "handlaid/sheets/look.hpp"

namespace compare {

using namespace handlaid;

/// What one fitter made: the picture in its colours, the colours, and what is written below.
struct Proof {
  Raster<Srgb8> picture = {};
  std::vector<Srgb8> colours = {};
  std::string text = {};
};

/// Pictures are at most this wide and high, in pixels.
inline constexpr int proof_side = 340;

/// Enlarged by whole pixels, or reduced by area.
inline Raster<Srgb8> to_proof_size(const Raster<Srgb8>& picture) {
  const int side = std::max(picture.width(), picture.height());
  if (side <= proof_side) {
    const int times = std::max(1, proof_side / side);
    return Resample{picture.width() * times, picture.height() * times}(picture);
  }
  const auto reduced = [&](int length) { return std::max(1, length * proof_side / side); };
  return Resample{reduced(picture.width()), reduced(picture.height())}(picture);
}

class ContactSheet {
 public:
  ContactSheet(const Raster<Srgb8>& original, std::size_t rows, std::size_t columns)
      : original_(to_proof_size(original)),
        width_(original_.width()),
        height_(original_.height()),
        sheet_(left + static_cast<int>(columns + 1) * (std::max(width_, text_width) + gap),
               top + static_cast<int>(rows) * (height_ + under + gap)) {
    std::fill(sheet_.pixels().begin(), sheet_.pixels().end(), look::paper);
    draw_letters(sheet_, "the picture", left, gap, scale, look::ink);
  }

  /// Writes the name, a line a word, beside the picture as it is.
  void name_row(std::size_t row, const std::string& name) {
    int y = y_of(row);
    put(original_, left, y);
    std::string word;
    for (const char c : name + " ") {
      if (c != ' ') {
        word += c;
        continue;
      }
      draw_letters(sheet_, word, gap, y, scale, look::ink);
      y += 10 * scale;
      word.clear();
    }
  }
  void name_column(std::size_t column, const std::string& name) {
    draw_letters(sheet_, name, x_of(column), gap, scale, look::ink);
  }
  /// The picture, its colours as a band, and its text.
  void add(std::size_t row, std::size_t column, const Proof& proof) {
    const int x = x_of(column);
    const int y = y_of(row);
    put(to_proof_size(proof.picture), x, y);
    auto colours = proof.colours;
    std::sort(colours.begin(), colours.end(), [](const Srgb8& p, const Srgb8& q) {
      return convert_colour<Oklab>(p).fixed() < convert_colour<Oklab>(q).fixed();  // lightness comes first
    });
    const auto count = static_cast<int>(colours.size());
    for (int u = 0; u < width_; ++u) {
      for (int v = 0; v < band; ++v) {
        sheet_(x + u, y + height_ + 4 + v) = colours[static_cast<std::size_t>(u * count / width_)];
      }
    }
    draw_letters(sheet_, proof.text, x, y + height_ + band + 10, 1, look::quiet);
  }
  const Raster<Srgb8>& picture() const { return sheet_; }

 private:
  static constexpr int scale = 2;
  static constexpr int gap = 20;
  static constexpr int left = 200;
  static constexpr int top = 50;
  static constexpr int band = 16;
  static constexpr int under = band + 20;
  static constexpr int text_width = 170;

  int x_of(std::size_t column) const {
    return left + static_cast<int>(column + 1) * (std::max(width_, text_width) + gap);
  }
  int y_of(std::size_t row) const { return top + static_cast<int>(row) * (height_ + under + gap); }
  void put(const Raster<Srgb8>& picture, int x, int y) {
    for (int v = 0; v < picture.height(); ++v) {
      const auto from = picture.row(v);
      std::copy(from.begin(), from.end(), sheet_.row(y + v).begin() + x);
    }
  }

  Raster<Srgb8> original_;
  int width_;
  int height_;
  Raster<Srgb8> sheet_;
};

}  // namespace compare
