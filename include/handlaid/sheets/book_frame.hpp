// The frame of the bench book: its style for screen, phone and paper, its head, and the few elements that all its
// sections are made of.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "handlaid/colour/contrast.hpp"
#include "handlaid/colour/hex.hpp"
#include "handlaid/core/when_called.hpp"
#include "handlaid/palette/palette.hpp"
#include "handlaid/sheets/cautions.hpp"
#include "handlaid/sheets/look.hpp"
#include "handlaid/sheets/markup.hpp"

namespace handlaid {

/// What a section of the bench book is called and found by.
struct BookSection {
  const char* id = "";
  const char* title = "";
};

/// The style sheet. Sizes step by a quarter; nothing is drawn that does not separate, count or warn.
template <When = When::called>
std::string book_style() {
  std::string css = ":root{--paper:" + to_hex(look::paper) + ";--shade:" + to_hex(look::shade) +
                    ";--ink:" + to_hex(look::ink) + ";--quiet:" + to_hex(look::quiet) +
                    ";--rule:" + to_hex(look::rule) + ";--accent:" + to_hex(look::accent) + "}\n";
  css += R"(*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:1.0625rem/1.5 system-ui,sans-serif}
main{max-width:64rem;margin:0 auto;padding:2rem 1.25rem 4rem}
h1{font-size:2.4rem;line-height:1.15;margin:0 0 .5rem;overflow-wrap:anywhere}
h2{font-size:1.55rem;line-height:1.2;margin:3.5rem 0 1rem;padding-top:.75rem;border-top:2px solid var(--ink)}
h3{font-size:1.1rem;line-height:1.3;margin:1.5rem 0 .25rem}
p{margin:.25rem 0 .75rem;max-width:44rem}
.quiet{color:var(--quiet)}
a{color:inherit}
.skip{position:absolute;left:-99rem}
.skip:focus{left:1rem;top:.5rem;padding:.5rem .9rem;background:var(--paper);z-index:2}
:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
nav ol{margin:1rem 0 0;padding:0;list-style:none;display:flex;flex-wrap:wrap;gap:.25rem 1.25rem}
nav a{display:inline-block;padding:.25rem 0}
img,svg{display:block;max-width:100%;height:auto}
table{border-collapse:collapse;font-variant-numeric:tabular-nums}
th,td{padding:.4rem 1rem .4rem 0;border-bottom:1px solid var(--rule);text-align:left;vertical-align:top}
thead th{border-bottom:2px solid var(--ink);font-weight:600;vertical-align:bottom}
tfoot th,tfoot td{border-bottom:0;border-top:2px solid var(--ink);font-weight:600}
.n{text-align:right}
td:last-child,th:last-child{padding-right:0}
tbody th{font-weight:600}
.middle th,.middle td{vertical-align:middle}
.wide{overflow-x:auto}
.swatch{display:inline-block;min-width:3.2em;padding:.25em .4em;text-align:center;font-weight:600;box-shadow:inset 0 0 0 1px rgba(0,0,0,.3)}
.tick{appearance:none;-webkit-appearance:none;display:inline-grid;width:1.625rem;height:1.625rem;margin:0 .6rem 0 0;padding:3px;border:2px solid var(--ink);background:var(--paper);vertical-align:-.45em;cursor:pointer}
.tick:checked::before{content:"";background:var(--ink);clip-path:polygon(12% 52%,0 66%,36% 100%,100% 16%,86% 4%,36% 72%)}
.care{margin:.5rem 0;padding:.5rem .9rem;max-width:44rem;background:var(--shade);border-left:.35rem solid var(--accent)}
.care b{color:var(--accent)}
.hold{display:inline-block;margin:.1rem 0 .35rem;padding:.1rem .6rem;font-weight:600;background:var(--ink);color:var(--paper)}
.wide+.wide,svg+.wide{margin-top:1.5rem}
.wide+p{margin-top:.9rem}
.note{margin:.5rem 0;padding:.5rem .9rem;max-width:44rem;background:var(--shade);border-left:.35rem solid var(--quiet)}
.over{display:grid;grid-template-columns:minmax(0,3fr) minmax(0,2fr);gap:2rem;margin-top:1.5rem}
.over img{width:100%;box-shadow:0 1px 2px rgba(0,0,0,.25),0 6px 20px rgba(0,0,0,.15)}
dl{margin:0}
dt{color:var(--quiet);margin-top:.9rem}
dt:first-child{margin-top:0}
dd{margin:0;font-size:1.35rem;line-height:1.3;font-variant-numeric:tabular-nums}
dd small{display:block;font-size:1rem;color:var(--quiet)}
.bar{margin:2rem 0 1.25rem;width:100%}
.steps{list-style:none;margin:0;padding:0}
.steps li{display:grid;grid-template-columns:2.25rem 1fr;gap:0 .75rem;padding:1rem 0;border-bottom:1px solid var(--rule)}
.steps h3{margin:0 0 .25rem}
.pack{white-space:nowrap}
.pack:not(:last-child)::after{content:","}
.marks td,.marks th{padding:.3rem .7rem;white-space:pre}
.marks th:first-child{padding-left:0}
.marks tr>:nth-child(3){background:var(--shade)}
.marks td{color:var(--quiet)}
.marks td::first-line{color:var(--ink)}
.courses thead th{white-space:nowrap}
.courses tbody th{cursor:pointer;white-space:pre;font-weight:400;color:var(--quiet)}
.courses tbody th::first-line{font-weight:600;color:var(--ink)}
.courses tbody th[data-minutes]::after{content:attr(data-minutes);display:block}
.courses tr:has([data-course]:checked) .runs{color:var(--quiet)}
.courses td{word-spacing:.7em;width:100%;line-height:1.7}
.runs::before{content:"■\202f";color:var(--accent)}
.runs::after{content:"\202f□"}
.pots{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,var(--line) + 1.4rem),1fr));gap:.75rem 1.5rem;color:var(--quiet);font-variant-numeric:tabular-nums}
.pots h4{grid-column:1/-1;margin:0;padding-top:.5rem;border-top:1px solid var(--rule);font-size:1rem;color:var(--ink)}
.pots p{position:relative;margin:0;padding-left:1.4rem;max-width:none;white-space:pre-line;color:var(--ink)}
.pots p::first-line{font-weight:600}
.pots p::before{content:"";position:absolute;left:0;top:.25em;bottom:.25em;width:.8rem;background:var(--pot);box-shadow:inset 0 0 0 1px rgba(0,0,0,.3)}
.way{break-inside:avoid}
.lines{white-space:pre-line}
pre{margin:.25rem 0 .75rem;padding:.5rem .9rem;max-width:44rem;background:var(--shade);font-size:1rem;white-space:pre-wrap;overflow-wrap:anywhere}
.blank span{display:block;min-width:7rem;border-bottom:1px dotted var(--quiet)}
.real{margin:.5rem 0 1rem;overflow-x:auto}
.real svg{max-width:none}
.part{position:relative;margin:2rem 0 0;break-inside:avoid}
.named small{color:var(--quiet);margin-left:.75rem}
.part small,h3 small{display:block;font-weight:400;font-size:1rem;color:var(--quiet)}
.part>svg{width:100%}
.paper{display:none}
button,select,.tools input{font:inherit;color:inherit;min-height:2.75rem;min-width:2.75rem;padding:.3rem .8rem;border:2px solid var(--ink);border-radius:0;background:var(--paper)}
button{font-weight:600;cursor:pointer}
button:active{background:var(--ink);color:var(--paper)}
.tools{display:flex;flex-wrap:wrap;align-items:center;gap:.5rem .75rem}
.tools label{display:flex;flex-wrap:nowrap;align-items:center;gap:.4rem}
.tools input{width:5.5rem}
.keys{display:flex;flex-wrap:wrap;gap:.4rem;margin-left:auto}
.viewer p{margin:.5rem 0;max-width:none}
.screen[hidden],.note[hidden]{display:none}
canvas{display:block;width:100%;height:min(76vh,56rem);height:min(76svh,56rem);touch-action:none;cursor:grab;background:var(--paper);box-shadow:inset 0 0 0 1px var(--rule)}
#lit:empty,#said:empty{display:none}
#lit,#done{font-weight:600}
.progress{position:sticky;bottom:0;margin:1rem -1.25rem 0;padding:.6rem 1.25rem;background:var(--paper);border-top:2px solid var(--ink)}
.progress p{margin:.25rem 0 .5rem}
.map{width:min(100%,26rem)}
.field{width:min(100%,34rem)}
.views{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,18rem),1fr));gap:1.5rem;margin:1rem 0}
.views figure{margin:0}
.views img{width:100%;image-rendering:pixelated}
.views figcaption{margin-top:.4rem;font-size:1rem}
@media (max-width:40rem){
main{padding:1.25rem 1rem 3rem}
h1{font-size:1.9rem}
.courses thead th{white-space:normal}
.courses tbody th{padding-right:.5rem;font-size:.95rem}
.courses td{line-height:1.6;font-size:.95rem;word-spacing:.4em}
.courses .tick{margin-right:.4rem}
.keys{margin-left:0}
.progress{margin:1rem -1rem 0;padding:.4rem 1rem}
.progress p{margin:.1rem 0 .3rem;line-height:1.3;font-size:.95rem}
.progress .tools{gap:.4rem;font-size:.95rem}
.progress button,.progress input{padding:.3rem .35rem}
.progress input{width:4.2rem}
.over{grid-template-columns:1fr}
th,td{padding-right:.6rem}
.wide table{font-size:1rem;line-height:1.35}
.wide th,.wide td{padding-right:.4rem}
.wide td.n{white-space:nowrap}
.wide thead th{font-size:.8rem;white-space:normal}
.wide .swatch{min-width:2.6em}
.wide .palette th,.wide .palette td{padding-right:.25rem;font-size:.875rem}
.wide .palette thead th{font-size:.72rem}
.wide .palette .swatch{min-width:2.2em}
.palette .named small{display:block;margin:0;font-size:.8rem}
.middle tr>:first-child,.marks tr>:first-child{position:sticky;left:0;background:var(--paper)}
.packs :is(th,td):nth-last-child(2){display:none}
.wide .packs{font-size:.85rem}
.pack,.pack .quiet{display:block}
.pack:not(:last-child)::after{content:none}
.pack .quiet{font-size:.95em;line-height:1.1;margin-bottom:.15rem}
.wide .packs .swatch{min-width:2.4em}
.items thead{display:none}
.items tr{display:grid;grid-template-columns:2.4rem 1fr auto;gap:0 .75rem;padding:.4rem 0;border-bottom:1px solid var(--rule)}
.wide .items :is(th,td){padding:0;border:0}
.items td:nth-child(4){grid-row:1;grid-column:3;font-weight:600}
.items td:nth-child(3),.items td:nth-child(5){grid-column:2/-1}
.items td:nth-child(5){color:var(--quiet)}
}
@page{margin:12mm}
@media print{
th,td{padding:.2rem .9rem .2rem 0}
table{break-inside:avoid}
table.courses{break-inside:auto}
section>h2+p,section>h3+p{break-after:avoid}
.care:last-child,.care:nth-last-child(2),.wide+p,.courses tr:nth-last-child(-n+3){break-before:avoid}
p{break-inside:avoid}
.swatch{padding:.1em .4em}
#marks .field{width:auto;height:78mm;max-width:100%}
html,body{background:#fff}
body{font-size:10.5pt;line-height:1.4}
main{max-width:none;padding:0}
h1{font-size:22pt}
h2{font-size:15pt;margin-top:0;break-after:avoid}
h3{break-after:avoid}
section{break-before:page}
section.first,section.flow{break-before:auto}
section.flow h2{margin-top:8mm}
.over{grid-template-columns:minmax(0,1fr) 58mm;gap:8mm}
.over img{box-shadow:none;max-height:150mm;width:auto}
.steps li{padding:.6rem 0}
.steps p{margin-bottom:.4rem}
.views{grid-template-columns:repeat(auto-fit,minmax(45mm,1fr));gap:5mm}
.steps li,tr,.care,.note,figure{break-inside:avoid}
thead{display:table-header-group}
.wide{overflow:visible}
.courses,.marks,.pots{font-size:9.5pt}
.pots{gap:2mm 5mm;line-height:1.35}
.pots h4{font-size:9.5pt;padding-top:2mm;break-after:avoid}
.marks td,.marks th{padding:.15rem .4rem}
.courses td{line-height:1.5}
.paper{display:block;margin:6mm 0}
.tick{width:4mm;height:4mm;margin-right:2mm;padding:.4mm;border-width:.4mm;vertical-align:-.8mm}
.part{margin:0;break-before:page}
.part h3{position:absolute;margin:0}
.part h3 small{font-size:10pt}
.part>svg{width:var(--printed)}
a{text-decoration:none}
.screen,.skip{display:none}
.swatch,.care,.note,.hold,pre,.pots p,svg,.tick,.marks tr>:nth-child(3){-webkit-print-color-adjust:exact;print-color-adjust:exact}
}
)";
  return css;
}

