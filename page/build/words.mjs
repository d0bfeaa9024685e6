// Reads data/words/page/{en,de}/*.toml and writes the catalogue the page is typed by; whatever is missing or too much in one language ends the build.
import { mkdirSync, readdirSync, readFileSync, writeFileSync, existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parse } from "smol-toml";

const LANGUAGES = ["en", "de"];
const PLURAL = ["one", "other"];
const here = dirname(fileURLToPath(import.meta.url));
export const folder = join(here, "../../data/words/page");
const generated = join(here, "../generated");

function isPlural(value) {
  const keys = Object.keys(value);
  return keys.length === 2 && PLURAL.every((key) => typeof value[key] === "string");
}

/** All words of a table as flat entries: "screen.table.key" to a sentence, or to its plural forms. */
export function flattened(table, before) {
  const found = {};
  for (const [key, value] of Object.entries(table)) {
    const name = `${before}.${key}`;
    if (!/^[a-z][a-z0-9_]*$/.test(key)) throw new Error(`${name}: a key is lower case with underscores.`);
    if (typeof value === "string") found[name] = value;
    else if (typeof value !== "object" || value === null || Array.isArray(value)) throw new Error(`${name} is neither a sentence nor a table.`);
    else if (isPlural(value)) found[name] = { one: value.one, other: value.other };
    else Object.assign(found, flattened(value, name));
  }
  return found;
}

/** The gaps of a sentence or of plural forms, sorted: "since {time}" has "time". */
export function gaps(entry) {
  const text = typeof entry === "string" ? entry : `${entry.one} ${entry.other}`;
  return [...new Set([...text.matchAll(/\{([a-z_]+)\}/g)].map((match) => match[1]))].sort();
}

function read(language) {
  const place = join(folder, language);
  const words = {};
  for (const file of readdirSync(place).filter((name) => name.endsWith(".toml")).sort()) {
    const screen = file.slice(0, -".toml".length).replaceAll("-", "_");
    const { format, ...tables } = parse(readFileSync(join(place, file), "utf8"));
    if (format !== 1) throw new Error(`${language}/${file} does not begin with format = 1.`);
    Object.assign(words, flattened(tables, screen));
  }
  return words;
}

/** What differs between two languages, a sentence each: keys, kinds of entry and gaps must be the same. */
export function differences(first, second, names = LANGUAGES) {
  const wrong = [];
  const missing = (from, to, name) => Object.keys(from).filter((key) => !(key in to)).forEach((key) => wrong.push(`${key} is missing in ${name}.`));
  missing(first, second, names[1]);
  missing(second, first, names[0]);
  for (const key of Object.keys(first)) {
    const [a, b] = [first[key], second[key]];
    if (a === undefined || b === undefined) continue;
    if (typeof a !== typeof b) wrong.push(`${key} has plural forms in one language only.`);
    else if (gaps(a).join() !== gaps(b).join()) wrong.push(`${key} has the gaps {${gaps(a)}} in ${names[0]} and {${gaps(b)}} in ${names[1]}.`);
    if ([a, b].some((entry) => (typeof entry === "string" ? entry : entry.one && entry.other)?.trim() === "")) wrong.push(`${key} is empty.`);
  }
  return wrong;
}

function typeOf(entry) {
  const names = gaps(entry).map((gap) => JSON.stringify(gap));
  return `{ plural: ${typeof entry !== "string"}; gaps: ${names.length ? names.join(" | ") : "never"} }`;
}

function written(name, text) {
  const place = join(generated, name);
  if (!existsSync(place) || readFileSync(place, "utf8") !== text) writeFileSync(place, text);
}

/** Reads, compares and writes all; throws with every difference in one message. */
export function makeCatalogue() {
  const [en, de] = LANGUAGES.map(read);
  const wrong = differences(en, de);
  if (wrong.length) throw new Error(`The words of the page differ between the languages:\n  ${wrong.join("\n  ")}`);
  mkdirSync(generated, { recursive: true });
  const head = "// Made by build/words.mjs from data/words/page; not edited.\n";
  const keys = Object.keys(en).sort();
  written("keys.ts", `${head}export interface Words {\n${keys.map((key) => `  ${JSON.stringify(key)}: ${typeOf(en[key])};`).join("\n")}\n}\n`);
  const only = (words, test) => Object.fromEntries(keys.filter(test).map((key) => [key, words[key]]));
  const file = (words) => `${head}import type { Catalogue } from "../src/words/catalogue";\nexport const words: Catalogue = ${JSON.stringify(words, null, 1)};\n`;
  written("en.ts", file(only(en, () => true)));
  written("de.ts", file(only(de, () => true)));
  const small = (key) => /^(sign_in|parts)\./.test(key);
  written("sign_in.ts", `${head}import type { Catalogue } from "../src/words/catalogue";\nexport const en: Catalogue = ${JSON.stringify(only(en, small), null, 1)};\nexport const de: Catalogue = ${JSON.stringify(only(de, small), null, 1)};\n`);
  return keys.length;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    console.log(`${makeCatalogue()} words of the page in ${LANGUAGES.join(" and ")}.`);
  } catch (error) {
    console.error(error.message);
    process.exit(1);
  }
}
