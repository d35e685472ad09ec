// The words of a job, in one table: the job file and the command line read it, `--help` and the writer show it.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "handlaid/files/job_values.hpp"

namespace handlaid {

/// One option of a job.
struct JobField {
  /// As written before the value; `--word` on a command line.
  const char* word = "";
  /// Stands for the value in help.
  const char* value = "";
  /// What it is, with unit and range.
  const char* help = "";
  /// What happens without it.
  const char* without = "";
  ValueRange range = {};
  /// May be given more than once.
  bool repeats = false;
  /// Sets the option in a job; the job stays as it was where the text is wrong.
  ValueFault (*read)(std::string_view text, LengthUnit bare, const ValueRange& range, Job& job) = nullptr;
  /// The option as texts, one for each value; none where it is not given.
  std::vector<std::string> (*write)(const Job& job, LengthUnit unit) = nullptr;
  /// Makes a job as if the option had not been given.
  void (*clear)(Job& job) = nullptr;
};

/// All options, in the order in which they are shown and written.
template <When = When::called>
std::span<const JobField> job_fields();

/// The option of that word, or nullptr.
inline const JobField* find_job_field(std::string_view word) {
  for (const JobField& field : job_fields()) {
    if (word == field.word) return &field;
  }
  return nullptr;
}

namespace detail {

template <class>
struct MemberType;
template <class T>
struct MemberType<T Job::*> {
  using type = T;
};
template <class T>
struct ItemType;
template <class T>
struct ItemType<std::optional<T>> {
  using type = T;
};
template <class T>
struct ItemType<std::vector<T>> {
  using type = T;
};

template <auto member>
ValueFault read_member(std::string_view text, LengthUnit bare, const ValueRange& range, Job& job) {
  using Member = typename MemberType<decltype(member)>::type;
  typename ItemType<Member>::type value = {};
  const ValueFault fault = read_value(text, bare, range, value);
  if (fault.any()) return fault;
  if constexpr (
      requires { (job.*member).push_back(value); } && !requires { (job.*member).value(); }) {
    (job.*member).push_back(value);
  } else {
    job.*member = value;
  }
  return {};
}

template <auto member>
std::vector<std::string> write_member(const Job& job, LengthUnit unit) {
  std::vector<std::string> texts;
  if constexpr (requires { (job.*member).value(); }) {
    if (job.*member) texts.push_back(value_text(*(job.*member), unit));
  } else {
    for (const auto& value : job.*member) texts.push_back(value_text(value, unit));
  }
  return texts;
}

template <auto member>
void clear_member(Job& job) {
  job.*member = {};
}

template <auto member>
constexpr JobField job_field(const char* word, const char* value, const char* help, const char* without,
                             ValueRange range = {}) {
  constexpr bool repeats = !requires(const Job& job) { (job.*member).value(); };
  return {
      word, value, help, without, range, repeats, &read_member<member>, &write_member<member>, &clear_member<member>};
}

inline constexpr ValueRange pitch_range = {100, 10'000'000, "0.1 mm to 10 m"};
inline constexpr ValueRange count_range = {1, 100'000, "1 to 100000"};
inline constexpr ValueRange tone_range = {-100, 100, "-100 to 100 percent"};

template <When>
inline constexpr std::array job_field_table = {
    job_field<&Job::picture>("picture", "FILE", "The picture: JPEG, PNG, BMP or PNM.", "must be given"),
    job_field<&Job::title>("title", "TEXT", "What the panel is called on its pages.", "the name of the picture"),
    job_field<&Job::method>("method", "pieces|strips",
                            "How pieces get their colours: bought in them, or cut from painted strips.", "pieces"),
    job_field<&Job::units>("units", "mm|inch", "What lengths are shown in; also the unit of numbers without one.",
                           "mm"),

    job_field<&Job::board>("board", "WIDTHxHEIGHT", "The board, like 800x600 mm or 31 1/2 x 24 in.",
                           "as large as the cells; 1000 mm along the longer side where those are not given either",
                           {10'000, 100'000'000, "10 mm to 100 m"}),
    job_field<&Job::columns>("columns", "N", "Cells from left to right.", "from board, pitch or picture", count_range),
    job_field<&Job::rows>("rows", "N", "Courses, from bottom to top.", "from board, pitch or picture", count_range),
    job_field<&Job::pitch>("pitch", "LENGTH", "Distance from the middle of a cell to the next, like 11 mm or 7/16 in.",
                           "from board and cells", pitch_range),
    job_field<&Job::course_pitch>("course-pitch", "LENGTH", "The same upwards, where cells are not square.",
                                  "the pitch", pitch_range),

    job_field<&Job::crop>("crop", "BOX|ASPECT",
                          "The part of the picture: left,top,right,bottom in pixels as on the ruler picture, or "
                          "an aspect like 3:4, or 3:4@x,y to keep the place x,y near the middle.",
                          "the largest part that has the shape of the panel, from the middle"),
    job_field<&Job::brightness>("brightness", "PERCENT", "Lighter above 0, darker below; -100 to 100.", "0",
                                tone_range),
    job_field<&Job::contrast>("contrast", "PERCENT", "More contrast above 0, less below; -100 to 100.", "0",
                              tone_range),
    job_field<&Job::saturation>("saturation", "PERCENT", "Stronger colours above 0, greyer below; -100 to 100.", "0",
                                tone_range),
    job_field<&Job::clear_colour>("clear-colour", "#RRGGBB",
                                  "A colour of the picture that counts as transparent: no piece goes there.", "none"),
    job_field<&Job::clear_tolerance>("clear-tolerance", "SHARE",
                                     "How near a colour must be to it, 0 to 100 %, where black is 100 % from white.",
                                     "5 %", {0, 1'000'000, "a share from 0 to 1, like 0.05 or 5 %"}),
    job_field<&Job::ground>("ground", "#RRGGBB", "A plain colour laid where the picture is transparent.",
                            "such cells stay empty"),

    job_field<&Job::colours>("colours", "N", "How many colours to work with, 1 to 999.", "16, or as many as in stock",
                             {1, 999, "1 to 999 colours"}),
    job_field<&Job::stock>("stock", "FILE", "What the shop sells: a table of colours, packs and prices.",
                           "colours are free and nothing is ordered"),
    job_field<&Job::locks>("lock", "NAME|#RRGGBB",
                           "A colour that must be used, by its name in the stock or as a colour; may be repeated.",
                           "none"),
    job_field<&Job::exact_locks>("lock-exact", "NAME|#RRGGBB",
                                 "The same for a colour that only cells of that very colour take; may be repeated.",
                                 "none"),
    job_field<&Job::forbidden>("forbid", "NAME|#RRGGBB",
                               "A colour that must not be used, nor one like it; may be repeated.", "none"),
    job_field<&Job::least_distance>("least-distance", "SHARE",
                                    "How far apart any two colours must be, like 5 %, where black is 100 % from "
                                    "white: near twins are mixed up on the bench.",
                                    "as the picture has them", {1, 1'000'000, "a share up to 1, like 0.05 or 5 %"}),
    job_field<&Job::least_cells>("least-cells", "N",
                                 "A colour that fewer cells would take is given up and its place used better.",
                                 "a colour may be as rare as it is", count_range),
    job_field<&Job::importance>("importance", "FILE",
                                "A picture as large as the picture: where it is light, colours matter more; black does "
                                "not count, middle grey counts as one cell.",
                                "all cells matter alike"),
    job_field<&Job::fitter>("fitter", "kmeans|median-cut", "How colours are found where there is no stock.", "kmeans"),
    job_field<&Job::dither>("dither", "KIND",
                            "Mixing colours by neighbouring cells: none, floyd-steinberg, jarvis-judice-ninke, "
                            "atkinson, bayer or blue-noise.",
                            "what looks best from the viewing distance"),
    job_field<&Job::dither_strength>("dither-strength", "SHARE", "How strongly, above 0 and up to 1 or 100 %.", "1",
                                     {1, 1'000'000, "a share above 0 and up to 1, like 0.6 or 60 %"}),

    job_field<&Job::viewing_distance>("viewing-distance", "LENGTH",
                                      "How far away the panel is looked at, like 2.5 m or 8 ft; up to 100 m.",
                                      "across a room, 2.5 m or 8 ft", {100'000, 100'000'000, "0.1 m to 100 m"}),

    job_field<&Job::pieces_per_cell>("pieces-per-cell", "N", "Pieces that one cell takes, 1 to 1000.", "1",
                                     {1, 1000, "1 to 1000 pieces"}),
    job_field<&Job::spares>("spares", "SHARE", "Share of pieces lost or spoilt, 0 to 0.5, like 0.03 or 3 %.", "3 %",
                            {0, 500'000, "a share from 0 to 0.5, like 0.03 or 3 %"}),
    job_field<&Job::spares_confidence>("spares-confidence", "SHARE",
                                       "How sure each colour is to last, 0.5 to 0.9999, like 99 %.", "99 %",
                                       {500'000, 999'900, "a share from 0.5 to 0.9999, like 0.99 or 99 %"}),

    job_field<&Job::strip>("strip", "flat|folded",
                           "Whether strips are folded along their length, and twice as wide before.", "folded"),
    job_field<&Job::strip_trim>("strip-trim", "LENGTH",
                                "Added to each strip to hold it by, and cut off in the end; up to 10 m.", "none",
                                {0, 10'000'000, "0 to 10 m"}),
};

}  // namespace detail

template <When>
std::span<const JobField> job_fields() {
  return detail::job_field_table<When::called>;
}

}  // namespace handlaid
