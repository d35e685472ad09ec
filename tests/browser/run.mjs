// Tries the bench books of run.sh as a maker would: node run.mjs NPM-FOLDER PLANS-FOLDER REPLAN CHROMIUM
import {spawnSync} from "node:child_process";
import fs from "node:fs";
import {createRequire} from "node:module";
import path from "node:path";
import {linesOfPages, measuredBar} from "./measure.mjs";
import {drag, pinch, tap} from "./touch.mjs";

const [npm, plans, replan, executablePath] = process.argv.slice(2);
const require = createRequire(npm);
const {chromium} = require("playwright-core");
const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const wide = {viewport: {width: 1280, height: 900}};
const phone = {viewport: {width: 390, height: 844}, isMobile: true, hasTouch: true, deviceScaleFactor: 2};
const demo = path.join(plans, "demo");

let failures = 0;
function check(what, found, wanted = true) {
  const same = JSON.stringify(found) === JSON.stringify(wanted);
  if (same) return;
  ++failures;
  console.log(`FAILED: ${what}\n  found  ${JSON.stringify(found)}\n  wanted ${JSON.stringify(wanted)}`);
}

const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--no-first-run"],
});
// Opens a book in a browser of its own; whatever it asks of a network, and every error, is a failure.
async function open(plan, options = wide, prepare = () => {}) {
  const context = await browser.newContext({...options, acceptDownloads: true});
  await context.addInitScript(prepare);
  const page = await context.newPage();
  page.on("request", (request) => {
    if (!/^(file|data|blob):/.test(request.url())) check(`${plan}: no request`, request.url(), "");
  });
  page.on("pageerror", (error) => check(`${plan}: no error`, error.message, ""));
  await page.goto("file://" + path.join(plans, plan, "index.html"));
  return page;
}
const text = (page, selector) => page.locator(selector).textContent();
const rested = (page) => page.waitForTimeout(300); // what is in view is said once it rests
const picture = (page) => page.evaluate(() => document.getElementById("canvas").toDataURL());

// --- nobody is kept out ---------------------------------------------------------------------------------------------

async function accessible(page, what) {
  await page.evaluate(axe);
  const result = await page.evaluate(() => window.axe.run(document, {
    runOnly: {type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]},
    rules: {"target-size": {enabled: true}},
  }));
  check(`${what}: axe`, result.violations.map((v) => `${v.id}: ${v.nodes.length} such as ${v.nodes[0].html.slice(0, 120)}`), []);
  check(`${what}: axe looked at targets`, result.passes.some((rule) => rule.id === "target-size"));
  return result.passes.length;
}
for (const [plan, options] of [["demo", wide], ["demo", phone], ["strips", wide], ["strips", phone], ["names", phone]]) {
  const page = await open(plan, options);
  const what = `${plan} at ${options.viewport.width} px`;
  console.log(`${what}: ${await accessible(page, what)} rules of axe passed`);
  await page.locator("[data-course='2']").check();
  await page.selectOption("#light", "2");
  await page.click("#pages");
  await accessible(page, what + ", in use");
  check(`${what}: nothing sticks out sideways`, await page.evaluate(() => document.documentElement.scrollWidth) <= options.viewport.width);
  await page.context().close();
}
{
  const page = await open("demo");
  await page.keyboard.press("Tab");
  check("the first stop leads to the chart", await page.evaluate(() => document.activeElement.getAttribute("href")), "#chart");
  check("it is seen when it has the focus", (await page.locator(".skip").boundingBox()).x >= 0);
  await page.context().close();
}
{
  const page = await open("names");
  check("names do no harm", await page.evaluate(() => window.harm === undefined));
  check("the title is shown as it was typed", await text(page, "h1"),
        "</title></script><script>window.harm=1</script> \"6\" & שלום 🌿");
  const names = (await page.locator("#light option").allTextContents()).join();
  for (const name of ["</script><script>", "<img src=x onerror=window.harm=1> \"6\"", "שלום 🌿"]) {
    check(`a colour is named ${name}`, names.includes(name));
  }
  await page.context().close();
}

// --- ticks ----------------------------------------------------------------------------------------------------------

