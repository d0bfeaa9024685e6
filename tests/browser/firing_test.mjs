// The Firing screen at work: the picture answers what is typed, wrong values keep the last good one and say so, what is typed survives a
// reload and a server that is away, and a newer version is met openly.
import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { go, open } from "./harness/browser.mjs";
import { browser, server, stage } from "./harness/stage.mjs";
import { openFiring } from "./typing.mjs";

const FIRING = "metal-ceramic-firing";
const TOP = "#program-dentine-on-metal-heating-1-to";
let page;

stage();

beforeEach(async () => {
  await page?.context().close();
  page = await open(browser, server);
  await openFiring(page, FIRING);
});

const standing = () => page.textContent(".standing");
const picture = () => page.evaluate(() => document.querySelector(".picture .firing-picture")?.outerHTML.length + document.querySelector(".picture desc")?.textContent);
const whole = () => page.waitForSelector(".standing-whole");
/** The picture with its bands is another than before, or the very one that is given; an answer without bands may stand in between. */
const stands = async (holds) => {
  for (let turn = 0; turn < 200; turn += 1) {
    if ((await page.$(".standing-whole")) && holds(await picture())) return;
    await page.waitForTimeout(50);
  }
  assert.fail(`the picture did not come to be: ${await standing()}`);
};
const draftWaits = () => page.waitForSelector(".bench-draft");

test("the picture and the findings answer what is typed, and again what is taken back", async () => {
  await whole();
  const before = await picture();
  await page.fill(TOP, "953 °C");
  await page.waitForSelector('.findings :text("953 °C")');
  await stands((now) => now !== before && !now.includes("range follows"));
  const hotter = await picture();
  assert.match(await page.textContent(".findings"), /K more, like/);
  await page.click("text=Undo");
  await stands((now) => now === before);
  await page.click("text=Redo");
  await stands((now) => now === hotter);
});

test("a wrong value keeps the last picture, marked as not of these values, and says what is wrong at the field", async () => {
  await whole();
  const before = await picture();
  await page.fill(TOP, "9x");
  await page.waitForFunction(() => /^Not of these values/.test(document.querySelector(".standing-wrong")?.textContent ?? ""));
  assert.equal(await picture(), before);
  assert.equal(await page.getAttribute(TOP, "aria-invalid"), "true");
  const described = (await page.getAttribute(TOP, "aria-describedby")).split(" ");
  const words = await page.evaluate((ids) => ids.map((id) => document.getElementById(id)?.textContent).join(" "), described);
  assert.match(words, /9x/);
  await page.fill(TOP, "931");
  await page.press(TOP, "Tab");
  assert.equal(await page.inputValue(TOP), "931 °C");
  await whole();
});

