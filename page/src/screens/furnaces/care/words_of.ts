// Works, and how often they are due, in the reader's words.
import { counted, number, t, type PlainWord } from "../../../words";
import type { HowOften, SetBy } from "./answer";

const WORKS: Readonly<Record<string, PlainWord>> = {
  "start of the day": "care.work.start_of_day",
  "weekly look": "care.work.weekly_look",
  "temperature check": "care.work.temperature",
  "vacuum test": "care.work.vacuum",
  "full-power run": "care.work.heating",
  "chamber map": "care.work.chamber_map",
  requalification: "care.work.requalification",
  "cleaning firing": "care.work.cleaning",
  "white tab": "care.work.white_tab",
  "dry-out firing": "care.work.dry_out",
  "pump service": "care.work.pump",
  muffle: "care.work.muffle",
};

/** A work of the lab's own is called what the lab calls it. */
export function workWords(work: string): string {
  const known = WORKS[work];
  return known ? t(known) : work;
}

const WHOSE: Readonly<Record<SetBy, PlainWord>> = {
  "its certificate": "care.set_by.certificate",
  "furnace maker's instruction": "care.set_by.maker",
  "the lab": "care.set_by.lab",
  "the lab, for every furnace": "care.set_by.lab_for_all",
  "common practice": "care.set_by.common_practice",
  assumed: "care.set_by.assumed",
};

/** "every 30 days or after 100 firings"; empty where nothing is said. */
export function intervalWords({ every_days, after_firings, after_hours }: HowOften): string {
  const parts = [
    every_days === null ? "" : counted("care.every_days", every_days),
    after_firings === null ? "" : counted("care.after_firings", after_firings),
    after_hours === null ? "" : t("care.after_hours", { hours: number(after_hours) }),
  ].filter(Boolean);
  return parts.length < 2 ? parts.join("") : t("care.whichever_first", { parts: parts.join(", ") });
}

/** "furnace maker's instruction (page 31), set by mara". */
export function whoWords({ set_by, stated_in, person }: HowOften): string {
  if (set_by === null) return t("care.set_by.nobody");
  const whose = t(WHOSE[set_by]) + (stated_in ? ` (${stated_in})` : "");
  return person ? t("care.set_by.person", { whose, person }) : whose;
}

export function isSet({ set_by }: HowOften): boolean {
  return set_by === "the lab" || set_by === "the lab, for every furnace" || set_by === "furnace maker's instruction";
}