const chart = fs.readFileSync(path.join(demo, "chart.csv"), "utf8").trim().split("\n").reverse();
const cellsOf = (course) => chart[course - 1].split(",").filter((number) => number !== "").length;
const allCells = chart.reduce((n, _, i) => n + cellsOf(i + 1), 0);
const mark = /chart,(\w+)/.exec(fs.readFileSync(path.join(plans, "forms/progress.csv"), "utf8"))[1];
const saved = path.join(plans, "saved.csv");
{
  const page = await open("demo");
  check("nothing is ticked at first", await text(page, "#done"), `Ticked 0 of 96 courses, ${allCells.toLocaleString("en")} cells left`);
  check("no warning where ticks are kept", await page.locator("#forgets").isVisible(), false);
  const minutes = async (course, taken) => {
    await page.getByRole("checkbox", {name: `Course ${course} is laid`, exact: true}).check();
    check("the course just ticked is the one to time", await page.locator("#timed").inputValue(), String(course));
    await page.fill("#minutes", taken);
    await page.locator("#minutes").blur();
  };
  await minutes(2, "12,5");
  await minutes(1, "");
  await minutes(7, "long");
  check("what is no time is refused", (await text(page, "#said")).startsWith("Minutes are a number"));
  await page.fill("#minutes", "90");
  await page.locator("#minutes").blur();
  await page.locator("[data-tick='step 1']").check();
  const left = (allCells - cellsOf(1) - cellsOf(2) - cellsOf(7)).toLocaleString("en");
  const done = `Ticked 3 of 96 courses, ${left} cells left`;
  check("ticks are counted", await text(page, "#done"), done);
  await page.reload();
  check("a reload keeps the ticks", await text(page, "#done"), done);
  check("a reload keeps the other boxes", await page.locator("[data-tick='step 1']").isChecked());

  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#save")]);
  check("the file has its name", download.suggestedFilename(), "progress.csv");
  await download.saveAs(saved);
  check("the file holds the courses in their order", fs.readFileSync(saved, "utf8"),
        `chart,${mark}\ncourse,minutes\n2,12.50\n1,\n7,90.00\n`);
  const run = spawnSync(replan, [demo, saved, path.join(plans, "forms/in_hand.csv"), path.join(plans, "again")], {encoding: "utf8"});
  check("the library takes the file", [run.status, run.stderr], [0, ""]);
  const again = (file) => (run.status === 0 ? fs.readFileSync(path.join(plans, "again", file), "utf8") : "");
  check("the library reads it and writes the same", again("progress.csv"), fs.readFileSync(saved, "utf8"));
  const toLay = again("remaining.csv").trim().split("\n").slice(1).reduce((sum, line) => sum + Number(line.split(",")[3]), 0);
  check("the library has as much left, two pieces a cell", toLay, 2 * (allCells - cellsOf(1) - cellsOf(2) - cellsOf(7)));
  await page.context().close();

  const other = await open("demo", phone); // another device
  const read = async (name, content) => {
    await other.setInputFiles("#file", {name, mimeType: "text/csv", buffer: Buffer.from(content)});
    await other.waitForFunction((last) => document.getElementById("said").textContent !== last, "");
    const said = await text(other, "#said");
    await other.evaluate(() => { document.getElementById("said").textContent = ""; });
    return said;
  };
  check("a file brings the ticks", await read("progress.csv", fs.readFileSync(saved, "utf8")), "3 courses read from progress.csv.");
  check("ticks that were read are shown", await text(other, "#done"), done);
  check("minutes that were read are shown",
        await other.locator("th:has([data-course='2'])").getAttribute("data-minutes"), "12.5 min");
  check("a file of another plan is refused", (await read("old.csv", "chart,0123456789abcdef\ncourse,minutes\n3,\n"))
        .startsWith("old.csv belongs to another chart, 0123456789abcdef"));
  for (const [fault, rows] of [["there is no course 97", "97,"], ["course 4 stands there twice", "4,\n4,1"], ["x is no number of minutes", "4,x"]]) {
    check(`refused: ${fault}`, (await read("bad.csv", `chart,${mark}\ncourse,minutes\n${rows}\n`)).includes(fault));
  }
  check("semicolons of a spreadsheet and its line ends are read",
        await read("sheet.csv", `\ufeffchart;${mark}\r\ncourse;minutes\r\n2;12,5\r\n1;\r\n7;90\r\n`), "3 courses read from sheet.csv.");
  check("a refused file changes nothing", await text(other, "#done"), done);
  await other.context().close();

  const strips = await open("strips");
  await strips.locator("[data-tick^='batch 1, sitting 1']").first().check();
  await strips.reload();
  check("a sitting stays ticked", await strips.locator("[data-tick^='batch 1, sitting 1']").first().isChecked());
  await strips.context().close();
}
for (const [browserThat, prepare] of [
  ["refuses", () => { Storage.prototype.setItem = () => { throw new Error("refused"); }; }],
  ["forgets", () => { Storage.prototype.setItem = () => {}; }],
  ["has none", () => Object.defineProperty(window, "localStorage", {get() { throw new Error("none"); }})],
]) {
  const page = await open("demo", phone, prepare);
  check(`a browser that ${browserThat}: the maker is warned`, await page.locator("#forgets").isVisible());
  await page.locator("[data-course='1']").check();
  check(`a browser that ${browserThat}: ticks work`, (await text(page, "#done")).startsWith("Ticked 1 of 96"));
  await page.context().close();
}

