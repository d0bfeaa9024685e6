// A scanner that types like a keyboard, and the search field: what goes by exactly that name opens, anything else is listed.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { go, launch, open } from "./harness/browser.mjs";
import { Server } from "./harness/server.mjs";

let server, browser, page;

before(async () => {
  browser = await launch();
  server = await Server.start("demo");
  page = await open(browser, server, {});
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

/** All keys within the page, at the pace of a scanner: 5 ms a key. */
async function scan(text) {
  await page.evaluate(async (keys) => {
    const pause = () => new Promise((goOn) => setTimeout(goOn, 5));
    for (const key of [...keys, "Enter"]) {
      (document.activeElement ?? document.body).dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
      await pause();
    }
  }, text);
}

test("a scanned case opens from wherever the focus is, and presses nothing on its way", async () => {
  await go(page, "/today");
  await page.locator(".card").first().waitFor();
  await page.getByRole("button", { name: "Enter the result" }).first().focus();
  await scan("k-0417");
  await page.waitForURL(/\/records\/case\/k-0417$/);
  assert.equal(await page.locator("dialog").count(), 0);
});

test("what a scanner reads and nobody keeps is said", async () => {
  await go(page, "/today");
  await scan("no-such-label");
  await page.getByText("Nothing is kept that holds “no-such-label”.").waitFor();
});

test("a word typed into the field lists all that holds it", async () => {
  await go(page, "/today");
  await page.getByLabel("Search or scan").fill("crown");
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Search for “crown”" }).waitFor();
  await page.getByRole("heading", { name: /^Pieces/ }).waitFor();
  await page.getByRole("link", { name: /^crown-16 / }).first().click();
  await page.waitForURL(/\/records\/piece\/crown-16$/);
});

test("keys typed by hand outside a field start no search", async () => {
  await go(page, "/today");
  for (const key of "crown") {
    await page.keyboard.press(key);
    await page.waitForTimeout(80);
  }
  await page.keyboard.press("Enter");
  assert.match(page.url(), /\/today$/);
});
