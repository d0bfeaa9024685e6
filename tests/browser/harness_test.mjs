// The checks of the harness against pages with one planted fault each: a check that cannot fail proves nothing.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { after, before, test } from "node:test";
import { launch, open } from "./harness/browser.mjs";
import { focused, tabRound, tabTo } from "./harness/keyboard.mjs";
import { axe, cutText, sideways, smallTargets, strayWords } from "./harness/looks.mjs";
import { printed, wrongOnPaper } from "./harness/paper.mjs";

const SOUND = `<main><h1>Programs</h1><p>Found by piece and material.</p>
  <p>See <a href="#theory">the theory</a> for what that means to a piece.</p>
  <button type="button">Keep it</button> <label><input type="checkbox"> Closed cases too</label></main>`;
const STYLE = `body { font: 16px sans-serif; margin: 8px; color: #222; background: #fff; } button, label { min-height: 44px; min-width: 44px; display: inline-block; }
  :focus-visible { outline: 3px solid #222; } @media print { button { display: none; } }`;

const PLANTED = {
  sound: [SOUND],
  contrast: [SOUND.replace("<p>Found", '<p class="faint">Found'), ".faint { color: #ccc; }"],
  unlabelled: [SOUND + '<input type="text" class="tall">', ".tall { min-height: 44px; min-width: 90px; }"],
  wide: [SOUND + '<div class="wide">wide</div>', ".wide { width: 3000px; }"],
  small: [SOUND + '<button type="button" class="small">go</button>', ".small { min-height: 20px; height: 20px; min-width: 20px; }"],
  cut: [SOUND + '<p class="cut">A sentence that is far too long for its box</p>', ".cut { width: 60px; overflow: hidden; white-space: nowrap; text-overflow: ellipsis; }"],
  low: [SOUND + '<p class="low">Two lines<br>where one has room</p>', ".low { height: 18px; overflow: hidden; }"],
  stray: [SOUND + "<p>Last used undefined, programs.list.empty</p>"],
  console: [SOUND, "", "console.error('it broke');"],
  uncaught: [SOUND, "", "throw new Error('nobody caught this');"],
  policy: [SOUND + '<p style="color: #111">inline style</p>'],
  unseen_focus: [SOUND, "button:focus-visible { outline: none; }"],
};

let server, browser;
const pages = new Map();

before(async () => {
  server = createServer((request, answer) => {
    const [, name, part] = request.url.split("/");
    const planted = PLANTED[name];
    if (!planted) return void answer.writeHead(404).end();
    const type = part === "look.css" ? "text/css" : part === "do.js" ? "text/javascript" : "text/html; charset=utf-8";
    const body = part === "look.css" ? STYLE + (planted[1] ?? "") : part === "do.js" ? planted[2] ?? "" : `<!doctype html><html lang="en"><head><title>Planted</title>
      <meta name="viewport" content="width=device-width, initial-scale=1"><link rel="icon" href="data:,"><link rel="stylesheet" href="/${name}/look.css">
      <script src="/${name}/do.js" defer></script></head><body>${planted[0]}</body></html>`;
    answer.writeHead(200, { "Content-Type": type, "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:" }).end(body);
  });
  await new Promise((go) => server.listen(0, "127.0.0.1", go));
  server.address = `http://127.0.0.1:${server.address().port}`;
  browser = await launch();
});

after(async () => {
  await browser?.close();
  server?.close();
});

async function planted(name, size = "desk") {
  const key = `${name} ${size}`;
  if (!pages.has(key)) {
    const page = await open(browser, server, { size });
    await page.goto(`/${name}/`, { waitUntil: "load" });
    pages.set(key, page);
  }
  return pages.get(key);
}

test("a sound page passes every check in both sizes", async () => {
  for (const size of ["desk", "hand"]) {
    const page = await planted("sound", size);
    for (const check of [axe, sideways, smallTargets, cutText, strayWords]) assert.deepEqual(await check(page), [], `${check.name} ${size}`);
    assert.deepEqual(page.wrong, []);
  }
});

for (const [fault, check, said] of [
  ["contrast", axe, /axe color-contrast: \.faint/],
  ["unlabelled", axe, /axe label/],
  ["wide", sideways, /wider than the window: <div class="wide"/],
  ["small", smallTargets, /a target of \d+×20 px: <button/],
  ["cut", cutText, /cut off or running over: "A sentence/],
  ["low", cutText, /cut off or running over: "Two lines/],
  ["stray", strayWords, /"undefined"/],
]) {
  test(`${fault} is seen`, async () => {
    assert.match((await check(await planted(fault))).join("\n"), said);
  });
}

test("a word that is no word of the catalogue is seen", async () => {
  assert.match((await strayWords(await planted("stray"))).join("\n"), /"programs\.list\.empty"/);
});

for (const [fault, said] of [["console", /it broke/], ["uncaught", /uncaught: nobody caught this/], ["policy", /style/]]) {
  test(`${fault} is on record`, async () => {
    assert.match((await planted(fault)).wrong.join("\n"), said);
  });
}

test("the keyboard goes from stop to stop and says where it is", async () => {
  const page = await planted("sound");
  assert.equal(await tabRound(page), 3);
  const way = await tabTo(page, "button");
  assert.equal(way.at(-1).label, "Keep it");
  assert.equal((await focused(page)).tag, "button");
  await assert.rejects(tabTo(page, "#nowhere", 9), /Tab never came to #nowhere/);
});

test("a stop that does not show that it has the focus is refused", async () => {
  await assert.rejects(tabTo(await planted("unseen_focus"), "input"), /nothing shows that this has the focus: <button/);
});

test("a print is read back, sheet by sheet", async () => {
  const { sheets } = await printed(await planted("sound"), "planted-sound", "A4");
  assert.deepEqual(wrongOnPaper(sheets, ["Found by piece"], 1), []);
  assert.deepEqual(wrongOnPaper(sheets, ["Not a medical device"], 1), ['sheet 1 does not say "Not a medical device"']);
  assert.deepEqual(wrongOnPaper(["a", " "], [], 1), ["2 sheets where 1 do", "sheet 2 is empty"]);
});