// --- the chart ------------------------------------------------------------------------------------------------------

{
  const page = await open("demo");
  const [head, ...lines] = fs.readFileSync(path.join(demo, "palette.csv"), "utf8").trim().split("\n").map((line) => line.split(","));
  for (const line of lines) {
    const number = line[head.indexOf("number")];
    await page.selectOption("#light", number);
    const courses = chart.filter((row) => row.split(",").includes(number)).length;
    const said = await text(page, "#lit");
    check(`colour ${number} is counted`, [...said.matchAll(/([\d,]+) (cell|run|course)/g)].map((m) => Number(m[1].replace(",", ""))),
          [Number(line[head.indexOf("cells")]), Number(line[head.indexOf("runs")]), courses]);
  }
  await page.selectOption("#light", "0");
  const changes = async (what, act, said) => {
    await rested(page);
    const before = await picture(page);
    await act();
    await rested(page);
    check(`${what}: another picture`, (await picture(page)) !== before);
    if (said) check(what, await text(page, "#view"), said);
  };
  const whole = "Columns 1 to 72 of 72, courses 1 to 96 of 96.";
  check("the whole chart at first", (await rested(page), await text(page, "#view")), whole);
  await changes("one colour alone", () => page.selectOption("#light", "3"));
  await changes("all colours", () => page.selectOption("#light", "0"));
  await page.focus("#canvas");
  for (const key of ["+", "+", "+", "+", "ArrowLeft", "ArrowUp", "ArrowRight", "ArrowDown", "-"]) {
    await changes(`key ${key}`, () => page.keyboard.press(key));
  }
  await changes("key 0", () => page.keyboard.press("0"), whole);
  for (const name of ["Closer", "Closer", "Closer", "To the right", "Up", "To the left", "Down", "Further away"]) {
    await changes(`button ${name}`, () => page.getByRole("button", {name, exact: true}).click());
  }
  await changes("button Whole chart", () => page.getByRole("button", {name: "Whole chart"}).click(), whole);
  await page.locator("#canvas").scrollIntoViewIfNeeded();
  const box = await page.locator("#canvas").boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await changes("wheel", () => page.mouse.wheel(0, -600));
  await changes("drag", async () => {
    await page.mouse.down();
    await page.mouse.move(x - 90, y + 60, {steps: 4});
    await page.mouse.up();
  });
  await page.context().close();

  const small = await open("demo", phone);
  await small.locator("#canvas").scrollIntoViewIfNeeded();
  await rested(small);
  const seen = [await picture(small)];
  for (const act of [() => pinch(small, "#canvas", 60, 320), () => drag(small, "#canvas", 80, 40), () => pinch(small, "#canvas", 300, 120)]) {
    await act();
    await rested(small);
    seen.push(await picture(small));
  }
  check("touch: each of pinch, drag and pinch back changes what is drawn", new Set(seen).size, seen.length);
  await tap(small, "#canvas");
  await rested(small);
  const [, course, column, number] = /Course (\d+), column (\d+): colour (\d+)/.exec(await text(small, "#view")) || [];
  check("a tap reads the cell", number, course && chart[course - 1].split(",")[column - 1]);
  await small.context().close();
}

// --- a phone ------------------------------------------------------------------------------------------------------

for (const plan of ["demo", "strips"]) {
  const page = await open(plan, phone);
  const seen = await page.evaluate(() => {
    const runs = [...document.querySelectorAll("#courses td.runs")];
    const count = runs.reduce((sum, cell) => sum + cell.textContent.split("→").length - 1, 0);
    const lines = runs.reduce((sum, cell) => sum + Math.round(cell.clientHeight / parseFloat(getComputedStyle(cell).lineHeight)), 0);
    const palette = document.querySelector("#palette .wide");
    return {wider: document.documentElement.scrollWidth > innerWidth, palette: palette.scrollWidth - palette.clientWidth,
            runsALine: count / lines, type: Math.min(...runs.map((cell) => parseFloat(getComputedStyle(cell).fontSize)))};
  });
  check(`${plan} on a phone: the page does not scroll sideways`, seen.wider, false);
  check(`${plan} on a phone: the palette does not either`, seen.palette, 0);
  check(`${plan} on a phone: two runs a line and more, not ${seen.runsALine.toFixed(2)}`, seen.runsALine >= 2);
  check(`${plan} on a phone: runs of 15 px and more, not ${seen.type}`, seen.type >= 15);
  await page.context().close();
}

