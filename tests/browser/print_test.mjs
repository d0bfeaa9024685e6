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
