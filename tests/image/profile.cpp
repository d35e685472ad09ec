// Embedded profiles against Little CMS: relative colorimetric, without black point compensation, to its own sRGB.
#include <lcms2.h>

#include <cmath>

#include "handlaid/image/read.hpp"
#include "support/catch.hpp"
#include "support/pictures.hpp"
#include "support/png_parts.hpp"
#include "support/profiles.hpp"

using namespace handlaid;
using namespace handlaid_test;

namespace {

/// 17 x 17 x 17 colours and all greys, then noise.
const Raster<Srgb8>& codes() {
  static const Raster<Srgb8> picture = [] {
    Raster<Srgb8> all = opaque_noise(128, 64, 3);
    std::size_t i = 0;
    const auto put = [&](int r, int g, int b) {
      const auto code = [](int v) { return static_cast<std::uint8_t>(v > 255 ? 255 : v); };
      all.pixels()[i++] = {code(r), code(g), code(b)};
    };
    for (int v = 0; v < 256; ++v) put(v, v, v);
    for (int v = 0; v < 17 * 17 * 17; ++v) put(v % 17 * 16, v / 17 % 17 * 16, v / 289 * 16);
    return all;
  }();
  return picture;
}
/// Our own PNG without the chunk that says sRGB.
Bytes bare_png(const std::string& png) {
  auto chunks = chunks_of(bytes_of(png));
  std::erase_if(chunks, [](const Chunk& chunk) { return chunk.type == "sRGB"; });
  return png_of(chunks);
}

struct Compared {
  int most = 0;
  double equal_share = 0;
  bool changed = false;
};
/// What reading makes of the stored codes, against what Little CMS makes of them.
Compared compare(const Bytes& picture, const Bytes& profile) {
  const auto stored = read_memory<Srgb8>(picture, {.use_profile = false});
  const auto ours = read_memory<Srgb8>(picture);
  const cmsHPROFILE from = cmsOpenProfileFromMem(profile.data(), static_cast<cmsUInt32Number>(profile.size()));
  const cmsHPROFILE to = cmsCreate_sRGBProfile();
  const cmsHTRANSFORM transform = cmsCreateTransform(from, TYPE_RGB_8, to, TYPE_RGB_8, INTENT_RELATIVE_COLORIMETRIC,
                                                     cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE);
  REQUIRE(transform != nullptr);
  Raster<Srgb8> theirs(stored.width(), stored.height());
  cmsDoTransform(transform, stored.pixels().data(), theirs.pixels().data(),
                 static_cast<cmsUInt32Number>(stored.size()));
  cmsDeleteTransform(transform);
  cmsCloseProfile(from);
  cmsCloseProfile(to);
  Compared result;
  std::size_t equal = 0;
  for (std::size_t i = 0; i < stored.size(); ++i) {
    const Srgb8 p = ours.pixels()[i];
    const Srgb8 q = theirs.pixels()[i];
    for (const int d : {p.r - q.r, p.g - q.g, p.b - q.b}) result.most = std::max(result.most, std::abs(d));
    if (p == q) ++equal;
    result.changed = result.changed || p != stored.pixels()[i];
  }
  result.equal_share = static_cast<double>(equal) / static_cast<double>(stored.size());
  return result;
}

struct Kind {
  const char* what;
  Bytes profile;
};
/// IEC 61966-2-1's curve as ICC's type 3.
const std::vector<double> srgb_curve = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};

std::vector<Kind> kinds() {
  return {
      {"cinema primaries, sRGB's curve, version 4", rgb_profile(cinema_wide, curve_of(4, srgb_curve))},
      {"cinema primaries, table of 1024, version 2", rgb_profile(cinema_wide, curve_of(4, srgb_curve, 1024), 2.1)},
      {"cinema primaries, table of 26, version 2", rgb_profile(cinema_wide, curve_of(4, srgb_curve, 26), 2.1)},
      {"print primaries, gamma 563/256, version 2", rgb_profile(print_wide, curve_of(1, {563 / 256.0}), 2.1)},
      {"print primaries, gamma 563/256, version 4", rgb_profile(print_wide, curve_of(1, {563 / 256.0}))},
      {"widest primaries, gamma 1.8, version 2", rgb_profile(widest, curve_of(1, {1.8}), 2.1)},
      {"widest primaries, a power with a straight start, version 4",
       rgb_profile(widest, curve_of(4, {1.8, 1, 0, 1 / 16.0, 1 / 32.0}))},
      {"parametric type 1", rgb_profile(print_wide, curve_of(2, {2.2, 1.05, -0.05}))},
      {"parametric type 2", rgb_profile(print_wide, curve_of(3, {2.0, 0.9, -0.02, 0.01}))},
      {"parametric type 4",
       rgb_profile(print_wide, curve_of(5, {2.4, 0.94, 0.055 / 1.055, 1 / 12.92, 0.04045, 0.01, 0.01}))},
      {"linear light", rgb_profile(bt709, curve_of(1, {1.0}))},
  };
}

}  // namespace

