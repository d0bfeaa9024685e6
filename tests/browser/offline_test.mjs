// The page without its server: its own files come from the device, the last answers with their date, and typing goes on.
import assert from "node:assert/strict";
import { test } from "node:test";
import { go, open } from "./harness/browser.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

stage("empty");

test("a reload works while the server is down, shows the last answer with its date, and comes back by itself", async () => {
  const page = await open(browser, server, {});
  await go(page, "/today");
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.reload();
  await page.getByText("Nothing is on, planned or due.").waitFor();
  await server.halt();
  await page.reload();
  await page.locator(".banner-offline", { hasText: "Last answer" }).waitFor();
  await page.getByText("As it was").waitFor();
  await page.getByText("Nothing is on, planned or due.").waitFor();
  assert.ok(await page.evaluate(() => navigator.serviceWorker.controller !== null));
  await server.start();
  await page.locator(".toast", { hasText: "The server answers again." }).waitFor({ timeout: 15000 });
  await page.locator(".banner-offline").waitFor({ state: "detached" });
  await page.context().close();
});

test("what the device keeps of the page is the page alone, never an answer of the lab", async () => {
  const page = await open(browser, server, {});
  await go(page, "/today");
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  const kept = await page.evaluate(async () => {
    const names = await caches.keys();
    const cache = await caches.open(names[0]);
    return { names: names.length, paths: (await cache.keys()).map((one) => new URL(one.url).pathname) };
  });
  assert.equal(kept.names, 1);
  assert.ok(kept.paths.includes("/"));
  assert.deepEqual(kept.paths.filter((path) => path.startsWith("/api") || path.startsWith("/sign-in")), []);
  await page.context().close();
});
