// The keyboard alone: what a person without mouse or touch does, and what has the focus meanwhile.

/** What has the focus, as it is read out: role and name. */
export function focused(page) {
  return page.evaluate(() => {
    const each = document.activeElement;
    if (!each || each === document.body) return null;
    const label = each.getAttribute("aria-label") || each.labels?.[0]?.textContent || each.textContent || each.getAttribute("placeholder") || "";
    const ring = getComputedStyle(each);
    const seen = ring.outlineStyle !== "none" && parseFloat(ring.outlineWidth) > 0 || ring.boxShadow !== "none";
    return { tag: each.tagName.toLowerCase(), id: each.id, label: label.trim().replace(/\s+/g, " "), seen, text: each.outerHTML.slice(0, 120) };
  });
}

/** Presses Tab until what has the focus is what is wanted; every stop on the way must show that it has the focus. */
export async function tabTo(page, wanted, most = 120) {
  const way = [];
  for (let presses = 0; presses < most; ++presses) {
    await page.keyboard.press("Tab");
    const at = await focused(page);
    if (!at) continue;
    way.push(at);
    if (!at.seen) throw new Error(`nothing shows that this has the focus: ${at.text}`);
    if (await page.evaluate((selector) => document.activeElement.matches(selector), wanted)) return way;
  }
  throw new Error(`Tab never came to ${wanted}; it went by ${way.map((at) => `${at.tag} "${at.label.slice(0, 30)}"`).join(", ")}`);
}

/** One round of Tab over the whole screen: every target is met once, in the order in which it stands. */
export async function tabRound(page, most = 400) {
  const met = [];
  await page.evaluate(() => document.activeElement?.blur?.());
  for (let presses = 0; presses < most; ++presses) {
    await page.keyboard.press("Tab");
    const number = await page.evaluate(() => {
      const each = document.activeElement;
      if (!each || each === document.body) return -1;
      window.heatworkMet ??= new Map();
      if (!window.heatworkMet.has(each)) window.heatworkMet.set(each, window.heatworkMet.size);
      return window.heatworkMet.get(each);
    });
    // A field for a day has several stops of its own.
    if (number >= 0 && number === met.at(-1)) continue;
    if (number < 0 || met.includes(number)) break;
    met.push(number);
  }
  await page.evaluate(() => delete window.heatworkMet);
  return met.length;
}

/** What a wedge scanner does: keys faster than hands, then Enter. Sent within the page, so that a busy machine does not make a slow hand of it. */
export function scan(page, text) {
  return page.evaluate((keys) => {
    for (const key of keys) document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
  }, [...text, "Enter"]);
}
