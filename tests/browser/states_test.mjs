// Loading, error and offline of every screen: each says what is the matter. In short runs the three are dealt out over the screens.
import assert from "node:assert/strict";
import { test } from "node:test";
import { go, open } from "./harness/browser.mjs";
import { axe, cutText, screenshot, sideways, smallTargets } from "./harness/looks.mjs";
import { browser, server, stage } from "./harness/stage.mjs";
import { SCREENS } from "./screens.mjs";

stage();

const READING = SCREENS.filter(({ name }) => ["today", "firing", "programs", "program", "furnaces", "furnace", "cases", "case", "piece", "lots", "questions", "trail", "setup", "search"].includes(name));
const looks = async (page) => (await Promise.all([axe(page), sideways(page), smallTargets(page), cutText(page)])).flat();

/** Answers of the lab held back, refused, or not there; the session itself always answers. */
async function spoiled(page, answer) {
  await page.route(/\/api\/(?!session)/, answer);
}

const LONG = Boolean(process.env.HEATWORK_LONG);

for (const [number, screen] of READING.entries()) {
  const dealt = (state) => (LONG || number % 3 === state ? test : () => {});
  dealt(0)(`${screen.name}: while the lab is asked, it says so`, async () => {
    const page = await open(browser, server, { size: "hand" });
    const held = [];
    await spoiled(page, (route) => void held.push(route));
    await page.goto(screen.path);
    await page.waitForSelector("main h1");
    await page.waitForSelector(".state-loading, main form, main [aria-busy='true']");
    await screenshot(page, `${screen.name}-loading`);
    assert.deepEqual(await looks(page), []);
    await Promise.all(held.map((route) => route.continue().catch(() => {})));
    await page.context().close();
  });

  dealt(1)(`${screen.name}: an error is a sentence, and can be asked again`, async () => {
    const page = await open(browser, server, { size: "desk" });
    await spoiled(page, (route) => route.fulfill({ status: 503, contentType: "application/json", body: JSON.stringify({ format: 1, error: "disk_full", sentence: "The disk with the store is full." }) }));
    await page.goto(screen.path);
    await page.waitForSelector("text=The disk with the store is full.");
    await screenshot(page, `${screen.name}-error`);
    assert.deepEqual(await looks(page), []);
    assert.ok(await page.getByRole("button", { name: "Try again" }).count(), "there is no way to try again");
    await page.context().close();
  });

  dealt(2)(`${screen.name}: out of reach, the last answer stays, dated`, async () => {
    const page = await open(browser, server, { size: "hand", language: "de" });
    await go(page, screen.path);
    await page.evaluate(() => new Promise((go) => setTimeout(go, 300)));
    await spoiled(page, (route) => route.abort("connectionrefused"));
    await page.route("**/health", (route) => route.abort("connectionrefused"));
    await page.reload();
    await page.waitForSelector(".banner-offline", { timeout: 20000 });
    await page.waitForSelector("main h1");
    await screenshot(page, `${screen.name}-offline`);
    assert.deepEqual(await looks(page), []);
    await page.context().close();
  });
}
