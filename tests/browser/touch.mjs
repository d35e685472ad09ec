// Fingers on a page, by the browser's own protocol: what Playwright's touchscreen, which only taps, leaves out.

async function fingers(page, selector, paths) {
  const box = await page.locator(selector).boundingBox();
  const session = await page.context().newCDPSession(page);
  const steps = 8;
  const at = (t) => paths.map(([from, to], id) => ({
    id,
    x: box.x + box.width / 2 + from[0] + (to[0] - from[0]) * t,
    y: box.y + box.height / 2 + from[1] + (to[1] - from[1]) * t,
  }));
  const send = (type, touchPoints) => session.send("Input.dispatchTouchEvent", {type, touchPoints});
  await send("touchStart", at(0));
  for (let i = 1; i <= steps; ++i) await send("touchMove", at(i / steps));
  await send("touchEnd", []);
  await session.detach();
}

/// Two fingers from `before` pixels apart to `after`.
export const pinch = (page, selector, before, after) =>
  fingers(page, selector, [[[-before / 2, 0], [-after / 2, 0]], [[before / 2, 0], [after / 2, 0]]]);

export const drag = (page, selector, x, y) => fingers(page, selector, [[[0, 0], [x, y]]]);

export async function tap(page, selector) {
  const box = await page.locator(selector).boundingBox();
  await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
}