TEST_CASE("pictures with a profile of curves and primaries are what Little CMS makes of them") {
  const Bytes plain = bare_png(write_png(codes()));
  for (const Kind& kind : kinds()) {
    INFO(kind.what);
    const Bytes png = with_chunk(plain, profile_chunk(kind.profile));
    const Compared result = compare(png, kind.profile);
    CHECK(result.changed);
    CHECK(result.most <= 1);
    CHECK(result.equal_share > 0.9);
    const PictureInfo info = picture_info(png);
    CHECK(info.profile == PictureProfile{ProfileUse::converted, "Wide gamut", ""});
  }
}

TEST_CASE("a profile that is sRGB leaves every code as it is, whatever its version and kind of curve") {
  const Bytes plain = bare_png(write_png(codes()));
  const Bytes same[] = {saved(cmsCreate_sRGBProfile()), rgb_profile(bt709, curve_of(4, srgb_curve), 4.3, "standard"),
                        rgb_profile(bt709, curve_of(4, srgb_curve, 1024), 2.1, "standard"),
                        rgb_profile(bt709, curve_of(4, srgb_curve, 4096), 2.1, "standard")};
  for (const Bytes& profile : same) {
    const Bytes png = with_chunk(plain, profile_chunk(profile));
    CHECK(picture_info(png).profile.use == ProfileUse::same);
    CHECK(sentence_on(picture_info(png).profile).empty());
    CHECK(read_memory<Srgb8>(png) == codes());
    CHECK(read_memory<Srgb16>(png) == read_memory<Srgb16>(plain));
  }
  CHECK(picture_info(plain).profile == PictureProfile{});
}

TEST_CASE("a profile in a JPEG may come in pieces in any order, and one without all of them is told of") {
  const Bytes jpeg = load("pictures/jpeg_444.jpg");
  const Bytes profile = rgb_profile(cinema_wide, curve_of(4, srgb_curve, 1024), 2.1, "Cinema \"wide\"\n");
  for (const std::size_t parts : {1U, 2U, 5U, 255U}) {
    const Bytes with = jpeg_with(jpeg, profile, parts);
    CHECK(compare(with, profile).most <= 1);
    CHECK(compare(with, profile).changed);
    CHECK(sentence_on(picture_info(with).profile) ==
          "The picture's profile \"Cinema 'wide'?\" was used: its colours were taken to sRGB.");
    CHECK(read_memory<Srgb8>(with, {.use_profile = false}) == read_memory<Srgb8>(jpeg));
  }
  const Bytes three = jpeg_with(jpeg, profile, 3);
  const auto piece = std::size_t{2} + 2 + detail::big16(three, 4);  // the third stands first
  Bytes missing = three;
  missing.erase(missing.begin() + 2, missing.begin() + static_cast<std::ptrdiff_t>(piece));
  Bytes disagrees = three;
  disagrees[2 + 4 + 13] = 4;
  Bytes none = jpeg_with(jpeg, profile, 1);
  none[2 + 4 + 13] = 0;
  for (const Bytes& broken : {missing, disagrees, none}) {
    const PictureInfo info = picture_info(broken);
    CHECK(info.profile.use == ProfileUse::not_supported);
    CHECK_THAT(sentence_on(info.profile), contains("is missing. sRGB was assumed"));
    CHECK(read_memory<Srgb8>(broken) == read_memory<Srgb8>(jpeg));
  }
}

