// The words of a job that say how the panel is made.
#pragma once

#include <array>

#include "handlaid/files/job_field.hpp"

namespace handlaid::detail {

inline constexpr ValueRange strip_range = {0, 10'000'000, "0 to 10 m"};

template <When>
inline constexpr std::array stock_words = {
    job_field<&Job::stock>("stock", "FILE", "What the shop sells: a table of colours, packs and prices.",
                           "colours are free and nothing is ordered"),
};

template <When>
inline constexpr std::array material_words = {
    job_field<&Job::pieces_per_cell>("pieces-per-cell", "N", "Pieces that one cell takes, 1 to 1000.", "1",
                                     {1, 1000, "1 to 1000 pieces"}),
    job_field<&Job::spares>("spares", "SHARE", "Share of pieces lost or spoilt, 0 to 0.5, like 0.03 or 3 %.", "3 %",
                            {0, 500'000, "a share from 0 to 0.5, like 0.03 or 3 %"}),
    job_field<&Job::spares_confidence>("spares-confidence", "SHARE",
                                       "How sure each colour is to last, 0.5 to 0.9999, like 99 %.", "99 %",
                                       {500'000, 999'900, "a share from 0.5 to 0.9999, like 0.99 or 99 %"}),
};

/// What strips are; pieces bought in their colours are none.
template <When>
inline constexpr std::array strip_words = {
    job_field<&Job::strips, &Strips::fold>("fold", "none|end-to-end|lengthwise",
                                           "How a strip lies double, if it does: end to end takes twice the length, "
                                           "lengthwise twice the width.",
                                           "lengthwise"),
    job_field<&Job::strips, &Strips::finished_width>("strip-width", "LENGTH",
                                                     "Width of a strip as mounted, up to 10 m.",
                                                     "0: the distance of courses and the overlap", strip_range),
    job_field<&Job::strips, &Strips::overlap>("overlap", "LENGTH", "How far a strip reaches over the course below.",
                                              "0", strip_range),
    job_field<&Job::strips, &Strips::fastened_edge>(
        "fastened-edge", "LENGTH", "Along the edge by which a strip hangs on the board: it is never cut.", "0",
        strip_range),
    job_field<&Job::strips, &Strips::trim>("strip-trim", "LENGTH",
                                           "Added to each strip to hold it by, and cut off in the end; up to 10 m.",
                                           "0", strip_range),
    job_field<&Job::rolls, &Rolls::length>("roll-length", "LENGTH", "How long a roll or sheet of the material is.",
                                           "50 m, as tape is sold", {1'000, 10'000'000'000, "1 mm to 10 km"}),
    job_field<&Job::rolls, &Rolls::width>("roll-width", "LENGTH", "How wide it is; strips are cut side by side.",
                                          "0: as wide as a strip before folding", {0, 100'000'000, "0 to 100 m"}),
    job_field<&Job::rolls, &Rolls::joins>("joins", "yes|no", "Whether a strip may be joined from two.", "no"),
    job_decimal<&Job::rolls, &Rolls::grams_per_m2>("grams-per-m2", "NUMBER",
                                                   "Weight of the material in one layer, in g a square metre.",
                                                   "0: it is not weighed", {0, 100'000'000, "0 to 100000 g"}),
};

}  // namespace handlaid::detail
