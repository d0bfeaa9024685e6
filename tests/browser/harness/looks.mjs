// What every screen must hold in every way of looking at it. Each check gives the sentences of what is wrong, none where nothing is.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { AXE, ROOT } from "./packages.mjs";

const SCREENS = join(ROOT, "build/screens");
export const SMALLEST_TARGET = 44;

/** Rules of axe-core, all of them: what it finds wrong, and where. */
export async function axe(page) {
  await page.evaluate(AXE);
  const violations = await page.evaluate(async () => (await window.axe.run(document, { resultTypes: ["violations"] })).violations);
  return violations.flatMap((rule) => rule.nodes.map((node) => `axe ${rule.id}: ${node.target.join(" ")}: ${node.failureSummary?.split("\n")[1]?.trim() ?? rule.help}`));
}

/** The page scrolls up and down only; a wide table may scroll within itself. */
export function sideways(page) {
  return page.evaluate(() => {
    const over = document.documentElement.scrollWidth - document.documentElement.clientWidth;
    if (over <= 0) return [];
    const edge = document.documentElement.clientWidth;
    const widest = [...document.querySelectorAll("body *")].filter((each) => each.getBoundingClientRect().right > edge + 1);
    return [`the page is ${over} px wider than the window: ${widest.slice(-1).map((each) => each.outerHTML.slice(0, 120)).join("")}`];
  });
}

/** What is pressed, ticked or typed into is at least 44 px high and wide; a link within a sentence may be smaller, as WCAG allows. */
export function smallTargets(page) {
  return page.evaluate((least) => {
    const asked = "button, a[href], input:not([type=hidden]), select, textarea, summary, [role=button], [role=tab], [role=option], [role=menuitem], [tabindex='0']";
    const withinSentence = (each) => {
      if (each.tagName !== "A" || getComputedStyle(each).display !== "inline") return false;
      const around = (each.closest("p, li, dd, figcaption") ?? each.parentElement).textContent.trim();
      return around.length > each.textContent.trim().length + 3;
    };
    return [...document.querySelectorAll(asked)].flatMap((each) => {
      if (!each.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) || withinSentence(each)) return [];
      // A tick or a choice is pressed by its label as well.
      const tick = each.matches("input[type=checkbox], input[type=radio], input[type=file]");
      const boxes = [each, ...(tick && each.labels ? each.labels : [])].map((part) => part.getBoundingClientRect());
      const { width, height } = boxes.reduce((best, box) => (Math.min(box.width, box.height) > Math.min(best.width, best.height) ? box : best));
      // Held off the window till it has the focus, as a link that skips to the main part is.
      if (boxes[0].bottom <= 0 || boxes[0].right <= 0 || (boxes[0].width <= 1 && boxes[0].height <= 1)) return [];
      if (width >= least - 0.5 && height >= least - 0.5) return [];
      return [`a target of ${Math.round(width)}×${Math.round(height)} px: ${each.outerHTML.slice(0, 140)}`];
    });
  }, SMALLEST_TARGET);
}

/** Text that does not fit its box and is hidden there, or runs over its neighbour. */
export function cutText(page) {
  return page.evaluate(() => {
    const wrong = [];
    // Read out only: laid into a box of one pixel, itself or what it stands in.
    const unseen = (each) => each !== null && (each.getBoundingClientRect().width <= 1 || unseen(each.parentElement));
    for (const each of document.querySelectorAll("body *")) {
      if (each.closest("svg") || !each.checkVisibility() || ![...each.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim())) continue;
      const style = getComputedStyle(each);
      if (unseen(each)) continue;
      const hidesX = style.overflowX !== "visible" || style.textOverflow === "ellipsis";
      if (hidesX && style.overflowX !== "auto" && style.overflowX !== "scroll" && each.scrollWidth > each.clientWidth + 1) wrong.push(each);
      else if ((style.overflowY === "hidden" || style.overflowY === "clip") && each.scrollHeight > each.clientHeight + 2) wrong.push(each);
      else if (style.display !== "inline" && style.overflowX === "visible" && each.scrollWidth > each.clientWidth + 2 && each.clientWidth > 0) wrong.push(each);
    }
    return wrong.map((each) => `text cut off or running over: "${each.textContent.trim().slice(0, 60)}" in ${each.outerHTML.slice(0, 100)}`);
  });
}

/** Words of the catalogue that were not found, and values that are none, as a person would see them. */
export function strayWords(page) {
  return page.evaluate(() => {
    const text = document.body.innerText;
    return [...text.matchAll(/\b(undefined|NaN|null|\[object \w+\])\b|\{\w+\}|\b[a-z_]+\.[a-z_]+\.[a-z_.]+\b/g)].map((found) => `a word no person should meet: "${found[0]}"`);
  });
}

/** A screen, or the dialog over it, has one thing that is done next: two would compete. */
export function severalPrimary(page) {
  return page.evaluate(() => {
    const over = document.querySelector("dialog[open]") ?? document.querySelector("main");
    const primary = [...(over?.querySelectorAll(".button-primary") ?? [])].filter((each) => each.checkVisibility() && (over.tagName === "DIALOG" || !each.closest("dialog")));
    return primary.length < 2 ? [] : [`${primary.length} primary actions compete: ${primary.map((each) => each.textContent.trim()).join(", ")}`];
  });
}

export async function screenshot(page, name, fullPage = true) {
  mkdirSync(SCREENS, { recursive: true });
  await page.screenshot({ path: join(SCREENS, `${name}.png`), fullPage });
}

/** All of it, and a picture of the screen. */
export async function everythingWrong(page, name) {
  await screenshot(page, name);
  const found = [];
  for (const check of [axe, sideways, smallTargets, cutText, strayWords, severalPrimary]) found.push(...(await check(page)));
  return [...found, ...page.wrong];
}
