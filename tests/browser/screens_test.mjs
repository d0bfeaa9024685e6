// Every screen in both sizes, shades and languages, with the demo lab and with nothing in it: no rule of axe-core broken, nothing cut off or
// too small to touch, nothing sideways, nothing said to the console or refused by the policy. Pictures go to build/screens.
// In short runs the ways of looking are dealt out over the screens, so that each value of each is met; full counts take every one with every other.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { go, LANGUAGES, launch, open, SHADES, SIZES } from "./harness/browser.mjs";
import { everythingWrong } from "./harness/looks.mjs";
import { Server } from "./harness/server.mjs";
import { LABS, SCREENS } from "./screens.mjs";

const LONG = Boolean(process.env.HEATWORK_LONG);
const ONLY = process.env.HEATWORK_SCREENS?.split(",");
const servers = {};
let browser;

before(async () => {
  browser = await launch();
  for (const lab of LABS) servers[lab] = await Server.start(lab);
});

after(async () => {
  await browser?.close();
  for (const server of Object.values(servers)) await server.stop();
});

function* ways() {
  const screens = SCREENS.filter(({ name }) => !ONLY || ONLY.includes(name));
  for (const [number, screen] of screens.entries()) {
    for (const lab of LABS.filter((each) => !screen.when || screen.when === each)) {
      for (const [turn, size] of Object.keys(SIZES).entries()) {
        for (const [at, shade] of SHADES.entries()) {
          for (const [by, language] of LANGUAGES.entries()) {
            const dealt = at === (number + turn) % 2 && by === (number + turn + LABS.indexOf(lab)) % 2;
            if (LONG || ONLY || dealt) yield { screen, lab, size, shade, language };
          }
        }
      }
    }
  }
}

const kept = new Map();

/** One page a way of looking, gone through screen by screen as a person does. */
async function pageFor({ lab, size, shade, language }) {
  const key = [lab, size, shade, language].join(" ");
  if (!kept.has(key)) kept.set(key, await open(browser, servers[lab], { size, shade, language }));
  const page = kept.get(key);
  page.wrong.length = 0;
  return page;
}

for (const way of ways()) {
  const name = [way.screen.name, way.lab, way.size, way.shade, way.language].join("-");
  test(name, async () => {
    const page = await pageFor(way);
    await go(page, way.screen.path);
    assert.equal(await page.evaluate(() => document.documentElement.lang), way.language);
    assert.deepEqual(await everythingWrong(page, name), []);
  });
}
