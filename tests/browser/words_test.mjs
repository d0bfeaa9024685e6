// Words without an end and text as somebody pastes it: they break, stay text, and widen no screen.
import assert from "node:assert/strict";
import { test } from "node:test";
import { cutText, screenshot, sideways } from "./harness/looks.mjs";
import { go, open } from "./harness/browser.mjs";
import { browser, server, stage } from "./harness/stage.mjs";

const ENDLESS = `<b>&amp;${"Zirkonoxidgerüst".repeat(18)}`;
const NAME = "a".repeat(60);
const CHANGED = ["case/k-0417", "piece/crown-16", "program/dentine-on-zirconia", "furnace/corner", "lot/veneer-31-7", "tray/light", "firing/metal-ceramic-firing"];

stage("demo", async () => {
  await server.ask("PUT", "/api/session/demo", { demo: true }).catch(() => server.ask("POST", "/api/demo", {}));
  await server.ask("PUT", "/api/session/demo", { demo: true });
  for (const path of CHANGED) {
    const { version } = await server.ask("GET", `/api/documents/${path}`);
    await server.ask("PUT", `/api/documents/${path}`, { from: version, reason: ENDLESS, set: { label: ENDLESS, note: ENDLESS } });
  }
  await server.ask("PUT", "/api/documents/case/k-0429", { from: 1, reason: "pasted", set: { next_step: ENDLESS } });
  await server.ask("POST", "/api/documents/case", { name: NAME, set: { label: ENDLESS }, reason: ENDLESS });
});

const PATHS = [
  "/today", "/firing", "/firing/metal-ceramic-firing", "/programs", "/programs/dentine-on-zirconia", "/programs/dentine-on-zirconia?change=1", "/furnaces", "/furnaces/corner",
  "/records", "/records/case/k-0417", `/records/case/${NAME}`, "/records/piece/crown-16", "/records/lot/veneer-31-7", "/records/questions?question=lot&of=veneer-31-7", "/records/questions?question=due", "/records/trail",
  `/search?word=${"W".repeat(80)}`, "/search?word=Zirkon", "/setup",
];

for (const size of ["hand", "desk"]) {
  test(`a label, a note, a reason and a name without an end, ${size}`, async () => {
    const page = await open(browser, server, { size });
    const wrong = [];
    for (const path of PATHS) {
      await go(page, path);
      await screenshot(page, `endless${path.replace(/\W+/g, "-").slice(0, 40)}-${size}`);
      wrong.push(...[...(await sideways(page)), ...(await cutText(page))].map((one) => `${path.slice(0, 60)}: ${one}`));
    }
    assert.deepEqual(wrong, []);
    assert.deepEqual(page.wrong, []);
    await page.context().close();
  });
}
