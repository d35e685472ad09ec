// The steps of strips that are painted, mounted and cut. Common practice, no source, unless a figure says otherwise.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "handlaid/core/when_called.hpp"
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

/// The three tries that come before the order.
template <When = When::called>
std::vector<WorkStep> steps_of_trial(const Plan& plan) {
  return {
      {"Try one strip to the end",
       "Buy what the order lists for the pilot, no more. Prime and paint a short strip, let it dry as long as its data "
       "sheet says" +
           std::string(is_folded(*plan.strips) ? ", fold it sharply" : ", bend it") +
           ", pull tape off it, rub it with a dry and a damp cloth, glue it on an offcut of the board that is sealed "
           "as "
           "the board will be, and cut it with the blade you will use. Look again the next day. On rigid material do "
           "the cross-cut tape test instead of the fold: ASTM D3359 and ISO 2409 say how. If paint or strip comes off, "
           "change primer, glue or material and begin again.",
       {Hazard::glue_and_paint, Hazard::hand_blade},
       true},
      {"Hold dried paint against the picture",
       "Paint a chip of each colour of the pilot as often as the strips, and let it dry: wet paint is another colour. "
       "Hold it against the picture in the light of the place. A colour that comes with the rest is tried the same way "
       "before its first section.",
       {Hazard::glue_and_paint},
       true},
      {"Make the pilot patch and time it",
       "Make " + patch_words(plan.fabrication.pilot) +
           ", the richest part, on the same offcut: paint, mount and cut it as you will the rest. It stays there; its "
           "paint and material are counted beside the panel." +
           timing_words,
       plan.fabrication.gang ? std::vector{Hazard::glue_and_paint, Hazard::hand_blade, Hazard::blade_gang}
                             : std::vector{Hazard::glue_and_paint, Hazard::hand_blade},
       true},
      {"Order the rest in one go",
       "All of one lot, with what stays in the pots. Write the lot numbers on the order page.",
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
           (is_primed(plan) ? ", and keep primer and paint off that end." : ", and keep paint off that end.");
  }
  // Paint covers the face, and a fold or a second painted face the back.
  const bool covered = is_folded(strips) || plan.fabrication.paint->faces > 1;
  return what +
         (covered ? "on a label that hangs from its far end: labels.pdf has them." : "on its back, at the far end.");
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
          with_unit(strips.length, unit) + " long and " + with_unit(strips.flat_width, unit) + " wide" +
          (strips.flat_width != strips.finished_width ? ", to be folded to " + with_unit(strips.finished_width, unit)
                                                      : "") +
          "; with those of the pilot " + material_text(strips.needed_length(), unit) + " of material in all" +
          slit_words(plan) + "." + numbering_words(plan) +
          (strips.spares > 0 ? " Spare ones get their number when they are needed." : ""),
      {Hazard::hand_blade}};
}

/// From the cut strips to those that are ready to mount.
template <When = When::called>
std::vector<WorkStep> steps_to_strips(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  const bool primed = is_primed(plan);
  std::vector<WorkStep> steps{cutting_out_step(plan)};
  steps.push_back(
      {primed ? "Prime and mark the strips" : "Mark the strips",
       std::string(primed ? "Prime the strips, the spare ones too, and let them dry: marks under primer are "
                            "lost. "
                          : "") +
           "Hook the tape on the datum end of the strip and set all its marks in one go, from the strip "
           "list, to the edge of the strip or beyond, where paint leaves them to be seen. Or lay a whole "
           "batch on its marking sheet and mark all of it with one straightedge: marking_sheets.pdf from a "
           "print shop, or marking_tiles.pdf on your own paper.",
       primed ? std::vector{Hazard::glue_and_paint} : std::vector<Hazard>{}});
  steps.push_back({"Paint batch by batch",
                   "Pour all cans of one colour together first, then work down the painting pages, sitting by sitting: "
                   "what touches is never wet together. Let each sitting dry as long as the data sheet says. A strip "
                   "that is spoilt is painted again on a spare one, at the end of its batch.",
                   {Hazard::glue_and_paint}});
  if (is_folded(strips)) {
    steps.push_back({"Fold the strips",
                     "When the last coat is hard, fold them " +
                         std::string(strips.fold == Fold::lengthwise ? "along their length" : "end to end") +
                         ", coloured side out, the fold pressed sharp with a straightedge. " +
                         (strips.fold == Fold::lengthwise ? "The fold is the free edge." : "The fold is the far end."),
                     {}});
  }
  return steps;
}

/// How a strip sits on its course.
template <When = When::called>
std::string mounting_words(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  const auto text = [&](Length length) { return with_unit(length, unit_of(plan)); };
  std::string words = "The upper edge of a strip stands on the upper line of its course";
  words +=
      strips.fastened_edge > Length{} ? ", glued by " + text(strips.fastened_edge) + " along that edge only." : ".";
  if (strips.overlap > Length{}) {
    words += " It hangs " + text(strips.overlap) +
             " over the course below; strip 1 hangs as far below the board, and is trimmed or left.";
  }
  return words;
}

/// How a cut is made where the strip above is in its way, and where it must not go deep.
template <When = When::called>
std::string cut_words(const Plan& plan) {
  const StripTakeoff& strips = *plan.strips;
  std::string words;
  if (strips.overlap > strips.fastened_edge) {
    words += " Work from the bottom up: the strip above, still in one piece, hides the last " +
             with_unit(strips.overlap - strips.fastened_edge, unit_of(plan)) +
             " of each cut. Turn its free edge up along the whole course and hold it up with clips or a slip of card; "
             "the topmost is cut last and free.";
  }
  words += strips.overlap > Length{} || strips.fastened_edge > Length{}
               ? " Slide a thin metal plate under the strip that is cut, or the blade goes into what is below."
               : " Only as deep as the strip.";
  if (strips.trim > Length{}) {
    words += " Last, cut off the " + with_unit(strips.trim, unit_of(plan)) +
             " that stand over beyond the last mark, with knife and straightedge.";
  }
  return words;
}

/// On the board.
template <When = When::called>
std::vector<WorkStep> steps_of_mounting(const Plan& plan) {
  const bool gang = plan.fabrication.gang.has_value();
  return {
      {"Mount course by course from the bottom",
       mounting_words(plan) +
           " Lay the first strip dry and read its runs off the course list. Then glue strip 1 on course 1, datum end "
           "at "
           "the datum, and so on up; check each course while it can still be moved, and tick it off. Spread no more "
           "glue than you can cover before it skins.",
       {Hazard::glue_and_paint}},
      {"Cut the mounted strips into pieces",
       std::string("When they hold, along a rule with its 0 at the datum end, as the cutting page says, with ") +
           (gang ? "the gang of blades, and the knife where it does not reach." : "a knife along a guide.") +
           cut_words(plan),
       gang ? std::vector{Hazard::hand_blade, Hazard::blade_gang} : std::vector{Hazard::hand_blade}},
  };
}

}  // namespace handlaid::detail