test("heat stands while stress is computed, and the stress of values typed over is never shown", async () => {
  const held = [];
  await page.route("**/api/rehearse", async (route) => {
    const asked = route.request().postDataJSON();
    if (asked.stress === "with") await new Promise((go) => held.push(go));
    await route.continue().catch(() => {}); // the page let go of it
  });
  const wait = async (holds) => {
    for (const patience = Date.now() + 30_000; !holds(); await page.waitForTimeout(20))
      assert.ok(Date.now() < patience, "stress was not asked for within 30 s");
  };
  const strip = () => page.textContent(".picture .firing-picture");
  const letGo = () => held.splice(0).forEach((go) => go());
  // Stress of the opening may have been asked for before anything was held, or after.
  const opened = whole();
  const going = setInterval(letGo, 20);
  await opened.finally(() => clearInterval(going));
  const before = await strip();
  assert.doesNotMatch(before, /follows here/);
  await page.fill(TOP, "951 °C");
  await wait(() => held.length > 0);
  assert.match(await page.textContent(".standing"), /stress follows/i);
  assert.match(await strip(), /stress is still being computed/);
  await page.waitForSelector('.findings :text("951 °C")');
  await page.fill(TOP, "967 °C");
  await page.waitForSelector('.findings :text("967 °C")');
  await page.evaluate(() => {
    const told = (window.toldOfStress = []);
    const look = () => {
      const text = document.querySelector(".picture .firing-picture")?.textContent ?? "";
      if (!/still being computed/.test(text)) told.push(document.querySelector(".findings")?.textContent ?? "");
    };
    new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  await wait(() => held.length > 1);
  letGo();
  await whole();
  const told = await page.evaluate(() => window.toldOfStress);
  assert.ok(told.length > 0);
  assert.ok(told.every((findings) => !findings.includes("951 °C")), "stress of values typed over was shown");
  assert.notEqual(await strip(), before);
});

test("a value is cleared letter by letter and typed letter by letter, and gets its unit only when it is left", async () => {
  await whole();
  await page.focus(TOP);
  await page.keyboard.press("End");
  const seen = [];
  for (let letters = "933 °C".length; letters > 0; letters -= 1) {
    await page.keyboard.press("Backspace");
    seen.push(await page.inputValue(TOP));
  }
  assert.deepEqual(seen, ["933 °", "933 ", "933", "93", "9", ""]);
  for (const [at, letter] of [..."941"].entries()) {
    await page.keyboard.press(letter);
    assert.equal(await page.inputValue(TOP), "941".slice(0, at + 1));
  }
  await page.keyboard.press("Tab");
  assert.equal(await page.inputValue(TOP), "941 °C");
  await whole();
});

test("stages are put in and taken out", async () => {
  await page.click("text=Add heating");
  await page.waitForSelector("#program-dentine-on-metal-heating-2-to");
  await whole();
  await page.click('[aria-label="Take out Heating 2"]');
  await page.waitForSelector("#program-dentine-on-metal-heating-2-to", { state: "detached" });
  await whole();
  assert.equal(await page.$(".bench-draft"), null);
});

test("a value that a finding advises is put into the table", async () => {
  await page.fill(TOP, "953 °C");
  await whole();
  await page.locator("text=/^Put .* into the table$/").first().click();
  await whole();
  assert.notEqual(await page.inputValue(TOP), "953 °C");
});

test("each finding is explained", async () => {
  await whole();
  await page.click(".found-help");
  await page.waitForSelector(".dialog .help");
  assert.ok((await page.textContent(".dialog .help")).length > 80);
});

test("what is typed survives a reload and a server that is away, and nothing looks kept", async () => {
  await page.fill(TOP, "940 °C");
  await whole();
  await draftWaits();
  await server.halt();
  await page.fill(TOP, "941 °C");
  await page.waitForSelector(".standing-wrong");
  assert.match(await standing(), /out of reach/);
  await server.start();
  await page.locator(".banner-offline").waitFor({ state: "detached", timeout: 15000 });
  await page.reload();
  await page.waitForSelector(".firing-picture");
  assert.equal(await page.inputValue(TOP), "941 °C");
  await draftWaits();
  await whole();
  await page.click("text=As kept");
  await page.waitForSelector(".bench-draft", { state: "detached" });
});

test("a planned firing is kept with its program under a name of its own, then keyed in and started", async () => {
  await page.fill(TOP, "943 °C");
  await whole();
  await page.click(".bench-actions .button-primary");
  await page.fill('.dialog label:has-text("Name of the firing") + input', "tried-hotter");
  await page.click(".dialog >> text=a program of its own");
  await page.fill('.dialog label:has-text("Name of the new program") + input', "dentine-on-metal-hotter");
  await page.fill('.dialog label:has-text("Reason") + input', "trial on a tab");
  await page.click(".dialog .button-primary");
  await page.waitForURL("**/firing/tried-hotter");
  await page.waitForSelector(".firing-picture");
  assert.equal(await page.inputValue("#program-dentine-on-metal-hotter-heating-1-to"), "943 °C");
  // The demo lab's own firing in that furnace ends first.
  await page.evaluate(async () => {
    const { token } = await (await fetch("/api/session")).json();
    const { firings } = await (await fetch("/api/today")).json();
    for (const { name, pieces } of firings.filter((each) => each.state === "started" && each.furnace.startsWith("corner")))
      await fetch(`/api/firings/${name}/end`, { method: "POST", headers: { "Content-Type": "application/json", "Heatwork-Token": token }, body: JSON.stringify({ pieces: pieces.map(({ piece }) => ({ piece, outcome: "as wanted" })) }) });
  });
  await page.click("text=Start the firing");
  for (const box of await page.$$(".key-in input[type=checkbox]")) await box.check();
  await page.click(".dialog .button-primary");
  await page.waitForURL("**/today");
  const kept = await page.evaluate(async () => (await fetch("/api/documents/firing/tried-hotter")).json());
  assert.equal(kept.values.find(({ key }) => key === "record.state").typed, "started");
});

test("a draft that a newer version outran shows both, and is laid over it on wish", async () => {
  await page.fill(TOP, "937 °C");
  await whole();
  await draftWaits();
  const change = { from: 1, set: { entry: "500 °C" }, reason: "a newer version" };
  await page.evaluate(async (body) => {
    const { token } = await (await fetch("/api/session")).json();
    await fetch("/api/documents/program/dentine-on-metal", { method: "PUT", headers: { "Content-Type": "application/json", "Heatwork-Token": token }, body: JSON.stringify(body) });
  }, change);
  await page.reload();
  await page.waitForSelector(".dialog .conflict-sides");
  assert.match(await page.textContent(".dialog"), /937 °C/);
  await page.click(".dialog >> text=Lay my changes over the newer version");
  await whole();
  assert.equal(await page.inputValue(TOP), "937 °C");
  assert.equal(await page.inputValue("#program-dentine-on-metal-entry"), "500 °C");
  await go(page, "/firing");
});

test("keeping over a version that somebody else's outran shows both, and keeps on wish", async () => {
  const program = "dentine-on-metal-hotter";
  const top = `#program-${program}-heating-1-to`;
  const stands = () => page.evaluate(async (name) => (await fetch(`/api/documents/program/${name}`)).json(), program);
  await openFiring(page, "tried-hotter");
  await page.fill(top, "939 °C");
  await whole();
  await page.evaluate(async (name) => {
    const { token } = await (await fetch("/api/session")).json();
    const body = { from: 1, set: { entry: "505 °C" }, reason: "kept in the meantime" };
    await fetch(`/api/documents/program/${name}`, { method: "PUT", headers: { "Content-Type": "application/json", "Heatwork-Token": token }, body: JSON.stringify(body) });
  }, program);
  const keep = async () => {
    await page.click(".bench-actions .button-primary");
    await page.fill('.dialog label:has-text("Name of the firing") + input', "kept-late");
    await page.fill('.dialog label:has-text("Reason") + input', "mine as well");
    await page.click(".dialog .button-primary");
  };
  await keep();
  await page.waitForSelector(".dialog .conflict-sides");
  await page.waitForSelector('.dialog :text("505 °C")');
  assert.match(await page.textContent(".dialog"), /939 °C/);
  assert.equal(await page.evaluate(async () => (await fetch("/api/documents/firing/kept-late")).status), 404);
  assert.equal((await stands()).newest, 2);
  await page.click(".dialog >> text=Lay my changes over the newer version");
  await page.waitForSelector(".dialog .conflict-sides", { state: "detached" });
  await whole();
  assert.equal(await page.inputValue(`#program-${program}-entry`), "505 °C");
  if (await page.$(".dialog")) await page.keyboard.press("Escape");
  await keep();
  await page.waitForURL("**/firing/kept-late");
  const { newest, values } = await stands();
  assert.equal(newest, 3);
  assert.deepEqual(["entry", "heating[1].to"].map((key) => values.find((each) => each.key === key).typed), ["505 °C", "939 °C"]);
});
