// Reading an ICC profile of three curves and three primaries, or of one curve for grey. ICC.1:2022 (version 4),
// ICC.1:2001-04 (version 2). Every other kind is named. Whatever the bytes say, nothing outside them is touched.
#pragma once

#include "handlaid/core/when_called.hpp"
#include "handlaid/image/rgb_space.hpp"

namespace handlaid::detail {

/// Adds a letter to a name of one line: no quote, nothing that cannot be seen or that turns the direction of writing.
template <When = When::called>
void add_name_letter(std::string& name, std::uint32_t c) {
  if (c == '"') c = '\'';
  const bool plain = (c >= 32 && c < 127) || (c >= 0xa1 && c < 0x590) || (c >= 0x2e80 && c < 0xd800);
  if (!plain) c = '?';
  if (c < 0x80) {
    name += static_cast<char>(c);
  } else if (c < 0x800) {
    name += static_cast<char>(0xc0U | c >> 6U);
    name += static_cast<char>(0x80U | (c & 63U));
  } else {
    name += static_cast<char>(0xe0U | c >> 12U);
    name += static_cast<char>(0x80U | (c >> 6U & 63U));
    name += static_cast<char>(0x80U | (c & 63U));
  }
}

/// A name of `bytes` to a zero, `width` bytes a letter (2: UTF-16), the most significant first.
template <When = When::called>
std::string name_of(Bytes bytes, std::size_t width) {
  constexpr std::size_t most = 60;
  std::string name;
  for (std::size_t i = 0; i < most && (i + 1) * width <= bytes.size(); ++i) {
    const std::uint32_t c = width == 1 ? bytes[i] : big16(bytes, 2 * i);
    if (c == 0) break;
    add_name_letter(name, c);
  }
  return name;
}

class IccProfile {
 public:
  /// `grey`: whether the picture has grey pixels only.
  template <When = When::called>
  static PictureColours read(Bytes bytes, bool grey) {
    PictureColours colours;
    IccProfile profile(bytes);
    colours.report.problem = profile.frame();
    if (colours.report.problem.empty()) {
      colours.report.name = profile.name();
      colours.report.problem = profile.read_space(grey, colours.space);
    }
    colours.report.use = colours.report.problem.empty() ? ProfileUse::converted : ProfileUse::not_supported;
    return colours;
  }

 private:
  explicit IccProfile(Bytes bytes) : bytes_(bytes) {}

  /// Checks the header and the table of tags; says what is wrong.
  template <When = When::called>
  std::string frame() {
    if (bytes_.size() < 132) return "it is cut short";
    const std::size_t size = big32(bytes_, 0);
    if (!has_at(bytes_, 36, "acsp")) return "it is not an ICC profile";
    if (size < 132 || size > bytes_.size()) return "it is cut short";
    bytes_ = bytes_.first(size);
    tags_ = big32(bytes_, 128);
    if (tags_ > (size - 132) / 12) return "its list of tags is longer than it";
    return {};
  }

  /// The bytes of a tag; none where it is missing or lies outside.
  template <When = When::called>
  Bytes tag(std::string_view signature) const {
    for (std::size_t i = 0; i < tags_; ++i) {
      const std::size_t at = 132 + 12 * i;
      if (!has_at(bytes_, at, signature)) continue;
      const std::size_t start = big32(bytes_, at + 4);
      const std::size_t size = big32(bytes_, at + 8);
      if (start < 128 || start > bytes_.size() || size > bytes_.size() - start) return {};
      return bytes_.subspan(start, size);
    }
    return {};
  }

  template <When = When::called>
  std::string name() const {
    const Bytes text = tag("desc");
    if (text.size() > 12 && has_at(text, 0, "desc")) {
      const std::size_t length = big32(text, 8);
      const Bytes rest = text.subspan(12);
      return name_of(rest.first(length < rest.size() ? length : rest.size()), 1);
    }
    if (text.size() >= 28 && has_at(text, 0, "mluc") && big32(text, 8) > 0) {  // the first language there is
      const std::size_t length = big32(text, 20);
      const std::size_t start = big32(text, 24);
      if (start < text.size() && length <= text.size() - start) return name_of(text.subspan(start, length), 2);
    }
    return {};
  }

  template <When = When::called>
  std::string read_space(bool grey, RgbSpace& space) const {
    if (bytes_[8] != 2 && bytes_[8] != 4) return "it is of version " + std::to_string(bytes_[8]);
    if (has_at(bytes_, 12, "link") || has_at(bytes_, 12, "abst") || has_at(bytes_, 12, "nmcl")) {
      return "it is not of a device";
    }
    if (!has_at(bytes_, 12, "mntr") && !has_at(bytes_, 12, "scnr") && !has_at(bytes_, 12, "prtr") &&
        !has_at(bytes_, 12, "spac")) {
      return "it is of a class that is not known here";
    }
    const bool for_grey = has_at(bytes_, 16, "GRAY");
    if (has_at(bytes_, 16, "CMYK")) return "it is for CMYK, not RGB";
    if (!for_grey && !has_at(bytes_, 16, "RGB ")) return "it is not for RGB";
    if (for_grey && !grey) return "it is for grey, and the picture has colours";
    if (!has_at(bytes_, 20, "XYZ ")) return tables();
    if (for_grey) {
      if (!read_tone_curve(tag("kTRC"), space.curves[0])) return "its curve is missing or broken";
      if (!space.curves[0].sensible()) return "its curve makes no sense";
      space.curves[1] = space.curves[2] = space.curves[0];
      return {};
    }
    constexpr std::string_view primary_tags[] = {"rXYZ", "gXYZ", "bXYZ"};
    constexpr std::string_view curve_tags[] = {"rTRC", "gTRC", "bTRC"};
    FixedVector primaries[3] = {};
    for (std::size_t i = 0; i < 3; ++i) {
      const Bytes primary = tag(primary_tags[i]);
      if (primary.size() < 20 || !has_at(primary, 0, "XYZ ")) return tables("its primaries are missing or broken");
      const auto number = [&](std::size_t at) {
        return std::int64_t{static_cast<std::int32_t>(big32(primary, at))} * 256;
      };
      primaries[i] = {number(8), number(12), number(16)};
      if (!read_tone_curve(tag(curve_tags[i]), space.curves[i])) return tables("its curves are missing or broken");
      if (!space.curves[i].sensible()) return "its curves make no sense";
    }
    if (!set_primaries(space, primaries)) return "its primaries make no sense";
    return {};
  }

  std::string tables(const std::string& otherwise = "it works by way of Lab") const {
    const bool has = !tag("A2B0").empty() || !tag("A2B1").empty() || !tag("D2B0").empty();
    return has ? "it works by tables of colours, which are not read" : otherwise;
  }

  Bytes bytes_;
  std::size_t tags_ = 0;
};

}  // namespace handlaid::detail
