// The demo lab and the language of the page: what stands in it stays as it was made, is said so, and is had in the other language by one press.
import assert from "node:assert/strict";
import { test } from "node:test";
import { axe, cutText, screenshot, sideways, smallTargets } from "./harness/looks.mjs";
import { go, open } from "./harness/browser.mjs";
import { Server } from "./harness/server.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

stage();

const looks = async (page) => [...(await axe(page)), ...(await sideways(page)), ...(await smallTargets(page)), ...(await cutText(page))];
const labels = (page) => page.evaluate(async () => (await (await fetch("/api/documents/furnace")).json()).rows.map((row) => row.label).sort());
const ENGLISH = ["furnace at the window", "furnace in the corner"];

test("in its own language nothing is said of it", async () => {
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/today");
  await page.locator(".card").first().waitFor();
  assert.equal(await page.locator(".notice").count(), 0);
  assert.deepEqual(await labels(page), ENGLISH);
  await page.context().close();
});

test("set to the other language in Setup, the page follows, says what stays, and makes it anew", async () => {
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/programs/stain-film?change=1");
  await page.locator("#value-drying_time").fill("3 min 35 s");
  await page.locator(".draft-bar").waitFor();
  await go(page, "/setup/lab");
  await page.getByLabel("Deutsch").check();
  await page.getByLabel("Reason").fill("we speak it");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.getByRole("heading", { name: "Einrichten" }).waitFor();
  await page.getByText("sind auf Englisch: Sie bleiben").waitFor();
  await page.reload();
  await page.getByRole("heading", { name: "Einrichten" }).waitFor();
  await go(page, "/today");
  await page.locator(".row-link", { hasText: "stain-film" }).waitFor();
  await page.locator(".notice", { hasText: "sind auf Englisch" }).waitFor();
  await screenshot(page, "demo-speaks-other", false);
  assert.deepEqual(await looks(page), []);
  await page.getByRole("button", { name: "Übungslabor neu anlegen" }).dblclick();
  await page.locator(".toast", { hasText: "Das Übungslabor ist wieder wie am Anfang." }).waitFor({ timeout: 60000 });
  await page.getByText("Krone aus dem Block").first().waitFor();
  assert.equal(await page.locator(".notice").count(), 0);
  assert.equal(await page.locator(".header-of").innerText(), "Übungslabor");
  assert.equal((await labels(page)).some((label) => ENGLISH.includes(label)), false);
  assert.equal(await page.locator(".row-link", { hasText: "stain-film" }).count(), 0, "a draft of what is thrown away waits no longer");
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("the language of the lab itself holds in its demo lab, over a reload too, where the browser speaks another", async () => {
  const own = await Server.start("demo");
  await own.ask("PUT", "/api/lab", { name: "Ahornlabor", language: "de", units: "celsius", reason: "begun" });
  const page = await open(browser, own, { size: "desk" });
  for (let visits = 0; visits < 2; ++visits) {
    await go(page, "/today");
    await page.getByRole("heading", { name: "Heute" }).waitFor();
    await page.locator(".banner-demo").waitFor();
    await page.locator(".notice", { hasText: "sind auf Englisch" }).waitFor();
  }
  await page.context().close();
  await own.stop();
});
