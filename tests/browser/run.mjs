// Runs one file of browser proofs, or the units of the page: run.mjs FILE_test.mjs | units. Results as XML where HEATWORK_RESULT says.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const HERE = dirname(fileURLToPath(import.meta.url));
const ROOT = join(HERE, "../..");
const what = process.argv[2];
const result = process.env.HEATWORK_RESULT || join(ROOT, `build/${what.replace(/\W/g, "_")}.xml`);

/** What this machine lacks is one check skipped with its reason; ./test brings all of it. */
function skip(reason) {
  const words = reason.replace(/[&<"]/g, " ");
  writeFileSync(result, `<testsuites><testsuite name="${what}"><testcase name="${what}"><skipped message="${words}"/></testcase></testsuite></testsuites>\n`);
  console.log(`skipped: ${reason}`);
  process.exit(0);
}

mkdirSync(dirname(result), { recursive: true });
let command;
if (what === "units") {
  if (!existsSync(join(ROOT, "page/node_modules"))) skip("what the page is built with is not here; ./run serve brings it");
  command = [join(ROOT, "page/node_modules/vitest/vitest.mjs"), "run", "--reporter=default", "--reporter=junit", `--outputFile.junit=${result}`];
} else {
  if (!existsSync(process.env.HEATWORK_CHROMIUM || "/usr/bin/chromium")) skip("chromium is not installed");
  try {
    await import("./harness/packages.mjs");
  } catch (error) {
    skip(error.message);
  }
  command = ["--test", "--test-concurrency=1", "--test-reporter=spec", "--test-reporter-destination=stdout", "--test-reporter=junit",
    `--test-reporter-destination=${result}`, join(HERE, what)];
}
process.exit(spawnSync(process.execPath, command, { cwd: what === "units" ? join(ROOT, "page") : ROOT, stdio: ["ignore", "inherit", "inherit"] }).status ?? 1);
