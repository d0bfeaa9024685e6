// Ends the build when the page weighs more than it may, or holds an inline script or style; says what it weighs.
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import { gzipSync } from "node:zlib";
import { dist, files } from "./files.mjs";

const MOST_BYTES = 250_000;

let whole = 0;
for (const file of files(dist)) {
  const text = readFileSync(file);
  whole += gzipSync(text).length;
  if (file.endsWith(".html") && /<script(?![^>]*\bsrc=)|<style|\son\w+=|\sstyle=/.test(text.toString())) {
    console.error(`${relative(dist, file)} holds an inline script or style.`);
    process.exit(1);
  }
}
console.log(`The page weighs ${(whole / 1000).toFixed(1)} kB gzipped; it may weigh ${MOST_BYTES / 1000} kB.`);
if (whole > MOST_BYTES) process.exit(1);
