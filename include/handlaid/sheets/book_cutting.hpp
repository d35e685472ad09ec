// Bench book: cutting the mounted strips into pieces, by knife and guide or by a gang of blades.
#pragma once

#include <cstddef>
#include <string>

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection cutting_section{"cutting", "Cutting"};

namespace detail {

/// "2 of 1.62 mm, 1 of 0.11 mm".
template <When = When::called>
std::string stack_text(const Gang& gang, const GangBlade& blade) {
  std::string text;
  for (std::size_t k = 0; k < blade.spacers.size(); ++k) {
    if (blade.spacers[k] == 0) continue;
    if (!text.empty()) text += ", ";
    text += std::to_string(blade.spacers[k]) + " of " + to_text(gang.spacers[k].thickness, LengthUnit::millimetres);
  }
  return text.empty() ? "none: the first blade" : text;
}

/// The arbor to scale: blades as lines, the stack between them as bars.
template <When = When::called>
void add_gang_drawing(Markup& page, const Gang& gang) {
  const Length width = gang.width();
  const auto scaled = [&](Length length) { return Length::from_um(length.um() * 100'000 / width.um()); };
  page.open("svg",
            "class=\"field\" viewBox=\"-4 0 108 40\" role=\"img\" aria-label=\"The gang of blades, to scale\" "
            "font-size=\"3.4\" font-family=\"sans-serif\" fill=\"" +
                to_hex(look::quiet) + "\"");
  page.leaf("rect", "x=\"-4\" y=\"18\" width=\"108\" height=\"4\" fill=\"" + to_hex(look::rule) + "\"");
  for (std::size_t i = 0; i < gang.blades.size(); ++i) {
    const Length left = scaled(gang.blades[i].stands);
    const Length thick = std::max(scaled(gang.blade_thickness), 0.4 * mm);
    if (i > 0) {
      const Length from = scaled(gang.blades[i - 1].stands + gang.blade_thickness);
      page.leaf("rect", "x=\"" + drawing_mm(from) + "\" y=\"13\" width=\"" + drawing_mm(left - from) +
                            "\" height=\"14\" fill=\"" + to_hex(look::shade) + "\" stroke=\"" + to_hex(look::quiet) +
                            "\" stroke-width=\".3\"");
    }
    page.leaf("rect", "x=\"" + drawing_mm(left) + "\" y=\"4\" width=\"" + drawing_mm(thick) +
                          "\" height=\"32\" fill=\"" + to_hex(look::ink) + "\"");
    page.element("text", std::to_string(i + 1),
                 "x=\"" + drawing_mm(left + thick.divided(2)) + "\" y=\"39.5\" text-anchor=\"middle\"");
  }
  page.close().line();
}

/// Between two blades, where all stand as they should.
inline Length gap_of(const Gang& gang) {
  return gang.blades.size() < 2 ? Length{} : gang.blades[1].wanted - gang.blades[0].wanted - gang.blade_thickness;
}

template <When = When::called>
void add_gang(Markup& page, const Gang& gang, LengthUnit unit) {
  page.element("h3", "The gang of blades").line();
  add_paragraph(
      page, count_text(static_cast<std::int64_t>(gang.blades.size()), "blade", "blades") +
                " on the arbor, the rod that carries them, limited by " + gang.limit +
                ". It is rolled by hand: never put it into a machine. Each gap is filled from where the blade "
                "before it really stands; the largest error is " +
                to_text(gang.largest_error, LengthUnit::millimetres) +
                ". The thicknesses are those that a caliper gave, typed into the job: nominal washers drift, and "
                "thirty of them can be 6 mm out. Measure yours and plan again, or fill by hand what stays between two "
                "blades, " +
                to_text(gap_of(gang), LengthUnit::millimetres) + ".");
  add_gang_drawing(page, gang);
  begin_wide(page, "Blades and spacers");
  page.open("table").open("thead").open("tr");
  add_heading(page, "Blade", true);
  add_heading(page, "Spacers before it");
  add_heading(page, "From blade 1, wanted", true);
  add_heading(page, "As it stands", true);
  add_heading(page, "Off", true);
  page.close().close().line().open("tbody").line();
  int number = 0;
  for (const GangBlade& blade : gang.blades) {
    page.open("tr").element("th", std::to_string(++number), R"(scope="row" class="n")");
    page.element("td", stack_text(gang, blade));
    add_number(page, to_text(blade.wanted, LengthUnit::millimetres));
    add_number(page, to_text(blade.stands, LengthUnit::millimetres));
    const std::int64_t off = blade.error().um();
    add_number(page, (off < 0 ? "-" : "") + to_text(Length::from_um(off < 0 ? -off : off), LengthUnit::millimetres));
    page.close().line();
  }
  page.close().close().close().line();
  if (unit == LengthUnit::inches) add_paragraph(page, "A caliper reads these in millimetres.", R"(class="quiet")");
}

/// Where the gang begins, how it goes on and what it has no cut for at the end.
template <When = When::called>
std::string pass_words(const Gang& gang, const CuttingTakeoff& cutting, Length trim, LengthUnit unit) {
  const std::int64_t passes = gang.passes(cutting.cuts_on_longest);
  const std::int64_t idle = gang.reach(passes) - cutting.cuts_on_longest;
  std::string words = "Blade 1 is the one nearest to the datum end. It begins on the first cut, " +
                      mark_text(cut_at(1, cutting.pitch, cutting.pieces_per_cell), unit) + " " + symbol(unit) +
                      " from the datum end; all positions in the table are from there. " +
                      count_text(passes, "pass goes", "passes go") + " over the longest strip";
  words += passes > 1
               ? ": blade 1 stands " +
                     mark_text(cutting.piece_width.times(static_cast<std::int64_t>(gang.blades.size()) - 1), unit) +
                     " " + symbol(unit) +
                     " further each time, in the last cut of the pass before, and where the rule says."
               : ".";
  if (idle > 0) {
    words += " In the last pass " + count_text(idle, "blade has", "blades have") + " no cut to make" +
             (cutting.piece_width.times(idle - 1) <= trim
                  ? " and run in what is cut off beyond the last mark."
                  : " and would run beyond the end: make the last cuts with the knife.");
  }
  return words + " Check the last cut of a strip against its mark.";
}

/// The way out for a maker who cannot get a gang.
template <When = When::called>
std::string without_gang_words(const Plan& plan) {
  const double seconds = static_cast<double>(plan.fabrication.cutting->cuts) * plan.job.rates.seconds_per_cut;
  return " Nobody needs the gang: knife and guide make the same cuts, by the rates in " +
         time_text(static_cast<std::int64_t>(seconds)) +
         "; then arbor, spacers and round blades are not bought, but blades for the knife.";
}

}  // namespace detail

/// Nothing where pieces are bought cut.
template <When = When::called>
void add_cutting(Markup& page, const Plan& plan) {
  const Fabrication& made = plan.fabrication;
  if (!made.cutting) return;
  const LengthUnit unit = plan.job.units.value_or(LengthUnit::millimetres);
  const CuttingTakeoff& cutting = *made.cutting;
  begin_section(page, cutting_section, true);
  std::string text = count_text(cutting.cuts, "cut", "cuts") + " in all, at most " +
                     count_text(cutting.cuts_on_longest) + " on a strip; pieces are " +
                     mark_text(cutting.piece_width, unit) + " " + symbol(unit) + " wide. Each cut is " +
                     mark_text(cutting.cut_length, unit) + " " + symbol(unit) + " long";
  text +=
      plan.strips->fastened_edge > Length{}
          ? ": it begins " + mark_text(plan.strips->fastened_edge, unit) + " " + symbol(unit) +
                " below the upper edge, which stays whole, and goes through the free edge. Strips are cut flat on a "
                "mat, before they are mounted."
          : ", through the whole strip, once it is mounted.";
  if (plan.strips->trim > Length{}) {
    text += " At the end what stands over beyond the last mark, " + mark_text(plan.strips->trim, unit) + " " +
            symbol(unit) + ", is cut off after mounting.";
  }
  add_paragraph(page, text);
  add_paragraph(page, "One cut every " + mark_text(cutting.piece_width, unit) + " " + symbol(unit) +
                          ", each at its place from the datum end, as cuts.csv lists them" +
                          (made.gang ? "." : "; never measured from the last cut."));
  add_caution(page, Hazard::hand_blade);
  if (made.gang) {
    detail::add_gang(page, *made.gang, unit);
    add_paragraph(page,
                  detail::pass_words(*made.gang, cutting, plan.strips->trim, unit) + detail::without_gang_words(plan));
    add_caution(page, Hazard::blade_gang);
  } else {
    add_paragraph(
        page,
        "With knife and guide: lay the guide on the mark, cut away from the hand that holds it. A gang of "
        "blades on an arbor is reckoned here too where the job file has the measured thickness of its spacers.");
  }
  page.close().line();
}

}  // namespace handlaid