TEST_CASE("kinds of profile that are not read are named, and sRGB is assumed") {
  const Bytes plain = bare_png(write_png(codes()));
  const auto told = [&](const Bytes& profile, const std::string& problem) {
    INFO(problem);
    const Bytes png = with_chunk(plain, profile_chunk(profile));
    const PictureInfo info = picture_info(png);
    CHECK(info.profile.use == ProfileUse::not_supported);
    CHECK_THAT(info.profile.problem, contains(problem));
    CHECK(read_memory<Srgb8>(png) == codes());
  };
  told(saved(cmsCreateLab4Profile(nullptr)), "not of a device");
  told(saved(cmsCreateXYZProfile()), "not of a device");
  told(saved(cmsCreateInkLimitingDeviceLink(cmsSigCmykData, 250)), "not of a device");
  cmsToneCurve* const gamma = curve_of(1, {2.2});
  told(saved(cmsCreateGrayProfile(cmsD50_xyY(), gamma)), "for grey");
  cmsFreeToneCurve(gamma);

  const Bytes good = rgb_profile(print_wide, curve_of(1, {2.2}), 2.1);
  const auto with = [&](std::size_t at, const std::string& text) {
    Bytes changed = good;
    for (std::size_t i = 0; i < text.size(); ++i) changed[at + i] = static_cast<unsigned char>(text[i]);
    return changed;
  };
  const auto entry = [&](const char* tag) {  // where the list has it
    std::size_t at = 132;
    while (!detail::has_at(good, at, tag)) at += 12;
    return at;
  };
  told(with(8, "\x05"), "version 5");
  told(with(12, "wxyz"), "class that is not known");
  told(with(16, "CMYK"), "CMYK");
  told(with(16, "HSV "), "not for RGB");
  told(with(20, "Lab "), "by way of Lab");
  told(with(36, "xxxx"), "not an ICC profile");
  told(with(entry("gXYZ"), "none"), "primaries are missing");
  told(with(entry("bTRC"), "none"), "curves are missing");
  Bytes tables = with(entry("rXYZ"), "A2B0");
  told(tables, "tables of colours");
  told(with(0, std::string("\0\1\0\0", 4)), "cut short");
  told(with(0, std::string("\0\0\0\1", 4)), "cut short");
  told(with(128, "\xff\xff\xff\xff"), "longer than it");
  told(with(entry("rTRC") + 4, "\xff\xff\xff\xf0"), "curves are missing");
  told(with(entry("rTRC") + 8, "\xff\xff\xff\xff"), "curves are missing");
  told(with(entry("rXYZ") + 4, std::string("\0\0\0\4", 4)), "primaries are missing");
  const auto start = [&](const char* tag) { return std::size_t{detail::big32(good, entry(tag) + 4)}; };
  told(with(start("rTRC") + 8, "\xff\xff\xff\xff"), "curves are missing");          // entries that are not there
  told(with(start("rTRC") + 12, std::string("\0\0", 2)), "curves make no sense");   // a power of 0
  told(with(start("rTRC") + 12, "\xff\xff"), "curves make no sense");               // of 256
  told(with(start("gXYZ") + 8, std::string(12, '\0')), "primaries make no sense");  // none
  told(with(start("gXYZ") + 8, std::string("\x7f\xff\xff\xff", 4)), "primaries make no sense");
  Bytes alike = good;  // red and green the same
  std::copy_n(good.begin() + static_cast<std::ptrdiff_t>(start("gXYZ")), 20,
              alike.begin() + static_cast<std::ptrdiff_t>(start("rXYZ")));
  told(alike, "primaries make no sense");
  CHECK(picture_info(with_chunk(plain, profile_chunk(good))).profile.use == ProfileUse::converted);
}

TEST_CASE("a profile that is packed wrongly is told of") {
  const Bytes plain = bare_png(write_png(codes()));
  const Chunk good = profile_chunk(rgb_profile(print_wide, curve_of(1, {2.2}), 2.1));
  const auto told = [&](const Chunk& chunk) {
    const Bytes png = with_chunk(plain, chunk);
    CHECK(picture_info(png).profile.use == ProfileUse::not_supported);
    CHECK(read_memory<Srgb8>(png) == codes());
    return picture_info(png).profile.problem;
  };
  Chunk chunk = good;
  chunk.body[5] = 1;  // another way of packing
  CHECK_THAT(told(chunk), contains("chunk is wrong"));
  chunk.body.assign(100, 'x');  // a name without end
  CHECK_THAT(told(chunk), contains("chunk is wrong"));
  chunk = good;
  chunk.body.back() ^= 1U;
  CHECK_THAT(told(chunk), contains("check sum"));
  chunk = good;
  chunk.body.resize(60);
  CHECK_THAT(told(chunk), contains("unpacked"));
  // A few thousand bytes that would unpack to a hundred million.
  const Chunk bomb = profile_chunk(Bytes(100'000'000, 0));
  CHECK(bomb.body.size() < 1'000'000);
  CHECK_THAT(told(bomb), contains("longer than 8 MB"));
}