/// Opens document, head and main part; `end_book` ends it.
template <When = When::called>
void begin_book(Markup& page, const std::string& title) {
  page.raw("<!DOCTYPE html>\n").open("html", R"(lang="en")").open("head").line();
  page.leaf("meta", R"(charset="utf-8")").line();
  page.leaf("meta", R"(name="viewport" content="width=device-width, initial-scale=1")").line();
  // the page brings everything along: nothing else may be fetched, by nobody
  page.leaf("meta", R"(http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; )"
                    R"(style-src 'unsafe-inline'; script-src 'unsafe-inline'")")
      .line();
  page.element("title", title).line();
  page.open("style").raw("\n" + book_style()).close().close().line().open("body");
  page.element("a", "Skip to the chart", R"(class="skip" href="#chart")").open("main").line();
}
/// Closes all, after the script where there is one.
inline void end_book(Markup& page, std::string_view script = {}) {
  page.close();
  if (!script.empty()) page.open("script").raw(script).close().line();
  page.close().close().line();
}

/// Opens a section with its heading; `flow` ones stay on the page before when printed.
inline void begin_section(Markup& page, const BookSection& section, bool flow = false) {
  page.open("section", std::string("id=\"") + section.id + "\"" + (flow ? " class=\"flow\"" : ""));
  page.element("h2", section.title).line();
}

inline void add_paragraph(Markup& page, std::string_view text, std::string_view attributes = {}) {
  page.element("p", text, attributes).line();
}

/// A paragraph of short lines.
template <When = When::called>
void add_lines(Markup& page, const std::vector<std::string>& lines) {
  page.open("p", R"(class="lines")");
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i > 0) page.line();
    page.text(lines[i]);
  }
  page.close().line();
}

