// What is due of a furnace, its chart and its report, on a phone by touch and at a desk by keys: done, changed, refused, printed.
import assert from "node:assert/strict";
import { test } from "node:test";
import { go, open } from "./harness/browser.mjs";
import { tabTo } from "./harness/keyboard.mjs";
import { everythingWrong } from "./harness/looks.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

stage();

const looks = async (page, name) => assert.deepEqual(await everythingWrong(page, name), []);
const sheet = (page, work) => page.locator(".care-due", { has: page.getByRole("heading", { name: work, exact: true }) });
const row = (page, work) => page.getByRole("row").filter({ has: page.getByRole("rowheader", { name: work }) });
const said = (page, words) => page.getByText(words).first().waitFor();

test("on a phone a work is marked as done, and its next day follows", async () => {
  const page = await open(browser, server, { size: "hand" });
  await go(page, "/furnaces/corner");
  await page.getByRole("link", { name: "All that is due, and how often" }).tap();
  await said(page, "What is due");
  const pump = sheet(page, "Pump service");
  assert.match(await pump.textContent(), /Nothing that is kept tells that it was ever done\..*Due every 365 days\. Assumed/s);
  assert.equal(await page.locator(".button-primary").count(), 1, "one primary action");
  await pump.getByRole("button", { name: "Mark as done" }).tap();
  await looks(page, "care-done-hand");
  await page.getByRole("button", { name: "Keep as done" }).tap();
  await page.waitForFunction(() => [...document.querySelectorAll(".care-due")].some((each) => /Pump service/.test(each.textContent) && /marked by hand/.test(each.textContent)));
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("how often is set by the lab and by the furnace maker, whose word the lab does not overrule", async () => {
  const page = await open(browser, server);
  await go(page, "/furnaces/window/due");
  const change = () => row(page, "Vacuum test").getByRole("button", { name: "Change how often: Vacuum test" });
  await change().click();
  const dialog = page.getByRole("dialog");
  assert.equal(await dialog.getByLabel("Days", { exact: true }).inputValue(), "30");
  await dialog.getByLabel("Days", { exact: true }).fill("0");
  await dialog.getByRole("button", { name: "Keep", exact: true }).click();
  await dialog.getByText(/allowed is 1 to 3652/).waitFor();
  assert.match(page.wrong.pop(), /422/);
  await looks(page, "care-interval-desk");
  await dialog.getByLabel("Days", { exact: true }).fill("21");
  await dialog.getByLabel("Firings", { exact: true }).fill("120");
  await dialog.getByRole("radio", { name: "The furnace maker's instruction" }).check();
  await dialog.getByRole("button", { name: "Keep", exact: true }).click();
  await dialog.getByText(/Where the furnace maker says so is missing/).waitFor();
  assert.match(page.wrong.pop(), /422/);
  await dialog.getByLabel("Where it stands").fill("instructions for use, page 31");
  await dialog.getByRole("button", { name: "Keep", exact: true }).click();
  await dialog.waitFor({ state: "detached" });
  await row(page, "Vacuum test").getByText("every 21 days, after 120 firings, whichever comes first").waitFor();
  assert.match(await row(page, "Vacuum test").textContent(), /Furnace maker's instruction \(instructions for use, page 31\), set by /);
  await change().click();
  await dialog.getByRole("radio", { name: "The lab, for this furnace" }).check();
  await dialog.getByRole("button", { name: "Keep", exact: true }).click();
  await dialog.getByText(/The furnace maker's instruction says how often the vacuum test of furnace window is due, and comes first\./).waitFor();
  assert.match(page.wrong.pop(), /422/);
  await dialog.getByRole("radio", { name: "The furnace maker's instruction" }).check();
  await dialog.getByRole("button", { name: "Back to what it was before" }).click();
  await dialog.waitFor({ state: "detached" });
  await row(page, "Vacuum test").getByText("Common practice").waitFor();
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("a work of the lab's own for every furnace, by keys alone", async () => {
  const page = await open(browser, server);
  await go(page, "/furnaces/corner/due");
  await tabTo(page, 'section[aria-labelledby="how-often"] > .actions button');
  await page.keyboard.press("Enter");
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("What is to be done").waitFor();
  await dialog.getByLabel("What is to be done").fill("wipe the door");
  await dialog.getByLabel("Days", { exact: true }).fill("10");
  await dialog.getByRole("radio", { name: "The lab, for every furnace" }).check();
  await page.keyboard.press("Enter");
  await dialog.waitFor({ state: "detached" });
  await row(page, "wipe the door").getByText("The lab, for every furnace", { exact: false }).waitFor();
  await go(page, "/furnaces/window/due");
  await sheet(page, "wipe the door").waitFor();
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("chart and report say in words what they show, and give a picture and a sheet to print", async () => {
  for (const [language, chart, report] of [["en", "What the charts signal", "As found"], ["de", "Was die Diagramme melden", "Wie vorgefunden"]]) {
    const page = await open(browser, server, { size: "hand", language });
    await go(page, "/furnaces/corner/chart");
    await said(page, chart);
    assert.match(await page.locator(".care-plot").getAttribute("aria-label"), /corner/);
    await page.locator(".care-plot canvas").first().waitFor();
    const picture = await page.locator('a[href*="chart.svg"]').getAttribute("href");
    const drawn = await page.request.get(picture);
    assert.match(drawn.headers()["content-type"], /svg/);
    assert.match(await drawn.text(), language === "de" ? /Prüfung/ : /check/);
    await go(page, "/furnaces/corner/report");
    await said(page, report);
    const pdf = await page.request.get(await page.locator("a.button-primary").getAttribute("href"));
    assert.equal((await pdf.body()).subarray(0, 5).toString(), "%PDF-");
    assert.deepEqual(page.wrong, []);
    await page.context().close();
  }
});

test("the furnace's page names the check that found another error than the file", async () => {
  const page = await open(browser, server);
  await go(page, "/furnaces/corner");
  await page.getByText(/Check corner-wire, .* found/).waitFor();
  assert.equal(await page.locator(".button-primary").count(), 1);
  assert.equal(await page.getByRole("link", { name: "Enter a check done by other means" }).count(), 0);
  await page.getByRole("link", { name: "Check this furnace" }).click();
  await page.getByRole("link", { name: "Enter a check done by other means" }).waitFor();
  await page.context().close();
});
