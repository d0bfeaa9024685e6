// One tablet, several people: another takes over by PIN in the middle of an edit, a session ends in the middle of an edit, and the same firing is
// typed into in two tabs. Nothing that was typed is lost, and nothing says that it is kept, or whose it is, when it is not so.
import assert from "node:assert/strict";
import { readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { axe, cutText, screenshot, sideways, smallTargets } from "./harness/looks.mjs";
import { go, launch, open, settled } from "./harness/browser.mjs";
import { Server } from "./harness/server.mjs";

const FIRING = "/firing/metal-ceramic-firing";
const TOP = "#program-dentine-on-metal-heating-1-to";
const PASSWORDS = { mara: "maple leaf syrup", tom: "fires every morning" };
const PINS = { mara: "4791", tom: "2580" };
let server, browser;

before(async () => {
  browser = await launch();
  server = await Server.start("empty");
  await server.halt();
  for (const file of readdirSync(server.folder).filter((name) => name.startsWith("lab.sqlite"))) rmSync(join(server.folder, file));
  server.heatwork("demo", "--store", join(server.folder, "lab.sqlite"));
  server.heatwork("person", "add", "mara", "--role", "release", "--may-set-up", "--as", "demo");
  server.heatwork("person", "add", "tom", "--role", "fire", "--as", "mara");
  for (const person of ["mara", "tom"]) {
    server.heatworkTold(`${PASSWORDS[person]}\n`, "person", "password", person, "--as", "mara");
    server.heatworkTold(`${PINS[person]}\n`, "person", "pin", person, "--as", "mara");
  }
  await server.start();
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

const key = (page, name) => page.getByRole("button", { name, exact: true });
const looks = async (page, name) => {
  await screenshot(page, name, false);
  return [...(await axe(page)), ...(await sideways(page)), ...(await smallTargets(page)), ...(await cutText(page))];
};

async function signIn(page, person) {
  await page.getByLabel("Person", { exact: true }).fill(person);
  await page.getByLabel("Password", { exact: true }).fill(PASSWORDS[person]);
  await key(page, "Sign in").click();
}

async function takeOver(page, person) {
  await page.locator(".person-button").click();
  await page.locator("dialog").getByLabel("Person").fill(person);
  await page.locator("dialog").getByLabel("PIN").fill(PINS[person]);
  await key(page, "Take over").click();
  await page.locator(".person-code", { hasText: person }).waitFor();
}

/** A tablet on which mara signed in, at a place. */
async function tablet(to, size = "tablet") {
  const page = await open(browser, server, { size });
  await page.goto(to);
  await page.waitForURL(/\/sign-in/);
  await signIn(page, "mara");
  await page.waitForURL(`**${to}`);
  await settled(page);
  return page;
}

/** Nothing is asked of the server any more. */
const whole = (page) => page.waitForSelector(".standing-whole", { state: "attached", timeout: 30000 });
/** What was typed stands in the table once the kept values are read and the draft is laid over them. */
const stands = (page, value) => page.waitForFunction(([id, wanted]) => document.querySelector(id)?.value === wanted, [TOP, value]);
const picture = (page) => page.waitForSelector(".firing-picture", { state: "attached" });

test("another takes over by PIN in the middle of an edit: it stays, and says whose it is", async () => {
  const page = await tablet("/programs/dentine-on-zirconia?change=1");
  await page.locator("#value-drying_time").fill("5 min 25 s");
  await page.locator("#value-reason").fill("built up thicker");
  await takeOver(page, "tom");
  await page.locator(".draft-bar", { hasText: "Draft of mara" }).waitFor();
  assert.equal(await page.locator("#value-drying_time").inputValue(), "5 min 25 s");
  assert.deepEqual(await looks(page, "shared-draft-of-another"), []);
  await go(page, "/today");
  await page.locator(".row-link", { hasText: "typed by mara" }).waitFor();
  await takeOver(page, "mara");
  await go(page, "/programs/dentine-on-zirconia?change=1");
  await page.locator(".draft-bar", { hasText: /^Draft of .* on this device only/ }).waitFor();
  assert.equal(await page.locator(".draft-bar", { hasText: "mara" }).count(), 0, "one's own draft needs no name");
  assert.equal(await page.locator("#value-reason").inputValue(), "built up thicker");
  await key(page, "Keep").click();
  await page.waitForSelector("text=is kept as version 2");
  await page.context().close();
});

test("who may only fire takes over where another was about to set up: nothing of it is open to him", async () => {
  const page = await tablet("/setup/lab");
  await page.getByLabel("Name of the lab").fill("Maple lab");
  await takeOver(page, "tom");
  await page.getByText("Only who may set up can change this.").waitFor();
  assert.equal(await key(page, "Keep").count(), 0);
  await page.context().close();
});

test("a session that ended in the middle of an edit: one signs in again and goes on where one was", async () => {
  const page = await tablet(FIRING);
  await picture(page);
  await page.fill(TOP, "941 °C");
  await page.waitForSelector(".bench-draft");
  await whole(page);
  await key(page, "Keep").click();
  await page.getByLabel("Name of the firing").fill("after-the-break");
  await page.getByLabel("Reason").fill("a reason that took long to write");
  await page.context().clearCookies({ name: /session/ });
  await page.locator(".dialog .button-primary").click();
  await page.waitForURL(/\/sign-in\?to=/);
  await screenshot(page, "shared-signed-out", false);
  await signIn(page, "mara");
  await page.waitForURL(`**${FIRING}`);
  await picture(page);
  await stands(page, "941 °C");
  await page.waitForSelector(".bench-draft");
  await key(page, "Keep").click();
  assert.equal(await page.getByLabel("Name of the firing").inputValue(), "after-the-break");
  assert.equal(await page.getByLabel("Reason").inputValue(), "a reason that took long to write");
  await page.locator(".dialog .button-primary").click();
  await page.waitForURL("**/firing/after-the-break");
  await page.context().close();
});

test("a session that ended while one types: the edit waits, and is whose it was when another signs in", async () => {
  const page = await tablet(FIRING);
  await whole(page);
  await page.context().clearCookies({ name: /session/ });
  await page.fill(TOP, "939 °C");
  await page.waitForURL(/\/sign-in\?to=/);
  await signIn(page, "tom");
  await page.waitForURL(`**${FIRING}`);
  await picture(page);
  await stands(page, "939 °C");
  await page.locator(".bench-draft", { hasText: "Draft of mara" }).waitFor();
  await page.context().close();
});

test("two tabs type into one firing: each says so and keeps its own, over a reload too, and can go on with the other's", async () => {
  const mine = await tablet(FIRING, "desk");
  const other = await mine.context().newPage();
  await other.goto(FIRING);
  for (const page of [mine, other]) await picture(page);
  await mine.fill(TOP, "943 °C");
  await mine.waitForSelector(".bench-draft");
  await other.fill(TOP, "945 °C");
  await mine.locator(".bench-draft", { hasText: "in another tab of this device" }).waitFor();
  await stands(mine, "943 °C");
  assert.deepEqual(await looks(mine, "shared-two-tabs"), []);
  await mine.reload();
  await picture(mine);
  await stands(mine, "943 °C");
  await mine.locator(".bench-draft", { hasText: "in another tab of this device" }).waitFor();
  await key(mine, "Go on with the other tab's").click();
  await stands(mine, "945 °C");
  await other.close();
  await mine.context().close();
});

test("what one tab keeps, the other does not lose: it is shown both versions", async () => {
  const mine = await tablet("/programs/stain-film?change=1", "desk");
  const other = await mine.context().newPage();
  await other.goto("/programs/stain-film?change=1");
  for (const page of [mine, other]) await page.locator("#value-drying_time").waitFor();
  await mine.locator("#value-drying_time").fill("3 min 35 s");
  await other.locator("#value-closing_time").fill("2 min 15 s");
  for (const page of [mine, other]) await page.locator("#value-reason").fill("tried");
  await key(mine, "Keep").click();
  await mine.waitForSelector("text=is kept as version 2");
  assert.equal(await other.locator("#value-closing_time").inputValue(), "2 min 15 s");
  await go(other, "/today");
  await other.locator(".row-link", { hasText: "stain-film" }).click();
  const conflict = other.getByRole("dialog", { name: "Somebody else kept a newer version" });
  await conflict.getByText(/2 min 15 s/).waitFor();
  await key(other, "Lay my changes over the newer version").click();
  await conflict.waitFor({ state: "detached" });
  await other.waitForFunction(() => document.querySelector("#value-drying_time").value === "3 min 35 s");
  assert.equal(await other.locator("#value-closing_time").inputValue(), "2 min 15 s");
  await key(other, "Keep").click();
  await other.waitForSelector("text=is kept as version 3");
  await mine.context().close();
});
