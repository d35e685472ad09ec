// Bench book: the palette as a card, with the pieces of each colour.
#pragma once

#include "handlaid/core/when_called.hpp"
#include "handlaid/plan/plan.hpp"
#include "handlaid/sheets/book_frame.hpp"
#include "handlaid/sheets/figures.hpp"

namespace handlaid {

inline constexpr BookSection palette_section{"palette", "Palette"};

template <When = When::called>
void add_palette(Markup& page, const Plan& plan) {
  const bool spares = plan.pieces.spares() > 0;
  const bool trials = plan.pieces.trials() > 0;
  bool named = false;
  for (const PaletteEntry& entry : plan.chart.palette.entries) named = named || !entry.name.empty();
  begin_section(page, palette_section);
  begin_wide(page, "Palette");
  page.open("table", R"(class="middle palette")").open("thead").open("tr");
  page.element("th", "Colour", R"(scope="col" colspan="2")");
  add_heading(page, "Cells", true);
  add_heading(page, "Pieces", true);
  if (spares) add_heading(page, "Spares", true);
  if (trials) add_heading(page, "To try", true);
  if (spares || trials) add_heading(page, "Needed", true);
  page.close().close().line().open("tbody").line();
  for (const PieceLine& line : plan.pieces.lines) {
    const PaletteEntry& entry = plan.chart.palette[line.number];
    page.open("tr").open("th", R"(scope="row")");
    add_swatch(page, line.number, entry.colour);
    page.close();
    page.open("td", named ? R"(class="named")" : "");
    if (named) add_name(page, entry.name);
    page.element(named ? "small" : "span", to_hex(entry.colour)).close();
    add_number(page, count_text(line.cells));
    add_number(page, count_text(line.pieces));
    if (spares) add_number(page, count_text(line.spares));
    if (trials) add_number(page, count_text(line.trials));
    if (spares || trials) add_number(page, count_text(line.needed()));
    page.close().line();
  }
  page.close().open("tfoot").open("tr").element("th", "All", R"(scope="row" colspan="2")");
  add_number(page, count_text(plan.tally.laid()));
  add_number(page, count_text(plan.pieces.pieces()));
  if (spares) add_number(page, count_text(plan.pieces.spares()));
  if (trials) add_number(page, count_text(plan.pieces.trials()));
  if (spares || trials) add_number(page, count_text(plan.pieces.needed()));
  page.close().close().close().close().line();
  if (spares) {
    add_paragraph(page, "Spares: if " + percent_text(plan.pieces.loss) +
                            " of the pieces are lost or do not fit, all colours last together with a certainty of " +
                            percent_text(plan.pieces.confidence) + ": " +
                            count_text(plan.pieces.spares(), "spare", "spares") +
                            ", more of the rare colours for their number than of the common ones.");
    if (!plan.fabrication.flat_spares.empty()) {
      std::string flat;
      for (const FlatSpareRisk& risk : plan.fabrication.flat_spares) {
        flat += (flat.empty() ? "" : "; ") + percent_text(risk.share) + " would be " + count_text(risk.spares) +
                " spares, and some colour runs out in " +
                percent_text(static_cast<double>(risk.any_runs_out_ppm) / 1e6) + " of panels";
      }
      add_paragraph(page, "A flat percentage instead: " + flat + ".", R"(class="quiet")");
    }
  }
  page.close().line();
}

}  // namespace handlaid
