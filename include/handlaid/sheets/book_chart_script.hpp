// The script of the bench book's chart: a canvas that shows as much as is in view, as near as the maker likes. It
// stands first of the scripts: the others share its `plan`, the data of book_viewer, its `cells`, `byId`, `count` and
// `chartView`.
#pragma once

namespace handlaid {

inline constexpr const char* book_chart_script = R"js(
"use strict";
const byId = (id) => document.getElementById(id);
const plan = JSON.parse(byId("plan").textContent);
const packed = Uint8Array.from(atob(plan.cells), (c) => c.charCodeAt(0));
const cells = plan.bytes === 1 ? packed : packed.reduce((all, byte, i) => {
  all[i >> 1] |= byte << (i % 2 ? 8 : 0);
  return all;
}, new Uint16Array(packed.length / 2));
const count = (n, one, several) => n.toLocaleString("en") + " " + (n === 1 ? one : several);
document.documentElement.classList.add("live");

const chartView = (() => {
  const canvas = byId("canvas");
  const pen = canvas.getContext("2d", {alpha: false});
  const font = (px, weight) => `${weight} ${px}px system-ui, sans-serif`;
  const digits = String(plan.colours.length).length;
  // A cell of the chart, its shorter side 1.
  const shorter = Math.min(plan.cell_width, plan.cell_height);
  const unitX = plan.cell_width / shorter;
  const unitY = plan.cell_height / shorter;
  const nearest = 88; // pixels of that side
  let lit = 0;
  let tapped = "";
  // What is in view: the column and course, from 0, at the bottom left of the field, and pixels a unit.
  const view = {x: 0, y: 0, zoom: 1, whole: true};
  // The field of cells inside of the canvas, in CSS pixels; around it stand the numbers.
  const field = {left: 0, top: 0, width: 1, height: 1};

  // All cells as one pixel each: scaling it costs the same for any number of cells.
  const picture = document.createElement("canvas");
  picture.width = plan.columns;
  picture.height = plan.courses;
  const rgb = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16));
  function paintPicture() {
    const paper = rgb(plan.paper);
    const inks = [plan.board, ...plan.colours.map((c) => c.colour)].map((hex, number) =>
      rgb(hex).map((v, i) => (lit && number !== lit ? Math.round(paper[i] * 0.88 + v * 0.12) : v)));
    const brush = picture.getContext("2d");
    const image = brush.createImageData(plan.columns, plan.courses);
    for (let course = 0, i = 0; course < plan.courses; ++course) {
      let at = (plan.courses - 1 - course) * plan.columns * 4;
      for (let column = 0; column < plan.columns; ++column, ++i, at += 4) {
        image.data.set(inks[cells[i]], at);
        image.data[at + 3] = 255;
      }
    }
    brush.putImageData(image, 0, 0);
  }

  const toX = (column) => field.left + (column - view.x) * unitX * view.zoom;
  const toY = (course) => field.top + field.height - (course - view.y) * unitY * view.zoom;
  const least = () => Math.min(field.width / (plan.columns * unitX), field.height / (plan.courses * unitY));

  function settle() {
    view.zoom = view.whole ? least() : Math.min(Math.max(view.zoom, least()), Math.max(nearest, least()));
    const fit = (at, all, seen) => (seen >= all ? (all - seen) / 2 : Math.min(Math.max(at, 0), all - seen));
    view.x = fit(view.x, plan.columns, field.width / (unitX * view.zoom));
    view.y = fit(view.y, plan.courses, field.height / (unitY * view.zoom));
    view.whole = view.zoom <= least();
    request();
  }
  function resize() {
    const dense = Math.min(window.devicePixelRatio || 1, 2);
    const width = canvas.clientWidth;
    const height = canvas.clientHeight;
    if (width < 1 || height < 1) return;
    canvas.width = Math.round(width * dense);
    canvas.height = Math.round(height * dense);
    pen.setTransform(dense, 0, 0, dense, 0, 0);
    const side = 14 + 9 * String(plan.courses).length;
    const both = width > 560; // on a phone the numbers of the datum end must do
    Object.assign(field, {left: side, top: both ? 24 : 8});
    field.width = width - side - (both ? side : 8);
    field.height = height - field.top - 26;
    settle();
  }

