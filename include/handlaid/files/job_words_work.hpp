// The words of a job for painting, batches, hours and prices.
#pragma once

#include <array>

#include "handlaid/files/job_field.hpp"

namespace handlaid::detail {

inline constexpr ValueRange spread_range = {500, 50'000, "0.5 to 50 m2 a litre, as the tin says"};
inline constexpr ValueRange minutes_range = {0, 1'000'000, "0 to 1000 minutes"};
inline constexpr ValueRange seconds_range = {0, 100'000'000, "0 to 100000 seconds"};
inline constexpr ValueRange price_range = {0, 100'000'000, "0 to 100000"};

template <When when>
inline constexpr std::array paint_words = {
    job_field<when, &Job::paint_kind>("paint-kind", "TEXT", "What kind of paint, as the shop calls it.",
                                      "a line on the order page, to be filled in by hand"),
    job_field<when, &Job::painting, &Painting::faces>("faces", "1|2", "Faces of the flat material that are painted.",
                                                      "1", {1, 2, "1 or 2"}),
    job_field<when, &Job::painting, &Painting::coats>("coats", "N", "Coats of colour, 1 to 20.", "2",
                                                      {1, 20, "1 to 20"}),
    job_field<when, &Job::painting, &Painting::primer_coats>("primer-coats", "N", "Coats of primer, 0 to 20.", "1",
                                                             {0, 20, "0 to 20"}),
    job_decimal<when, &Job::painting, &Painting::spreading_m2_per_l>(
        "spreading-rate", "NUMBER", "How many m2 a litre of paint covers in one coat; the tin decides.", "8",
        spread_range),
    job_decimal<when, &Job::painting, &Painting::primer_m2_per_l>("primer-rate", "NUMBER", "The same for primer.", "8",
                                                                  spread_range),
    job_field<when, &Job::painting, &Painting::pot_loss>("pot-loss", "SHARE",
                                                         "What stays in pots and brushes, up to 5.", "15 %",
                                                         {0, 5'000'000, "a share from 0 to 5, like 0.15 or 15 %"}),
    job_field<when, &Job::painting, &Painting::beyond_mark>(
        "beyond-mark", "LENGTH", "How far a section is painted beyond its marks.", "2 mm", {0, 100'000, "0 to 100 mm"}),
};

template <When when>
inline constexpr std::array batch_words = {
    job_field<when, &Job::batches, &Batches::strips_per_batch>(
        "strips-per-batch", "N", "Strips that are painted together.", "12", {1, 10'000, "1 to 10000 strips"}),
    job_field<when, &Job::batches, &Batches::order>(
        "batch-order", "contiguous|by-colours",
        "Neighbouring courses, so that mounting can follow, or strips that share "
        "colours.",
        "contiguous"),
    job_field<when, &Job::paint_days, &PaintDays::bench_strips>("bench-strips", "N",
                                                                "Strips that bench and racks hold, painted or drying.",
                                                                "24", {1, 1'000'000, "1 to 1000000 strips"}),
    job_decimal<when, &Job::paint_days, &PaintDays::drying_minutes>("drying-minutes", "NUMBER",
                                                                    "Until a section can be masked; the tin decides.",
                                                                    "60", {0, 100'000'000, "0 to 100000 minutes"}),
    job_decimal<when, &Job::paint_days, &PaintDays::hours_a_day>("hours-a-day", "NUMBER", "Hours of painting in a day.",
                                                                 "3", {100, 24'000, "0.1 to 24 hours"}),
    job_decimal<when, &Job::paint_days, &PaintDays::minutes_per_section>("minutes-per-section", "NUMBER",
                                                                         "To paint one section.", "0.5", minutes_range),
    job_decimal<when, &Job::paint_days, &PaintDays::minutes_per_opening>(
        "minutes-per-opening", "NUMBER", "To open, stir and close a pot and clean the brush.", "5", minutes_range),
    job_decimal<when, &Job::paint_days, &PaintDays::minutes_per_edge>("minutes-per-edge", "NUMBER", "To mask one edge.",
                                                                      "0.25", minutes_range),
    job_field<when, &Job::paint_days, &PaintDays::sittings>(
        "sittings", "N", "Sittings of a batch for each coat, at most; 0: as recommended.", "0",
        {0, 1'000, "0 to 1000"}),
};

template <When when>
inline constexpr std::array rate_words = {
    job_decimal<when, &Job::rates, &Rates::seconds_per_mark>("seconds-per-mark", "NUMBER", "For a mark on the board.",
                                                             "6", seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_run>(
        "seconds-per-run", "NUMBER", "To find a run on the list and check it.", "3", seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_saw_cut>(
        "seconds-per-saw-cut", "NUMBER", "To measure and saw a part of the frame or board.", "120", seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_screw>("seconds-per-screw", "NUMBER", "To drive a screw.", "20",
                                                              seconds_range),
    job_decimal<when, &Job::prices, &Prices::sheet>("sheet-price", "NUMBER", "Price of a sheet of board.",
                                                    "0: not reckoned", price_range),
    job_decimal<when, &Job::prices, &Prices::timber>("timber-price", "NUMBER", "Price of a length of timber.",
                                                     "0: not reckoned", price_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_piece>("seconds-per-piece", "NUMBER", "To lay a piece.", "6",
                                                              seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_strip>(
        "seconds-per-strip", "NUMBER", "To cut a strip to length, fold and label it.", "90", seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_strip_mark>("seconds-per-strip-mark", "NUMBER",
                                                                   "For a mark on a strip.", "4", seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_mounting>(
        "seconds-per-mounting", "NUMBER", "To glue a strip on and press it.", "150", seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_cut>("seconds-per-cut", "NUMBER", "For a cut along a guide.",
                                                            "4", seconds_range),
    job_decimal<when, &Job::rates, &Rates::seconds_per_pass>(
        "seconds-per-pass", "NUMBER", "For a pass of the gang of blades over a strip.", "12", seconds_range),
};

/// Only strips come from rolls.
template <When when>
inline constexpr std::array strip_price_words = {
    job_decimal<when, &Job::prices, &Prices::roll>("roll-price", "NUMBER", "Price of a roll or sheet of the material.",
                                                   "0: not reckoned", price_range),
};

}  // namespace handlaid::detail
