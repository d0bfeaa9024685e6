// The keyboard alone: each screen's one job from the address bar to done, with Tab, Enter, Escape, arrows and letters.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { go, launch, open, settled } from "./harness/browser.mjs";
import { focused, scan, tabRound, tabTo } from "./harness/keyboard.mjs";
import { Server } from "./harness/server.mjs";
import { SCREENS } from "./screens.mjs";

let server, browser, page;

before(async () => {
  browser = await launch();
  server = await Server.start("demo");
  page = await open(browser, server);
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

const heading = async () => (await page.textContent("main h1")).trim();

for (const screen of SCREENS) {
  test(`${screen.name}: Tab meets every target once, and the first leads past the header`, async () => {
    await go(page, screen.path);
    const targets = await page.evaluate(() => {
      const all = [...document.querySelectorAll("a[href], button:not([disabled]), input:not([disabled]):not([tabindex='-1']), select, textarea, summary, [tabindex='0']")].filter((each) => each.checkVisibility({ checkVisibilityCSS: true }));
      // Radios of one question are one stop.
      return all.filter((each) => each.type !== "radio" || each === all.find((other) => other.name === each.name)).length;
    });
    await page.keyboard.press("Tab");
    assert.match((await focused(page)).text, /class="skip"/);
    assert.ok((await tabRound(page)) >= targets - 1, `Tab met fewer than the ${targets} targets`);
  });
}

test("a program is found by typing, opened, and changed with a reason", async () => {
  await go(page, "/programs");
  await tabTo(page, "main input[type=search]");
  await page.keyboard.type("first dentine firing on zirconia");
  await page.waitForFunction(() => document.querySelectorAll("main .rows a").length === 1);
  await tabTo(page, "main .rows a");
  await page.keyboard.press("Enter");
  await settled(page);
  assert.equal(await heading(), "first dentine firing on zirconia");
  await tabTo(page, "a[href='/programs/dentine-on-zirconia?change=1']");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#value-drying_time");
  await tabTo(page, "#value-drying_time");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("5 min 25");
  await tabTo(page, "#value-reason");
  await page.keyboard.type("built up thicker");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#value-drying_time[aria-invalid]");
  // What is wrong is told while one types as well; the focus goes there once it was to be kept.
  await page.waitForFunction(() => document.activeElement?.id === "value-drying_time");
  await page.keyboard.press("End");
  await page.keyboard.type(" s");
  await page.keyboard.press("Enter");
  await page.waitForSelector("text=is kept as version");
  await page.locator("main h1", { hasText: /^first dentine firing on zirconia$/ }).waitFor();
  await page.locator(".versions", { hasText: "built up thicker" }).waitFor();
  await page.locator(".pairs", { hasText: "5 min 25 s" }).first().waitFor();
});

test("a program is locked with a reason, and Escape leaves a question as it was", async () => {
  await go(page, "/programs/crystallise-block");
  await tabTo(page, "main button.button-plain");
  assert.equal((await focused(page)).label, "Lock");
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog[open]");
  await page.keyboard.press("Escape");
  await page.waitForSelector("dialog[open]", { state: "detached" });
  assert.equal((await focused(page)).label, "Lock", "the focus is back where it was");
  await page.keyboard.press("Enter");
  await tabTo(page, "dialog input");
  await page.keyboard.type("as the lab agreed");
  await page.keyboard.press("Enter");
  await page.waitForSelector("text=Locked against change");
  assert.match(await page.textContent("main"), /as the lab agreed/);
});

test("a scanner's burst of keys opens what is on the label, wherever the focus is", async () => {
  await go(page, "/furnaces");
  await scan(page, "veneer-31-7");
  await page.waitForURL("**/records/lot/veneer-31-7");
  await settled(page);
  assert.equal(await heading(), "third jar on the left");
});

test("a bench step is entered with its piece and lot", async () => {
  await go(page, "/records/piece/crown-16");
  await tabTo(page, "a[href*='bench-step?new']");
  await page.keyboard.press("Enter");
  await page.waitForSelector("#value-work");
  await tabTo(page, "#value-work");
  await page.keyboard.type("grind");
  await tabTo(page, "#value-lots");
  await page.keyboard.type("veneer-31-7");
  await page.keyboard.press("Enter");
  await tabTo(page, "#value-note");
  await page.keyboard.type("contact taken down");
  await tabTo(page, "main button[type=submit]");
  await page.keyboard.press("Enter");
  await page.waitForURL("**/records/piece/crown-16");
  await page.waitForSelector("text=contact taken down");
});

test("an inspector's question is asked and answered", async () => {
  await go(page, "/records/questions");
  await tabTo(page, "main input[type=radio]");
  await page.keyboard.press("ArrowDown");
  await tabTo(page, "main form select");
  await page.locator("main form select option", { hasText: "corner" }).waitFor({ state: "attached" });
  await page.keyboard.type("corner");
  await page.locator("main h2", { hasText: /fired in this furnace.*corner/ }).waitFor();
  await page.waitForSelector("main table, main .state-empty");
});

test("drafts survive a reload, and a conflict shows both versions", async () => {
  await go(page, "/programs/stain-film?change=1");
  await tabTo(page, "#value-label");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("stain, as I say");
  await page.reload();
  await page.waitForSelector("#value-label");
  assert.equal(await page.inputValue("#value-label"), "stain, as I say");
  assert.match(await page.textContent("main"), /Nothing of it is kept in the lab yet/);
  const token = await page.evaluate(async () => (await (await fetch("/api/session")).json()).token);
  const other = await page.request.put("/api/documents/program/stain-film", { data: { from: 1, set: { label: "stain, as they say" }, unset: [], reason: "they were first" }, headers: { "Heatwork-Token": token, Origin: server.address } });
  assert.ok(other.ok(), await other.text());
  await tabTo(page, "#value-reason");
  await page.keyboard.type("I was second");
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog[open]");
  await page.waitForFunction(() => /as they say/.test(document.querySelector("dialog").textContent));
  const both = await page.textContent("dialog");
  assert.match(both, /stain, as they say/);
  assert.match(both, /stain, as I say/);
  await tabTo(page, "dialog .button-primary");
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog[open]", { state: "detached" });
  assert.equal(await page.inputValue("#value-label"), "stain, as I say");
  await tabTo(page, "main button[type=submit]");
  await page.keyboard.press("Enter");
  await page.waitForSelector("text=is kept as version 3");
});

test("a deviation is decided, then released in one's own name", async () => {
  await go(page, "/records/deviation/pump-slow");
  await tabTo(page, "main button.button-primary");
  assert.equal((await focused(page)).label, "Decide");
  await page.keyboard.press("Enter");
  await tabTo(page, "dialog select");
  await page.keyboard.type("use as it is");
  await tabTo(page, "dialog input");
  await page.keyboard.type("edges stood on the tab");
  await tabTo(page, "dialog button[type=submit]");
  await page.keyboard.press("Enter");
  await page.waitForSelector("text=Decided, and not released.");
  await page.waitForSelector("main button.button-primary >> text=Release");
  await tabTo(page, "main button.button-primary");
  await page.keyboard.press("Enter");
  await tabTo(page, "dialog input");
  await page.keyboard.type("seen beside the trial");
  await page.keyboard.press("Enter");
  await page.waitForSelector("text=/Released .* by/");
  assert.equal(await page.locator("main button.button-primary").count(), 0, "what is released cannot be decided again");
});
