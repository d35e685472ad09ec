// The script of the bench book's controls: keys, wheel, fingers and buttons that move the chart of book_chart_script,
// one colour alone, and the parts for paper.
#pragma once

namespace handlaid {

inline constexpr const char* book_controls_script = R"js(
(() => {
  const {canvas, field, zoomAt, moveBy} = chartView;
  const middle = () => [field.left + field.width / 2, field.top + field.height / 2];
  const acts = {
    "+": () => zoomAt(...middle(), 1.5),
    "=": () => zoomAt(...middle(), 1.5), // the same key without shift
    "-": () => zoomAt(...middle(), 1 / 1.5),
    "0": chartView.showWhole,
    ArrowLeft: () => moveBy(field.width / 6, 0),
    ArrowRight: () => moveBy(-field.width / 6, 0),
    ArrowUp: () => moveBy(0, field.height / 6),
    ArrowDown: () => moveBy(0, -field.height / 6),
  };
  canvas.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || !acts[event.key]) return;
    acts[event.key]();
    event.preventDefault();
  });
  for (const button of document.querySelectorAll("[data-act]")) {
    button.addEventListener("click", acts[button.dataset.act]);
  }
  canvas.addEventListener("wheel", (event) => {
    const pixels = event.deltaY * (event.deltaMode === 1 ? 30 : 1);
    // at either end the page scrolls on
    if (zoomAt(event.offsetX, event.offsetY, Math.exp(-pixels / 400))) event.preventDefault();
  }, {passive: false});

  // One finger moves, two zoom: about their middle, by how far they part.
  const fingers = new Map();
  let travelled = 0;
  const between = () => {
    const [a, b] = [...fingers.values()];
    return {x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y) || 1};
  };
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, {x: event.offsetX, y: event.offsetY});
    travelled = fingers.size > 1 ? Infinity : 0;
  });
  canvas.addEventListener("pointermove", (event) => {
    const finger = fingers.get(event.pointerId);
    if (!finger) return;
    const before = fingers.size === 2 ? between() : {...finger};
    travelled += Math.hypot(event.offsetX - finger.x, event.offsetY - finger.y);
    Object.assign(finger, {x: event.offsetX, y: event.offsetY});
    if (fingers.size > 2) return;
    const after = fingers.size === 2 ? between() : finger;
    moveBy(after.x - before.x, after.y - before.y);
    if (fingers.size === 2) zoomAt(after.x, after.y, after.apart / before.apart);
  });
  const lift = (event) => fingers.delete(event.pointerId);
  canvas.addEventListener("pointercancel", lift);
  canvas.addEventListener("pointerup", (event) => {
    if (lift(event) && travelled < 6) readCell(event.offsetX, event.offsetY);
  });
  function readCell(x, y) {
    const cell = chartView.cellAt(x, y);
    chartView.say(!cell ? "" : ` Course ${cell.course}, column ${cell.column}: ` +
      (cell.number ? `colour ${cell.number} \u2068${plan.colours[cell.number - 1].name}\u2069.` : "empty."));
  }

  // 1, 2, 3, 7 as "1 to 3, 7".
  function ranges(numbers) {
    const parts = [];
    for (const n of numbers) {
      const last = parts[parts.length - 1];
      if (last && last[1] === n - 1) last[1] = n;
      else parts.push([n, n]);
    }
    return parts.map(([a, b]) => (a === b ? a : b === a + 1 ? `${a}, ${b}` : `${a} to ${b}`)).join(", ");
  }
  byId("light").addEventListener("change", (event) => {
    const lit = Number(event.target.value);
    const courses = [];
    for (let course = 0; lit && course < plan.courses; ++course) {
      if (cells.subarray(course * plan.columns, (course + 1) * plan.columns).includes(lit)) courses.push(course + 1);
    }
    const colour = plan.colours[lit - 1];
    byId("lit").textContent = !lit ? "" : `${count(colour.cells, "cell", "cells")} in ` +
      `${count(colour.runs, "run", "runs")}, in ${count(courses.length, "course", "courses")}` +
      (courses.length ? `: ${ranges(courses)}.` : ".");
    chartView.light(lit);
  });

  // The parts for paper are many elements: they are there while they are printed, or where they are asked for.
  const parts = byId("parts");
  const drawn = parts.querySelector("noscript").textContent;
  const pages = byId("pages");
  const wanted = () => pages.getAttribute("aria-expanded") === "true";
  const showParts = (shown) => {
    if (shown !== Boolean(parts.querySelector("article"))) parts.innerHTML = shown ? drawn : "";
  };
  pages.addEventListener("click", () => {
    pages.setAttribute("aria-expanded", !wanted());
    pages.textContent = wanted() ? "Hide the pages to print" : "Show the pages to print";
    showParts(wanted());
  });
  window.addEventListener("beforeprint", () => showParts(true));
  window.addEventListener("afterprint", () => showParts(wanted()));
})();
)js";

}  // namespace handlaid
