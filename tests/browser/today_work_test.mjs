// What is done from Today, as at the bench: a result, a start with its read-back, an interruption, a firing called off, a next step, and two at one case.
import assert from "node:assert/strict";
import { test } from "node:test";
import { go, open } from "./harness/browser.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

stage();

async function today() {
  const page = await open(browser, server, {});
  await go(page, "/today");
  await page.locator(".card").first().waitFor();
  return page;
}

const key = (page, name) => page.getByRole("button", { name, exact: true });
const field = (page, name) => page.locator("dialog").getByLabel(name);
const said = (page, words) => page.locator(".toast", { hasText: words }).waitFor();

test("a result is asked for one question at a time, outlives a reload, and is kept", async () => {
  const page = await today();
  await key(page, "Enter the result").first().click();
  await key(page, "fire again").click();
  assert.match(await page.evaluate(() => document.activeElement.textContent), /What did you see on/);
  await field(page, "In your own words").fill("edges still sharp");
  await page.reload();
  await key(page, "Enter the result").first().click();
  assert.deepEqual(await page.locator("dialog [aria-pressed=true]").allInnerTexts(), ["fire again"]);
  await key(page, "fire again").click();
  assert.equal(await field(page, "In your own words").inputValue(), "edges still sharp");
  await field(page, "cooler or hotter").fill("-10");
  await key(page, "Next").click();
  await field(page, "Highest temperature on").fill("818 °C");
  await key(page, "Next").click();
  await key(page, "Keep the result").click();
  await page.locator("dialog .notice-wrong", { hasText: "Nothing was kept." }).waitFor();
  await key(page, "Back").click();
  await key(page, "Back").click();
  await field(page, "cooler or hotter").fill("-10 K");
  await key(page, "Next").click();
  await key(page, "Next").click();
  await key(page, "Keep the result").click();
  await said(page, "The result of crystallise-firing is kept.");
  assert.deepEqual(page.wrong.filter((one) => !one.includes("422")), []);
  await page.context().close();
});

test("a firing is started with what the panel shows, and interrupted", async () => {
  const page = await today();
  await key(page, "Start").first().click();
  await page.locator("dialog dt", { hasText: "Entry temperature" }).waitFor();
  await field(page, "What does the panel show").fill("771 on the panel");
  await key(page, "The values agree: started now").click();
  await said(page, "is started.");
  await key(page, "It was interrupted").first().click();
  await field(page, "mains cut").check();
  await key(page, "Keep that it was interrupted").click();
  await said(page, "was interrupted.");
  await page.locator(".card", { hasText: "mains cut" }).waitFor();
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("a firing is called off with its reason", async () => {
  const page = await today();
  const before = await key(page, "Call off").count();
  await key(page, "Call off").first().click();
  await field(page, "another reason").check();
  assert.ok(await key(page, "Call it off").isDisabled(), "without words there is no reason");
  await field(page, "In your own words").fill("the piece fell");
  await key(page, "Call it off").click();
  await said(page, "is called off.");
  await page.waitForFunction((count) => [...document.querySelectorAll("button")].filter((one) => one.textContent === "Call off").length === count, before - 1);
  await page.context().close();
});

test("two at one case: both versions are shown, and mine can be laid over the newer one", async () => {
  const [mine, other] = [await today(), await today()];
  for (const page of [mine, other]) await page.getByRole("button", { name: "Change the next step: k-0429" }).click();
  await field(other, "Next step").fill("try-in");
  await key(other, "Keep").click();
  await said(other, "Next step of k-0429 kept.");
  await other.locator(".next-step", { hasText: "try-in" }).waitFor();
  await field(mine, "Next step").fill("glaze firing");
  await key(mine, "Keep").click();
  const conflict = mine.getByRole("dialog", { name: "Somebody else kept a newer version" });
  await conflict.getByText("try-in").waitFor();
  await conflict.getByText("glaze firing").waitFor();
  await key(mine, "Lay my changes over the newer version").click();
  assert.equal(await field(mine, "Next step").inputValue(), "glaze firing");
  await key(mine, "Keep").click();
  await said(mine, "Next step of k-0429 kept.");
  await mine.locator(".next-step", { hasText: "glaze firing" }).first().waitFor();
  for (const page of [mine, other]) await page.context().close();
});

test("out of reach nothing looks kept, and the answers wait in the dialog", async () => {
  const page = await today();
  await key(page, "Call off").first().click();
  await field(page, "not needed any more").check();
  await page.route("**/called-off", (route) => route.abort("connectionrefused"));
  await key(page, "Call it off").click();
  await page.locator("dialog .notice-wrong", { hasText: "The server is out of reach." }).waitFor();
  assert.ok(await field(page, "not needed any more").isChecked());
  assert.equal(await page.locator(".toast").count(), 0);
  await page.context().close();
});
