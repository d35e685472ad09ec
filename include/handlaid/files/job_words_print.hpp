// The words of a job for what is printed at true scale.
#pragma once

#include <array>

#include "handlaid/files/job_field.hpp"

namespace handlaid::detail {

inline constexpr ValueRange bar_range = {50'000, 1'000'000, "50 mm to 1 m"};

template <When when>
inline constexpr std::array print_words = {
    job_field<when, &Job::print, &Print::paper>("paper", "a4|letter", "What templates and cards are printed on.",
                                                "letter where lengths are in inches, else a4"),
    job_field<when, &Job::print, &Print::templates>("templates", "yes|no", "Whether templates of the cells are made.",
                                                    "yes, unless strips are painted or they are more than 999 pages"),
    job_field<when, &Job::print, &Print::tint>("template-tint", "yes|no", "Cells filled with their colour: much ink.",
                                               "no"),
    job_field<when, &Job::print, &Print::face_down>("face-down", "yes|no",
                                                    "Templates mirrored, for pieces that are laid face down.", "no"),
    job_field<when, &Job::print, &Print::bar_across>(
        "bar-across", "LENGTH", "What the bar across measures on a page printed without this word.", "true to scale",
        bar_range),
    job_field<when, &Job::print, &Print::bar_up>("bar-up", "LENGTH",
                                                 "What the bar up measures on a page printed without this word.",
                                                 "true to scale", bar_range),
};

}  // namespace handlaid::detail
