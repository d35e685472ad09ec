// The words of a job that say what the panel shows: the picture, the board and its cells, the colours.
#pragma once

#include <array>

#include "handlaid/files/job_field.hpp"

namespace handlaid::detail {

inline constexpr ValueRange pitch_range = {100, 10'000'000, "0.1 mm to 10 m"};
inline constexpr ValueRange count_range = {1, 100'000, "1 to 100000"};
inline constexpr ValueRange tone_range = {-100, 100, "-100 to 100 percent"};

template <When when>
inline constexpr std::array picture_words = {
    job_field<when, &Job::picture>("picture", "FILE", "The picture: JPEG, PNG, BMP or PNM.", "must be given"),
    job_field<when, &Job::title>("title", "TEXT", "What the panel is called on its pages.", "the name of the picture"),
    job_field<when, &Job::method>("method", "pieces|strips",
                                  "How pieces get their colours: bought in them, or cut from painted strips.",
                                  "pieces"),
    job_field<when, &Job::units>("units", "mm|inch", "What lengths are shown in; also the unit of numbers without one.",
                                 "mm"),
    job_field<when, &Job::crop>("crop", "BOX|ASPECT",
                                "The part of the picture: left,top,right,bottom in pixels as on the ruler picture, or "
                                "an aspect like 3:4, or 3:4@x,y to keep the place x,y near the middle.",
                                "the largest part that has the shape of the panel, from the middle"),
    job_field<when, &Job::brightness>("brightness", "PERCENT", "Lighter above 0, darker below; -100 to 100.", "0",
                                      tone_range),
    job_field<when, &Job::contrast>("contrast", "PERCENT", "More contrast above 0, less below; -100 to 100.", "0",
                                    tone_range),
    job_field<when, &Job::saturation>("saturation", "PERCENT", "Stronger colours above 0, greyer below; -100 to 100.",
                                      "0", tone_range),
    job_field<when, &Job::clear_colour>(
        "clear-colour", "#RRGGBB", "A colour of the picture that counts as transparent: no piece goes there.", "none"),
    job_field<when, &Job::clear_tolerance>(
        "clear-tolerance", "SHARE", "How near a colour must be to it, 0 to 100 %, where black is 100 % from white.",
        "5 %", {0, 1'000'000, "a share from 0 to 1, like 0.05 or 5 %"}),
    job_field<when, &Job::ground>("ground", "#RRGGBB", "A plain colour laid where the picture is transparent.",
                                  "such cells stay empty"),
};

template <When when>
inline constexpr std::array board_words = {
    job_field<when, &Job::board>(
        "board", "WIDTHxHEIGHT", "The board, like 800x600 mm or 31 1/2 x 24 in.",
        "as large as the cells; 1000 mm along the longer side where those are not given either",
        {10'000, 100'000'000, "10 mm to 100 m"}),
    job_field<when, &Job::columns>("columns", "N", "Cells from left to right.", "from board, pitch or picture",
                                   count_range),
    job_field<when, &Job::rows>("rows", "N", "Courses, from bottom to top.", "from board, pitch or picture",
                                count_range),
    job_field<when, &Job::pitch>("pitch", "LENGTH",
                                 "Distance from the middle of a cell to the next, like 11 mm or 7/16 in.",
                                 "from board and cells", pitch_range),
    job_field<when, &Job::course_pitch>("course-pitch", "LENGTH", "The same upwards, where cells are not square.",
                                        "the pitch", pitch_range),
    job_field<when, &Job::viewing_distance>("viewing-distance", "LENGTH",
                                            "How far away the panel is looked at, like 2.5 m or 8 ft; up to 100 m.",
                                            "across a room, 2.5 m or 8 ft", {100'000, 100'000'000, "0.1 m to 100 m"}),
};

template <When when>
inline constexpr std::array colour_words = {
    job_field<when, &Job::colours>("colours", "N", "How many colours to work with, 1 to 999.",
                                   "16, or as many as in stock", {1, 999, "1 to 999 colours"}),
    job_field<when, &Job::locks>(
        "lock", "NAME|#RRGGBB", "A colour that must be used, by its name in the stock or as a colour; may be repeated.",
        "none"),
    job_field<when, &Job::exact_locks>(
        "lock-exact", "NAME|#RRGGBB",
        "The same for a colour that only cells of that very colour take; may be repeated.", "none"),
    job_field<when, &Job::forbidden>("forbid", "NAME|#RRGGBB",
                                     "A colour that must not be used, nor one like it; may be repeated.", "none"),
    job_field<when, &Job::least_distance>("least-distance", "SHARE",
                                          "How far apart any two colours must be, like 5 %, where black is 100 % from "
                                          "white: near twins are mixed up on the bench.",
                                          "as the picture has them",
                                          {1, 1'000'000, "a share up to 1, like 0.05 or 5 %"}),
    job_field<when, &Job::least_cells>("least-cells", "N",
                                       "A colour that fewer cells would take is given up and its place used better.",
                                       "a colour may be as rare as it is", count_range),
    job_field<when, &Job::importance>(
        "importance", "FILE",
        "A picture as large as the picture: where it is light, colours matter more; black does "
        "not count, middle grey counts as one cell.",
        "all cells matter alike"),
    job_field<when, &Job::changes>(
        "changes", "FILE", "Changes by hand that are made in the chart: a text file of lines like merge 7 into 3.",
        "the chart stays as it was planned"),
    job_field<when, &Job::fitter>("fitter", "kmeans|median-cut", "How colours are found where there is no stock.",
                                  "kmeans"),
    job_field<when, &Job::dither>("dither", "KIND",
                                  "Mixing colours by neighbouring cells: none, floyd-steinberg, jarvis-judice-ninke, "
                                  "atkinson, bayer or blue-noise.",
                                  "what looks best from the viewing distance"),
    job_field<when, &Job::dither_strength>("dither-strength", "SHARE", "How strongly, above 0 and up to 1 or 100 %.",
                                           "1", {1, 1'000'000, "a share above 0 and up to 1, like 0.6 or 60 %"}),
    job_field<when, &Job::numbering>(
        "numbering", "as-found|clear",
        "Which number each colour has: from dark to light, or so that colours that look alike "
        "have numbers that do not, such as 6 and 9; locked colours keep theirs.",
        "as-found"),
};

}  // namespace handlaid::detail
