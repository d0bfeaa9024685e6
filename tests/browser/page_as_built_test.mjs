// The page as it was built: its types hold and a wrong one is refused, nothing in it is inline or from elsewhere, and it is small.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { gzipSync } from "node:zlib";
import { ROOT } from "./harness/packages.mjs";

const PAGE = join(ROOT, "page");
const DIST = join(PAGE, "dist");
const MOST_KB = 250;

function tsc(project) {
  const done = spawnSync(process.execPath, [join(PAGE, "node_modules/typescript/bin/tsc"), "--noEmit", "-p", project], { cwd: PAGE, encoding: "utf8" });
  return { code: done.status, said: done.stdout + done.stderr };
}

function built(folder = DIST) {
  return readdirSync(folder, { withFileTypes: true, recursive: true }).filter((each) => each.isFile()).map((each) => join(each.parentPath ?? each.path, each.name));
}

test("the types of the whole page hold", () => {
  assert.deepEqual(tsc(PAGE), { code: 0, said: "" });
});

test("a value of a wrong type and a word that is in no catalogue are refused", () => {
  const folder = join(PAGE, "src/planted");
  mkdirSync(folder, { recursive: true });
  try {
    writeFileSync(join(folder, "planted.ts"), 'import { t } from "../words";\nexport const number: number = "text";\nexport const word = t("programs.no_such_word");\n');
    const { code, said } = tsc(PAGE);
    assert.notEqual(code, 0);
    assert.match(said, /planted\.ts\(2,14\): error TS2322/);
    assert.match(said, /planted\.ts\(3,\d+\): error TS2\d+/);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("no script and no style stands in the pages themselves, and nothing comes from elsewhere", () => {
  const pages = built().filter((path) => path.endsWith(".html"));
  assert.ok(pages.length >= 2, "the page and the page to sign in");
  for (const path of pages) {
    const text = readFileSync(path, "utf8");
    assert.doesNotMatch(text, /<script(?![^>]*\bsrc=)|<style|\bstyle=|\son\w+=/i, path);
    assert.doesNotMatch(text, /(?:src|href)="(?!\/)/, path);
  }
  for (const path of built().filter((each) => /\.(js|css)$/.test(each))) {
    const outside = [...readFileSync(path, "utf8").matchAll(/https?:\/\/[\w.-]+/g)].map(([address]) => address).filter((address) => !/\/\/(www\.w3\.org|localhost|127\.0\.0\.1)/.test(address));
    assert.deepEqual(outside, [], path);
    assert.doesNotMatch(readFileSync(path, "utf8"), /\beval\(|new Function\(/, path);
  }
});

test(`all of it is at most ${MOST_KB} kB gzipped`, (context) => {
  const bytes = built().reduce((sum, path) => sum + gzipSync(readFileSync(path)).length, 0);
  context.diagnostic(`${(bytes / 1000).toFixed(1)} kB gzipped`);
  assert.ok(bytes <= MOST_KB * 1000, `${bytes} bytes`);
});
