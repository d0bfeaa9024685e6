// What drives the browser and judges screens, at the versions of tests/browser/package.json: brought by npm into the build folder once.
import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), "../../..");
const OWN = join(ROOT, "tests/browser");
const PLACE = join(ROOT, "build/browser_proof");

function sameLock() {
  const there = join(PLACE, "brought.json");
  return existsSync(there) && readFileSync(there, "utf8") === readFileSync(join(OWN, "package-lock.json"), "utf8");
}

function bring() {
  mkdirSync(PLACE, { recursive: true });
  for (const name of ["package.json", "package-lock.json", ".npmrc"]) copyFileSync(join(OWN, name), join(PLACE, name));
  const done = spawnSync("npm", ["ci", "--ignore-scripts", "--no-audit", "--no-fund", "--fetch-retries=1"], { cwd: PLACE, encoding: "utf8" });
  if (done.status !== 0) throw new Error(`npm could not bring what drives the browser: ${(done.stderr || "it said nothing").trim().split("\n")[0]}`);
  copyFileSync(join(OWN, "package-lock.json"), join(PLACE, "brought.json"));
}

if (!sameLock()) bring();
const require = createRequire(join(PLACE, "package.json"));
export const { chromium } = require("playwright-core");
export const AXE = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
