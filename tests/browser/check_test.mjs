// A furnace is checked at the furnace: a wire test on a phone by touch and at a desk by keys alone, a comparison and a map; each outlives a reload.
import assert from "node:assert/strict";
import { test } from "node:test";
import { asked, key, looks } from "./check.mjs";
import { go, open } from "./harness/browser.mjs";
import { focused, tabTo } from "./harness/keyboard.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

stage();

/** The network of a furnace room: each step takes its time, as much as the next one is typed in. */
async function slowNetwork(page, ms) {
  await page.route(/\/api\/furnaces\/[^/]+\/checks\//, async (route) => {
    await new Promise((go) => setTimeout(go, ms));
    await route.continue().catch(() => undefined);
  });
}

test("a wire test on a phone: question by question, a reload in the middle, a slip taken back, to the decision", async () => {
  const page = await open(browser, server, { size: "hand" });
  await slowNetwork(page, 150);
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
    await key(page, display >= 976 ? "melted" : "stayed whole").tap();
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
  await page.locator("dialog", { hasText: "Key −1" }).waitFor();
  await page.locator("dialog").getByLabel("Reason").fill("three wires agree");
  await key(page, "It is keyed in").tap();
  await page.locator(".check", { hasText: "Decided: corrected." }).waitFor();
  await go(page, "/furnaces/corner");
  await page.locator(".sheet", { hasText: "Correction keyed in: -1" }).waitFor();
  assert.match(await page.textContent("main"), /not good/);
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("a wire test by keys alone, in German: asked, mistyped, answered, fired and kept", async () => {
  const page = await open(browser, server, { shade: "dark", language: "de" });
  await go(page, "/furnaces/window/check");
  await looks(page, "check-choose-desk");
  const press = async (selector) => {
    await tabTo(page, selector);
    await page.keyboard.press("Enter");
  };
  const question = (words) => page.locator(".check-question", { hasText: words }).waitFor();
  await press("a[href$='/check/temperature']");
  await question("Aus welchem Metall");
  await press(".check-key");
  await question("Wie rein");
  assert.match((await focused(page)).text, /id="question"/, "the new question has the focus");
  const say = async (text) => {
    await tabTo(page, ".big-digits");
    await page.keyboard.press("Control+A");
    await page.keyboard.type(text);
    await page.keyboard.press("Enter");
  };
  await say("rein");
  await page.locator(".field-mistake").waitFor();
  assert.match(page.wrong.pop(), /422/);
  await say("99,99");
  await question("Welches Gas");
  await press(".check-key");
  await question("Wie dick");
  await say("0,25");
  await question("Wie lange");
  await say("2");
  await question("Was gilt als geschmolzen");
  await press(".check-key");
  await page.locator(".check-display").waitFor();
  await looks(page, "check-wire-desk");
  for (let fired = 0; fired < 9 && !(await page.locator(".range").count()); ++fired) {
    const display = Number.parseInt(await page.textContent(".check-display"), 10);
    await press(display >= 951 ? ".check-key" : ".check-key + .check-key");
    await page.waitForFunction((count) => document.querySelector(".range") || document.querySelectorAll(".check-so-far li").length > count, fired);
    // The first wire is kept: the address gets the check's name, and the heading of the screen the focus.
    if (fired === 0) await page.waitForURL(/check\/temperature\/window-temperature/);
    if (fired === 0) await page.waitForFunction(() => document.activeElement?.id === "heading");
  }
  await looks(page, "check-found-desk");
  await press(".check-form .button-primary");
  await page.locator(".toast", { hasText: "Die Prüfung ist gespeichert." }).waitFor();
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("a comparison by voltage and temperature, a map by eye, and a vacuum from what was noted", async () => {
  const page = await open(browser, server, {});
  await go(page, "/furnaces/window/check/thermocouple");
  await key(page, "S (platinum-rhodium)").click();
  await key(page, "new").click();
  await asked(page, "Which correction");
  await key(page, "Wire of class 1").click();
  await page.getByLabel("Display of the furnace").fill("803");
  await page.getByLabel("Thermocouple", { exact: true }).fill("800");
  await key(page, "Next").click();
  await asked(page, "Compare at another temperature?");
  await looks(page, "check-compared-desk");
  await page.reload();
  await page.locator(".check-so-far", { hasText: "display 803 °C" }).waitFor();
  await key(page, "That was all").click();
  await page.locator(".check-question", { hasText: "cannot tell" }).waitFor();
  await page.getByText("What would settle it: fire a wire too within two months", { exact: false }).waitFor();
  await page.locator("summary", { hasText: "Allowed: 5.0 K, assumed where the lab says nothing" }).click();
  await page.getByLabel("The lab allows").fill("9 apples");
  await key(page, "Judge by this").click();
  await page.locator(".notice", { hasText: "9 apples" }).waitFor();
  assert.match(page.wrong.pop(), /422/);
  await page.getByLabel("The lab allows").fill("9");
  await key(page, "Judge by this").click();
  await page.locator(".check-question", { hasText: /^good/ }).waitFor();
  await page.locator("summary", { hasText: "Allowed by the lab: 9.0 K" }).waitFor();
  await looks(page, "check-allowed-desk");
  await key(page, "Keep this check").click();
  await page.locator(".toast", { hasText: "The check is kept." }).waitFor();

  await go(page, "/furnaces/window/check/chamber-map");
  await key(page, "I measure its colour instead").click();
  for (const [label, typed] of [["Lightness (L*)", "pale"], ["Redness (a*)", "1"], ["Yellowness (b*)", "12"]]) await page.getByLabel(label).fill(typed);
  await key(page, "Next").click();
  await page.locator(".field-mistake", { hasText: "pale" }).waitFor();
  assert.match(page.wrong.pop(), /422/);
  await key(page, "I judge it by eye instead").click();
  for (const where of ["middle", "front", "back", "left"]) {
    await asked(page, where);
    await key(page, "as the reference").click();
  }
  await asked(page, "right");
  await key(page, "as if colder").click();
  assert.ok(await page.locator(".big-digits").evaluate((field) => field === document.activeElement), "how much is asked at once");
  await page.locator(".big-digits").fill("14");
  await key(page, "Next").click();
  await page.locator(".check-question", { hasText: "not good" }).waitFor();
  await looks(page, "check-map-desk");
  await key(page, "Back").click();
  await asked(page, "right");

  await go(page, "/furnaces/window/check/vacuum");
  await key(page, "as entered for this furnace").click();
  await key(page, "Yes").click();
  await asked(page, "How warm is the room?");
  await key(page, "not read").click();
  await asked(page, "What does the barometer show?");
  await page.locator(".big-unit-choice").selectOption("inHg");
  await page.locator(".big-digits").fill("29.26");
  await key(page, "Next").click();
  await asked(page, "What does the gauge show");
  const lines = page.getByLabel("Time and reading, a line each");
  await lines.fill("0 950\n5 soon");
  await key(page, "Next").click();
  await page.locator(".field-mistake").waitFor();
  assert.match(page.wrong.pop(), /422/);
  await lines.fill(Array.from({ length: 30 }, (_, at) => `${6 * at} ${Math.round(10 * (40 + 930 * Math.exp((-6 * at) / 19))) / 10 - 0}`).join("\n"));
  await looks(page, "check-record-desk");
  await key(page, "Next").click();
  await key(page, "This furnace cannot be shut with its pump off").click();
  await page.locator(".pairs", { hasText: "Time constant of the pump" }).waitFor();
  await looks(page, "check-vacuum-desk");
  await key(page, "Keep this check").click();
  await page.waitForURL(/check\/vacuum\/window-vacuum/);
  await go(page, "/furnaces/window");
  await page.locator("#checks").waitFor();
  await page.locator(".sheet", { hasText: /Check window-thermocouple-\S+, .*, found another than the file says: [+−]\d+\.\d\sK \(±\s\d+\.\d\sK\), not/ }).waitFor();
  await looks(page, "check-furnace-desk");
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});
