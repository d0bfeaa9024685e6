// The words of the page in the language that is asked for, as signals: what shows a word is drawn anew when the language changes.
import { signal } from "@preact/signals";
import type { Words } from "../../generated/keys";

export type Language = "en" | "de";
export type Word = keyof Words;
type PluralWord = { [K in Word]: Words[K]["plural"] extends true ? K : never }[Word];
type Sentence = Exclude<Word, PluralWord>;
type GapsOf<K extends Word> = Words[K]["gaps"];
/** Sentences without a gap: what a table of words may hold. */
export type PlainWord = { [K in Sentence]: [Words[K]["gaps"]] extends [never] ? K : never }[Sentence];
type Filling<K extends Word> = { [G in GapsOf<K>]: string | number };
/** The gaps to be filled are asked for by type; a sentence without gaps takes none. */
type Gaps<K extends Word> = [GapsOf<K>] extends [never] ? [] : [filling: Filling<K>];
type CountedGaps<K extends Word> = [Exclude<GapsOf<K>, "count">] extends [never] ? [] : [filling: { [G in Exclude<GapsOf<K>, "count">]: string | number }];

export type Catalogue = Readonly<Record<string, string | { readonly one: string; readonly other: string }>>;

const shown = signal<{ language: Language; words: Catalogue }>({ language: "en", words: {} });

export function language(): Language {
  return shown.value.language;
}

export function show(next: Language, words: Catalogue): void {
  shown.value = { language: next, words };
  if (typeof document !== "undefined") document.documentElement.lang = next;
}

function filled(text: string, filling: Readonly<Record<string, string | number>>): string {
  return text.replace(/\{([a-z_]+)\}/g, (whole, gap: string) => (gap in filling ? String(filling[gap]) : whole));
}

/** The sentence of a key, its gaps filled; numbers in gaps are handed in as text already written for the reader. */
export function t<K extends Sentence>(key: K, ...gaps: Gaps<K>): string {
  const entry = shown.value.words[key];
  return typeof entry === "string" ? filled(entry, gaps[0] ?? {}) : key;
}

/** The form of a key that goes with a number; {count} in it becomes the number. */
export function counted<K extends PluralWord>(key: K, count: number, ...gaps: CountedGaps<K>): string {
  const { language: now, words } = shown.value;
  const entry = words[key];
  if (typeof entry !== "object") return key;
  const form = new Intl.PluralRules(now).select(count) === "one" ? entry.one : entry.other;
  return filled(form, { ...gaps[0], count: new Intl.NumberFormat(now).format(count) });
}
