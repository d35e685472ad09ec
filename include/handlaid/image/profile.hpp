// What a picture says of its own colours (an embedded ICC profile, or the colour chunks of a PNG), and what reading
// makes of it. Reading takes codes to sRGB; this is the report that travels beside them: `picture_info(bytes).profile`.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// What reading does about a picture's profile.
enum class ProfileUse {
  none,          ///< the picture has none: its codes are taken as sRGB
  same,          ///< it changes no 8-bit code by more than one: it is sRGB, and the codes are left as they are
  converted,     ///< codes are taken by it to linear light and on to sRGB
  not_supported  ///< of a kind that is not read, or damaged: sRGB is assumed
};

/// The profile of a picture. Read are ICC profiles, version 2 and 4, of three curves and three primaries (ICC.1:2022,
/// 8.3.3), or of one curve in grey pictures; in a PNG also cICP, sRGB, cHRM and gAMA.
struct PictureProfile {
  ProfileUse use = ProfileUse::none;
  /// As the file calls it: one line of at most 60 letters, without quotes; empty where it has no name.
  std::string name = {};
  /// Why it is not used: "it is for CMYK, not RGB".
  std::string problem = {};
  friend bool operator==(const PictureProfile&, const PictureProfile&) = default;
};

/// One or two sentences for the maker; empty where there is nothing to tell.
template <When = When::called>
std::string sentence_on(const PictureProfile& profile) {
  const std::string called = "The picture's profile" + (profile.name.empty() ? "" : " \"" + profile.name + "\"");
  if (profile.use == ProfileUse::converted) return called + " was used: its colours were taken to sRGB.";
  if (profile.use != ProfileUse::not_supported) return {};
  return called + " was not used: " + profile.problem +
         ". sRGB was assumed; if the colours look wrong, save the picture as sRGB.";
}

}  // namespace handlaid
