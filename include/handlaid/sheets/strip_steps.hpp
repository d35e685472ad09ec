// The steps of strips that are painted, mounted and cut. Common practice, no source, unless a figure says otherwise.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
#include "handlaid/sheets/strip_sheets.hpp"
#include "handlaid/sheets/work_step.hpp"

namespace handlaid::detail {

inline bool is_folded(const StripTakeoff& strips) { return strips.fold != Fold::none; }

inline bool is_primed(const Plan& plan) { return plan.fabrication.paint && plan.fabrication.paint->primer_coats > 0; }

/// How strips come off a wider roll, where they do.
template <When = When::called>
std::string slit_words(const Plan& plan) {
  if (!plan.fabrication.rolls || plan.fabrication.rolls->roll_width == plan.strips->flat_width) return {};
  const RollTakeoff& rolls = *plan.fabrication.rolls;
  return ", slit from " + with_unit(rolls.roll_width, unit_of(plan)) + " of width, " +
         std::to_string(rolls.side_by_side) + " side by side";
}

/// Whether pieces hang on the board by an edge that stays whole: such a strip is cut before it is mounted, flat on a
/// mat, where nothing lies above or below it. One that is glued all over is cut on the board, where glue holds it.
inline bool is_cut_first(const Plan& plan) { return plan.strips->fastened_edge > Length{}; }

/// The three tries that come before the order.
template <When = When::called>
std::vector<WorkStep> steps_of_trial(const Plan& plan) {
  const std::vector<Hazard> hazards = plan.fabrication.gang
                                          ? std::vector{Hazard::glue_and_paint, Hazard::hand_blade, Hazard::blade_gang}
                                          : std::vector{Hazard::glue_and_paint, Hazard::hand_blade};
  return {
      {"Try one strip to the end",
       "Buy what the order lists for the pilot, no more, and seal the offcut as the board will be. Take the first "
       "strip "
       "of the pilot, listed on the strips page, through all the steps that the others will go: prime and paint it, "
       "let it dry as long as the data sheet "
       "says, " +
           std::string(is_folded(*plan.strips) ? "fold it sharply and glue its halves" : "bend it") +
           ", pull tape off it, rub it with a dry and a damp cloth, " +
           (is_cut_first(plan) ? "cut it with the blade you will use, and glue it on the offcut"
                               : "glue it on the offcut, and cut it with the blade you will use") +
           ". Look again the next day. On rigid material do "
           "the cross-cut tape test instead of the fold: ASTM D3359 and ISO 2409 say how. If paint or strip comes off, "
           "change primer, glue or material and begin again.",
       hazards, true},
      {"Hold dried paint against its sample",
       "Paint a chip of each colour of the pilot on a scrap of the material, primed and as often as the strips, and "
       "let "
       "it dry: wet paint is another colour. Put it on its card (swatch_cards.pdf) and hold it, in the light of the "
       "place, against the shop's colour card and against the other chips: it must look like its own sample, and more "
       "so than like any other number. If it does not, give it another coat, mix a little of another colour in and "
       "write the parts on the card, or take another paint and plan again with its colour in the stock file. A colour "
       "that comes with the rest is tried the same way before its first section.",
       {Hazard::glue_and_paint},
       true},
      {"Make the pilot patch and time it",
       "Make " + patch_words(plan.fabrication.pilot) +
           ", the richest part, on the same offcut, from the other strips of the pilot. They stay there; their "
           "paint and material are counted beside the panel." +
           timing_words,
       hazards, true},
      {"Order the rest in one go",
       "All of one lot, and of the pilot's where the shop has it: what was mixed together, by the number on the pack. "
       "Write the numbers on the order page.",
       {}},
  };
}

/// Where the number of a strip stands, so that it is still to be read when the strip is mounted.
template <When = When::called>
std::string numbering_words(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  const std::string what = " Write the course number and an arrow to the datum end ";
  if (strips.trim > Length{}) {
    return what + "on what stands over beyond the last mark of each" +
           (is_primed(plan) ? ", and keep primer and paint off that end." : ", and keep paint off that end.") +
           " Or fold its label of labels.pdf round a paper clip, glue side in, and clip it there.";
  }
  // Paint covers the face, and a fold or a second painted face the back.
  const bool covered = is_folded(strips) || plan.fabrication.paint->faces > 1;
  return what +
         (covered ? "on a label that hangs from its far end: labels.pdf has them." : "on its back, at the far end.");
}

/// A line pressed into the back, where the strip is folded later.
template <When = When::called>
std::string scoring_words(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  if (!is_folded(strips)) return {};
  return std::string(
             " Turn them on their face and press the line of the fold into the back with something blunt "
             "along a rule, ") +
         (strips.fold == Fold::lengthwise ? with_unit(strips.finished_width, unit_of(plan)) + " from either long edge."
                                          : "across the middle of their length.");
}

template <When = When::called>
WorkStep cutting_out_step(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  const LengthUnit unit = unit_of(plan);
  const auto count = static_cast<std::int64_t>(strips.strips.size());
  return {
      "Cut the strips",
      count_text(count, "strip", "strips") +
          (strips.spares > 0 ? " and " + count_text(strips.spares, "spare one", "spare ones") : "") + ", each " +
          with_unit(strips.length.times(strips.fold == Fold::end_to_end ? 2 : 1), unit) + " long and " +
          with_unit(strips.flat_width, unit) + " wide" +
          (strips.flat_width != strips.finished_width ? ", to be folded to " + with_unit(strips.finished_width, unit)
                                                      : "") +
          "; with those of the pilot " + material_text(strips.needed_length(), unit) + " of material in all" +
          slit_words(plan) + "." + scoring_words(plan) + numbering_words(plan) +
          (strips.spares > 0 ? " Spare ones get their number when they are needed." : ""),
      {Hazard::hand_blade}};
}

/// "560 × 460 mm": a batch on its marking tiles.
template <When = When::called>
std::string bench_words(const Plan& plan) {
  const StripSheetParts parts = strip_sheet_parts(plan, {});
  std::size_t most = 1;
  if (plan.fabrication.batches) {
    for (const Batch& batch : plan.fabrication.batches->batches) most = std::max(most, batch.strips.size());
  }
  const auto whole_cm = [](Length length) { return Length::from_um((length.um() + 9'999) / 10'000 * 10'000); };
  return "at least " + size_text({whole_cm(plan.strips->length), whole_cm(parts.height_of(most))}, unit_of(plan));
}

/// From the cut strips to those that are ready to mount.
template <When = When::called>
std::vector<WorkStep> steps_to_strips(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  const bool primed = is_primed(plan);
  std::vector<WorkStep> steps{cutting_out_step(plan)};
  steps.push_back(
      {primed ? "Prime the strips and lay out their marks" : "Lay out the marks of the strips",
       std::string(primed ? "Prime the strips, the spare ones too, on baking paper, their ends held down, and let "
                            "them dry. "
                          : "") +
           "Lay a batch on its marking sheet, datum ends on the red line, and hold both ends down with a loop of "
           "masking "
           "tape under them: paint on one face curls a strip. The lines of the sheet come out between the strips, "
           "where no paint hides them, so leave "
           "the strips there until their last coat is dry; a slip of baking paper under each, a millimetre wider on "
           "both sides, keeps it "
           "from sticking. A batch takes " +
           bench_words(plan) +
           " of the bench, more on tiles, and a "
           "second one as much again. "
           "The sheets are marking_sheets.pdf from a print shop, or marking_tiles.pdf on your own paper. Without "
           "them tape the strips side by side on a board, measure all marks of a strip from its datum end in one go, "
           "as the course list has them, and draw each out onto the board.",
       {Hazard::glue_and_paint}});
  steps.push_back(
      {"Paint batch by batch",
       "Pour all cans of one colour together first, one pot a colour with its label of labels.pdf, then work down the "
       "painting pages, sitting by sitting: what touches is never wet together. Let each sitting dry as long as the "
       "data sheet says; the days of the plan reckon with " +
           time_text(static_cast<std::int64_t>(plan.job.paint_days.drying_minutes * 60)) +
           ". A strip that is spoilt is painted again on a spare one, at the end of its batch.",
       {Hazard::glue_and_paint}});
  if (is_folded(strips)) {
    steps.push_back(
        {"Fold the strips and glue their halves together",
         "When the last coat is hard, fold them " +
             std::string(strips.fold == Fold::lengthwise ? "along their length" : "end to end") +
             ", coloured side out, and press the fold sharp with a straightedge. " +
             (strips.fold == Fold::lengthwise
                  ? "The fold is the free edge below, the two open edges are the upper one. "
                  : "The fold is the far end. ") +
             "Glue the halves together " +
             (is_cut_first(plan) ? "along the upper edge, " + with_unit(strips.fastened_edge, unit_of(plan)) + " wide"
                                 : std::string("all over")) +
             ", or the one behind falls away, and press them flat under a board, between baking paper, until the glue "
             "holds as its label says.",
         {Hazard::glue_and_paint}});
  }
  return steps;
}

/// How far a blade of the gang cuts behind its lowest point in half a millimetre of strip and mat, to a millimetre.
template <When = When::called>
Length behind_blades(const Plan& plan) {
  const Length behind = cut_behind(plan.job.gang.blade_diameter, 0.5 * mm);
  return Length::from_um((behind.um() + 500) / 1'000 * 1'000);
}

/// The cuts of a strip that stays whole along an edge.
template <When = When::called>
WorkStep fringe_step(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  const bool gang = plan.fabrication.gang.has_value();
  return {
      "Cut the strips into pieces",
      std::string("Before they are mounted, one strip at a time, flat on a cutting mat, its upper edge ") +
          (gang ? "towards you, so that the datum end lies at your right, and blade 1 with it." : "away from you.") +
          " Fasten it to the mat with a wide strip of masking tape that covers its upper " +
          with_unit(strips.fastened_edge, unit_of(plan)) +
          " all along: that edge stays whole and carries the pieces. Tape a rule to the mat beside the tape, its 0 at "
          "the datum end. At each place of the cutting page set " +
          (gang
               ? "the lowest point of the blades down " + with_unit(behind_blades(plan), unit_of(plan)) +
                     " from the edge of the tape, because a round blade cuts as far behind it, and roll them away "
                     "from you, square to the strip, over the free edge and onto the mat. Look at the first strip "
                     "from behind: the upper edge must be whole there too, or set them down further off. Both hands "
                     "are on the gang: the tape alone holds the strip. A square along the rule sets the first pass. In "
                     "each further one blade 1 runs in the last cut, and the rule says whether it is where it should "
                     "be: off by half a millimetre it is set anew by the square, or errors add up. The knife is for "
                     "what the gang does not reach."
               : "the point of the knife down at the edge of the tape, and draw it along a square that stands "
                 "against the rule, over the free edge and onto the mat, the other hand and your body out of its "
                 "way.") +
          " Pull the tape off flat, and keep the strips in their order.",
      gang ? std::vector{Hazard::hand_blade, Hazard::blade_gang} : std::vector{Hazard::hand_blade}};
}

/// How a strip sits on its course.
template <When = When::called>
std::string mounting_words(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  const auto text = [&](Length length) { return with_unit(length, unit_of(plan)); };
  std::string words = "The upper edge of a strip stands on the upper line of its course";
  words += is_cut_first(plan) ? ", glued by " + text(strips.fastened_edge) + " along that edge only."
                              : "; it is glued all over.";
  if (strips.overlap > Length{}) {
    words += " It hangs " + text(strips.overlap) + " over the course below; strip 1 hangs as far below the board" +
             (strips.fold == Fold::lengthwise ? ", and stays so: its fold holds it." : ", and is trimmed or left.") +
             " So each course is seen " + text(strips.overlap) +
             " lower than its lines, and the uppermost one as much higher: that is meant.";
  }
  return words;
}

template <When = When::called>
std::string trim_words(const Plan& plan) {
  if (plan.strips->trim == Length{}) return {};
  if (is_cut_first(plan) && plan.strips->overlap > Length{}) {
    return " When it holds, and before the next lies over it, cut off the " +
           with_unit(plan.strips->trim, unit_of(plan)) + " that stand over beyond its last mark, with scissors.";
  }
  return " Last, cut off the " + with_unit(plan.strips->trim, unit_of(plan)) +
         " that stand over beyond the last mark, with knife and straightedge.";
}

/// On the board.
template <When = When::called>
std::vector<WorkStep> steps_of_mounting(const Plan& plan) {
  const bool cut_first = is_cut_first(plan);
  std::vector<WorkStep> steps{
      {"Mount course by course from the bottom",
       mounting_words(plan) +
           " Lay the first strip dry and read its runs off the course list. Then glue strip 1 on course 1, datum end "
           "at the datum, and so on up; check each course while it can still be moved, and tick it off. Spread no more "
           "glue than you can cover before it skins, that is, dries on top." +
           (cut_first ? trim_words(plan) : ""),
       cut_first ? std::vector{Hazard::glue_and_paint, Hazard::hand_blade} : std::vector{Hazard::glue_and_paint}}};
  if (cut_first) return steps;
  const bool gang = plan.fabrication.gang.has_value();
  steps.push_back(
      {"Cut the mounted strips into pieces",
       std::string("When they hold, along a rule with its 0 at the datum end, as the cutting page says, "
                   "with ") +
           (gang ? "the gang of blades, and the knife where it does not reach." : "a knife along a guide.") +
           " Only as deep as the strip." + trim_words(plan),
       gang ? std::vector{Hazard::hand_blade, Hazard::blade_gang} : std::vector{Hazard::hand_blade}});
  return steps;
}

}  // namespace handlaid::detail
