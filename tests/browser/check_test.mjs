// A furnace is checked at the furnace: a wire test on a phone by touch and at a desk by keys alone, a comparison and a map; each outlives a reload.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { go, launch, open, settled } from "./harness/browser.mjs";
import { focused, tabTo } from "./harness/keyboard.mjs";
import { everythingWrong } from "./harness/looks.mjs";
import { Server } from "./harness/server.mjs";

let server, browser;

before(async () => {
  browser = await launch();
  server = await Server.start("demo");
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

const key = (page, name) => page.getByRole("button", { name, exact: true });
const asked = (page, words) => page.locator(".check-question", { hasText: words }).waitFor();

/** No key of a check is smaller than a gloved finger. */
async function bigKeys(page) {
  const small = await page.locator(".check-key, .check-form .button-primary, .check-actions .button-plain").evaluateAll((all) => all.filter((each) => each.getBoundingClientRect().height < 64).map((each) => each.outerHTML.slice(0, 100)));
  assert.deepEqual(small, []);
}

async function looks(page, name) {
  assert.deepEqual(await everythingWrong(page, name), []);
  await bigKeys(page);
}

test("a wire test on a phone: question by question, a reload in the middle, a slip taken back, to the decision", async () => {
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/furnaces/corner");
  await page.getByRole("link", { name: "Check this furnace" }).tap();
  await page.getByRole("link", { name: "Temperature, with a wire" }).tap();
  await asked(page, "Which metal is the wire?");
  await looks(page, "check-question-hand");
  await key(page, "silver").tap();
  await asked(page, "How pure is the wire?");
  const number = page.locator(".big-digits");
  await number.fill("92.5");
  await key(page, "Next").tap();
  await page.locator(".field-mistake", { hasText: "a melt test needs 99.5 % or more" }).waitFor();
  assert.match(page.wrong.pop(), /422/);
  await looks(page, "check-mistake-hand");
  await number.fill("99.99");
  await key(page, "Next").tap();
  await asked(page, "Which gas");
  await page.reload();
  await asked(page, "Which gas");
  await key(page, "vacuum").tap();
  await number.fill("50");
  await key(page, "Next").tap();
  await key(page, "No").tap();
  await number.fill("0.25");
  await key(page, "Next").tap();
  await asked(page, "How long");
  await key(page, "Back").tap();
  await asked(page, "How thick");
  assert.equal(await number.inputValue(), "0.25");
  await key(page, "Next").tap();
  await number.fill("2");
  await key(page, "Next").tap();
  await key(page, "edges rounded").tap();
  await asked(page, "Fire a fresh wire at a display of 964 °C.");
  assert.equal(await page.textContent(".check-display"), "964 °C");
  await looks(page, "check-wire-hand");
  await key(page, "stayed whole").tap();
  await asked(page, "969 °C");
  await page.waitForURL(/check\/temperature\/corner-temperature-/);
  await key(page, "melted").tap();
  await page.locator(".check-so-far", { hasText: "969 °C: melted" }).waitFor();
  await key(page, "Take the last reading back").tap();
  await asked(page, "969 °C");
  await page.reload();
  await asked(page, "969 °C");
  for (let fired = 0; fired < 9; ++fired) {
    const display = Number.parseInt(await page.textContent(".check-display"), 10);
    const before = await page.locator(".check-so-far li").count();
    await key(page, display >= 972 ? "melted" : "stayed whole").tap();
    await page.waitForFunction((count) => document.querySelector(".range") || document.querySelectorAll(".check-so-far li").length > count, before);
    if (await page.locator(".range").count()) break;
  }
  await page.locator(".check-question", { hasText: "not good" }).waitFor();
  await looks(page, "check-found-hand");
  await key(page, "Keep this check").tap();
  await page.locator("h2", { hasText: "What is done about it?" }).waitFor();
  await looks(page, "check-decide-hand");
  await page.reload();
  await page.getByRole("region", { name: "Correct it" }).getByRole("button").tap();
  await page.locator("dialog", { hasText: "Key -1" }).waitFor();
  await page.locator("dialog").getByLabel("Reason").fill("three wires agree");
  await key(page, "It is keyed in").tap();
  await page.locator(".check", { hasText: "Decided: corrected." }).waitFor();
  await go(page, "/furnaces/corner");
  await page.locator(".sheet", { hasText: "Correction keyed in: -1" }).waitFor();
  assert.match(await page.textContent("main"), /not good/);
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});