  let asked = false;
  function request() {
    if (!asked) requestAnimationFrame(draw);
    asked = true;
  }
  function draw() {
    asked = false;
    const cellW = unitX * view.zoom;
    const cellH = unitY * view.zoom;
    const first = {column: Math.max(0, Math.floor(view.x)), course: Math.max(0, Math.floor(view.y))};
    const end = {column: Math.min(plan.columns, Math.ceil(view.x + field.width / cellW)),
                 course: Math.min(plan.courses, Math.ceil(view.y + field.height / cellH))};
    const left = toX(first.column), right = toX(end.column), top = toY(end.course), bottom = toY(first.course);
    pen.fillStyle = plan.paper;
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.save();
    pen.beginPath();
    pen.rect(field.left, field.top, field.width, field.height);
    pen.clip();
    pen.imageSmoothingEnabled = Math.min(cellW, cellH) < 1;
    pen.drawImage(picture, first.column, plan.courses - end.course, end.column - first.column,
                  end.course - first.course, left, top, right - left, bottom - top);
    const lines = (every, skip, width, colour) => {
      pen.beginPath();
      for (let c = Math.ceil(first.column / every) * every; c <= end.column; c += every) {
        if (skip && c % skip === 0) continue;
        pen.moveTo(toX(c), top);
        pen.lineTo(toX(c), bottom);
      }
      for (let c = Math.ceil(first.course / every) * every; c <= end.course; c += every) {
        if (skip && c % skip === 0) continue;
        pen.moveTo(left, toY(c));
        pen.lineTo(right, toY(c));
      }
      pen.lineWidth = width;
      pen.strokeStyle = colour;
      pen.stroke();
    };
    const cell = Math.min(cellW, cellH);
    if (cell >= 7) lines(1, 10, 1, "rgba(36,33,28,.45)");
    if (cell >= 2) {
      lines(10, 0, Math.min(4, 1.5 + cell / 10), plan.paper);
      lines(10, 0, Math.min(2, 0.75 + cell / 20), plan.ink);
    }
    const em = Math.min(cellH * 0.58, (cellW * 0.84) / (0.64 * digits));
    if (em >= 9) numerals(first, end, em, cellW, cellH);
    pen.restore();
    counts(first, end, {left, right, top, bottom}, cellW, cellH);
    if (first.column === 0 && first.course === 0) {
      pen.fillStyle = plan.accent;
      pen.fillRect(left - 9, bottom, 9, 9);
    }
    tell(first, end);
  }
  function numerals(first, end, em, cellW, cellH) {
    pen.font = font(em, 600);
    pen.textAlign = "center";
    pen.textBaseline = "alphabetic";
    for (const ink of ["#000000", "#ffffff"]) {
      pen.fillStyle = ink;
      const wanted = plan.colours.map((c, i) => (c.ink === ink && (!lit || lit === i + 1) ? String(i + 1) : ""));
      for (let course = first.course; course < end.course; ++course) {
        const y = toY(course) - cellH / 2 + em * 0.36;
        for (let column = first.column; column < end.column; ++column) {
          const text = wanted[cells[course * plan.columns + column] - 1];
          if (text) pen.fillText(text, toX(column) + cellW / 2, y);
        }
      }
    }
  }
  // Numbers of courses and columns beside the cells, as many as there is room for, never out of sight.
  function counts(first, end, box, cellW, cellH) {
    const step = (room, cell) => [1, 2, 5, 10, 20, 50, 100, 200, 500].find((s) => s * cell >= room) || 1000;
    const up = step(17, cellH);
    const across = step(10 + 9 * String(plan.columns).length, cellW);
    const label = (n, x, y) => {
      pen.font = font(14, n % 5 === 0 ? 700 : 400);
      pen.fillStyle = n % 5 === 0 ? plan.ink : plan.quiet;
      pen.fillText(n, x, y);
    };
    const shown = (n, every) => n % every === 0 || (n === 1 && every < 10);
    pen.textBaseline = "middle";
    for (let course = first.course + 1; course <= end.course; ++course) {
      const y = toY(course) + cellH / 2;
      if (!shown(course, up) || y < field.top || y > field.top + field.height) continue;
      pen.textAlign = "right";
      label(course, Math.max(box.left, field.left) - 6, y);
      pen.textAlign = "left";
      if (field.top > 20) label(course, Math.min(box.right, field.left + field.width) + 6, y);
    }
    pen.textAlign = "center";
    for (let column = first.column + 1; column <= end.column; ++column) {
      const x = toX(column) - cellW / 2;
      if (!shown(column, across) || x < field.left || x > field.left + field.width) continue;
      label(column, x, Math.min(box.bottom, field.top + field.height) + 13);
      if (field.top > 20) label(column, x, Math.max(box.top, field.top) - 11);
    }
  }
  // Said once the view rests, so that a screen reader is not drowned.
  let telling = 0;
  function tell(first, end) {
    clearTimeout(telling);
    telling = setTimeout(() => {
      byId("view").textContent = `Columns ${first.column + 1} to ${end.column} of ${plan.columns}, courses ` +
        `${first.course + 1} to ${end.course} of ${plan.courses}.${tapped}`;
    }, 200);
  }

  function zoomAt(x, y, factor) {
    const column = view.x + (x - field.left) / (unitX * view.zoom);
    const course = view.y + (field.top + field.height - y) / (unitY * view.zoom);
    const before = view.zoom;
    view.whole = false;
    view.zoom = Math.min(Math.max(before * factor, least()), Math.max(nearest, least()));
    view.x = column - (x - field.left) / (unitX * view.zoom);
    view.y = course - (field.top + field.height - y) / (unitY * view.zoom);
    settle();
    return view.zoom !== before;
  }
  function moveBy(x, y) {
    view.x -= x / (unitX * view.zoom);
    view.y += y / (unitY * view.zoom);
    settle();
  }
  function cellAt(x, y) {
    const column = Math.floor(view.x + (x - field.left) / (unitX * view.zoom));
    const course = Math.floor(view.y + (field.top + field.height - y) / (unitY * view.zoom));
    const inside = column >= 0 && column < plan.columns && course >= 0 && course < plan.courses;
    return inside ? {column: column + 1, course: course + 1, number: cells[course * plan.columns + column]} : null;
  }

  paintPicture();
  byId("viewer").hidden = false;
  new ResizeObserver(resize).observe(canvas);
  resize();
  return {
    canvas, field, zoomAt, moveBy, cellAt,
    showWhole() {
      view.whole = true;
      settle();
    },
    // One colour alone, 0 for all.
    light(number) {
      lit = number;
      paintPicture();
      request();
    },
    // What is said behind what is in view.
    say(text) {
      tapped = text;
      request();
    },
  };
})();
)js";

}  // namespace handlaid