TEST_CASE("16-bit codes go the same way as 8-bit ones, and alpha stays") {
  const Bytes profile = rgb_profile(cinema_wide, curve_of(4, srgb_curve));
  const auto with_alpha = noise(64, 64);
  const Bytes png = with_chunk(bytes_of(write_png(with_alpha)), profile_chunk(profile));
  const auto shallow = read_memory<Srgba8>(png);
  const auto deep = read_memory<Srgba16>(png);
  for (std::size_t i = 0; i < shallow.size(); ++i) {
    REQUIRE(shallow.pixels()[i].alpha == with_alpha.pixels()[i].alpha);
    const auto one = [](std::uint8_t s, std::uint16_t d) { return std::abs(s * 257 - d) <= 129; };
    const Srgb8 s = shallow.pixels()[i].colour;
    const Srgb16 d = deep.pixels()[i].colour;
    if (!one(s.r, d.r) || !one(s.g, d.g) || !one(s.b, d.b)) FAIL(i);
  }
  // What is outside of sRGB is held at its ends: the greenest green.
  Raster<Srgb8> green(1, 1);
  green(0, 0) = {0, 255, 0};
  const Bytes greenest = with_chunk(bytes_of(write_png(green)), profile_chunk(profile));
  CHECK(read_memory<Srgb8>(greenest)(0, 0) == Srgb8{0, 255, 0});
  CHECK(read_memory<Srgb16>(greenest)(0, 0) == Srgb16{0, 65535, 0});
}

// PngSuite's gamma tests: one picture written with gammas from 0.35 to 2.5, which is to look alike under all of them.
TEST_CASE("PngSuite's pictures of several gammas look alike") {
  const auto reference = read<Srgb16>(data_path("pngsuite/g07n0g16.png"));
  for (const char* gamma : {"g03", "g04", "g05", "g10", "g25"}) {
    INFO(gamma);
    const std::string path = data_path(std::string("pngsuite/") + gamma + "n0g16.png");
    const auto stored = read<Srgb16>(path, {.use_profile = false});
    const auto picture = read<Srgb16>(path);
    double off = 0;
    double off_stored = 0;
    for (std::size_t i = 0; i < picture.size(); ++i) {
      off += std::abs(picture.pixels()[i].g - reference.pixels()[i].g) / 65535.0;
      off_stored += std::abs(stored.pixels()[i].g - reference.pixels()[i].g) / 65535.0;
    }
    off /= static_cast<double>(picture.size());
    off_stored /= static_cast<double>(picture.size());
    CHECK(off < 0.025);
    // One is written for sRGB's own curve, and read so.
    if (std::string(gamma) != "g04") CHECK(off_stored > 2 * off);
  }
}

