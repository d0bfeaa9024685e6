// Which language, units and shade are shown: what the person chose on this device, else the lab's, else the browser's.
import { computed, signal } from "@preact/signals";
import { kept, keep, forget } from "../state/kept";
import { show, type Language } from "./catalogue";

export type Units = "celsius" | "fahrenheit";
export type Shade = "light" | "dark";
export interface Choice {
  language?: Language;
  units?: Units;
  shade?: Shade;
}

const PLACE = "choice";
const ofDevice = signal<Choice>({});
const ofLab = signal<Choice>({});
const darkWished = signal(false);

export function asLanguage(text: string | null | undefined): Language | undefined {
  return text?.startsWith("de") ? "de" : text?.startsWith("en") ? "en" : undefined;
}

export function asUnits(text: string | null | undefined): Units | undefined {
  return text === "celsius" || text === "fahrenheit" ? text : undefined;
}

function browsers(): Language {
  const asked = typeof navigator === "undefined" ? [] : navigator.languages;
  for (const one of asked) {
    const found = asLanguage(one);
    if (found) return found;
  }
  return "en";
}

export const wantedLanguage = computed<Language>(() => ofDevice.value.language ?? ofLab.value.language ?? browsers());
export const units = computed<Units>(() => ofDevice.value.units ?? ofLab.value.units ?? "celsius");
export const shade = computed<Shade>(() => ofDevice.value.shade ?? (darkWished.value ? "dark" : "light"));
export const chosenHere = computed<Choice>(() => ofDevice.value);

async function load(language: Language): Promise<void> {
  const found = language === "de" ? await import("../../generated/de") : await import("../../generated/en");
  if (wantedLanguage.value === language) show(language, found.words);
}

function paint(): void {
  const root = document.documentElement;
  const chosen = ofDevice.value.shade;
  if (chosen) root.dataset["shade"] = chosen;
  else delete root.dataset["shade"];
}

/** Reads what this device chose and loads its words; before anything is drawn. */
export async function beginWithChoice(): Promise<void> {
  ofDevice.value = kept<Choice>(PLACE) ?? {};
  const wish = matchMedia("(prefers-color-scheme: dark)");
  darkWished.value = wish.matches;
  wish.addEventListener("change", (event) => (darkWished.value = event.matches));
  paint();
  await load(wantedLanguage.value);
}

/** A person's choice on this device; an undefined member goes back to the lab's. */
export async function choose(change: { [K in keyof Choice]: Choice[K] | undefined }): Promise<void> {
  const next: Choice = {};
  const all = { ...ofDevice.value, ...change };
  if (all.language) next.language = all.language;
  if (all.units) next.units = all.units;
  if (all.shade) next.shade = all.shade;
  ofDevice.value = next;
  if (Object.keys(next).length) keep(PLACE, next);
  else forget(PLACE);
  paint();
  await load(wantedLanguage.value);
}

export async function useLabsChoice(choice: Choice): Promise<void> {
  const before = wantedLanguage.value;
  ofLab.value = choice;
  if (wantedLanguage.value !== before) await load(wantedLanguage.value);
}
