// By touch alone, on a phone and on a tablet: a firing opened, changed, read, kept, printed and a furnace checked; and every target of every screen
// is wide and high enough for a finger.
import assert from "node:assert/strict";
import { test } from "node:test";
import { asked } from "./check.mjs";
import { go, HELD, open, settled } from "./harness/browser.mjs";
import { pressesOf, tap, typeInto, watchFingers } from "./harness/fingers.mjs";
import { cutText, screenshot, sideways, smallTargets } from "./harness/looks.mjs";
import { browser, server, stage } from "./harness/stage.mjs";
import { SCREENS } from "./screens.mjs";

stage();

const TOP = "#program-dentine-on-metal-heating-1-to";
const key = (page, name) => page.getByRole("button", { name, exact: true });

async function looks(page, name) {
  await screenshot(page, name, false);
  assert.deepEqual([...(await sideways(page)), ...(await smallTargets(page)), ...(await cutText(page))], []);
}

async function held(size) {
  const page = await open(browser, server, { size });
  await watchFingers(page);
  return page;
}

async function onlyFingers(page) {
  const { touch, other } = await pressesOf(page);
  assert.ok(touch > 0, "nothing was pressed");
  assert.deepEqual(other, []);
}

for (const size of Object.keys(HELD)) {
  test(`${size}: every target of every screen is big enough, and nothing runs out of the glass`, async () => {
    const page = await open(browser, server, { size });
    const wrong = [];
    let targets = 0;
    for (const screen of SCREENS) {
      await go(page, screen.path);
      targets += await page.locator("button:visible, a:visible, input:visible, select:visible, textarea:visible, summary:visible").count();
      for (const sentence of [...(await sideways(page)), ...(await smallTargets(page)), ...(await cutText(page))]) wrong.push(`${screen.name}: ${sentence}`);
    }
    assert.deepEqual(wrong, []);
    assert.ok(targets > 400, `only ${targets} targets were looked at`);
    await page.context().close();
  });

  test(`${size}: a firing is opened, a value changed, a finding read, and the firing kept`, async () => {
    const page = await held(size);
    await go(page, "/today");
    await tap(page, page.getByRole("link", { name: "Firing", exact: true }).locator("visible=true").first());
    await page.waitForURL("**/firing");
    await tap(page, 'main a[href="/firing/metal-ceramic-firing"]');
    await page.waitForURL("**/firing/metal-ceramic-firing");
    await page.waitForSelector(".firing-picture", { state: "attached" });
    await typeInto(page, TOP, "953 °C");
    const pane = page.locator(".panes-small-keys");
    if (await pane.isVisible()) await tap(page, pane.getByRole("button", { name: "Findings" }));
    await page.locator(".found", { hasText: "953 °C" }).first().waitFor();
    await page.waitForSelector(".standing-whole");
    await tap(page, page.locator(".found-help").first());
    await page.waitForSelector(".dialog .help");
    assert.ok((await page.textContent(".dialog .help")).length > 80);
    await looks(page, `touch-help-${size}`);
    await tap(page, ".dialog-head .button");
    await page.waitForSelector(".dialog", { state: "detached" });
    await looks(page, `touch-firing-${size}`);
    await tap(page, ".bench-actions .button-primary");
    await typeInto(page, page.getByLabel("Name of the firing"), `touched-${size}`);
    await tap(page, page.getByText("a program of its own", { exact: true }));
    await typeInto(page, page.getByLabel("Name of the new program"), `touched-program-${size}`);
    await typeInto(page, page.getByLabel("Reason"), "tried by touch");
    await looks(page, `touch-keep-${size}`);
    await tap(page, ".dialog .button-primary");
    await page.waitForURL(`**/firing/touched-${size}`);
    await settled(page);
    await onlyFingers(page);
    assert.deepEqual(page.wrong, []);
    await page.context().close();
  });

  test(`${size}: the print dialog opens by a tap, and the sheet is there`, async () => {
    const page = await held(size);
    let printed = 0;
    await page.exposeFunction("heatworkPrinted", () => void (printed += 1));
    await page.addInitScript(() => (window.print = () => window.heatworkPrinted()));
    await go(page, "/firing/metal-ceramic-firing");
    await page.waitForSelector(".firing-picture", { state: "attached" });
    await tap(page, page.locator(".bench-actions").getByRole("button", { name: "Print" }));
    await page.waitForTimeout(100);
    assert.equal(printed, 1);
    await page.emulateMedia({ media: "print" });
    await page.locator(".print-sheet h1").waitFor();
    await onlyFingers(page);
    await page.context().close();
  });

  test(`${size}: a guided check is answered to its first wire`, async () => {
    const page = await held(size);
    await go(page, "/furnaces");
    await tap(page, 'main a[href="/furnaces/corner"]');
    await tap(page, page.getByRole("link", { name: "Check this furnace" }));
    await tap(page, page.getByRole("link", { name: "Temperature, with a wire" }));
    const number = page.locator(".big-digits");
    const answers = [["Which metal", "silver"], ["How pure", "99.99"], ["Which gas", "vacuum"], ["At which pressure", "50"], ["Is air let in", "No"], ["How thick", "0.25"], ["How long", "2"], ["What counts as melted", "edges rounded"]];
    for (const [question, answer] of answers) {
      await asked(page, question);
      if (/\d/.test(answer)) {
        await typeInto(page, number, answer);
        await tap(page, key(page, "Next"));
      } else await tap(page, key(page, answer));
    }
    await page.locator(".check-display").waitFor();
    await looks(page, `touch-wire-${size}`);
    await tap(page, key(page, "stayed whole"));
    await page.waitForURL(/check\/temperature\/corner-temperature/);
    await page.locator(".check-so-far li").first().waitFor();
    await onlyFingers(page);
    assert.deepEqual(page.wrong, []);
    await page.context().close();
  });
}
