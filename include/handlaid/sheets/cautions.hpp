// Cautions: where work can hurt someone, the usual words, and who decides in the end.
#pragma once

#include <string>

#include "handlaid/core/when_called.hpp"

namespace handlaid {

/// What a step of the work can do to a person.
enum class Hazard {
  hand_blade,
  blade_gang,
  point,
  turning_blade,
  drill,
  whole_sheet,
  dust,
  glue_and_paint,
  lifting,
  wall,
  ladder
};

/// The caution printed where the hazard is met. Common practice, with the sources that a figure has. What stands before
/// the colon names the hazard, so that it can be named again alone.
template <When = When::called>
const char* caution(Hazard hazard) {
  switch (hazard) {
    case Hazard::hand_blade:  // gloves by EN 388
      return "Hand blade: wear cut-resistant gloves, also when fitting the blade. Fresh blade, little force, the other "
             "hand never in its path. Cover it when you put it down; worn blades go into a closed tin.";
    case Hazard::blade_gang:
      return "Gang of blades: handles stand well outside the outermost blade, both hands on them, and no hand under "
             "the "
             "strip or before the blades. Put it down in its guard, take it apart in cut-resistant gloves, and keep it "
             "locked away from children.";
    case Hazard::point:
      return "Awl or needle: prick straight down, never towards the hand that holds the paper; a cork on the point "
             "when it "
             "is put down.";
    case Hazard::turning_blade:
      return "Powered turning blade: no gloves of any kind, nothing loose. Use the guard, the riving knife and a push "
             "stick, wear eye and ear protection, and follow the machine's manual.";
    case Hazard::drill:
      return "Drill: clamp the work, no gloves and nothing loose, wear eye protection, and look what lies behind the "
             "hole.";
    case Hazard::whole_sheet:
      return "Whole sheet: two people carry it, upright, in gloves with grip, which come off before a machine runs. "
             "Support it on both sides of the cut, or "
             "have it cut where it is bought.";
    case Hazard::dust:
      return "Dust: use extraction and wear a respirator when sawing or sanding. Cut ceramic and stone wet. Local "
             "exposure limits apply.";
    case Hazard::glue_and_paint:
      return "Glue, paint, sealer, solvent: the product's data sheet decides on fresh air, gloves, drying time and "
             "waste. Keep flames and sparks away, and rags in the open until they are dry.";
    case Hazard::lifting:  // NIOSH, Applications Manual for the Revised Lifting Equation, 1994: load constant 51 lb
      return "Lifting: weigh the panel first. 23 kg (51 lb) is the guidance limit for one person in ideal conditions, "
             "and a wide board is far from ideal. What is heavy, or too wide to hold close, takes two people; clear "
             "way, gloves with grip.";
    case Hazard::wall:
      return "Wall: look for cables and pipes before drilling. Fix into studs or masonry, rated for several times the "
             "panel's weight. Local codes decide, also on fire rules in public rooms; if unsure, call a licensed "
             "trade. Nothing over a bed, a cot or a seat.";
    case Hazard::ladder:
      return "Ladder: on firm ground, by its own label, held by a second person. Do not carry the panel up alone.";
  }
  return "";
}

/// The hazard's name alone: what its caution says before the colon.
template <When = When::called>
std::string caution_name(Hazard hazard) {
  const std::string words = caution(hazard);
  return words.substr(0, words.find(':'));
}

}  // namespace handlaid
