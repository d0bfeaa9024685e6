// The page on paper: printed by the browser as PDF, read back as text.
import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "./packages.mjs";

const FOLDER = join(ROOT, "build/screens");
export const PAPERS = ["A4", "Letter"];

/** Prints what the page shows; gives the text of each sheet. */
export async function printed(page, name, paper) {
  mkdirSync(FOLDER, { recursive: true });
  const path = join(FOLDER, `${name}-${paper}.pdf`);
  writeFileSync(path, await page.pdf({ format: paper, preferCSSPageSize: false }));
  const text = execFileSync("pdftotext", ["-layout", path, "-"], { encoding: "utf8" });
  return { path, sheets: text.split("\f").slice(0, -1) };
}

/** What is wrong with a print: too many or empty sheets, the standing words not on each of them. */
export function wrongOnPaper(sheets, words, most) {
  const plain = (text) => text.replace(/\s+/g, " ");
  const wrong = [];
  if (sheets.length > most) wrong.push(`${sheets.length} sheets where ${most} do`);
  sheets.forEach((sheet, number) => {
    if (!plain(sheet).trim()) wrong.push(`sheet ${number + 1} is empty`);
    for (const each of words) {
      if (!plain(sheet).includes(each)) wrong.push(`sheet ${number + 1} does not say "${each}"`);
    }
  });
  return wrong;
}