// --- size, speed, paper ---------------------------------------------------------------------------------------------

for (const [plan, most] of [["demo", 1_500_000], ["large", 6_000_000], ["large_strips", 6_000_000]]) {
  const bytes = fs.statSync(path.join(plans, plan, "index.html")).size;
  const page = await open(plan);
  const nodes = await page.evaluate(() => document.querySelectorAll("*").length);
  check(`${plan}: at most 5,000 elements, not ${nodes}`, nodes <= 5_000);
  check(`${plan}: at most ${most} bytes, not ${bytes}`, bytes <= most);
  const ready = await page.evaluate(() => Number(document.documentElement.dataset.ready));
  await page.locator("#canvas").scrollIntoViewIfNeeded();
  const frames = await page.evaluate(async () => {
    const canvas = document.getElementById("canvas");
    const press = (key) => canvas.dispatchEvent(new KeyboardEvent("keydown", {key}));
    const next = () => new Promise(requestAnimationFrame);
    const rates = {};
    for (const [name, closer] of [["numerals", [20, 3]], ["lines", [3, 0]]]) {
      press("0");
      for (let i = 0; i < closer[0]; ++i) press("+"); // as near as it goes
      for (let i = 0; i < closer[1]; ++i) press("-");
      for (let i = 0; i < 10; ++i) await next();
      const begin = performance.now();
      for (let i = 0; i < 120; ++i) {
        press(i % 60 < 30 ? "ArrowRight" : "ArrowLeft");
        await next();
      }
      rates[name] = Math.round(120_000 / (performance.now() - begin));
    }
    return rates;
  });
  console.log(`${plan}: ${nodes} elements, ${bytes} bytes, ready after ${ready} ms; frames a second while moving: ` +
              `${frames.numerals} with numerals, ${frames.lines} with lines`);
  await page.context().close();
}
{
  const pdf = path.join(plans, "book.pdf");
  const page = await open("demo");
  await page.pdf({path: pdf, format: "A4"});
  const parts = await page.locator("article").count();
  check("after printing the parts are put away", parts, 0);
  const bar = await measuredBar(await (await browser.newContext()).newPage(), pdf);
  console.log(`print: the bar of 100 mm measures ${bar.mm.toFixed(3)} mm`);
  check("the bar is true within 0.3 mm", Math.abs(bar.mm - 100) <= 0.3);
  check("every part is printed, and no control", [bar.parts, /Read progress|Whole chart|Light one/.test(bar.text)], [9, false]);
  await page.context().close();

  // the two orders stand whole on a page each, with their totals, and no page is all but empty
  for (const [book, format] of [["demo", "A4"], ["demo", "Letter"], ["strips", "A4"], ["strips", "Letter"]]) {
    const printed = await open(book);
    await printed.pdf({path: pdf, format});
    const pages = linesOfPages(pdf);
    const what = `${book} on ${format}`;
    const orders = pages.filter((lines) => lines.some((line) => /^ *No\. +Name +Needed/.test(line)));
    const totals = orders.map((lines) => lines.filter((line) => /^ *All\b.*\d+ packs?\b/.test(line)).length);
    if (book === "demo") check(`${what}: an order a page, with its total`, totals, [1, 1]);
    // a heading and one word a line is a page of the chart
    const few = pages.map((lines, i) => [i + 1, lines.length]).filter(([, lines]) => lines < 6);
    check(`${what}: no page of less than six lines, of ${pages.length}`, few, []);
    await printed.context().close();
  }

  const plain = await open("demo", {...wide, javaScriptEnabled: false});
  check("without scripts the parts are there", await plain.locator("article").count(), 9);
  check("without scripts no dead control is seen", await plain.locator("#viewer, #progress").evaluateAll((all) =>
    all.filter((one) => one.offsetHeight > 0).length).catch(() => 0), 0);
  const without = path.join(plans, "plain.pdf");
  await plain.pdf({path: without, format: "A4"});
  check("without scripts it prints alike", (await measuredBar(await (await browser.newContext()).newPage(), without)).text, bar.text);
}

await browser.close();
console.log(failures ? `${failures} failures` : "the book does what it says in a browser");
process.exit(failures ? 1 : 0);
