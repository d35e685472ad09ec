// The words of a job that say how the panel is made.
#pragma once

#include <array>

#include "handlaid/files/job_field.hpp"
#include "handlaid/files/job_words_picture.hpp"

namespace handlaid::detail {

inline constexpr ValueRange strip_range = {0, 10'000'000, "0 to 10 m"};

template <When when>
inline constexpr std::array stock_words = {
    job_field<when, &Job::stock>("stock", "FILE", "What the shop sells: a table of colours, packs and prices.",
                                 "colours are free and nothing is ordered"),
    job_field<when, &Job::shop>("shop", "TEXT", "Who sells it, as it stands on the order page: name, place, telephone.",
                                "a line on the order page, to be filled in by hand"),
    job_field<when, &Job::lots>(
        "lot", "NAME: LOT",
        "The lot number on the packs of a colour, once they have come, to order the same again; may "
        "be repeated.",
        "none"),
};

template <When when>
inline constexpr std::array material_words = {
    job_field<when, &Job::material>("material", "TEXT",
                                    "What pieces or strips are made of, as the shop calls it: kind, size, thickness.",
                                    "a line on the order page, to be filled in by hand"),
    job_field<when, &Job::glue>("glue", "TEXT", "The glue that the pilot has shown to hold.",
                                "a line on the order page, to be filled in by hand"),
    job_field<when, &Job::pieces_per_cell>("pieces-per-cell", "N", "Pieces that one cell takes, 1 to 1000.", "1",
                                           {1, 1000, "1 to 1000 pieces"}),
    job_field<when, &Job::spares>("spares", "SHARE",
                                  "Share of pieces or strips lost or spoilt, 0 to 0.5, like 0.03 or 3 %.", "3 %",
                                  {0, 500'000, "a share from 0 to 0.5, like 0.03 or 3 %"}),
    job_field<when, &Job::spares_confidence>("spares-confidence", "SHARE",
                                             "How sure it is that none runs out, 0.5 to 0.9999, like 99 %.", "99 %",
                                             {500'000, 999'900, "a share from 0.5 to 0.9999, like 0.99 or 99 %"}),
};

/// What only pieces that are bought in their colours have.
template <When when>
inline constexpr std::array piece_words = {
    job_field<when, &Job::least_spares>("least-spares", "N", "Spares of each colour, at least; 0 to 1000000.", "0",
                                        {0, 1'000'000, "0 to 1000000 spares"}),
    job_field<when, &Job::piece_amount>(
        "piece-amount", "AMOUNT", "What one piece takes where the shop measures in mm, mm2, ml or g, like 35.5 mm.",
        "1 pieces", {1, 1'000'000'000, "0.001 to 1000000 of pieces, mm, mm2, ml or g"}),
    job_decimal<when, &Job::weight, &Weight::grams_per_piece>("grams-per-piece", "NUMBER", "Weight of one piece in g.",
                                                              "0: it is not weighed",
                                                              {0, 100'000'000, "0 to 100000 g"}),
};

template <When when>
inline constexpr std::array pilot_words = {
    job_field<when, &Job::pilot, &PilotPatch::columns>("pilot-columns", "N", "Columns of the patch that is made first.",
                                                       "10", count_range),
    job_field<when, &Job::pilot, &PilotPatch::courses>("pilot-courses", "N", "Courses of it.", "5", count_range),
    job_decimal<when, &Job::consumables, &Consumables::glue_g_per_m2>("glue-g-per-m2", "NUMBER",
                                                                      "Glue, in g a square metre; the label decides.",
                                                                      "250", {0, 5'000'000, "0 to 5000 g"}),
    job_decimal<when, &Job::consumables, &Consumables::sealer_ml_per_m2>(
        "sealer-ml-per-m2", "NUMBER", "Sealer for each face of the board, in ml a square metre.", "120",
        {0, 5'000'000, "0 to 5000 ml"}),
};

/// What strips are; pieces bought in their colours are none.
template <When when>
inline constexpr std::array strip_words = {
    job_field<when, &Job::strips, &Strips::fold>(
        "fold", "none|end-to-end|lengthwise",
        "How a strip lies double, if it does: end to end takes twice the length, "
        "lengthwise twice the width.",
        "lengthwise"),
    job_field<when, &Job::strips, &Strips::finished_width>("strip-width", "LENGTH",
                                                           "Width of a strip as mounted, up to 10 m.",
                                                           "0: the distance of courses and the overlap", strip_range),
    job_field<when, &Job::strips, &Strips::overlap>("overlap", "LENGTH",
                                                    "How far a strip reaches over the course below.", "0", strip_range),
    job_field<when, &Job::strips, &Strips::fastened_edge>(
        "fastened-edge", "LENGTH", "Along the edge by which a strip hangs on the board: it is never cut.", "0",
        strip_range),
    job_field<when, &Job::strips, &Strips::trim>(
        "strip-trim", "LENGTH", "Added to each strip to hold it by, and cut off in the end; up to 10 m.", "0",
        strip_range),
    job_field<when, &Job::rolls, &Rolls::length>("roll-length", "LENGTH",
                                                 "How long a roll or sheet of the material is.",
                                                 "50 m, as tape is sold", {1'000, 10'000'000'000, "1 mm to 10 km"}),
    job_field<when, &Job::rolls, &Rolls::width>("roll-width", "LENGTH", "How wide it is; strips are cut side by side.",
                                                "0: as wide as a strip before folding", {0, 100'000'000, "0 to 100 m"}),
    job_field<when, &Job::rolls, &Rolls::joins>("joins", "yes|no", "Whether a strip may be joined from two.", "no"),
    job_decimal<when, &Job::rolls, &Rolls::grams_per_m2>("grams-per-m2", "NUMBER",
                                                         "Weight of the material in one layer, in g a square metre.",
                                                         "0: it is not weighed", {0, 100'000'000, "0 to 100000 g"}),
};

/// The tools that mounted strips are cut with.
template <When when>
inline constexpr std::array cutting_words = {
    job_field<when, &Job::gang, &BladeGang::spacers>(
        "spacer", "THICKNESS x N",
        "Spacers between the blades of a hand-rolled gang, as the caliper says, like 1.62 mm x 20; may be repeated.",
        "none: knife and guide", {10, 100'000, "1 to 1000 of 0.01 mm to 100 mm"}),
    job_field<when, &Job::gang, &BladeGang::blade_thickness>("blade-thickness", "LENGTH", "Of one blade, as measured.",
                                                             "0.4 mm", {10, 20'000, "0.01 mm to 20 mm"}),
    job_field<when, &Job::gang, &BladeGang::blade_diameter>(
        "blade-diameter", "LENGTH", "Across a blade, for the order.", "45 mm", {5'000, 500'000, "5 mm to 0.5 m"}),
    job_field<when, &Job::gang, &BladeGang::arbor_length>("arbor-length", "LENGTH", "Room for blades and spacers.",
                                                          "60 mm", {1'000, 1'000'000, "1 mm to 1 m"}),
    job_field<when, &Job::gang, &BladeGang::most_blades>("most-blades", "N", "Blades at once, at most.", "8",
                                                         {2, 64, "2 to 64 blades"}),
    job_decimal<when, &Job::gang, &BladeGang::newtons_a_blade>(
        "newtons-a-blade", "NUMBER", "Force that rolls one blade through, in newtons: try it.", "12",
        {100, 10'000'000, "0.1 to 10000 N"}),
    job_decimal<when, &Job::gang, &BladeGang::newtons_of_hand>("newtons-of-hand", "NUMBER",
                                                               "Force of the hand that rolls steadily, in newtons.",
                                                               "100", {100, 10'000'000, "0.1 to 10000 N"}),
    job_decimal<when, &Job::consumables, &Consumables::metres_per_blade>(
        "metres-per-blade", "NUMBER", "How far a blade stays sharp, in m.", "20", {100, 10'000'000, "0.1 to 10000 m"}),
};

}  // namespace handlaid::detail
