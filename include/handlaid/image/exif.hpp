// The one thing that is read of EXIF: the orientation. CIPA DC-008-2019 (EXIF 2.32); TIFF 6.0 for its frame.
#pragma once

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/picture_format.hpp"

namespace handlaid::detail {

/// The orientation, 1 to 8, of a block that starts with the TIFF header ("II*\0" or "MM\0*"); 1 where there is none, or
/// where the block makes no sense: a picture is not refused for its notes.
template <When = When::called>
int exif_orientation(Bytes tiff) {
  const bool little = has_at(tiff, 0, "II");
  if (tiff.size() < 8 || (!little && !has_at(tiff, 0, "MM"))) return 1;
  const auto get16 = [&](std::size_t at) { return little ? little16(tiff, at) : big16(tiff, at); };
  const auto get32 = [&](std::size_t at) { return little ? little32(tiff, at) : big32(tiff, at); };
  if (get16(2) != 42) return 1;
  const std::size_t directory = get32(4);
  if (directory > tiff.size() - 2 || directory < 8) return 1;
  const std::size_t entries = get16(directory);
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t at = directory + 2 + i * 12;
    if (at + 12 > tiff.size()) return 1;
    if (get16(at) != 0x0112) continue;
    const std::uint32_t type = get16(at + 2);  // SHORT; some writers take LONG
    const std::uint32_t value = type == 3 ? get16(at + 8) : type == 4 ? get32(at + 8) : 0;
    return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
  }
  return 1;
}

}  // namespace handlaid::detail
