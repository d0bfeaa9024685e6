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

/** Taps the middle of what is found, scrolled to as a thumb scrolls; what lies over it gets the tap, as on the glass. */
export async function tap(page, target) {
  const found = typeof target === "string" ? page.locator(target).first() : target;
  await found.waitFor();
  await found.evaluate((each) => each.scrollIntoView({ block: "center" }));
  await page.evaluate(() => new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go))));
  const box = await found.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const hit = await found.evaluate((each, [left, top]) => {
    const over = document.elementFromPoint(left, top);
    return each === over || each.contains(over) || each.closest("label")?.contains(over) || [...(each.labels ?? [])].some((label) => label.contains(over)) ? "" : (over?.outerHTML.slice(0, 120) ?? "nothing");
  }, [x, y]);
  if (hit) throw new Error(`a tap on ${target} would meet ${hit}`);
  await page.touchscreen.tap(x, y);
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
