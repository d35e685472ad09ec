// Measures a printed book from the vectors of its PDF, as poppler reads them.
import {execFileSync} from "node:child_process";

/// The lines of each page of a PDF.
export function linesOfPages(pdf) {
  const text = execFileSync("pdftotext", ["-layout", pdf, "-"], {encoding: "utf8", maxBuffer: 1 << 28});
  const pages = text.split("\f").slice(0, -1);
  return pages.map((page) => page.split("\n").filter((line) => line.trim() !== ""));
}

/// Length of the check bar in mm, all text of the book, and how many parts of the chart it has.
export async function measuredBar(page, pdf) {
  const text = execFileSync("pdftotext", ["-layout", pdf, "-"], {encoding: "utf8", maxBuffer: 1 << 28});
  const sheets = text.split("\f");
  const number = sheets.findIndex((sheet) => sheet.includes("100 mm if printed true")) + 1;
  if (number === 0) return {mm: NaN, text, parts: 0};
  const svg = execFileSync("pdftocairo", ["-svg", "-f", String(number), "-l", String(number), pdf, "-"], {encoding: "utf8", maxBuffer: 1 << 28});
  await page.setContent(svg.slice(svg.indexOf("<svg")));
  // The bar is the one drawing that is about as long and no higher than 5 mm. The page is in points of 1/72 inch.
  const mm = await page.evaluate(() => {
    const root = document.querySelector("svg");
    const view = root.viewBox.baseVal;
    const drawn = [...root.querySelectorAll("path")].filter((path) => !path.closest("defs") && path.style.strokeWidth);
    const lengths = drawn.map((path) => {
      const box = path.getBBox();
      const toRoot = root.getScreenCTM().inverse().multiply(path.getScreenCTM());
      const scale = {x: Math.hypot(toRoot.a, toRoot.b), y: Math.hypot(toRoot.c, toRoot.d)};
      return {width: box.width * scale.x * 25.4 / 72, height: box.height * scale.y * 25.4 / 72};
    }).filter((box) => Math.abs(box.width - 100) < 8 && box.height > 1 && box.height < 5);
    return view.width > 0 && lengths.length === 1 ? lengths[0].width : NaN;
  });
  return {mm, text, parts: (text.match(/Part \d+ of \d+/g) || []).length};
}
