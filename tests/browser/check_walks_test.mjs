// Further ways through the check of a furnace: a run at full power, a map by colour, a thermocouple by voltage and by certificate, a check
// given up, an answer given anew, the server away in the middle; in both sizes, each step waited for before the next is typed.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, test } from "node:test";
import { asked, key, looks } from "./check.mjs";
import { go, open } from "./harness/browser.mjs";
import { ROOT } from "./harness/packages.mjs";
import { Server } from "./harness/server.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

stage();

/** Types into the field of a question that stands, and goes on. */
async function say(page, typed, next = "Next") {
  const field = page.locator(".big-digits").first();
  await field.fill(typed);
  await key(page, next).click();
}

async function done(page) {
  assert.deepEqual(page.wrong, []);
  await page.context().close();
}

const RUN = [24, 80, 134, 186, 237, 286, 334, 380, 424, 468, 509, 550, 589, 627, 664, 699, 734, 767, 799, 831, 861, 890].map((C, at) => `${20 * at} ${C}`).join("\n");

test("a run at full power tells low mains from a worn element", async () => {
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/furnaces/window/check/heating");
  await asked(page, "How warm is the room?");
  await say(page, "22");
  await asked(page, "What does the display show at full power?");
  const lines = page.getByLabel("Time and reading, a line each");
  await lines.fill("0 24\n20 24\n20 80");
  await key(page, "Next").click();
  await page.locator(".field-mistake").waitFor();
  assert.match(page.wrong.pop(), /422/);
  await lines.fill(RUN);
  await key(page, "Next").click();
  // What is known only once it ran comes after it.
  await asked(page, "Which voltage did the mains have under load?");
  await say(page, "211");
  await asked(page, "Did the program hold the rate down?");
  await looks(page, "walk-heating-capped-hand");
  await key(page, "No").click();
  await page.locator(".pairs", { hasText: "Mains under load" }).waitFor();
  assert.match(await page.textContent("main"), /mains/i);
  await looks(page, "walk-heating-found-hand");
  await key(page, "Keep this check").click();
  await page.waitForURL(/check\/heating\/window-heating/);
  await done(page);
});

test("a map by colour: the other four are told as the first was", async () => {
  const page = await open(browser, server, { language: "de", shade: "dark" });
  await go(page, "/furnaces/corner/check/chamber-map");
  await key(page, "Ich messe stattdessen die Farbe").click();
  for (let tab = 0; tab < 5; ++tab) {
    const fields = page.locator(".big-digits");
    for (const [at, typed] of [`71,${tab}`, "1,1", "17,9"].entries()) await fields.nth(at).fill(typed);
    await page.locator(".check-form .button-primary").click();
    await page.waitForFunction((count) => document.querySelectorAll(".check-so-far li").length > count || document.querySelector(".level"), tab);
    if (tab === 0) await looks(page, "walk-map-colour-desk");
  }
  await page.locator(".level").first().waitFor();
  await looks(page, "walk-map-found-desk");
  await done(page);
});

