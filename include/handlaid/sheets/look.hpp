// The visual language of every page and picture: colours, line weights, sizes. One home for each.
// Neutral paper and dark ink; one accent, kept for the datum and for cautions. All other colour belongs to the pieces.
#pragma once

#include "handlaid/colour/hex.hpp"
#include "handlaid/colour/rgb.hpp"

namespace handlaid::look {

/// What is behind everything.
inline constexpr Srgb8 paper{0xfc, 0xfb, 0xf8};
/// Bands and boxes on the paper.
inline constexpr Srgb8 shade{0xf2, 0xef, 0xe8};
/// Text, and the heavy lines that are counted by.
inline constexpr Srgb8 ink{0x24, 0x21, 0x1c};
/// Text of second rank; still 4.5 : 1 on paper and on shade.
inline constexpr Srgb8 quiet{0x5d, 0x57, 0x4d};
/// Thin lines of tables.
inline constexpr Srgb8 rule{0xd6, 0xd0, 0xc4};
/// The datum and cautions: where a slip costs most.
inline constexpr Srgb8 accent{0x9b, 0x34, 0x18};
/// The bare board, where no piece is laid.
inline constexpr Srgb8 board{0xcf, 0xc5, 0xb3};

// Sizes in a drawing of cells, in thousandths of the shorter side of a cell.

/// Lines between cells, and each ten cells from the datum.
inline constexpr int hairline = 14;
inline constexpr int ten_line = 45;
/// The paper-coloured rim that lets a heavy line show on dark swatches.
inline constexpr int ten_line_rim = 100;
/// The em of a numeral.
inline constexpr int numeral = 500;

// Sizes of a digit, in thousandths of its em: between the common sans-serif fonts.

inline constexpr int digit_advance = 580;
inline constexpr int digit_height = 720;

}  // namespace handlaid::look