/// A caution in its box.
template <When = When::called>
void add_caution(Markup& page, Hazard hazard) {
  const std::string_view words = caution(hazard);
  const std::size_t colon = words.find(':');
  page.open("p", R"(class="care")").element("b", words.substr(0, colon + 1));
  page.text(words.substr(colon + 1)).close().line();
}

/// The number of a colour on the colour itself.
template <When = When::called>
void add_swatch(Markup& page, int number, const Srgb8& colour) {
  page.element(
      "span", std::to_string(number),
      "class=\"swatch\" style=\"background:" + to_hex(colour) + ";color:" + to_hex(numeral_colour(colour)) + "\"");
}

/// A box to tick, on paper and on the screen. `name` is what the ticks of this plan are kept by, `label` what is
/// ticked.
inline void add_tick(Markup& page, std::string_view name, std::string_view label) {
  page.leaf("input", R"(type="checkbox" class="tick" autocomplete="off")" + attribute("data-tick", name) +
                         attribute("aria-label", label));
}

/// A name as others typed it, kept from turning its neighbours round.
inline void add_name(Markup& page, std::string_view name) { page.element("bdi", name); }

/// A column heading; `number` ones stand right.
inline void add_heading(Markup& page, std::string_view text, bool number = false) {
  page.element("th", text, number ? R"(scope="col" class="n")" : R"(scope="col")");
}
inline void add_number(Markup& page, std::string_view text) { page.element("td", text, R"(class="n")"); }

/// Opens a region that scrolls sideways on a narrow screen; it can be reached by keyboard.
inline void begin_wide(Markup& page, std::string_view label, std::string_view attributes = {}) {
  page.open("div",
            R"(class="wide" tabindex="0" role="region")" + attribute("aria-label", label) + std::string(attributes));
}

}  // namespace handlaid
