// Fingers alone: what a person with gloves does at a tablet. Every way to a target is a tap on the glass where the target stands.

/** Tells of every press that was no finger's, from now on. */
export async function watchFingers(page) {
  await page.addInitScript(() => {
    window.heatworkPresses = { touch: 0, other: [] };
    addEventListener("pointerdown", ({ pointerType, target }) => {
      if (pointerType === "touch") window.heatworkPresses.touch += 1;
      else window.heatworkPresses.other.push(`${pointerType}: ${target.outerHTML.slice(0, 80)}`);
    }, true);
  });
}

export const pressesOf = (page) => page.evaluate(() => window.heatworkPresses);

/** Where the middle of a target is once the page has come to rest, and what lies over it: nothing but itself and its label may. */
async function middleOf(page, found) {
  await found.evaluate((each) => each.scrollIntoView({ block: "center" }));
  await page.evaluate(() => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go))));
  const box = await found.boundingBox();
  if (!box) return { over: "nothing" };
  const at = [box.x + box.width / 2, box.y + box.height / 2];
  const over = await found.evaluate((each, [left, top]) => {
    const hit = document.elementFromPoint(left, top);
    return each === hit || each.contains(hit) || each.closest("label")?.contains(hit) || [...(each.labels ?? [])].some((label) => label.contains(hit)) ? "" : (hit?.outerHTML.slice(0, 120) ?? "nothing");
  }, at);
  return { at, over };
}

/** Taps the middle of what is found, scrolled to as a thumb scrolls; what lies over it gets the tap, as on the glass. A page that still
 * moves is waited for, as a person waits. */
export async function tap(page, target) {
  const found = typeof target === "string" ? page.locator(target).first() : target;
  const patience = Date.now() + 5000;
  for (;;) {
    await found.waitFor();
    const { at, over } = await middleOf(page, found);
    if (over === "") return page.touchscreen.tap(...at);
    if (Date.now() > patience) throw new Error(`a tap on ${target} would meet ${over}`);
  }
}

/** Types with the keyboard on the glass: a tap into the field, what stands in it taken out letter by letter, then the new text. */
export async function typeInto(page, target, text) {
  const field = typeof target === "string" ? page.locator(target).first() : target;
  await tap(page, field);
  if (!(await field.evaluate((each) => each === document.activeElement))) throw new Error(`a tap into ${target} does not lead to it`);
  await page.keyboard.press("End");
  for (let letters = (await field.inputValue()).length; letters > 0; letters -= 1) await page.keyboard.press("Backspace");
  await page.keyboard.insertText(text);
}
