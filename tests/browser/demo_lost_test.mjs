// Out of the demo lab without wishing so: a session that is gone is said in plain words with the way back, and nothing typed in the demo lab
// is kept in the lab itself. The lab itself holds the same program and firing, so that a write that went there would be taken.
import assert from "node:assert/strict";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { go, open } from "./harness/browser.mjs";
import { browser, server, stage } from "./harness/stage.mjs";
import { openFiring } from "./typing.mjs";

const FIRING = "metal-ceramic-firing";
const TOP = "#program-dentine-on-metal-heating-1-to";

stage("demo", (server) => {
  server.heatwork("demo", "files");
  server.heatwork("store", "take-in", "files", "--as", "mara");
});

/** The server begins anew, and nothing tells it of the sessions that were. */
async function loseSessions() {
  await server.halt();
  rmSync(join(server.folder, "data/heatwork", `sessions-${server.port}.json`), { force: true });
  await server.start();
}

const keptInLab = (kind) => JSON.parse(server.heatwork(kind, "list", "--json")).rows;

test("a restart of the server leaves one in the demo lab", async () => {
  const page = await open(browser, server);
  await go(page, "/furnaces");
  await page.locator(".banner-demo").waitFor();
  await server.halt();
  await server.start();
  await go(page, "/furnaces/corner");
  await page.locator(".banner-demo").waitFor();
  assert.equal(await page.locator(".banner-demo-lost").count(), 0);
  await page.context().close();
});

test("what was typed in the demo lab is not kept in the lab itself, and waits where it was typed", async () => {
  const page = await open(browser, server);
  await openFiring(page, FIRING);
  await page.fill(TOP, "943 °C");
  await page.waitForSelector(".standing-whole");
  await page.click(".bench-actions .button-primary");
  await page.fill('.dialog label:has-text("Name of the firing") + input', "tried-in-demo");
  await page.click(".dialog >> text=a program of its own");
  await page.fill('.dialog label:has-text("Name of the new program") + input', "hotter-in-demo");
  await page.fill('.dialog label:has-text("Reason") + input', "trial on a tab");
  const was = keptInLab("program").length;
  await loseSessions();
  await page.click(".dialog .button-primary");
  await page.locator(".banner-demo-lost").waitFor();
  assert.match(await page.textContent(".banner-demo-lost"), /You are no longer in the demo lab\..*What you typed in the demo lab waits there and was not kept here\./s);
  assert.equal(await page.locator(".banner-demo").count(), 0);
  assert.deepEqual([keptInLab("program").length, keptInLab("firing").some(({ name }) => name === "tried-in-demo")], [was, false]);
  await openFiring(page, FIRING);
  assert.notEqual(await page.inputValue(TOP), "943 °C", "the lab's own firing stands as it is kept");
  assert.equal(await page.locator(".bench-draft").count(), 0);
  await page.getByRole("button", { name: "Back into the demo lab" }).click();
  await page.locator(".banner-demo").waitFor();
  assert.equal(await page.locator(".banner-demo-lost").count(), 0);
  await openFiring(page, FIRING);
  assert.equal(await page.inputValue(TOP), "943 °C");
  await page.context().close();
});

test("it is seen without a write too, after a reload as well, on a phone and in German", async () => {
  const page = await open(browser, server, { size: "hand", language: "de" });
  await go(page, "/furnaces");
  await loseSessions();
  await page.locator(".navigation-foot a").first().tap();
  await page.locator(".banner-demo-lost").getByText("Sie sind nicht mehr im Übungslabor.").waitFor();
  await page.getByRole("button", { name: "Im Labor bleiben" }).tap();
  await page.locator(".banner-demo-lost").waitFor({ state: "detached" });
  await go(page, "/furnaces");
  assert.equal(await page.locator(".banner-demo-lost").count(), 0, "it is said once");
  await page.context().close();
  const other = await open(browser, server);
  await go(other, "/furnaces");
  await loseSessions();
  await go(other, "/furnaces");
  await other.locator(".banner-demo-lost").waitFor();
  await other.getByRole("button", { name: "Back into the demo lab" }).click();
  await other.locator(".banner-demo").waitFor();
  await other.getByRole("button", { name: "Leave the demo lab" }).click();
  await other.locator(".banner-demo").waitFor({ state: "detached" });
  assert.equal(await other.locator(".banner-demo-lost").count(), 0, "whoever leaves it himself knows");
  await other.context().close();
});
