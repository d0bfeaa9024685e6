// Each screen on paper, A4 and Letter: no more sheets than it needs, none empty, and the standing words on every one of them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { go, open } from "./harness/browser.mjs";
import { PAPERS, printed, wrongOnPaper } from "./harness/paper.mjs";
import { browser, server, stage } from "./harness/stage.mjs";
import { SCREENS } from "./screens.mjs";

const WORDS = {
  en: ["Only the responsible professional releases a restoration. Not a medical device.", "everything here is invented"],
  de: ["Nur die verantwortliche Fachperson gibt eine Restauration frei. Kein Medizinprodukt.", "Hier ist alles erfunden"],
};
stage();

const WHOLE = ".standing-whole";
const plain = (sheets) => sheets.join(" ").replace(/\s+/g, " ");

for (const [at, screen] of SCREENS.filter(({ most }) => most).entries()) {
  for (const [by, paper] of PAPERS.entries()) {
    const language = (at + by) % 2 ? "de" : "en";
    test(`${screen.name} on ${paper}, ${language}`, async () => {
      // Printed from the dark shade too: paper is white.
      const page = await open(browser, server, { language, shade: at % 2 ? "dark" : "light" });
      await go(page, screen.path);
      const { sheets } = await printed(page, `${screen.name}-${language}`, paper);
      assert.deepEqual(wrongOnPaper(sheets, WORDS[language], screen.most), []);
      assert.deepEqual(page.wrong, []);
      await page.context().close();
    });
  }
}

for (const [paper, language] of [["A4", "de"], ["Letter", "en"]]) {
  test(`a firing rehearsed whole takes two sheets of ${paper}, with its picture and findings and nothing to excuse`, async () => {
    const page = await open(browser, server, { language, size: "desk" });
    await go(page, "/firing/metal-ceramic-firing");
    await page.waitForSelector(WHOLE, { state: "attached", timeout: 60000 });
    const { sheets } = await printed(page, `firing-whole-${language}`, paper);
    assert.deepEqual(wrongOnPaper(sheets, WORDS[language], 2), []);
    assert.match(plain(sheets), language === "de" ? /grenzwertig/ : /borderline/);
    assert.doesNotMatch(plain(sheets), /NOT REHEARSED|NICHT ZU ENDE/);
    await page.context().close();
  });
}

test("a sheet printed too early, or while the server is away, says what it is", async () => {
  const page = await open(browser, server, {});
  let held = true;
  await page.route("**/api/rehearse**", async (route) => (held ? undefined : route.abort("connectionrefused")));
  await go(page, "/firing/metal-ceramic-firing");
  const early = await printed(page, "firing-early", "A4");
  assert.match(plain(early.sheets), /NOT REHEARSED TO THE END when this was printed/);
  held = false;
  await page.unroute("**/api/rehearse**");
  await page.reload();
  await page.waitForSelector(WHOLE, { state: "attached", timeout: 60000 });
  await page.route("**/api/**", (route) => route.abort("connectionrefused"));
  await page.fill("#program-dentine-on-metal-heating-1-to", "901 °C");
  await page.waitForSelector(".standing-wrong", { state: "attached" });
  const away = await printed(page, "firing-away", "A4");
  assert.match(plain(away.sheets), /Not of these values, if any was typed since/);
  await page.context().close();
});
