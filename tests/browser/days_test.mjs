// Days and moments as they are typed and shown: in the lab's way and in words, whatever language the browser itself speaks.
import assert from "node:assert/strict";
import { test } from "node:test";
import { axe, screenshot } from "./harness/looks.mjs";
import { go, open } from "./harness/browser.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

stage();

const WANTED = "#value-wanted";
const wordsAt = (page, field) => page.locator(field).evaluate((each) => (each.getAttribute("aria-describedby") ?? "").split(" ").map((id) => document.getElementById(id)?.textContent ?? "").join(" · "));
const kept = async (page, path) => page.evaluate(async (from) => (await (await fetch(from)).json()).values, path);
const valueOf = (values, key) => values.find((each) => each.key === key)?.text;

test("a day is shown as the lab writes it, with its weekday and month in words, and typed in either way", async () => {
  const page = await open(browser, server, { language: "de", size: "hand" });
  await go(page, "/records/case?new=1");
  for (const typed of ["3.12.2026", "2026-12-03", "3. Dezember 2026", "03.12.26"]) {
    await page.fill(WANTED, typed);
    assert.match(await wordsAt(page, WANTED), /Donnerstag, 3\. Dezember 2026/, typed);
    assert.equal(await page.inputValue(WANTED), typed, "whoever types is not interrupted");
    await page.locator(WANTED).blur();
    assert.equal(await page.inputValue(WANTED), "03.12.2026");
  }
  await screenshot(page, "days-typed-de");
  assert.deepEqual(await axe(page), []);
  await page.fill("#value-label", "Krone 21");
  await page.fill("#value-name", "k-0501");
  await page.reload();
  await page.waitForFunction((field) => document.querySelector(field)?.value === "03.12.2026", WANTED);
  await page.getByRole("button", { name: "Speichern", exact: true }).click();
  await page.waitForURL("**/records/case/k-0501**");
  assert.equal(valueOf(await kept(page, "/api/documents/case/k-0501"), "wanted"), "2026-12-03");
  await page.context().close();
});

test("what is no day, or could be two, is told at its field, stays typed, and is not kept", async () => {
  const page = await open(browser, server, { language: "en" });
  await go(page, "/records/case/k-0431?change=1");
  for (const typed of ["31.11.2026", "29.11.", "03/04/2027"]) {
    await page.fill(WANTED, typed);
    await page.locator(WANTED).blur();
    await page.waitForSelector(`${WANTED}[aria-invalid=true]`);
    assert.match(await wordsAt(page, WANTED), /no day, or it could be two: write it like 28 Feb \d{4} or \d{4}-02-28/, typed);
    assert.equal(await page.inputValue(WANTED), typed);
  }
  await page.fill("#value-reason", "the dentist called");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.waitForTimeout(500);
  assert.equal(await page.evaluate(async () => (await (await fetch("/api/documents/case/k-0431")).json()).newest), 1, "nothing is kept");
  await page.fill(WANTED, "Apr 3, 2027");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.waitForSelector("text=is kept as version 2");
  assert.equal(valueOf(await kept(page, "/api/documents/case/k-0431"), "wanted"), "2027-04-03");
  await page.context().close();
});

test("the calendar of the device gives a day as well", async () => {
  const page = await open(browser, server, { language: "de", size: "hand" });
  await go(page, "/records/case?new=1");
  await page.locator(".day-calendar button").first().tap();
  await page.locator(".day-picker").nth(1).evaluate((each) => {
    each.value = "2026-12-24";
    each.dispatchEvent(new Event("change", { bubbles: true }));
  });
  assert.equal(await page.inputValue(WANTED), "24.12.2026");
  assert.match(await wordsAt(page, WANTED), /Donnerstag, 24\. Dezember 2026/);
  await page.context().close();
});

test("a moment has its clock time beside its day", async () => {
  const page = await open(browser, server, { language: "de", size: "hand" });
  await go(page, "/records/bench-step?new=1");
  const at = "#value-at";
  assert.match(await page.inputValue(at), /^\d\d\.\d\d\.\d{4} \d\d:\d\d$/);
  await page.fill(at, "28.11.2026, 9:05 Uhr");
  await page.locator(at).blur();
  assert.equal(await page.inputValue(at), "28.11.2026 09:05");
  assert.match(await wordsAt(page, at), /Samstag, 28\. November 2026, 09:05/);
  await page.fill(at, "28.11.2026");
  await page.locator(at).blur();
  assert.match(await wordsAt(page, at), /kein Tag mit Uhrzeit/);
  await page.context().close();
});

test("a question between two days asks with whole days only", async () => {
  const page = await open(browser, server, {});
  const asked = [];
  page.on("request", (request) => request.url().includes("/pieces") && asked.push(new URL(request.url()).search));
  await go(page, "/records/questions?question=furnace&of=corner");
  const from = page.getByLabel("From this day", { exact: true });
  await from.pressSequentially("27 Nov 2026");
  await page.getByText("Fri, 27 Nov 2026").waitFor();
  assert.deepEqual([...new Set(asked)], ["", "?from=2026-11-27"]);
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});
