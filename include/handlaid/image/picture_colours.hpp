// Where a picture says what its colours are: ICC profiles in JPEG (ICC.1:2022, annex B) and PNG, and PNG's own chunks.
// Of a PNG the first of cICP, iCCP, sRGB, and cHRM with gAMA counts (PNG, third edition, 4.3). A gamma without
// primaries is of sRGB's, primaries without a gamma are of sRGB's curve; a gamma of 0.450 to 0.460 is how writers put
// that curve.
#pragma once

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/icc.hpp"
#include "handlaid/image/jpeg.hpp"
#include "handlaid/image/png_chunks.hpp"
#include "handlaid/image/to_srgb.hpp"

namespace handlaid::detail {

template <When = When::called>
PictureColours colours_with(ProfileUse use, const std::string& name, const std::string& problem = {}) {
  PictureColours colours;
  colours.report.use = use;
  colours.report.name = name;
  colours.report.problem = problem;
  return colours;
}
template <When = When::called>
PictureColours not_supported(const std::string& problem, const std::string& name = {}) {
  return colours_with(ProfileUse::not_supported, name, problem);
}

template <When = When::called>
PictureColours jpeg_colours(Bytes bytes, const std::string& name) {
  const JpegHeader header = JpegWalk(bytes, name).walk(false);
  if (header.profile.empty()) return {};
  const std::size_t parts = header.profile.front()[1];
  std::vector<unsigned char> joined;
  for (std::size_t number = 1; number <= parts || number == 1; ++number) {
    const Bytes* found = nullptr;
    for (const Bytes& piece : header.profile) {
      if (piece[0] == number && number <= parts && piece[1] == parts && found == nullptr) found = &piece;
    }
    if (found == nullptr) {
      return not_supported("part " + std::to_string(number) + " of " + std::to_string(parts) + " of it is missing");
    }
    joined.insert(joined.end(), found->begin() + 2, found->end());
  }
  return IccProfile::read(joined, header.components == 1);
}

/// An ICC profile in a PNG: its name, a zero, the way it is packed (0), and a zlib stream.
template <When = When::called>
PictureColours packed_profile(Bytes chunk, bool grey) {
  std::size_t end = 0;
  while (end < chunk.size() && end < 80 && chunk[end] != 0) ++end;
  const std::string name = name_of(chunk.first(end), 1);
  if (end == 0 || end + 2 > chunk.size() || chunk[end] != 0 || chunk[end + 1] != 0) {
    return not_supported("its chunk is wrong", name);
  }
  const Bytes packed = chunk.subspan(end + 2);
  // Profiles of curves take a few thousand bytes, even large ones of tables less than this.
  constexpr int most = 8'000'000;
  if (packed.size() > most) return not_supported("it is longer than 8 MB", name);
  const Memory unpacked = take_memory(most, "profile");
  const int got = stb::handlaid_stbi_zlib_decode_buffer(reinterpret_cast<char*>(unpacked.get()), most,
                                                        reinterpret_cast<const char*>(packed.data()),
                                                        static_cast<int>(packed.size()));
  if (got < 0) return not_supported("it cannot be unpacked or is longer than 8 MB", name);
  const Bytes profile = {unpacked.get(), static_cast<std::size_t>(got)};
  if (packed.size() < 4 || adler32(profile) != big32(packed, packed.size() - 4)) {
    return not_supported("its check sum is wrong", name);
  }
  PictureColours colours = IccProfile::read(profile, grey);
  if (colours.report.name.empty()) colours.report.name = name;
  return colours;
}

/// Code points of ITU-T H.273: primaries, curve, matrix, whether the range is full.
template <When = When::called>
PictureColours coded_colours(Bytes chunk) {
  const auto number = [&](std::size_t i) { return std::to_string(i < chunk.size() ? chunk[i] : 0); };
  const std::string name = "cICP chunk " + number(0) + "/" + number(1) + "/" + number(2) + "/" + number(3);
  if (chunk.size() != 4) return not_supported("its chunk is wrong", name);
  PictureColours colours = colours_with(ProfileUse::converted, name);
  ToneCurve curve = srgb_tone_curve();
  if (chunk[1] == 4) curve = {.g = 144179};  // 2.2
  if (chunk[1] == 8) curve = {};
  const bool known_curve = chunk[1] == 4 || chunk[1] == 8 || chunk[1] == 13;
  constexpr std::int64_t srgb[8] = {31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000};
  constexpr std::int64_t wide[8] = {31270, 32900, 70800, 29200, 17000, 79700, 13100, 4600};  // ITU-R BT.2020
  constexpr std::int64_t p3[8] = {31270, 32900, 68000, 32000, 26500, 69000, 15000, 6000};    // SMPTE EG 432-1
  const bool known = chunk[0] == 1    ? set_primaries(colours.space, srgb)
                     : chunk[0] == 9  ? set_primaries(colours.space, wide)
                     : chunk[0] == 12 ? set_primaries(colours.space, p3)
                                      : false;
  if (!known || !known_curve || chunk[2] != 0 || chunk[3] != 1) {
    return not_supported("its code points are not known here", name);
  }
  for (ToneCurve& each : colours.space.curves) each = curve;
  return colours;
}

template <When = When::called>
PictureColours gamma_and_primaries(Bytes gamma, Bytes primaries) {
  const std::string name = gamma.empty() ? "cHRM chunk" : primaries.empty() ? "gAMA chunk" : "cHRM and gAMA chunks";
  PictureColours colours = colours_with(ProfileUse::converted, name);
  ToneCurve curve = srgb_tone_curve();
  if (!gamma.empty()) {
    const std::int64_t value = gamma.size() == 4 ? big32(gamma, 0) : 0;  // the power of writing, in 1/100000
    if (value < 10'000 || value > 1'000'000) return not_supported("its gamma makes no sense", name);
    if (value < 45'000 || value > 46'000) curve = {.g = (6'553'600'000 + value / 2) / value};
  }
  for (ToneCurve& each : colours.space.curves) each = curve;
  if (primaries.empty()) return colours;
  std::int64_t xy[8] = {};
  for (std::size_t i = 0; i < 8 && primaries.size() == 32; ++i) xy[i] = big32(primaries, 4 * i);
  if (!set_primaries(colours.space, xy)) return not_supported("its primaries make no sense", name);
  return colours;
}

template <When = When::called>
PictureColours png_colours(Bytes bytes, const std::string& name) {
  const PngHeader header = PngWalk(bytes, name).walk(false);
  if (!header.cicp.empty()) return coded_colours(header.cicp);
  if (!header.iccp.empty()) {
    return packed_profile(header.iccp, header.colour_type == 0 || header.colour_type == 4);
  }
  if (!header.srgb.empty()) return colours_with(ProfileUse::same, "sRGB chunk");
  if (header.gama.empty() && header.chrm.empty()) return {};
  return gamma_and_primaries(header.gama, header.chrm);
}

/// What a picture that can be decoded says of its colours.
template <When = When::called>
PictureColours colours_of(PictureFormat format, Bytes bytes, const std::string& name) {
  PictureColours colours;
  if (format == PictureFormat::jpeg) colours = jpeg_colours(bytes, name);
  if (format == PictureFormat::png) colours = png_colours(bytes, name);
  if (colours.report.use == ProfileUse::converted && SharesOfLight(colours.space).as_srgb()) {
    colours.report.use = ProfileUse::same;
  }
  return colours;
}

}  // namespace handlaid::detail