test("a thermocouple by its voltage, and by its certificate in place of a class", async () => {
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/furnaces/corner/check/thermocouple");
  await asked(page, "Of which type");
  await key(page, "S (platinum-rhodium)").click();
  await asked(page, "Is it new, or was it hot before?");
  await key(page, "new").click();
  await asked(page, "Which correction");
  await key(page, "It has a certificate").click();
  await page.getByLabel("Correction of its certificate").fill("0.4");
  await page.getByLabel("Standard uncertainty of that").fill("0.3");
  await page.getByLabel("Day of its certificate").fill("2026-03-17");
  await looks(page, "walk-certificate-hand");
  await key(page, "Next").click();
  await asked(page, "What do display and thermocouple show");
  await key(page, "Only its voltage can be read").click();
  await page.getByLabel("Display of the furnace").fill("950");
  await page.getByLabel("Voltage of the thermocouple").fill("8.91");
  await page.getByLabel("Cold junction").fill("23");
  await looks(page, "walk-voltage-hand");
  await key(page, "Next").click();
  await asked(page, "Compare at another temperature?");
  const fold = page.locator("summary", { hasText: "What was answered" });
  await fold.click();
  await page.getByText("0.4 K, 0.3 K, 2026-03-17").waitFor();
  await looks(page, "walk-answered-hand");
  await page.getByRole("button", { name: /Answer anew: Which correction/ }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Correction of its certificate").waitFor();
  await dialog.getByLabel("Correction of its certificate").fill("0.9");
  await dialog.getByRole("button", { name: "Next" }).click();
  await dialog.waitFor({ state: "detached" });
  await page.getByText("0.9 K, 0.3 K, 2026-03-17").waitFor();
  await key(page, "That was all").click();
  await page.locator(".range").waitFor();
  await looks(page, "walk-voltage-found-hand");
  await done(page);
});

test("a wire whose procedure states where it melts is asked neither purity nor gas", async () => {
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/furnaces/window/check/temperature");
  await asked(page, "Which metal");
  await key(page, "silver").click();
  await asked(page, "How pure");
  await key(page, "A procedure states where it melts").click();
  const melts = page.getByLabel("Where it melts", { exact: false });
  await melts.fill("9605");
  await key(page, "Next").click();
  await page.locator(".field-mistake").waitFor();
  assert.match(page.wrong.pop(), /422/);
  await melts.fill("960.5");
  await page.getByLabel("Standard uncertainty of that").fill("0.4");
  await page.getByLabel("Which procedure").fill("leaflet of the wire");
  await looks(page, "walk-stated-hand");
  await key(page, "Next").click();
  await asked(page, "How thick");
  await key(page, "Back").click();
  await asked(page, "How pure");
  assert.equal(await melts.inputValue(), "960.5");
  await done(page);
});

const WIRE = [["silver"], ["99.99"], ["vacuum"], ["50"], ["No"], ["0.25"], ["2"], ["edges rounded"]];
const QUESTIONS = ["Which metal", "How pure", "Which gas", "At which pressure", "Is air let in", "How thick", "How long", "What counts as melted"];

async function toTheFirstWire(page) {
  for (const [at, [answer]] of WIRE.entries()) {
    await asked(page, QUESTIONS[at]);
    if (/\d/.test(answer)) await say(page, answer);
    else await key(page, answer).click();
  }
  await page.locator(".check-display").waitFor();
}

test("an answer given anew asks again only what no longer fits, and a check is given up with its reason", async () => {
  const page = await open(browser, server);
  await go(page, "/furnaces/corner/check/temperature");
  await toTheFirstWire(page);
  await key(page, "stayed whole").click();
  await page.waitForURL(/check\/temperature\/corner-temperature/);
  await page.locator(".check-so-far li").waitFor();
  const anew = async (question, press) => {
    await page.locator("summary", { hasText: "What was answered" }).click();
    await page.getByRole("button", { name: `Answer anew: ${question}` }).click();
    const dialog = page.getByRole("dialog");
    await press(dialog);
    await dialog.waitFor({ state: "detached" });
  };
  await anew("Which gas is around the wire while it is held?", (dialog) => dialog.getByRole("button", { name: "air", exact: true }).click());
  await page.getByText("The wire is held in no vacuum: the pressure that was answered is taken out.").waitFor();
  assert.equal(await page.locator(".check-so-far li").count(), 1, "the wire that was fired stands");
  await looks(page, "walk-anew-desk");
  await page.reload();
  await page.locator(".check-so-far li").waitFor();
  await key(page, "Give this check up").click();
  const dialog = page.getByRole("dialog");
  assert.ok(await dialog.getByRole("button", { name: "Give it up" }).isDisabled());
  await dialog.getByLabel("Reason").fill("the wire was lost");
  await looks(page, "walk-give-up-desk");
  await dialog.getByRole("button", { name: "Give it up" }).click();
  await page.locator(".toast", { hasText: "is given up." }).waitFor();
  await page.waitForURL(/furnaces\/corner$/);
  await page.getByRole("cell", { name: "cannot tell" }).first().waitFor();
  await done(page);
});

test("the server goes away between two wires and comes back: nothing is lost, nothing is kept twice", async (here) => {
  const server = await Server.start("empty");
  here.after(() => server.stop());
  server.heatwork("furnace", "add", join(ROOT, "data/demo/furnace-window.toml"));
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/furnaces/window/check/temperature");
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await toTheFirstWire(page);
  await key(page, "stayed whole").tap();
  await page.waitForURL(/check\/temperature\/window-temperature/);
  await page.locator(".check-so-far li").waitFor();
  await server.halt();
  await key(page, "melted").tap();
  await page.locator(".notice", { hasText: "Nothing was kept." }).waitFor();
  page.wrong.length = 0; // the browser tells of a server that is away
  await looks(page, "walk-offline-hand");
  await page.reload();
  await page.locator(".check-so-far li").waitFor();
  assert.equal(await page.locator(".check-so-far li").count(), 1);
  await server.start();
  await page.locator(".toast", { hasText: "The server answers again." }).waitFor();
  await key(page, "melted").tap();
  await page.waitForFunction(() => document.querySelectorAll(".check-so-far li").length === 2);
  await page.getByRole("button", { name: /^Take out: .*stayed whole$/ }).tap();
  await page.waitForFunction(() => document.querySelectorAll(".check-so-far li").length === 1);
  await page.locator(".check-so-far li", { hasText: "melted" }).waitFor();
  await page.context().close();
});
