// The words of a job that say how the panel is made.
#pragma once

#include <array>

#include "handlaid/files/job_field.hpp"

namespace handlaid::detail {

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
    job_field<&Job::strip>("strip", "flat|folded",
                           "Whether strips are folded along their length, and twice as wide before.", "folded"),
    job_field<&Job::strip_trim>("strip-trim", "LENGTH",
                                "Added to each strip to hold it by, and cut off in the end; up to 10 m.", "none",
                                {0, 10'000'000, "0 to 10 m"}),
};

}  // namespace handlaid::detail
