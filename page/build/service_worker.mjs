// Writes dist/sw.js: which files the service worker keeps, and a name for the set that changes when one of them does.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { relative } from "node:path";
import { dist, files } from "./files.mjs";

const names = files(dist)
  .map((file) => relative(dist, file))
  .filter((name) => name !== "sw.js" && !name.startsWith("sign-in/"))
  .sort();
const hash = createHash("sha256");
const template = readFileSync(new URL("../service_worker/sw.js", import.meta.url), "utf8");
hash.update(template);
for (const name of names) hash.update(name).update(readFileSync(`${dist}/${name}`));
const paths = names.map((name) => (name === "index.html" ? "/" : `/${name}`));
const written = template
  .replace(/\/\* the files[^*]*\*\/ \[\]/, () => JSON.stringify(paths, null, 1))
  .replace(/\/\* their hash \*\/ ""/, () => JSON.stringify(hash.digest("hex").slice(0, 16)));
if (!written.includes(paths[0] ?? "\0") || written.includes("/* their hash */")) throw new Error("service_worker/sw.js has no place for files or hash.");
writeFileSync(`${dist}/sw.js`, written);
