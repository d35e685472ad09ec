// The script of the bench book's boxes: ticks are kept by the browser under the fingerprint of the chart, and go to and
// come from progress.csv as files/progress_table.hpp writes and reads it.
#pragma once

namespace handlaid {

inline constexpr const char* book_ticks_script = R"js(
(() => {
  const key = "handlaid " + plan.mark;
  const boxes = [...document.querySelectorAll("[data-course]")];
  const others = [...document.querySelectorAll("[data-tick]")];
  // Minutes by course, "" where it was not timed, in the order of laying; and the other boxes that are ticked.
  let laid = new Map();
  let ticks = new Set();

  // Cells to lay in each course.
  const toLay = boxes.map((_, i) =>
    cells.subarray(i * plan.columns, (i + 1) * plan.columns).reduce((n, number) => n + (number ? 1 : 0), 0));

  const short = (minutes) => (minutes || "").replace(/\.?0+$/, ""); // "7.50" as "7.5"

  function show() {
    let left = 0;
    boxes.forEach((box, i) => {
      box.checked = laid.has(i + 1);
      const minutes = short(laid.get(i + 1));
      if (!box.checked) left += toLay[i];
      box.setAttribute("aria-label", `Course ${i + 1} is laid` + (minutes ? `, in ${minutes} minutes` : ""));
      if (minutes) box.parentElement.dataset.minutes = minutes + " min";
      else delete box.parentElement.dataset.minutes;
    });
    for (const box of others) box.checked = ticks.has(box.dataset.tick);
    byId("done").textContent =
      `Ticked ${laid.size} of ${count(boxes.length, "course", "courses")}, ${count(left, "cell", "cells")} left`;
  }
  // Some browsers refuse to keep anything, some take it and forget: it is read back at once.
  function keep() {
    const text = JSON.stringify({laid: [...laid], ticks: [...ticks]});
    let kept = false;
    try {
      localStorage.setItem(key, text);
      kept = localStorage.getItem(key) === text;
    } catch (refused) {
      kept = false;
    }
    byId("forgets").hidden = kept;
  }
  function recall() {
    try {
      const kept = JSON.parse(localStorage.getItem(key));
      if (!kept) return;
      const known = new Set(others.map((box) => box.dataset.tick));
      laid = new Map(kept.laid.filter(([course]) => Number.isInteger(course) && course > 0 && course <= plan.courses));
      ticks = new Set(kept.ticks.filter((name) => known.has(name)));
    } catch (unreadable) {
      laid = new Map();
      ticks = new Set();
    }
  }
  const say = (text) => { byId("said").textContent = text; };
  function changed() {
    show();
    keep();
  }

  // "7,5" as "7.50"; "" for none; nothing where it is no time between 0.02 and 60000 minutes.
  function minutesOf(text) {
    const plain = text.trim().replace(",", ".");
    if (plain === "") return "";
    const hundredths = /^\d{1,5}(\.\d{1,2})?$/.test(plain) ? Math.round(Number(plain) * 100) : 0;
    return hundredths >= 2 && hundredths <= 6000000 ? (hundredths / 100).toFixed(2) : undefined;
  }
  function showTimed(course) {
    byId("timed").value = course || "";
    byId("minutes").value = short(laid.get(course));
  }
  function takeMinutes() {
    const course = Number(byId("timed").value);
    const minutes = minutesOf(byId("minutes").value);
    byId("minutes").setAttribute("aria-invalid", minutes === undefined);
    if (minutes === undefined) return say("Minutes are a number from 0.02 to 60000, such as 25 or 7.5.");
    if (!laid.has(course)) return say(minutes === "" ? "" : "Tick the course first, then give its minutes.");
    laid.set(course, minutes);
    say(minutes === "" ? "" : `Course ${course} took ${short(minutes)} minutes.`);
    changed();
  }

  function progressText() {
    return `chart,${plan.mark}\ncourse,minutes\n` + [...laid].map(([course, minutes]) => `${course},${minutes}\n`).join("");
  }
  // Gives the courses of a file, or throws the sentence that says what is wrong with it.
  function readProgress(text, name) {
    const separator = /^[^\n]*;/.test(text) ? ";" : ",";
    const rows = text.replace(/^\ufeff/, "").split(/\r\n|\n|\r/).map((line, i) => ({
      place: `${name}, line ${i + 1}: `,
      fields: line.split(separator).map((field) => field.trim().replace(/^"(.*)"$/, "$1")),
    })).filter((row) => row.fields.some((field) => field !== ""));
    if (!rows.length || rows[0].fields[0] !== "chart") throw `${name} does not begin with the fingerprint of a chart.`;
    if (rows[0].fields[1] !== plan.mark) {
      throw `${name} belongs to another chart, ${rows[0].fields[1]}; the chart of this book is ${plan.mark}. Nothing was changed.`;
    }
    const heads = rows.length > 1 ? rows[1].fields : [];
    const courseAt = heads.indexOf("course");
    const minutesAt = heads.indexOf("minutes");
    if (courseAt < 0 || minutesAt < 0) throw `${name} has no line "course,minutes".`;
    const read = new Map();
    for (const {place, fields} of rows.slice(2)) {
      const course = /^\d+$/.test(fields[courseAt]) ? Number(fields[courseAt]) : 0;
      if (course < 1 || course > plan.courses) throw `${place}there is no course ${fields[courseAt]}.`;
      if (read.has(course)) throw `${place}course ${course} stands there twice.`;
      const minutes = minutesOf(fields[minutesAt] || "");
      if (minutes === undefined) throw `${place}${fields[minutesAt]} is no number of minutes.`;
      read.set(course, minutes);
    }
    return read;
  }

  document.addEventListener("change", (event) => {
    const {course, tick} = event.target.dataset || {};
    if (tick) ticks[event.target.checked ? "add" : "delete"](tick);
    if (course) {
      if (event.target.checked) laid.set(Number(course), "");
      else laid.delete(Number(course));
      showTimed(event.target.checked ? Number(course) : 0);
      say("");
    }
    if (course || tick) changed();
  });
  // The number beside a box is part of it for a finger.
  document.addEventListener("click", (event) => {
    const box = event.target.matches(".courses tbody th") && event.target.querySelector("[data-course]");
    if (box) box.click();
  });
  byId("timed").addEventListener("change", () => showTimed(Number(byId("timed").value)));
  byId("minutes").addEventListener("change", takeMinutes);
  byId("save").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([progressText()], {type: "text/csv"}));
    link.download = "progress.csv";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    say(`progress.csv holds ${count(laid.size, "course", "courses")}.`);
  });
  byId("read").addEventListener("click", () => byId("file").click());
  byId("file").addEventListener("change", async () => {
    const file = byId("file").files[0];
    if (!file) return;
    const text = await file.text();
    byId("file").value = ""; // so that the same file can be read again
    try {
      laid = readProgress(text, file.name);
      say(`${count(laid.size, "course", "courses")} read from ${file.name}.`);
      changed();
    } catch (fault) {
      say(String(fault));
    }
  });
  // The book may be open twice.
  window.addEventListener("storage", (event) => {
    if (event.key !== key) return;
    recall();
    show();
  });

  recall();
  changed();
  byId("progress").hidden = false;
  document.documentElement.dataset.ready = Math.round(performance.now());
})();
)js";

}  // namespace handlaid
