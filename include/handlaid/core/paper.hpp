// Sizes of the paper that printers take.
#pragma once

#include <cstdint>

#include "handlaid/core/length.hpp"

namespace handlaid {

/// A size of paper, upright. A4 is ISO 216 (210 x 297 mm), Letter is ANSI/ASME Y14.1 size A (8.5 x 11 in).
enum class Paper : std::uint8_t { a4, letter };

constexpr Size size_of(Paper paper) {
  return paper == Paper::a4 ? Size{210 * mm, 297 * mm} : Size{8.5 * inch, 11 * inch};
}

constexpr const char* name_of(Paper paper) { return paper == Paper::a4 ? "A4" : "Letter"; }

/// No printer prints to the edge: so much stays free on each side.
inline constexpr Length page_margin = 10 * mm;

}  // namespace handlaid
