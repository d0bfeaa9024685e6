// Forms while they are filled: what is wrong with a typed value is told at it a moment later, in nobody's way; other units show what was
// typed in them.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { go, launch, open } from "./harness/browser.mjs";
import { Server } from "./harness/server.mjs";
import { openFiring } from "./typing.mjs";

const TOP = "#program-dentine-on-metal-heating-1-to";
let browser, server, page;

before(async () => {
  browser = await launch();
  server = await Server.start("demo");
  page = await open(browser, server);
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

test("a wrong value is told at it while one types, and no longer once it is right", async () => {
  await go(page, "/programs/dentine-on-metal?change=1");
  const entry = page.locator("#value-entry");
  await entry.fill("warm");
  await page.waitForSelector("#value-entry[aria-invalid=true]");
  const described = (await entry.getAttribute("aria-describedby")).split(" ");
  const words = await page.evaluate((ids) => ids.map((id) => document.getElementById(id)?.textContent).join(" "), described);
  assert.match(words, /warm/);
  assert.equal(await page.evaluate(() => document.activeElement?.id), "value-entry", "whoever types goes on typing");
  await entry.fill("431 °C");
  await page.waitForSelector("#value-entry:not([aria-invalid=true])");
  assert.equal(await page.evaluate(async () => (await (await fetch("/api/documents/program/dentine-on-metal")).json()).newest), 1, "nothing is kept by it");
  await page.getByRole("button", { name: "Throw the draft away" }).click();
});

test("other units show what is kept and what was typed in them", async () => {
  await openFiring(page, "metal-ceramic-firing");
  await page.fill(TOP, "940 °C");
  await page.waitForSelector(".standing-whole");
  await page.waitForSelector(".bench-draft");
  await go(page, "/setup/device");
  await page.getByLabel("°F (°F/min)").check();
  await openFiring(page, "metal-ceramic-firing");
  await page.waitForSelector(".standing-whole");
  assert.equal(await page.inputValue(TOP), "1724 °F");
  assert.match(await page.inputValue("#program-dentine-on-metal-entry"), /°F$/);
  await page.click("text=As kept");
  await page.waitForSelector(".bench-draft", { state: "detached" });
});

test("a name that is taken is said at its field, with the way to what goes by it", async () => {
  await go(page, "/records/case?new=1");
  await page.fill("#value-label", "a second one");
  await page.fill("#value-name", "k-0417");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.locator("#value-name-mistake", { hasText: "k-0417 is kept already." }).waitFor();
  await page.waitForFunction(() => document.activeElement?.id === "value-name");
  assert.equal(await page.getByRole("link", { name: "Open k-0417" }).getAttribute("href"), "/records/case/k-0417");
  await page.fill("#value-name", "k-0418");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.waitForURL("**/records/case/k-0418");
});

test("a firing is not kept over another one's name", async () => {
  await openFiring(page, "metal-ceramic-firing");
  await page.fill(TOP, "944 °C");
  await page.waitForSelector(".standing-whole", { state: "attached", timeout: 60000 });
  await page.waitForSelector(".bench-draft");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByLabel("Name of the firing").fill("glaze-firing");
  await page.getByLabel("Reason").fill("tried");
  await page.locator(".dialog .button-primary").click();
  await page.locator(".dialog .notice-wrong", { hasText: /glaze-firing is kept already, in version \d+; give this one a name of its own/ }).waitFor();
  await page.getByLabel("Name of the firing").fill("metal-ceramic-again");
  await page.locator(".dialog .button-primary").click();
  await page.waitForURL("**/firing/metal-ceramic-again");
});

test("a firing that is not there cannot be started, and a shelf that is not there is said", async () => {
  await page.goto("/firing/nobody-kept-this");
  await page.getByText("No firing").first().waitFor();
  assert.equal(await page.getByRole("button", { name: "Start the firing" }).count(), 0);
  assert.equal(await page.getByText("version 1").count(), 0);
  await page.goto("/records/constructor");
  await page.getByText("constructor").first().waitFor();
  assert.equal(await page.locator("main h1").innerText(), "Records");
});
