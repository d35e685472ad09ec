// ICC profiles made by Little CMS, and pictures that carry them.
#pragma once

#include <lcms2.h>

#include <string>
#include <utility>
#include <vector>

#include "handlaid/image/deflate.hpp"
#include "handlaid/image/write.hpp"
#include "support/png_parts.hpp"

namespace handlaid_test {

/// Chromaticities x, y.
struct Primaries {
  double white[2];
  double red[2];
  double green[2];
  double blue[2];
};
/// SMPTE EG 432-1 with white D65; a wide space with ITU-R BT.709's red and blue and a green of 0.21, 0.71; ISO 22028-2
/// (two of its primaries are no real colours).
inline constexpr Primaries cinema_wide = {{0.3127, 0.3290}, {0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}};
inline constexpr Primaries print_wide = {{0.3127, 0.3290}, {0.64, 0.33}, {0.21, 0.71}, {0.15, 0.06}};
inline constexpr Primaries widest = {{0.3457, 0.3585}, {0.7347, 0.2653}, {0.1596, 0.8404}, {0.0366, 0.0001}};
inline constexpr Primaries bt709 = {{0.3127, 0.3290}, {0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}};

/// A curve of one of Little CMS's types (1 to 5 are ICC's parametric types 0 to 4), or as a table of it.
inline cmsToneCurve* curve_of(int type, std::vector<double> parameters, int entries = 0) {
  cmsToneCurve* curve = cmsBuildParametricToneCurve(nullptr, type, parameters.data());
  if (entries == 0) return curve;
  std::vector<cmsUInt16Number> table;
  for (int i = 0; i < entries; ++i) {
    const float y = cmsEvalToneCurveFloat(curve, static_cast<float>(i) / static_cast<float>(entries - 1));
    table.push_back(static_cast<cmsUInt16Number>(y * 65535 + 0.5F));
  }
  cmsFreeToneCurve(curve);
  return cmsBuildTabulatedToneCurve16(nullptr, static_cast<cmsUInt32Number>(entries), table.data());
}

inline Bytes saved(cmsHPROFILE profile) {
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  Bytes bytes(size);
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  return bytes;
}

/// Gives the profile a description; takes the curve.
inline Bytes rgb_profile(const Primaries& p, cmsToneCurve* curve, double version = 4.3,
                         const char* name = "Wide gamut") {
  const cmsCIExyY white = {p.white[0], p.white[1], 1};
  const cmsCIExyYTRIPLE primaries = {{p.red[0], p.red[1], 1}, {p.green[0], p.green[1], 1}, {p.blue[0], p.blue[1], 1}};
  cmsToneCurve* const curves[3] = {curve, curve, curve};
  const cmsHPROFILE profile = cmsCreateRGBProfile(&white, &primaries, curves);
  cmsSetProfileVersion(profile, version);
  cmsMLU* const text = cmsMLUalloc(nullptr, 1);
  cmsMLUsetASCII(text, "en", "US", name);
  cmsWriteTag(profile, cmsSigProfileDescriptionTag, text);
  cmsMLUfree(text);
  cmsFreeToneCurve(curve);
  return saved(profile);
}

/// The chunk that holds a profile in a PNG.
inline Chunk profile_chunk(const Bytes& profile) {
  Bytes body = {'n', 'a', 'm', 'e', 0, 0};
  const std::string packed = handlaid::detail::zlib_pack(profile);
  body.insert(body.end(), packed.begin(), packed.end());
  return {"iCCP", body};
}
/// The PNG with a chunk behind its header.
inline Bytes with_chunk(const Bytes& png, Chunk chunk) {
  auto chunks = chunks_of(png);
  chunks.insert(chunks.begin() + 1, std::move(chunk));
  return png_of(chunks);
}

/// The JPEG with the profile in `parts` pieces at its start, the last first.
inline Bytes jpeg_with(const Bytes& jpeg, const Bytes& profile, std::size_t parts) {
  Bytes result(jpeg.begin(), jpeg.begin() + 2);
  for (std::size_t number = parts; number > 0; --number) {
    const std::size_t first = profile.size() * (number - 1) / parts;
    const std::size_t last = profile.size() * number / parts;
    Bytes segment = bytes_of(std::string("ICC_PROFILE\0", 12));
    segment.push_back(static_cast<unsigned char>(number));
    segment.push_back(static_cast<unsigned char>(parts));
    segment.insert(segment.end(), profile.begin() + static_cast<std::ptrdiff_t>(first),
                   profile.begin() + static_cast<std::ptrdiff_t>(last));
    const std::size_t length = segment.size() + 2;
    result.insert(result.end(),
                  {0xff, 0xe2, static_cast<unsigned char>(length / 256), static_cast<unsigned char>(length % 256)});
    result.insert(result.end(), segment.begin(), segment.end());
  }
  result.insert(result.end(), jpeg.begin() + 2, jpeg.end());
  return result;
}

}  // namespace handlaid_test