TEST_CASE("the colour chunks of a PNG count in the standard's order") {
  const Bytes plain = bare_png(write_png(codes()));
  const auto numbers = [](std::initializer_list<std::uint32_t> values) {
    Bytes body(4 * values.size());
    std::size_t at = 0;
    for (const std::uint32_t value : values) set_big32(body, 4 * at++, value);
    return body;
  };
  const Chunk gamma = {"gAMA", numbers({100'000})};
  const Chunk primaries = {"cHRM", numbers({31270, 32900, 68000, 32000, 26500, 69000, 15000, 6000})};
  const Chunk standard = {"sRGB", {0}};
  const Chunk coded = {"cICP", {12, 13, 0, 1}};
  const auto name = [](const Bytes& png) { return picture_info(png).profile.name; };
  // Each in front of the last, but the first that counts is asked for.
  Bytes png = with_chunk(plain, gamma);
  CHECK(name(png) == "gAMA chunk");
  png = with_chunk(png, primaries);
  CHECK(name(png) == "cHRM and gAMA chunks");
  CHECK(picture_info(png).profile.use == ProfileUse::converted);
  png = with_chunk(png, standard);
  CHECK(picture_info(png).profile.use == ProfileUse::same);
  CHECK(read_memory<Srgb8>(png) == codes());
  png = with_chunk(png, profile_chunk(rgb_profile(print_wide, curve_of(1, {2.2}))));
  CHECK(name(png) == "Wide gamut");
  png = with_chunk(png, coded);
  CHECK(name(png) == "cICP chunk 12/13/0/1");

  // The same colours said in three ways are the same picture, but for a code where the ways round.
  const Bytes profile = rgb_profile(cinema_wide, curve_of(4, srgb_curve));
  CHECK(compare(with_chunk(plain, coded), profile).most <= 1);
  CHECK(compare(with_chunk(plain, primaries), profile).most <= 1);
  const Bytes old = rgb_profile(widest, curve_of(1, {1.8}));
  const Chunk other = {"cHRM", numbers({34570, 35850, 73470, 26530, 15960, 84040, 3660, 10})};
  CHECK(compare(with_chunk(with_chunk(plain, other), {"gAMA", numbers({55'556})}), old).most <= 1);
  // Those of sRGB, as many writers add them, change nothing.
  const Chunk usual = {"cHRM", numbers({31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000})};
  const Bytes both = with_chunk(with_chunk(plain, usual), {"gAMA", numbers({45'455})});
  CHECK(picture_info(both).profile.use == ProfileUse::same);
  CHECK(read_memory<Srgb8>(both) == codes());

  const Chunk senseless[] = {{"gAMA", numbers({0})},
                             {"gAMA", numbers({0x7fffffff})},
                             {"gAMA", {1, 2}},
                             {"cHRM", numbers({1, 2, 3})},
                             {"cHRM", Bytes(32, 0)},
                             {"cHRM", Bytes(32, 255)},
                             {"cHRM", numbers({31270, 1, 64000, 33000, 30000, 60000, 15000, 6000})},
                             {"cHRM", numbers({100'000, 100'000, 64000, 33000, 30000, 60000, 15000, 6000})},
                             {"cHRM", numbers({31270, 32900, 64000, 33000, 64000, 33000, 15000, 6000})},
                             {"cICP", {9, 16, 0, 1}},
                             {"cICP", {2, 13, 0, 1}},
                             {"cICP", {12, 13, 0, 0}},
                             {"cICP", {12}}};
  for (const Chunk& chunk : senseless) {
    const Bytes with = with_chunk(plain, chunk);
    CHECK(picture_info(with).profile.use == ProfileUse::not_supported);
    CHECK(read_memory<Srgb8>(with) == codes());
  }
}

TEST_CASE("a grey picture takes a grey profile, and one for RGB") {
  const auto chunks = chunks_of(load("pngsuite/basi0g08.png"));
  std::vector<Chunk> bare = {chunks.front(), chunks[chunks.size() - 2], chunks.back()};
  const Bytes plain = png_of(bare);
  const auto stored = read_memory<Srgb8>(plain);
  cmsToneCurve* const gamma = curve_of(1, {1.8});
  const Bytes grey = saved(cmsCreateGrayProfile(cmsD50_xyY(), gamma));
  cmsFreeToneCurve(gamma);
  const auto read_grey = read_memory<Srgb8>(with_chunk(plain, profile_chunk(grey)));
  int most = 0;
  for (std::size_t i = 0; i < stored.size(); ++i) {
    // IEC 61966-2-1, in double.
    const double y = std::pow(stored.pixels()[i].g / 255.0, 461 / 256.0);  // 1.8 as the file has it
    const double code = 255 * (y <= 0.0031308 ? 12.92 * y : 1.055 * std::pow(y, 1 / 2.4) - 0.055);
    most = std::max(most, std::abs(read_grey.pixels()[i].g - static_cast<int>(code + 0.5)));
    CHECK(read_grey.pixels()[i].r == read_grey.pixels()[i].g);
  }
  CHECK(most <= 1);
  CHECK(!(read_grey == stored));
  const Bytes rgb = rgb_profile(print_wide, curve_of(1, {461 / 256.0}));
  CHECK(compare(with_chunk(plain, profile_chunk(rgb)), rgb).most <= 1);
}

TEST_CASE("powers in whole numbers are those of the mathematics library") {
  double most = 0;
  for (const double g : {0.0625, 0.45, 1.0, 1.8, 2.0, 563 / 256.0, 2.4, 4.0}) {
    const auto steps = static_cast<std::int64_t>(std::lround(g * 65536));
    for (std::int64_t code = 0; code <= 65535; code += 17) {
      const std::int64_t x = (code << 30) / 65535;
      const double right = std::pow(static_cast<double>(x) / 1073741824.0, static_cast<double>(steps) / 65536);
      most = std::max(most, std::abs(static_cast<double>(detail::fixed_power(x, steps)) / 1073741824.0 - right));
    }
  }
  CHECK(most < 1.0 / (1 << 24));  // a step of linear light
  CHECK(detail::fixed_power(std::int64_t{1} << 30, 3 << 16) == std::int64_t{1} << 30);
  CHECK(detail::fixed_power(std::int64_t{1} << 46, 16 << 16) == std::int64_t{8} << 30);
  CHECK(detail::fixed_power(-5, 65536) == 0);
  CHECK(detail::fixed_power(1, 16 << 16) == 0);
}

TEST_CASE("damaged profiles are used or told of, never more") {
  std::vector<Kind> valid = kinds();
  cmsToneCurve* const gamma = curve_of(4, srgb_curve, 64);
  valid.push_back({"grey", saved(cmsCreateGrayProfile(cmsD50_xyY(), gamma))});
  cmsFreeToneCurve(gamma);
  Random random(11);
  int used = 0;
  int told = 0;
  for (const Kind& kind : valid) {
    for (int round = 0; round < 400; ++round) {
      Bytes profile = kind.profile;
      for (std::uint64_t changes = random.below(4) + 1; changes > 0; --changes) {
        // Mostly in the list of tags and at the tags' starts, where sizes are.
        const auto at = static_cast<std::size_t>(random.below(random.below(3) == 0 ? profile.size() : 700));
        if (at >= profile.size()) continue;
        const unsigned char values[] = {0, 1, 0x7f, 0x80, 0xff, static_cast<unsigned char>(random.next())};
        profile[at] = values[random.below(6)];
      }
      if (random.below(4) == 0) profile.resize(static_cast<std::size_t>(random.below(profile.size() + 1)));
      detail::PictureColours colours = detail::IccProfile::read(profile, round % 2 == 0);
      CHECK(colours.report.name.size() <= 180);
      if (colours.report.use == ProfileUse::converted) {
        ++used;
        unsigned char pixel[3] = {10, 200, 250};
        const detail::SharesOfLight table(colours.space);
        table.convert(pixel);
        static_cast<void>(table.as_srgb());
      } else {
        ++told;
        CHECK(!colours.report.problem.empty());
      }
    }
  }
  CHECK(used > 300);
  CHECK(told > 300);
  // Cut at every byte.
  for (const Kind& kind : valid) {
    for (std::size_t length = 0; length < kind.profile.size(); length += length < 700 ? 1 : 61) {
      const auto colours = detail::IccProfile::read(std::span(kind.profile).first(length), true);
      if (colours.report.use != ProfileUse::not_supported) FAIL(kind.what << " cut at " << length);
    }
  }
}

TEST_CASE("a picture with a profile, cut at every byte, is refused") {
  const Bytes profile = rgb_profile(cinema_wide, curve_of(4, srgb_curve));
  const Bytes png = with_chunk(bytes_of(write_png(opaque_noise(4, 4))), profile_chunk(profile));
  const Bytes jpeg = jpeg_with(load("pictures/jpeg_420.jpg"), profile, 3);
  for (const Bytes& whole : {png, jpeg}) {
    for (std::size_t length = 0; length < whole.size(); ++length) {
      INFO(length);
      CHECK_THROWS_AS(read_memory(std::span(whole).first(length)), Error);
    }
    CHECK_NOTHROW(read_memory(whole));
  }
}

TEST_CASE("the tables of conversion give the codes of the colour types") {
  const detail::SharesOfLight table(detail::RgbSpace{});
  const detail::DeepCodes deep;
  for (std::int32_t light = -1000; light <= linear_white + 1000; light += 97) {
    if (table.code(light) != Srgb8::from_light({light, 0, 0}).r) FAIL(light);
    if (deep.nearest(light) != Srgb16::from_light({light, 0, 0}).r) FAIL(light);
  }
  CHECK(table.code(linear_white) == 255);
}
