// The words of a job for the board, the frame under it and the wall.
#pragma once

#include <array>

#include "handlaid/files/job_field.hpp"

namespace handlaid::detail {

inline constexpr ValueRange timber_range = {1'000, 1'000'000, "1 mm to 1 m"};
inline constexpr ValueRange spacing_range = {10'000, 100'000'000, "10 mm to 100 m"};
inline constexpr ValueRange density_range = {1'000, 30'000'000, "1 to 30000 kg"};
inline constexpr ValueRange share_range = {0, 1'000'000, "a share from 0 to 1, like 0.7 or 70 %"};

template <When when>
inline constexpr std::array panel_words = {
    job_field<when, &Job::board_kind>("board-kind", "TEXT", "What the board is made of, as the shop calls it.",
                                      "a line on the order page, to be filled in by hand"),
    job_field<when, &Job::board_thickness>("board-thickness", "LENGTH", "Of the panel, up to 1 m.", "9 mm",
                                           timber_range),
    job_decimal<when, &Job::weight, &Weight::board_kg_per_m3>(
        "board-density", "NUMBER", "In kg a cubic metre: plywood about 600, MDF 750.", "600", density_range),
    job_field<when, &Job::sheets, &SheetGoods::sheet>("sheet", "WIDTHxHEIGHT", "The sheets that the panel is cut from.",
                                                      "2440 x 1220 mm", {10'000, 100'000'000, "10 mm to 100 m"}),
    job_field<when, &Job::sheets, &SheetGoods::kerf>(
        "saw-kerf", "LENGTH", "Lost at each saw cut, in boards and timber.", "3.2 mm", {0, 50'000, "0 to 50 mm"}),
    job_field<when, &Job::growth, &BoardGrowth::driest>("humidity-low", "SHARE",
                                                        "The driest air of the room in a year.", "30 %", share_range),
    job_field<when, &Job::growth, &BoardGrowth::dampest>("humidity-high", "SHARE",
                                                         "The dampest air of the room in a year.", "70 %", share_range),
    job_field<when, &Job::growth, &BoardGrowth::for_ten_percent>(
        "board-growth", "SHARE", "How much the board grows for 10 % more humidity; plywood 0.02 %.", "0.02 %",
        {0, 50'000, "a share from 0 to 5 %"}),
};

template <When when>
inline constexpr std::array frame_words = {
    job_field<when, &Job::framed>("frame", "yes|no", "Whether there is a frame of timber under the board.",
                                  "yes, where the timber is long enough"),
    job_field<when, &Job::frame, &Frame::timber_width>("timber-width", "LENGTH", "Of a rail, seen from the front.",
                                                       "38 mm", timber_range),
    job_field<when, &Job::frame, &Frame::timber_thickness>("timber-thickness", "LENGTH",
                                                           "Of a rail, away from the wall.", "19 mm", timber_range),
    job_field<when, &Job::frame, &Frame::timber_length>("timber-length", "LENGTH", "As the timber is sold.", "2400 mm",
                                                        {100'000, 100'000'000, "0.1 m to 100 m"}),
    job_decimal<when, &Job::weight, &Weight::timber_kg_per_m3>(
        "timber-density", "NUMBER", "In kg a cubic metre: softwood about 500.", "500", density_range),
    job_field<when, &Job::frame, &Frame::corners>("corners", "butted|mitred", "How the rails meet.", "butted"),
    job_field<when, &Job::frame, &Frame::batten_spacing>("batten-spacing", "LENGTH", "Battens stand no further apart.",
                                                         "400 mm", spacing_range),
    job_field<when, &Job::frame, &Frame::screw_spacing>("screw-spacing", "LENGTH", "Screws stand no further apart.",
                                                        "150 mm", spacing_range),
    job_field<when, &Job::hanging, &Hanging::way>("hanging", "rail|hooks|wire", "What the panel hangs by.", "rail"),
    job_field<when, &Job::hanging, &Hanging::points>("hanging-points", "N", "Screws of the rail, or hooks.", "2",
                                                     {1, 100, "1 to 100"}),
    job_field<when, &Job::hanging, &Hanging::wire_span>("wire-span", "LENGTH", "Between the two points of a wire.",
                                                        "0: half the width of the panel",
                                                        {0, 100'000'000, "0 to 100 m"}),
    job_field<when, &Job::hanging, &Hanging::wire_rise>(
        "wire-rise", "LENGTH", "How far the middle of the tight wire stands above its points.",
        "0: 30 degrees, or flatter to stay in the upper third", {0, 10'000'000, "0 to 10 m"}),
    job_decimal<when, &Job::hanging, &Hanging::rating>("hanging-rating", "NUMBER",
                                                       "How many times its load a wall fixing must be rated for.", "4",
                                                       {1'000, 20'000, "1 to 20"}),
    job_field<when, &Job::hanging, &Hanging::centre_height>("centre-height", "LENGTH",
                                                            "From the floor to the middle of the panel.", "1500 mm",
                                                            {100'000, 20'000'000, "0.1 m to 20 m"}),
    job_decimal<when, &Job::weight, &Weight::person_kg>(
        "person-limit", "NUMBER", "The most that one person lifts, in kg.", "16", {1'000, 100'000, "1 to 100 kg"}),
};

}  // namespace handlaid::detail
